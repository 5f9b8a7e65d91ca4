#include "app/words/findings_table.h"

#include "app/words/text_page.h"

#include <gtest/gtest.h>

#include <string>

namespace headmark {
namespace {

// An invented site with two zones and a pump that serves one of its three cases.
Job smallJob() {
    Job job;
    job.title = "Lower terrace";
    for (const char* name : {"Beds", "Tunnel"}) {
        Zone zone;
        zone.name = name;
        zone.emitters.least = GaugePressure::fromKilopascals(80.0);
        zone.emitters.greatest = GaugePressure::fromKilopascals(250.0);
        job.site.zones.push_back(zone);
    }
    return job;
}

CaseAnswer servedCase() {
    CaseAnswer a;
    a.name = "beds alone";
    a.setting.zonesOpen = {"Beds"};
    a.serves = true;
    a.duty = DutyPoint{Flow::fromCubicMetresPerHour(7.934), Head::fromMetres(38.21), true, {}, {}};
    a.duty->flow95 = {Flow::fromCubicMetresPerHour(7.71), Flow::fromCubicMetresPerHour(8.13)};
    a.duty->head95 = {Head::fromMetres(37.92), Head::fromMetres(38.58)};
    a.deliveredLow = DeliveredPoint{Flow::fromCubicMetresPerHour(7.5), Head::fromMetres(36.0)};
    a.deliveredHigh = DeliveredPoint{Flow::fromCubicMetresPerHour(8.3), Head::fromMetres(40.3)};
    a.efficiency = EfficiencyAnswer{Efficiency::fromShare(0.61),
                                    Efficiency::fromShare(0.64),
                                    Flow::fromCubicMetresPerHour(8.5),
                                    0.933,
                                    Band::preferred,
                                    {}};
    a.power = PowerAnswer{Power::fromKilowatts(0.82), Power::fromKilowatts(1.35), Power::fromKilowatts(1.628),
                          0.22};
    a.efficiency->atDuty95 = {Efficiency::fromShare(0.602), Efficiency::fromShare(0.618)};
    a.power->shaft95 = {Power::fromKilowatts(1.32), Power::fromKilowatts(1.38)};
    a.npsh = NpshAnswer{Head::fromMetres(6.8), Head::fromMetres(2.2), Head::fromMetres(4.6), {}, {}};
    a.zones = {{"Beds",
                Flow::fromCubicMetresPerHour(7.6),
                GaugePressure::fromKilopascals(92.0),
                GaugePressure::fromKilopascals(110.0),
                true,
                {}}};
    a.cautions = {{"suction-velocity",
                   Severity::warning,
                   "suction[1]",
                   {{"velocity_m_s", 1.07}, {"limit_m_s", 1.0}},
                   "wider-bore",
                   {{"bore_mm", 53.0}},
                   ""}};
    return a;
}

CaseAnswer starvedCase() {
    CaseAnswer a = servedCase();
    a.name = "beds and tunnel";
    a.setting.zonesOpen = {"Beds", "Tunnel"};
    a.serves = false;
    a.zones.push_back({"Tunnel",
                       Flow::fromCubicMetresPerHour(1.0),
                       GaugePressure::fromKilopascals(62.0),
                       GaugePressure::fromKilopascals(70.0),
                       false,
                       {}});
    a.cautions = {{"pressure-low",
                   Severity::warning,
                   "zones[1]",
                   {{"zone", std::string("Tunnel")}, {"pressure_kPa", 58.0}, {"limit_kPa", 80.0}},
                   "fewer-zones-or-wider-pipe",
                   {},
                   ""},
                  {"suction-velocity",
                   Severity::warning,
                   "suction[1]",
                   {{"velocity_m_s", 1.31}, {"limit_m_s", 1.0}},
                   "wider-bore",
                   {{"bore_mm", 58.0}},
                   ""}};
    a.cautions.front().stops = true; // the velocity is bad practice, but water comes
    return a;
}

CaseAnswer shutCase() {
    CaseAnswer a;
    a.name = "no valve open";
    a.cautions = {{"no-flow", Severity::danger, "pump", {{"shut_off_m", 43.0}}, "fit-a-tank-return", {}, ""}};
    a.cautions.front().stops = true;
    return a;
}

Findings smallFindings() {
    PumpFindings pump;
    pump.name = "Candidate 1";
    pump.cases = {servedCase(), starvedCase(), shutCase()};
    pump.zonesAtOnce = ZonesAtOnceFinding{
        1, {1}, 1, {{"Beds"}, {"Tunnel"}}, 2, true, 1, 1, {{"pressure-low", "Tunnel"}}, {}, {}, true};
    return {{{"beds alone", Flow::fromCubicMetresPerHour(2.2), Head::fromMetres(17.0)}}, {pump}};
}

std::string table(const Findings& findings, const Job& job) {
    return findingsTable(findings, job).toStdString();
}

// Joins lines that were only broken for width.
std::string unwrapped(const std::string& text) {
    return QString::fromStdString(text).simplified().toStdString();
}

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

std::size_t countOf(const std::string& text, const std::string& part) {
    std::size_t count = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1))
        ++count;
    return count;
}

std::string lineWith(const std::string& text, const std::string& start) {
    for (const QString& line : QString::fromStdString(text).split('\n')) {
        if (line.startsWith(QString::fromStdString(start))) return line.toStdString();
    }
    return {};
}

TEST(FindingsTable, BeginsWithTitleAndNeeds) {
    const std::string text = table(smallFindings(), smallJob());
    EXPECT_TRUE(text.starts_with("Lower terrace\n=============\n")) << text;
    EXPECT_TRUE(has(text, "- beds alone: 2.20 m³/h at 17.0 m"));
    EXPECT_LT(text.find("What the site needs"), text.find("Candidate 1"));
}

TEST(FindingsTable, GivesTheVerdictInWordsBeforeTheFigures) {
    const std::string text = unwrapped(table(smallFindings(), smallJob()));
    EXPECT_TRUE(has(text, "Verdict: serves 1 of 2 cases of water use.")) << text;
    EXPECT_TRUE(has(text, "- beds and tunnel: pressure too low in \"Tunnel\""));
    EXPECT_TRUE(has(text, "- no valve open: no way out for the water"));
    EXPECT_TRUE(has(text, "Zones at once: any 1, whichever they are; at best 1, if chosen well."));
    EXPECT_TRUE(has(text, "What limits a larger choice: pressure too low in \"Tunnel\""));
    EXPECT_LT(text.find("Verdict"), text.find("As delivered"));
}

TEST(FindingsTable, SaysBetweenWhichNumbersAnUnprovenAnswerLies) {
    Findings f = smallFindings();
    f.pumps[0].zonesAtOnce->proven = false;
    f.pumps[0].zonesAtOnce->anySetAtMost = 3;
    EXPECT_TRUE(has(unwrapped(table(f, smallJob())), "any between 1 and 3, whichever they are; at best 1"));
}

TEST(FindingsTable, SaysPlainlyThatNoChoiceWorks) {
    Findings f = smallFindings();
    ZonesAtOnceFinding& z = *f.pumps[0].zonesAtOnce;
    z.anySet = z.anySetAtMost = 0;
    z.everyChoiceWorksFor.clear();
    EXPECT_TRUE(
        has(unwrapped(table(f, smallJob())), "no number of them works whichever they are; at best 1"));
    z.bestSet = z.bestSetAtMost = 0;
    z.bestSets.clear();
    z.bestSetsCount = 0;
    EXPECT_TRUE(has(table(f, smallJob()), "Zones at once: none works, neither alone nor with others."));
}

TEST(TextPage, KeepsAFigureAndItsUnitOnOneLineAndCutsEndlessWords) {
    EXPECT_EQ(wrapped("sees 193 kPa, below", 10), (QStringList{"sees", "193 kPa,", "below"}));
    EXPECT_EQ(wrapped("abcdefghij", 4), (QStringList{"abcd", "efgh", "ij"}));
    EXPECT_EQ(wrapped("red\x1b[31m bed", 40), (QStringList{"red[31m bed"}));
}

TEST(FindingsTable, ShowsACaseInOneLine) {
    const std::string line = lineWith(table(smallFindings(), smallJob()), "beds alone  ");
    EXPECT_EQ(QString::fromStdString(line).simplified().toStdString(),
              "beds alone yes 7.93 38.2 7.50 to 8.30 61 preferred 4.6 1.63 0.22");
}

TEST(FindingsTable, GivesTheReasonForADash) {
    const std::string text = table(smallFindings(), smallJob());
    EXPECT_TRUE(lineWith(text, "no valve open  ").ends_with("-  -               -      -       -")) << text;
    EXPECT_TRUE(has(unwrapped(text), "no duty point: no way out for the water (no valve open)"));
}

TEST(FindingsTable, NamesTheLimitsOnlyWhereTheyAreBroken) {
    const std::string text = unwrapped(table(smallFindings(), smallJob()));
    EXPECT_TRUE(has(text, "Beds: 7.60 m³/h, 92 to 110 kPa, within limits"));
    EXPECT_TRUE(has(text, "Tunnel: 1.00 m³/h, 62 to 70 kPa, BROKEN: its limits are 80 kPa to 250 kPa"));
    EXPECT_EQ(countOf(text, "BROKEN"), 1u);
}

TEST(FindingsTable, SaysASharedCautionOnceWithTheWorstFigures) {
    const std::string text = unwrapped(table(smallFindings(), smallJob()));
    EXPECT_EQ(countOf(text, "The water in item 2 of the suction run"), 1u);
    EXPECT_TRUE(has(text, "runs at 1.31 m/s")) << text;
    EXPECT_TRUE(has(text, "[beds alone; beds and tunnel; figures of the worst, beds and tunnel]")) << text;
    EXPECT_TRUE(has(text, "What to do: Use pipe with a bore of about 58.0 mm or more there."));
}

// Parts of the sheet have no place in the run: each kind keeps its danger.
TEST(FindingsTable, KeepsEveryKindOfPartThatIsTooWeak) {
    Findings findings = smallFindings();
    ConnectionFinding connections;
    for (const char* part : {"filter_disc", "hex_nipple_plastic"})
        connections.sheet.findings.push_back({"part-rating-exceeded",
                                              Severity::danger,
                                              "",
                                              {{"part", std::string(part)},
                                               {"count", std::int64_t{2}},
                                               {"pressure_kPa", 1100.0},
                                               {"limit_kPa", 800.0}},
                                              "stronger-part",
                                              {},
                                              ""});
    findings.pumps[0].connections = connections;
    const std::string text = unwrapped(table(findings, smallJob()));
    EXPECT_TRUE(has(text, "Disc filter (2 on the sheet)")) << text;
    EXPECT_TRUE(has(text, "Hexagon nipple, plastic (2 on the sheet)")) << text;
}

TEST(FindingsTable, PutsDangersBeforeWarnings) {
    const std::string text = table(smallFindings(), smallJob());
    EXPECT_LT(text.find("Danger: "), text.find("Warning: "));
}

TEST(FindingsTable, KeepsTheReadingIntervalApartFromTheMakersTolerance) {
    const std::string text = table(smallFindings(), smallJob());
    const std::size_t own = text.find("How well the duty points are known");
    ASSERT_NE(own, std::string::npos);
    EXPECT_GT(text.find("7.71 to 8.13 m³/h at 37.9 to 38.6 m"), own);
    EXPECT_LT(text.find("7.50 to 8.30"), own);
    EXPECT_TRUE(has(unwrapped(text), "efficiency 60.2 to 61.8 %, shaft power 1.32 to 1.38 kW")) << text;
}

TEST(FindingsTable, EndsWithTheUsualCautions) {
    const std::string text = unwrapped(table(smallFindings(), smallJob()));
    EXPECT_GT(text.find("30 mA"), text.find("How well"));
    EXPECT_TRUE(has(text, "local codes"));
}

TEST(FindingsTable, StaysWithinAHundredColumnsWhateverTheNames) {
    Job job = smallJob();
    Findings f = smallFindings();
    job.title = std::string(300, 't');
    f.pumps[0].name = std::string(150, 'p');
    f.pumps[0].cases[0].name = std::string(120, 'c');
    f.pumps[0].cases[1].name =
        "a rather long name of a case with many words in it, low water, filter at service";
    f.pumps[0].cases[1].duty->flow = Flow::fromCubicMetresPerHour(123456.0);
    for (const QString& line : findingsTable(f, job).split('\n')) {
        EXPECT_LE(line.size(), kTableColumns) << line.toStdString();
    }
}

} // namespace
} // namespace headmark
