#include "app/document/recovery.h"

#include "document_fixtures.h"

#include <QDir>
#include <QProcess>
#include <QStandardPaths>
#include <QTemporaryDir>
#include <QTest>

#include <gtest/gtest.h>

namespace headmark::test {
namespace {

QStringList filesLeft() {
    QDir folder(QStandardPaths::writableLocation(QStandardPaths::AppDataLocation) +
                QStringLiteral("/recovery"));
    return folder.entryList(QDir::Files);
}

class RecoveryTest : public testing::Test {
  protected:
    void SetUp() override { clear(); }
    void TearDown() override { clear(); }
    static void clear() {
        QDir(QStandardPaths::writableLocation(QStandardPaths::AppDataLocation)).removeRecursively();
    }
    static void setTitle(Document& document, const std::string& title) {
        document.edit(QStringLiteral("Name"), [&](Workspace& w) { w.job.title = title; });
    }
};

TEST_F(RecoveryTest, WritesSoonAfterAChangeAndRemovesOnSavingAndClosing) {
    const QTemporaryDir folder;
    Document document;
    Recovery recovery(document);
    document.startNew(blankWorkspace());
    EXPECT_TRUE(filesLeft().isEmpty()); // nothing of the user's in it
    setTitle(document, "Garden");
    EXPECT_TRUE(QTest::qWaitFor([] { return !filesLeft().filter(QStringLiteral(".json")).isEmpty(); }, 5000));
    ASSERT_TRUE(document.saveAs(folder.filePath(QStringLiteral("garden.job.json"))).empty());
    EXPECT_TRUE(filesLeft().isEmpty());
    setTitle(document, "Garden, upper");
    recovery.flush();
    EXPECT_FALSE(filesLeft().isEmpty());
    document.undoStack().undo(); // as saved again
    EXPECT_TRUE(filesLeft().isEmpty());
    document.undoStack().redo();
    recovery.flush();
    document.close();
    EXPECT_TRUE(filesLeft().isEmpty());
}

TEST_F(RecoveryTest, NeitherListsNorTakesTheWorkOfARunningProgram) {
    Document mine, others;
    Recovery ofMine(mine), ofOthers(others);
    mine.startNew(blankWorkspace());
    setTitle(mine, "Mine");
    ofMine.flush();
    EXPECT_TRUE(ofOthers.pending().empty());
    EXPECT_TRUE(ofMine.pending().empty());
    const QString id =
        filesLeft().filter(QStringLiteral(".recovery.json")).at(0).section(QLatin1Char('.'), 0, 0);
    EXPECT_FALSE(ofOthers.restore(id));
    ofOthers.discard(id);
    EXPECT_FALSE(filesLeft().isEmpty());
    EXPECT_FALSE(others.isOpen());
}

TEST_F(RecoveryTest, OffersWhatAKilledProgramLeftBehind) {
    QProcess child;
    child.start(QStringLiteral(HEADMARK_KEEPS_SAVING),
                {QStringLiteral("work"), QCoreApplication::applicationName()});
    ASSERT_TRUE(child.waitForReadyRead(60000));
    Document document;
    Recovery recovery(document);
    EXPECT_TRUE(recovery.pending().empty()) << "it still runs";
    child.kill();
    ASSERT_TRUE(child.waitForFinished(60000));
    const auto pending = recovery.pending();
    ASSERT_EQ(pending.size(), 1U);
    EXPECT_EQ(pending[0].title, QStringLiteral("Left behind"));
    EXPECT_TRUE(pending[0].jobPath.isEmpty());
    EXPECT_LT(qAbs(pending[0].changed.secsTo(QDateTime::currentDateTimeUtc())), 600);
    ASSERT_TRUE(recovery.restore(pending[0].id));
    EXPECT_EQ(document.job().title, "Left behind");
    EXPECT_EQ(document.job().site.zones.size(), 1U);
    EXPECT_TRUE(document.isChanged());
    EXPECT_TRUE(recovery.pending().empty());
    // Now it is ours: one file, until it is saved.
    EXPECT_EQ(filesLeft().filter(QStringLiteral(".recovery.json")).size(), 1);
    EXPECT_FALSE(filesLeft().at(0).startsWith(pending[0].id));
}

// A program that ends without closing its job (the session ends) leaves it as a killed one does.
TEST_F(RecoveryTest, KeepsChartsWhereTheyLieAndPastedPagesWithIt) {
    const QTemporaryDir folder;
    const QString job = folder.filePath(QStringLiteral("garden.job.json"));
    std::string left;
    {
        Document document;
        Recovery recovery(document);
        document.startNew(chartedWorkspace(folder.filePath(QStringLiteral("page.png")).toStdString()));
        ASSERT_TRUE(document.saveAs(job).empty());
        document.edit(QStringLiteral("Paste"), [](Workspace& w) {
            Reading pasted = pageReading("");
            pasted.chart.mediaType = "image/png";
            pasted.chart.bytes = std::make_shared<const std::string>(std::string("\x89PNG\0\xff", 6));
            w.charts.push_back({"pasted.reading.json", std::make_shared<const Reading>(pasted)});
        });
        left = textOf(document.workspace());
        recovery.flush();
        EXPECT_EQ(filesLeft().filter(QStringLiteral(".page")).size(), 1);
    }
    Document document;
    Recovery recovery(document);
    const auto pending = recovery.pending();
    ASSERT_EQ(pending.size(), 1U);
    EXPECT_EQ(pending[0].jobPath, job);
    ASSERT_TRUE(recovery.restore(pending[0].id));
    ASSERT_EQ(document.workspace().charts.size(), 2U);
    EXPECT_EQ(*document.workspace().charts[1].reading->chart.bytes, std::string("\x89PNG\0\xff", 6));
    EXPECT_EQ(pagePath(document.workspace().charts[0].reading->chart),
              folder.filePath(QStringLiteral("page.png")).toStdString());
    EXPECT_EQ(document.filePath(), job);
    ASSERT_TRUE(document.save().empty()); // the files are as they were
    EXPECT_TRUE(filesLeft().isEmpty());
}

TEST_F(RecoveryTest, StillSaysThatTheJobChangedOnTheDiskMeanwhile) {
    const QTemporaryDir folder;
    const QString job = folder.filePath(QStringLiteral("garden.job.json"));
    {
        Document document;
        Recovery recovery(document);
        document.startNew(blankWorkspace());
        ASSERT_TRUE(document.saveAs(job).empty());
        setTitle(document, "Unsaved");
    }
    QFile file(job);
    ASSERT_TRUE(file.open(QIODevice::Append));
    file.write("\n");
    file.close();
    Document document;
    Recovery recovery(document);
    const auto pending = recovery.pending();
    ASSERT_EQ(pending.size(), 1U);
    ASSERT_TRUE(recovery.restore(pending[0].id));
    const auto errors = document.save();
    ASSERT_FALSE(errors.empty());
    EXPECT_EQ(errors[0].code, "changed-on-disk");
}

TEST_F(RecoveryTest, ForgetsWhatTheUserDoesNotWant) {
    {
        Document document;
        Recovery recovery(document);
        document.startNew(blankWorkspace());
        setTitle(document, "Not wanted");
        recovery.flush();
        recovery.forget();
        EXPECT_TRUE(filesLeft().isEmpty());
    }
    EXPECT_TRUE(filesLeft().isEmpty());
    {
        Document document;
        Recovery recovery(document);
        document.startNew(blankWorkspace());
        setTitle(document, "Left");
    }
    Document document;
    Recovery recovery(document);
    ASSERT_EQ(recovery.pending().size(), 1U);
    recovery.discard(recovery.pending()[0].id);
    EXPECT_TRUE(recovery.pending().empty());
    EXPECT_TRUE(filesLeft().isEmpty());
}

TEST_F(RecoveryTest, LeavesADamagedFileUntouched) {
    const QString folder = QStandardPaths::writableLocation(QStandardPaths::AppDataLocation);
    QDir().mkpath(folder + QStringLiteral("/recovery"));
    QFile file(folder + QStringLiteral("/recovery/odd.recovery.json"));
    ASSERT_TRUE(file.open(QIODevice::WriteOnly));
    file.write("{\"format\": \"headmark-recovery\", \"version\": 1, \"job\": 7}");
    file.close();
    Document document;
    Recovery recovery(document);
    EXPECT_TRUE(recovery.pending().empty());
    EXPECT_FALSE(recovery.restore(QStringLiteral("odd")));
    EXPECT_TRUE(file.exists());
}

} // namespace
} // namespace headmark::test
