#include "analysis/job/analyse.h"
#include "analysis/job/findings_json.h"
#include "analysis/job/job_reader.h"
#include "analysis/job/job_writer.h"
#include "app/document/answer_service.h"
#include "app/document/document.h"
#include "app/document/document_codes.h"
#include "app/pages/file_pages.h"
#include "app/words/english_wording.h"
#include "document_fixtures.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QTemporaryDir>
#include <QTest>

#include <gtest/gtest.h>

namespace headmark::test {
namespace {

QByteArray contentOf(const QString& path) {
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray("(none)");
}

void put(const QString& path, const QByteArray& content) {
    QDir().mkpath(QFileInfo(path).absolutePath());
    QFile file(path);
    ASSERT_TRUE(file.open(QIODevice::WriteOnly));
    ASSERT_EQ(file.write(content), content.size());
}

class Saving : public testing::Test {
  protected:
    Saving() : job_(path("jobs/garden.job.json")) {}
    void SetUp() override {
        QDir().mkpath(path("jobs"));
        QDir().mkpath(path("scans"));
        drawPage(path("scans/page.png"));
    }
    [[nodiscard]] QString path(const char* name) const { return folder_.filePath(QString::fromLatin1(name)); }
    void startCharted() { document_.startNew(chartedWorkspace(path("scans/page.png").toStdString())); }
    void setTitle(const std::string& title) {
        document_.edit(QStringLiteral("Name"), [&](Workspace& w) { w.job.title = title; });
    }
    void movePin(double by_px) {
        document_.edit(QStringLiteral("Move"), [&](Workspace& w) {
            Reading reading = *w.charts.at(0).reading;
            reading.pins[0].at.x_px += by_px;
            w.charts[0].reading = std::make_shared<const Reading>(reading);
        });
    }

    QTemporaryDir folder_;
    QString job_;
    Document document_;
};

TEST_F(Saving, NamesThePageByItsWayFromTheJob) {
    startCharted();
    ASSERT_TRUE(document_.saveAs(job_).empty());
    EXPECT_FALSE(document_.isChanged());
    EXPECT_TRUE(contentOf(path("jobs/page.reading.json")).contains("\"../scans/page.png\""));
    Document again;
    ASSERT_TRUE(again.open(job_).empty());
    EXPECT_TRUE(sameWork(again.workspace(), document_.workspace()));
}

TEST_F(Saving, MovesToAnotherFolderWithItsReadingsAndLeavesTheOldJob) {
    startCharted();
    ASSERT_TRUE(document_.saveAs(job_).empty());
    const QByteArray oldJob = contentOf(job_), oldReading = contentOf(path("jobs/page.reading.json"));
    movePin(2.0);
    const QString other = path("elsewhere/deep/garden.job.json");
    ASSERT_TRUE(document_.saveAs(other).empty());
    EXPECT_EQ(contentOf(job_), oldJob);
    EXPECT_EQ(contentOf(path("jobs/page.reading.json")), oldReading);
    EXPECT_TRUE(contentOf(path("elsewhere/deep/page.reading.json")).contains("\"../../scans/page.png\""));
    Document again;
    ASSERT_TRUE(again.open(other).empty());
    FilePages pages;
    EXPECT_TRUE(pages.open(again.workspace().charts.at(0).reading->chart));
    EXPECT_EQ(document_.filePath(), other);
}

TEST_F(Saving, UnderAnotherNameBesideItSharesNoReading) {
    startCharted();
    ASSERT_TRUE(document_.saveAs(job_).empty());
    const QByteArray oldReading = contentOf(path("jobs/page.reading.json"));
    movePin(2.0);
    ASSERT_TRUE(document_.saveAs(path("jobs/second.job.json")).empty());
    EXPECT_EQ(contentOf(path("jobs/page.reading.json")), oldReading);
    EXPECT_EQ(document_.workspace().charts.at(0).path, "page-2.reading.json");
    EXPECT_EQ(document_.job().pumps.at(0).readings.at(0).path, "page-2.reading.json");
    // Undone, it is saved in its new place too.
    document_.undoStack().undo();
    ASSERT_TRUE(document_.save().empty());
    EXPECT_EQ(document_.workspace().charts.at(0).path, "page-2.reading.json");
    EXPECT_FALSE(QFileInfo::exists(path("jobs/page-3.reading.json")));
}

TEST_F(Saving, NeverTakesTheNameOfAnotherJobsReading) {
    put(path("jobs/page.reading.json"), "another job's");
    startCharted();
    ASSERT_TRUE(document_.saveAs(job_).empty());
    EXPECT_EQ(contentOf(path("jobs/page.reading.json")), "another job's");
    Document again;
    ASSERT_TRUE(again.open(job_).empty());
    EXPECT_EQ(again.workspace().charts.size(), 1U);
}

TEST_F(Saving, KeepsAChartThatNoPumpUsesYet) {
    startCharted();
    document_.edit(QStringLiteral("Remove the pump"), [](Workspace& w) { w.job.pumps.clear(); });
    ASSERT_TRUE(document_.saveAs(job_).empty());
    Document again;
    ASSERT_TRUE(again.open(job_).empty());
    ASSERT_EQ(again.workspace().charts.size(), 1U);
    EXPECT_TRUE(sameWork(again.workspace(), document_.workspace()));
}

TEST_F(Saving, LeavesAnUnchangedReadingAsItWasWritten) {
    startCharted();
    ASSERT_TRUE(document_.saveAs(job_).empty());
    const QString reading = path("jobs/page.reading.json");
    const QByteArray byHand = contentOf(reading).simplified(); // the same on one line
    put(reading, byHand);
    ASSERT_TRUE(document_.open(job_).empty());
    setTitle("Upper garden");
    ASSERT_TRUE(document_.save().empty());
    EXPECT_EQ(contentOf(reading), byHand);
}

TEST_F(Saving, SaysThatAFileChangedOnTheDiskAndWritesNothing) {
    startCharted();
    ASSERT_TRUE(document_.saveAs(job_).empty());
    const QString reading = path("jobs/page.reading.json");
    const QByteArray foreign = contentOf(reading) + "\n";
    put(reading, foreign);
    const QByteArray job = contentOf(job_);
    setTitle("Upper garden");
    ASSERT_TRUE(document_.save().empty()) << "the reading need not be written";
    movePin(1.0);
    const auto errors = document_.save();
    ASSERT_EQ(errors.size(), 1U);
    EXPECT_EQ(errors[0].code, code::kChangedOnDisk);
    EXPECT_EQ(errors[0].file, reading.toStdString());
    EXPECT_EQ(contentOf(reading), foreign);
    EXPECT_TRUE(document_.isChanged());
    EXPECT_TRUE(document_.save(Overwriting::overwrite).empty());
    EXPECT_FALSE(document_.isChanged());
    EXPECT_TRUE(document_.save().empty());
    EXPECT_NE(contentOf(job_), job);
}

TEST_F(Saving, WritesAFileThatWasDeletedAnew) {
    startCharted();
    ASSERT_TRUE(document_.saveAs(job_).empty());
    QFile::remove(path("jobs/page.reading.json"));
    setTitle("Upper garden");
    ASSERT_TRUE(document_.save().empty());
    Document again;
    std::vector<Error> warnings;
    ASSERT_TRUE(again.open(job_, &warnings).empty());
    EXPECT_TRUE(warnings.empty());
}

TEST_F(Saving, SaysThatAFolderCannotBeWrittenAndStaysUnsaved) {
    startCharted();
    setTitle("Upper garden");
    put(path("file"), "no folder");
    const auto errors = document_.saveAs(path("file/garden.job.json"));
    ASSERT_FALSE(errors.empty());
    EXPECT_EQ(errors[0].code, code::kCannotWrite);
    EXPECT_TRUE(document_.filePath().isEmpty());
    EXPECT_TRUE(document_.isChanged());
}

TEST_F(Saving, RefusesWhatCouldNotBeOpenedAgain) {
    startCharted();
    ASSERT_TRUE(document_.saveAs(job_).empty());
    const QByteArray before = contentOf(job_);
    document_.edit(QStringLiteral("Type"), [](Workspace& w) {
        w.job.water.temperature = Temperature::fromCelsius(900.0); // no water
    });
    const auto errors = document_.save();
    ASSERT_FALSE(errors.empty());
    EXPECT_EQ(errors[0].place, "water.temperature_C");
    EXPECT_EQ(contentOf(job_), before);
}

TEST_F(Saving, LeavesANewerOrDamagedJobAloneAndWhatIsOpenToo) {
    startCharted();
    setTitle("Open already");
    const QString newer = path("jobs/newer.job.json"), damaged = path("jobs/damaged.job.json");
    put(newer, R"({"format": "headmark-job", "version": 99, "wonders": true})");
    put(damaged, R"({"format": "headmark-job", "version": 1, "pumps": [)");
    for (const auto& [file, code] : {std::pair{newer, "newer-version"}, std::pair{damaged, "broken-json"}}) {
        const QByteArray before = contentOf(file);
        const auto errors = document_.open(file);
        ASSERT_FALSE(errors.empty());
        EXPECT_EQ(errors[0].code, code);
        EXPECT_EQ(contentOf(file), before);
        EXPECT_EQ(document_.job().title, "Open already");
        EXPECT_TRUE(document_.isChanged());
    }
}

TEST_F(Saving, OpensAJobWithoutADamagedReadingAndLeavesThatAlone) {
    startCharted();
    ASSERT_TRUE(document_.saveAs(job_).empty());
    const QString reading = path("jobs/page.reading.json");
    put(reading, "{\"format\": \"headmark-reading\", \"version\": 2}");
    Document again;
    std::vector<Error> warnings;
    ASSERT_TRUE(again.open(job_, &warnings).empty());
    ASSERT_FALSE(warnings.empty());
    EXPECT_EQ(warnings[0].code, "newer-version");
    EXPECT_TRUE(again.workspace().charts.empty());
    again.edit(QStringLiteral("Name"), [](Workspace& w) { w.job.title = "New"; });
    ASSERT_TRUE(again.save().empty());
    EXPECT_TRUE(contentOf(reading).contains("\"version\": 2"));
    EXPECT_EQ(again.job().pumps.at(0).readings.at(0).path, "page.reading.json"); // still named
}

// What the desk shows is what the command line says of the saved file, digit for digit.
TEST_F(Saving, GivesTheSameFindingsFromTheFileToTheLastBit) {
    startCharted();
    document_.edit(QStringLiteral("Type"), [](Workspace& w) {
        w.job.pumps.push_back(tablePump("From a table"));
        Site& site = w.job.site;
        site.zones[0].level = Level::fromMetres(7.3 * 0.3048);
        site.zones[0].emitters.law.at = Pressure::fromPsi(23.7);
        site.zones[0].emitters.law.nominal = Flow::fromUsGallonsPerMinute(17.1);
        std::get<PipeItem>(site.delivery[0]).length = Length::fromFeet(211.3);
        site.source->low = Level::fromMetres(-7.1 * 0.3048);
        w.job.uncertainty.kShare = 1.0 / 7.0;
    });
    movePin(0.123456789);
    Document& document = document_;
    AnswerService service(document);
    ASSERT_TRUE(QTest::qWaitFor([&] { return !service.isBusy(); }, 120000));
    const auto open = service.latest();
    ASSERT_TRUE(open->errors.empty()) << open->errors.front().code << " " << open->errors.front().place;
    ASSERT_TRUE(open->findings);
    ASSERT_TRUE(document.saveAs(job_).empty());
    const auto read = readJobFile(job_.toStdString());
    ASSERT_TRUE(read.job) << read.errors.front().code << " " << read.errors.front().place;
    FilePages pages;
    const auto saved = analyse(*read.job, pages);
    ASSERT_TRUE(saved) << saved.error().code;
    ASSERT_EQ(saved->pumps.size(), 2U);
    ASSERT_TRUE(saved->pumps[0].cases.at(0).duty || saved->pumps[1].cases.at(0).duty);
    const EnglishWording wording;
    EXPECT_EQ(findingsJson(*open->findings, wording), findingsJson(*saved, wording));
    for (std::size_t pump = 0; pump < 2; ++pump) {
        const auto& a = open->findings->pumps.at(pump).cases.at(0).duty;
        const auto& b = saved->pumps[pump].cases.at(0).duty;
        ASSERT_EQ(a.has_value(), b.has_value());
        if (a) {
            EXPECT_EQ(a->flow, b->flow); // bits, not digits
        }
    }
}

} // namespace
} // namespace headmark::test
