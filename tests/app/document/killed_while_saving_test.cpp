#include "document_fixtures.h"

#include <QProcess>
#include <QTemporaryDir>

#include <gtest/gtest.h>

#include <random>
#include <thread>

namespace headmark::test {
namespace {

constexpr int kKills = 100; // the promise in the task

int stateOf(const std::string& text) {
    return QString::fromStdString(text).section(QLatin1Char(' '), 1).toInt();
}

void expectOneState(const QString& job, int saved) {
    Document document;
    std::vector<Error> warnings;
    const auto errors = document.open(job, &warnings);
    ASSERT_TRUE(errors.empty()) << errors.front().code;
    ASSERT_TRUE(warnings.empty()) << warnings.front().code;
    const int state = stateOf(document.job().title);
    EXPECT_GE(state, saved) << "a finished save was lost";
    EXPECT_EQ(document.job().notes, std::string(20000, static_cast<char>('a' + state % 26)));
    // Readings go first: the reading is of the same state or of the one that was being saved.
    const int ofReading = stateOf(document.workspace().charts.at(0).reading->lines.at(0).name);
    EXPECT_TRUE(ofReading == state || ofReading == state + 1) << state << ", " << ofReading;
}

TEST(KilledWhileSaving, LeavesEveryFileWholeAndNoFinishedSaveLost) {
    const QTemporaryDir folder;
    const QString job = folder.filePath(QStringLiteral("garden.job.json"));
    {
        Document document;
        Workspace first = chartedWorkspace("page.png");
        first.job.title = "State 0";
        first.job.notes = std::string(20000, 'a');
        Reading reading = *first.charts[0].reading;
        reading.lines[0].name = "line 0";
        first.charts[0].reading = std::make_shared<const Reading>(reading);
        document.startNew(std::move(first));
        ASSERT_TRUE(document.saveAs(job).empty());
    }
    std::mt19937 dice(7);
    std::uniform_int_distribution<int> wait_us(0, 8000); // a few saves
    int saved = 0, killsWithinSaves = 0;
    for (int kill = 0; kill < kKills; ++kill) {
        QProcess child;
        child.start(QStringLiteral(HEADMARK_KEEPS_SAVING), {QStringLiteral("save"), job});
        ASSERT_TRUE(child.waitForReadyRead(60000)) << child.readAllStandardError().toStdString();
        std::this_thread::sleep_for(std::chrono::microseconds(wait_us(dice)));
        child.kill(); // SIGKILL
        ASSERT_TRUE(child.waitForFinished(60000));
        ASSERT_EQ(child.exitStatus(), QProcess::CrashExit);
        const auto lines = QString::fromLatin1(child.readAllStandardOutput()).split(QLatin1Char('\n'));
        ASSERT_GE(lines.size(), 2);
        const int before = saved;
        saved = lines[lines.size() - 2].toInt(); // the last whole one
        EXPECT_GT(saved, before);
        expectOneState(job, saved);
        if (testing::Test::HasFailure()) return;
        Document now;
        ASSERT_TRUE(now.open(job).empty());
        killsWithinSaves += stateOf(now.workspace().charts[0].reading->lines[0].name) > saved ? 1 : 0;
    }
    RecordProperty("kills_within_saves", killsWithinSaves);
}

} // namespace
} // namespace headmark::test
