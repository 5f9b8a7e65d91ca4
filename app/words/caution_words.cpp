#include "app/words/caution_words.h"

#include "app/words/caution_words_parts.h"
#include "app/words/number_words.h"
#include "app/words/part_words.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>
#include <span>

namespace headmark {

namespace {

constexpr const char* kContext = "Cautions";

#define HM_WORDS(text) QT_TRANSLATE_NOOP("Cautions", text)

constexpr CautionEntry kCautions[] = {
    // Whether the pump runs at all
    {"pump-too-weak", "", HM_WORDS("the pump has too little head"),
     HM_WORDS("The pump reaches {greatest_head_m} of head at most, but the water must be lifted "
              "{static_head_m} before "
              "any flows, so nothing comes out.")},
    {"no-stable-duty", "", HM_WORDS("no steady duty point"),
     HM_WORDS("The pump curve and the system curve meet only where the pump cannot hold its flow, so it "
              "swings and has "
              "no steady duty point.")},
    {"several-crossings", "", HM_WORDS("several duty points"),
     HM_WORDS("The pump curve and the system curve meet at {crossings} flows, so the pump may settle at "
              "another one "
              "than shown, or swing between them.")},
    {"not-converged", "", HM_WORDS("the flows could not be computed"),
     HM_WORDS("The flows could not be computed: after the last attempt the heads still disagreed by "
              "{residual_m}, so no "
              "figure of this case can be used.")},
    {"beyond-chart", "right", HM_WORDS("runs beyond the end of its chart"),
     HM_WORDS("The pump would run beyond the end of its chart at {chart_end_m3_h}, where it still has "
              "{head_there_m} of "
              "head, so flow, power and suction there are not known.")},
    {"beyond-chart", "", HM_WORDS("runs left of where its chart begins"),
     HM_WORDS("The pump would run at less than {chart_end_m3_h}, where its chart begins at {head_there_m} of "
              "head, so "
              "its flow there is not known.")},
    {"run-out", "", HM_WORDS("runs out while the main fills"),
     HM_WORDS("While the empty main fills, the pump meets almost no resistance and runs out beyond the end "
              "of its chart "
              "at {chart_end_m3_h} with {head_there_m} of head: the motor may be overloaded, the suction may "
              "cavitate, "
              "and the pipe takes a blow when the last air is out.")},
    {"delivered-too-weak", "", HM_WORDS("too little head at the low end of the maker's tolerance"),
     HM_WORDS("A pump delivered at the low end of the maker's tolerance, with {head_share} less head, "
              "reaches only "
              "{shut_off_m} with no flow, which is too little for this case.")},
    {"delivered-beyond-chart", "right", HM_WORDS("beyond its chart at the high end of the maker's tolerance"),
     HM_WORDS("A pump delivered at the high end of the maker's tolerance, with {head_share} more head, would "
              "run beyond "
              "the end of its chart at {chart_end_m3_h}, so the limits cannot be checked there.")},
    {"delivered-beyond-chart", "", HM_WORDS("left of its chart within the maker's tolerance"),
     HM_WORDS("A pump delivered at the edge of the maker's tolerance, {head_share} of head either way, would "
              "run at less "
              "than {chart_end_m3_h}, where its chart begins, so the limits cannot be checked there.")},
    {"no-flow", "", HM_WORDS("no way out for the water"),
     HM_WORDS("With every valve shut the pump delivers nothing and holds {shut_off_m} of head: the water in "
              "it heats up "
              "until the seal fails.")},
    // Zones
    {"zone-without-water", "", HM_WORDS("no water"),
     HM_WORDS("Zone \"{zone}\" gets no water: the head that reaches it is {short_of_m} short of lifting "
              "water to it.")},
    {"pressure-low", "", HM_WORDS("pressure too low"),
     HM_WORDS("The weakest emitter of zone \"{zone}\" sees {pressure_kPa}, below its lower limit of "
              "{limit_kPa}, so it "
              "waters too little and unevenly.")},
    {"pressure-high", "", HM_WORDS("pressure too high"),
     HM_WORDS("The strongest emitter of zone \"{zone}\" sees {pressure_kPa}, above its upper limit of "
              "{limit_kPa}, so it "
              "waters too much and may be blown off its pipe.")},
    // Ratings
    {"pump-pressure", "", HM_WORDS("pressure above the pump's rating"),
     HM_WORDS("The pressure at the pump's outlet reaches {pressure_kPa}, above the {limit_kPa} the pump is "
              "rated for, so "
              "its casing or its seal may burst.")},
    {"pipe-rating", "", HM_WORDS("pressure above a pipe's rating"),
     HM_WORDS("{Where} has to bear {pressure_kPa}, above its rating of {limit_kPa}, so it may burst and hurt "
              "somebody.")},
    {"filter-flow", "", HM_WORDS("more flow than the filter is made for"),
     HM_WORDS("{flow_m3_h} pass {where}, above the {limit_m3_h} that filter is made for, so it clogs sooner "
              "and lets dirt "
              "through.")},
    {"motor-overload", "", HM_WORDS("motor overloaded"),
     HM_WORDS("The pump takes {shaft_kW} at its shaft, above the motor's rated {limit_kW}, so the motor "
              "overheats until "
              "its protection trips or it burns out.")},
    // Suction
    {"npsh-margin", "danger", HM_WORDS("too little NPSH"),
     HM_WORDS("The suction side leaves {available_m} of NPSH, less than the {required_m} the pump requires, "
              "so the pump "
              "cavitates, loses flow and is damaged.")},
    {"npsh-margin", "", HM_WORDS("NPSH margin too small"),
     HM_WORDS(
         "The suction side leaves {available_m} of NPSH where the pump requires {required_m}: the margin of "
         "{margin_m} is below the {limit_m} asked for, so warm water or a dirty strainer is enough to make "
         "it "
         "cavitate.")},
    {"npsh-unknown", "", HM_WORDS("NPSH required not known"),
     HM_WORDS("The NPSH this pump requires is not known, so it cannot be said whether it will cavitate.")},
    {"npsh-beyond-curve", "", HM_WORDS("NPSH required not known at the duty flow"),
     HM_WORDS("The curve of NPSH required does not reach the duty flow of {flow_m3_h}, so the margin against "
              "cavitation is "
              "not known there.")},
    {"suction-velocity", "", HM_WORDS("suction too fast"),
     HM_WORDS("The water in {where} runs at {velocity_m_s}, above the {limit_m_s} that is good practice on a "
              "suction "
              "side, so friction eats up suction head and the pump may draw air or cavitate.")},
    {"suction-hose-collapses", "", HM_WORDS("suction pipe may flatten"),
     HM_WORDS("{Where} is a pipe or hose that flattens under suction, so it can shut off the pump's water.")},
    {"suction-lift", "", HM_WORDS("suction lift too high"),
     HM_WORDS("The pump has to lift {lift_m} on its suction side, {static_m} of height and {loss_m} of "
              "friction, more than the {limit_m} a suction lift can be relied on for at this "
              "altitude, so it may lose its prime or deliver nothing.")},
    {"surface-pump-impossible", "", HM_WORDS("too deep for a surface pump"),
     HM_WORDS("The water source is given as \"{source}\", and the pump stands {above_m} above its high "
              "water: no pump above it can draw water from such a depth, however strong it is.")},
    // Pump and chart
    {"speed-range", "", HM_WORDS("speed far from the chart's"),
     HM_WORDS(
         "The pump runs at {speed_share} of the speed its chart was drawn for, outside the {lowest_share} to "
         "{highest_share} over which the speed laws hold well, so flow, head and power are rough "
         "estimates.")},
    {"curve-droops", "", HM_WORDS("head curve droops"),
     HM_WORDS("The pump's head curve rises to {head_m} at {flow_m3_h} and falls only beyond it, so at "
              "smaller flows the "
              "pump can swing between two flows.")},
    {"efficiency-unknown", "warning", HM_WORDS("efficiency not known"),
     HM_WORDS("The pump's efficiency is not known, so it cannot be shown that it works in the preferred "
              "range the job "
              "asks for.")},
    {"efficiency-unknown", "", HM_WORDS("efficiency not known"),
     HM_WORDS("The pump's efficiency is not known, so neither its power nor how near it runs to its best "
              "flow can be "
              "judged.")},
    {"power-efficiency-disagree", "", HM_WORDS("power and efficiency disagree"),
     HM_WORDS("The pump's power curve gives {shaft_kW} at the shaft where flow, head and efficiency give "
              "{from_efficiency_kW}: they are {off_share} apart, more than {limit_share} either way, so one "
              "of the curves "
              "is printed or read wrongly.")},
    {"outside-allowable-band", "", HM_WORDS("far from its best flow"),
     HM_WORDS("The pump runs at {share_of_best_flow} of its best flow of {best_flow_m3_h}, outside the range "
              "it bears for "
              "long, so bearings, seal and shaft wear quickly.")},
    {"outside-preferred-band", "", HM_WORDS("outside its preferred range"),
     HM_WORDS("The pump runs at {share_of_best_flow} of its best flow of {best_flow_m3_h}, outside the range "
              "it prefers, "
              "so it wears sooner and uses more power than it needs to.")},
    // Pipes
    {"main-velocity", "", HM_WORDS("main too fast"),
     HM_WORDS("The water in {where} runs at {velocity_m_s}, above the {limit_m_s} usual in mains, so "
              "friction is high and "
              "so is the blow when a valve shuts.")},
    {"transition-flow", "", HM_WORDS("friction uncertain"),
     HM_WORDS("The flow in {where} is neither smooth nor fully turbulent (Reynolds number {reynolds}, "
              "between 2000 and "
              "4000), where friction cannot be foretold closely, so its loss is a middle estimate.")},
    {"exit-counted-twice", "", HM_WORDS("exit loss counted twice"),
     HM_WORDS("{Where} is an exit loss, but the loss where the water leaves the pipe is counted already, so "
              "it is counted "
              "twice and the flow shown is too small.")},
    {"return-cannot-pass", "", HM_WORDS("tank return too narrow"),
     HM_WORDS("The tank return cannot pass the {flow_m3_h} it is set to: with every zone shut, its pipe "
              "alone uses up all "
              "the head there is.")},
    {"source-level-assumed", "", HM_WORDS("water level not given"),
     HM_WORDS(
         "The water's level is not given, so it is taken at 0 m of the site's levels, and nothing is said of "
         "the suction.")},
    // The job
    {"cases-dropped", "", HM_WORDS("cases left out"),
     HM_WORDS("Of the cases made for this site, {dropped} were left out to keep the list short, and nothing "
              "is said about "
              "them.")},
};

constexpr RemedyEntry kRemedies[] = {
    {"ask-maker-for-efficiency", HM_WORDS("Ask the maker for the efficiency curve or the power curve.")},
    {"ask-maker-for-npsh", HM_WORDS("Ask the maker for the NPSH required over the whole range of flow.")},
    {"chart-at-that-speed", HM_WORDS("Ask the maker for a chart at the speed it will run at.")},
    {"check-the-curves",
     HM_WORDS("Check the reading and the units of both curves, and whether the power is meant at the "
              "shaft or at the motor's input.")},
    {"check-the-site",
     HM_WORDS("Check lengths, bores and losses of the site for a slip such as a wrong unit.")},
    {"curve-from-zero",
     HM_WORDS("Read the curve from zero flow on, or ask the maker for a chart that begins there.")},
    {"drop-the-exit", HM_WORDS("Take the exit out of the delivery run.")},
    {"set-the-regulator-higher",
     HM_WORDS(
         "Set the regulator before that zone higher, or take it out: it holds back the pressure there.")},
    {"give-the-water-levels",
     HM_WORDS("Give the lowest, usual and highest level of the water under levels_m.")},
    {"fewer-zones-or-wider-pipe",
     HM_WORDS("Open fewer zones at once, or use wider or shorter pipe on the way there.")},
    {"fill-slowly",
     HM_WORDS("Fill the main slowly through a valve that is only a little open, and let the air out at the "
              "high points.")},
    {"fit-a-regulator",
     HM_WORDS("Fit a pressure regulator set to no more than {set_kPa} at the start of that zone.")},
    {"fit-a-tank-return",
     HM_WORDS("Fit a tank return, or make sure that the pump cannot run with every valve shut.")},
    {"keep-right-of-top",
     HM_WORDS("Keep the pump at flows beyond the top of its head curve, by opening enough zones or "
              "by a tank return.")},
    {"larger-filter", HM_WORDS("Fit a larger filter, or two side by side.")},
    {"larger-motor-or-less-flow",
     HM_WORDS("Have a larger motor fitted, or hold the flow down with a throttle valve.")},
    {"lower-inlet-pressure-or-other-pump",
     HM_WORDS("Lower the pressure at the pump's inlet, or choose a pump rated for "
              "more.")},
    {"lower-the-zone-or-stronger-pump",
     HM_WORDS("Water that zone by itself, set it lower, or choose a pump with more "
              "head.")},
    {"name-the-cases", HM_WORDS("Name the cases that matter in the job.")},
    {"pipe-of-higher-rating",
     HM_WORDS("Use pipe of a higher rating there, or bring the pressure down before it.")},
    {"pump-nearer-its-best-flow",
     HM_WORDS("Choose a pump, or a number of open zones, that brings the flow nearer to the "
              "pump's best flow.")},
    {"pump-with-more-head",
     HM_WORDS("Choose a pump with more head, or bring the levels of water and outlets closer "
              "together.")},
    {"rigid-helix-hose", HM_WORDS("Use rigid pipe, or hose with a rigid helix, on the suction side.")},
    {"submersible-or-lower-pump",
     HM_WORDS("Set the pump {lower_m} or more nearer to the water, use a wider suction, or a submersible "
              "pump.")},
    {"pump-into-the-water", HM_WORDS("Use a submersible pump that hangs at {level_m} or deeper.")},
    {"throttle-or-longer-curve",
     HM_WORDS("Hold the flow down with a throttle valve or fewer open zones, or ask the maker "
              "for a chart that reaches further.")},
    {"wider-suction-gives-velocity",
     HM_WORDS("With {with} there the velocity becomes {becomes_m_s}, the fittings left as they are.")},
    {"wider-suction-gives-both",
     HM_WORDS("With {with} there the velocity becomes {becomes_m_s} and the NPSH margin {becomes_m}, the "
              "fittings left as they are.")},
    {"wider-suction-gives-margin",
     HM_WORDS("With {with} as suction pipe the NPSH margin becomes {becomes_m}, the fittings left as they "
              "are; a shorter suction does the like.")},
    {"lower-pump-gives-margin",
     HM_WORDS("With the pump {lower_m} lower the NPSH margin becomes {becomes_m}; wider suction pipe alone "
              "was not found to be enough.")},
    {"wider-main-gives",
     HM_WORDS("With {with} there the velocity becomes {becomes_m_s} and the pump delivers {becomes_m3_h}.")},
    {"wider-main-gives-pressure",
     HM_WORDS("With all pipe of the main one size wider (the widest {with}) the lowest pressure there "
              "becomes {becomes_kPa}.")},
    {"zone-shut-gives-pressure",
     HM_WORDS("With zone \"{shut}\" left shut the lowest pressure there becomes {becomes_kPa}; one size of "
              "wider main alone is not enough.")},
    {"regulator-gives-pressure",
     HM_WORDS("Fit a pressure regulator set to {set_kPa} before that zone's emitters; so tried, the highest "
              "pressure there becomes {becomes_kPa}.")},
    {"larger-filter-gives",
     HM_WORDS("With the same filter in size {size} its limit holds and the pump delivers {becomes_m3_h}.")},
    {"stronger-pipe-gives",
     HM_WORDS("With {with}, rated {rating_kPa}, the limit holds and the pump delivers {becomes_m3_h}.")},
    {"stronger-pipe-holds", HM_WORDS("With {with}, rated {rating_kPa}, the limit holds.")},
    {"wider-bore", HM_WORDS("Use pipe with a bore of about {bore_mm} or more there.")},
    {"wider-or-shorter-suction",
     HM_WORDS("Use a wider or shorter suction pipe with fewer fittings, or set the pump nearer "
              "to the water.")},
    {"wider-return", HM_WORDS("Use a wider or shorter return pipe, or set a smaller return flow.")},
};

std::string_view severityKey(Severity severity) {
    switch (severity) {
    case Severity::note:
        return "note";
    case Severity::warning:
        return "warning";
    case Severity::danger:
        break;
    }
    return "danger";
}

template <class Visit>
void forEveryCaution(Visit visit) {
    for (const auto rows : {std::span<const CautionEntry>(kCautions), chartCautionRows(), zoneCautionRows(),
                            practiceCautionRows(), partCautionRows()}) {
        for (const CautionEntry& row : rows)
            visit(row);
    }
}

template <class Visit>
void forEveryRemedy(Visit visit) {
    for (const auto rows : {std::span<const RemedyEntry>(kRemedies), chartRemedyRows(), zoneRemedyRows(),
                            practiceRemedyRows(), partRemedyRows()}) {
        for (const RemedyEntry& row : rows)
            visit(row);
    }
}

// The row of its severity or side, else the one that serves all.
const CautionEntry* rowOf(const Caution& caution) {
    const Fact* side = findFact(caution.values, "side");
    const auto* sideText = side ? std::get_if<std::string>(&side->value) : nullptr;
    const CautionEntry *exact = nullptr, *common = nullptr;
    forEveryCaution([&](const CautionEntry& row) {
        if (row.code != caution.code) return;
        const bool fits =
            row.variant == severityKey(caution.severity) || (sideText && row.variant == *sideText);
        if (fits && !exact) exact = &row;
        if (row.variant.empty()) common = &row;
    });
    return exact ? exact : common;
}

// The place, and the name that the user gave to the line there.
QString whereWords(const Caution& caution, const Phrasing& p) {
    const QString place = placeWords(caution.place, p);
    const Fact* line = findFact(caution.values, "line");
    return line ? QStringLiteral("%1 (\"%2\")").arg(place, factWords(line, p)) : place;
}

// Digits beyond the usual ones that keep figures of one unit apart which differ, at most three.
int digitsToTellApart(const Facts& facts, const Phrasing& p) {
    constexpr int kMostMoreDigits = 3;
    constexpr double kRounding = 1e-9; // of a solver: no difference at all
    const auto alike = [&](int more) {
        for (const Fact& a : facts) {
            for (const Fact& b : facts) {
                const auto *x = std::get_if<double>(&a.value), *y = std::get_if<double>(&b.value);
                if (!x || !y || std::abs(*x - *y) <= kRounding * std::abs(*x)) continue;
                if (unitOfKey(a.key, p).isEmpty()) continue;
                if (factWords(&a, p, more) == factWords(&b, p, more)) return true;
            }
        }
        return false;
    };
    int more = 0;
    while (more < kMostMoreDigits && alike(more))
        ++more;
    return more;
}

QString filled(const char* sentence, const Caution& caution, const Facts& facts, const Phrasing& p) {
    const int more = digitsToTellApart(facts, p);
    return filledTemplate(p.text(kContext, sentence), [&](const QString& key, const QString&) {
        if (key == QLatin1String("where")) return whereWords(caution, p);
        if (key == QLatin1String("Where")) return capitalised(whereWords(caution, p));
        return factWords(findFact(facts, key.toStdString()), p, more);
    });
}

// "key: value" pairs for what no sentence is known.
QString factList(const Facts& facts, const Phrasing& p) {
    QStringList parts;
    for (const Fact& fact : facts) {
        parts << QString::fromStdString(fact.key) + QStringLiteral(": ") + factWords(&fact, p);
    }
    return parts.join(QStringLiteral(", "));
}

} // namespace

QString cautionSentence(const Caution& caution, const Phrasing& p) {
    if (const CautionEntry* row = rowOf(caution)) return filled(row->sentence, caution, caution.values, p);
    const QString code = QString::fromStdString(caution.code);
    if (caution.values.empty()) {
        return p.text(kContext, HM_WORDS("Something about %1 needs a look (%2)."))
            .arg(placeWords(caution.place, p), code);
    }
    return p.text(kContext, HM_WORDS("Something about %1 needs a look (%2; %3)."))
        .arg(placeWords(caution.place, p), code, factList(caution.values, p));
}

QString remedySentence(const Caution& caution, const Phrasing& p) {
    if (caution.remedy.empty()) return {};
    const RemedyEntry* found = nullptr;
    forEveryRemedy([&](const RemedyEntry& row) {
        if (!found && row.code == caution.remedy) found = &row;
    });
    if (found) return filled(found->sentence, caution, caution.remedyValues, p);
    const QString code = QString::fromStdString(caution.remedy);
    if (caution.remedyValues.empty()) return p.text(kContext, HM_WORDS("Remedy: %1.")).arg(code);
    return p.text(kContext, HM_WORDS("Remedy: %1 (%2).")).arg(code, factList(caution.remedyValues, p));
}

QString cautionLabel(std::string_view code, const Phrasing& p) {
    const CautionEntry* found = nullptr;
    forEveryCaution([&](const CautionEntry& row) {
        if (!found && row.code == code) found = &row;
    });
    if (found) return p.text(kContext, found->label);
    return QString::fromUtf8(code.data(), static_cast<qsizetype>(code.size()));
}

QString severityWords(Severity severity, const Phrasing& p) {
    switch (severity) {
    case Severity::note:
        return p.text(kContext, HM_WORDS("Note"));
    case Severity::warning:
        return p.text(kContext, HM_WORDS("Warning"));
    case Severity::danger:
        break;
    }
    return p.text(kContext, HM_WORDS("Danger"));
}

std::vector<std::string_view> wordedCautionCodes() {
    std::vector<std::string_view> codes;
    forEveryCaution([&](const CautionEntry& row) {
        if (codes.empty() || codes.back() != row.code) codes.push_back(row.code);
    });
    return codes;
}

std::vector<std::string_view> wordedRemedyCodes() {
    std::vector<std::string_view> codes;
    forEveryRemedy([&](const RemedyEntry& row) { codes.push_back(row.code); });
    return codes;
}

} // namespace headmark
