// What may be lacking in a job or reading that is still being described, and what may not.
#include "analysis/job/finish.h"

#include "analysis/job/job_writer.h"
#include "analysis/job/reading_reader.h"
#include "analysis/job/reading_writer.h"
#include "job_documents.h"

namespace headmark {
namespace {

JobReading reopened(const Job& job, Finish finish = Finish::mayBeUnfinished) {
    return readJobText(writeJob(job), "test.job.json", finish);
}

ReadingReading reopened(const Reading& reading, Finish finish = Finish::mayBeUnfinished) {
    const auto document = parseJson(writeReading(reading), "test.reading.json");
    EXPECT_TRUE(document);
    return readReadingDocument(*document, "test.reading.json", finish);
}

Job wholeJob() { return readJobFile(jobPath("full.job.json")).job.value_or(Job()); }

Reading wholeReading() { return readReadingFile(jobPath("full.reading.json")).reading.value_or(Reading()); }

// Opens again as it was saved, and is refused with that code where a whole job is asked for.
void expectUnfinished(const Job& job, const std::string& code) {
    const auto read = reopened(job);
    ASSERT_TRUE(read.job) << code << listed(read);
    EXPECT_EQ(writeJob(*read.job), writeJob(job)) << code;
    const auto strict = reopened(job, Finish::whole);
    EXPECT_FALSE(strict.job) << code;
    const bool named = std::any_of(strict.errors.begin(), strict.errors.end(),
                                   [&](const Error& e) { return e.code == code; });
    EXPECT_TRUE(named) << code << listed(strict);
}

void expectUnfinished(const Reading& reading, const std::string& code) {
    const auto read = reopened(reading);
    ASSERT_TRUE(read.reading) << code << (read.errors.empty() ? "" : read.errors[0].code);
    EXPECT_EQ(writeReading(*read.reading), writeReading(reading)) << code;
    const auto strict = reopened(reading, Finish::whole);
    EXPECT_FALSE(strict.reading) << code;
    const bool named = std::any_of(strict.errors.begin(), strict.errors.end(),
                                   [&](const Error& e) { return e.code == code; });
    EXPECT_TRUE(named) << code;
}

TEST(UnfinishedJob, MayBeEmpty) { expectUnfinished(Job(), "one-of-needed"); }

TEST(UnfinishedJob, MayLackPumps) {
    Job job = wholeJob();
    job.pumps.clear();
    expectUnfinished(job, "empty-list");
}

TEST(UnfinishedJob, MayLackAPumpsHead) {
    Job job = wholeJob();
    job.pumps[0].readings.clear();
    job.pumps[0].curves.clear();
    expectUnfinished(job, "pump-without-head");
}

TEST(UnfinishedJob, MayLackPointsOfACurve) {
    Job job = wholeJob();
    job.pumps[0].readings.clear();
    CurvePoints& head = job.pumps[0].curves[CurveQuantity::head];
    head = {};
    head.points.resize(1);
    expectUnfinished(job, "too-few-points");
    head.points.resize(2);
    expectUnfinished(job, "repeated-flow");
}

TEST(UnfinishedJob, MayLackZonesWhileCasesAreThere) {
    Job job = wholeJob();
    ASSERT_TRUE(job.casesGiven);
    job.site.zones.clear();
    expectUnfinished(job, "one-of-needed");
}

TEST(UnfinishedJob, MayLackTheFiguresOfAKnownSystem) {
    Job job = readJobFile(jobPath("known-system.job.json")).job.value_or(Job());
    job.site.system = KnownSystem();
    expectUnfinished(job, "one-of-needed");
}

TEST(UnfinishedJob, MayNameWhatIsNotThereAsYet) {
    Job job = wholeJob();
    job.site.zones[0].takeoff = "nowhere";
    expectUnfinished(job, "unknown-takeoff");
    job = wholeJob();
    job.cases[0].zonesOpen = {"Nobody's zone"};
    expectUnfinished(job, "unknown-zone");
    job = wholeJob();
    ASSERT_GE(job.site.zones.size(), 2u);
    job.site.zones[1].name = job.site.zones[0].name;
    expectUnfinished(job, "duplicate-name");
}

TEST(UnfinishedJob, MustBeRightInAllThatIsThere) {
    Json document = jobJson();
    document["pumps"] = Json::array();
    EXPECT_TRUE(readJobDocument(document, "job.json", Finish::mayBeUnfinished).job);
    document["site"]["pump_level_m"] = "high up";
    EXPECT_FALSE(readJobDocument(document, "job.json", Finish::mayBeUnfinished).job);
    document = jobJson();
    document["colour"] = "green";
    EXPECT_FALSE(readJobDocument(document, "job.json", Finish::mayBeUnfinished).job);
    document = jobJson();
    document["water"]["temperature_C"] = 400;
    EXPECT_FALSE(readJobDocument(document, "job.json", Finish::mayBeUnfinished).job);
}

TEST(UnfinishedReading, MayLackPinsAndLines) {
    Reading reading = wholeReading();
    reading.lines.clear();
    expectUnfinished(reading, "empty-list");
    reading.pins.clear();
    expectUnfinished(reading, "empty-list");
    reading = wholeReading();
    reading.pins.resize(1);
    expectUnfinished(reading, "too-few-pinned");
}

TEST(UnfinishedReading, MayLackWhatIsTypedAfterTheClick) {
    Reading reading = wholeReading();
    reading.pins.push_back({{100.0, 100.0}, {}, {}, ValueAxis::left, {}});
    expectUnfinished(reading, "one-of-needed");
    reading = wholeReading();
    reading.printedUnits.flow.clear();
    expectUnfinished(reading, "missing-key");
    reading = wholeReading();
    ASSERT_EQ(reading.lines.back().quantity, LineQuantity::isoEfficiency);
    reading.lines.back().levelShare.reset();
    expectUnfinished(reading, "missing-beside");
}

TEST(UnfinishedReading, MayLackClicksOnALine) {
    Reading reading = wholeReading();
    reading.lines[0].followFrom.clear();
    reading.lines[0].spots.clear();
    expectUnfinished(reading, "one-of-needed");
    reading.lines[0].spots = {{300.0, 400.0}};
    expectUnfinished(reading, "too-few-points");
}

TEST(UnfinishedReading, MustBeRightInAllThatIsThere) {
    Json document = jobJson("full.reading.json");
    document["pins"] = Json::array();
    EXPECT_TRUE(readReadingDocument(document, "r.json", Finish::mayBeUnfinished).reading);
    document["printed_units"]["flow"] = "buckets";
    EXPECT_FALSE(readReadingDocument(document, "r.json", Finish::mayBeUnfinished).reading);
    document = jobJson("full.reading.json");
    document["chart"] = Json::object();
    EXPECT_FALSE(readReadingDocument(document, "r.json", Finish::mayBeUnfinished).reading);
}

} // namespace
} // namespace headmark
