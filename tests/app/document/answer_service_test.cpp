#include "app/document/answer_service.h"

#include "analysis/job/findings_json.h"
#include "app/words/english_wording.h"

#include "document_fixtures.h"

#include <QElapsedTimer>
#include <QFile>
#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>
#include <QThread>

#include <gtest/gtest.h>

namespace headmark::test {
namespace {

constexpr int kPatience_ms = 120000; // debug builds on a busy machine

std::string textOfFindings(const Findings& findings) { return findingsJson(findings, EnglishWording()); }

bool settled(const AnswerService& service) {
    return QTest::qWaitFor([&] { return !service.isBusy(); }, kPatience_ms);
}

TEST(AnswerService, KnowsTheNeedBeforeAnyPump) {
    Document document;
    AnswerService service(document);
    ASSERT_TRUE(service.latest());
    EXPECT_TRUE(service.latest()->needs.empty());
    document.startNew(blankWorkspace());
    EXPECT_TRUE(service.isBusy());
    ASSERT_TRUE(settled(service));
    const auto answer = service.latest();
    EXPECT_TRUE(answer->errors.empty());
    ASSERT_FALSE(answer->needs.empty());
    EXPECT_NEAR(answer->needs[0].flow.inCubicMetresPerHour(), 4.0, 1e-9); // as the blank site says
    EXPECT_FALSE(answer->shownCase);
    EXPECT_FALSE(answer->stale);
    ASSERT_TRUE(answer->findings);
    EXPECT_TRUE(answer->findings->pumps.empty());
}

TEST(AnswerService, GivesTheShownCaseFirstAndThenTheWhole) {
    Document document;
    Workspace workspace = blankWorkspace();
    workspace.job.pumps = {tablePump("One"), tablePump("Two")};
    AnswerService service(document);
    std::vector<std::shared_ptr<const Answer>> answers;
    QObject::connect(&service, &AnswerService::answered, &service, [&] {
        EXPECT_EQ(QThread::currentThread(), service.thread());
        answers.push_back(service.latest());
    });
    document.startNew(workspace);
    ASSERT_TRUE(settled(service));
    ASSERT_EQ(answers.size(), 2U);
    EXPECT_TRUE(answers[0]->stale);
    EXPECT_FALSE(answers[0]->findings);
    ASSERT_TRUE(answers[0]->shownCase);
    ASSERT_TRUE(answers[0]->shownCase->duty);
    EXPECT_FALSE(answers[0]->shownCase->duty->flow95); // quick: without intervals
    EXPECT_FALSE(answers[1]->stale);
    ASSERT_TRUE(answers[1]->findings);
    ASSERT_EQ(answers[1]->findings->pumps.size(), 2U);
    EXPECT_TRUE(answers[1]->findings->pumps[0].cases.at(0).duty->flow95);
}

TEST(AnswerService, ShowsAnotherCaseWithoutComputingTheWholeAgain) {
    Document document;
    Workspace workspace = blankWorkspace();
    workspace.job.pumps = {tablePump("One"), tablePump("Two")};
    AnswerService service(document);
    document.startNew(workspace);
    ASSERT_TRUE(settled(service));
    const auto before = service.latest();
    ASSERT_GT(before->prepared->cases().size(), 1U);
    service.show({1, 1});
    ASSERT_TRUE(settled(service));
    const auto after = service.latest();
    EXPECT_EQ(after->findings, before->findings);
    EXPECT_EQ(after->prepared, before->prepared);
    EXPECT_FALSE(after->stale);
    ASSERT_TRUE(after->shownCase);
    EXPECT_EQ(after->shownCase->name, before->prepared->cases()[1].setting.name);
    service.show({7, 0}); // no such pump
    ASSERT_TRUE(settled(service));
    EXPECT_FALSE(service.latest()->shownCase);
}

TEST(AnswerService, NewerEditsSupersedeOlderOnes) {
    Document document;
    Workspace workspace = blankWorkspace();
    workspace.job.pumps = {tablePump("One")};
    AnswerService service(document);
    document.startNew(workspace);
    QSignalSpy answered(&service, &AnswerService::answered);
    constexpr int kEdits = 40;
    for (int i = 1; i <= kEdits; ++i) {
        document.edit(QStringLiteral("Move"),
                      [&](Workspace& w) { w.job.site.zones[0].level = Level::fromMetres(3.0 + 0.1 * i); });
    }
    ASSERT_TRUE(settled(service));
    const auto answer = service.latest();
    EXPECT_EQ(answer->workspace.job.site.zones[0].level, document.job().site.zones[0].level);
    EXPECT_FALSE(answer->stale);
    EXPECT_LT(answered.count(), kEdits); // most were never begun, or only begun
    // Findings are those of the last edit: its need is 4 m higher than the first one's.
    const double need_m = answer->findings->needs.at(0).head.inMetres();
    EXPECT_NEAR(need_m, 26.33 + 4.0, 0.06); // see BlankWorkspace
}

TEST(AnswerService, KeepsOldFindingsAsStaleUntilTheWholeIsThere) {
    Document document;
    Workspace workspace = blankWorkspace();
    workspace.job.pumps = {tablePump("One")};
    AnswerService service(document);
    document.startNew(workspace);
    ASSERT_TRUE(settled(service));
    const auto old = service.latest()->findings;
    std::vector<std::shared_ptr<const Answer>> answers;
    QObject::connect(&service, &AnswerService::answered, &service,
                     [&] { answers.push_back(service.latest()); });
    document.edit(QStringLiteral("Name"), [](Workspace& w) { w.job.site.zones[0].name = "Roses"; });
    ASSERT_TRUE(settled(service));
    ASSERT_EQ(answers.size(), 2U);
    EXPECT_TRUE(answers[0]->stale);
    EXPECT_EQ(answers[0]->findings, old);
    EXPECT_NE(answers[1]->findings, old);
    document.startNew(blankWorkspace()); // another job: nothing of the old one
    ASSERT_TRUE(settled(service));
    for (std::size_t i = 2; i < answers.size(); ++i)
        EXPECT_TRUE(!answers[i]->findings || answers[i]->findings->pumps.empty());
    document.close();
    EXPECT_TRUE(QTest::qWaitFor([&] { return service.latest()->needs.empty(); }, kPatience_ms));
    EXPECT_FALSE(service.latest()->findings);
}

TEST(AnswerService, SaysWhyThereIsNoAnswer) {
    Document document;
    Workspace workspace = blankWorkspace();
    workspace.job.site.zones[0].takeoff = "nowhere";
    AnswerService service(document);
    document.startNew(workspace);
    ASSERT_TRUE(settled(service));
    const auto answer = service.latest();
    EXPECT_FALSE(answer->prepared);
    EXPECT_FALSE(answer->stale);
    ASSERT_FALSE(answer->errors.empty());
    EXPECT_EQ(answer->errors[0].code, "unknown-takeoff");
    document.edit(QStringLiteral("Mend"), [](Workspace& w) { w.job.site.zones[0].takeoff.clear(); });
    ASSERT_TRUE(settled(service));
    EXPECT_TRUE(service.latest()->prepared);
    EXPECT_TRUE(service.latest()->errors.empty());
}

TEST(AnswerService, DoesNotComputeWithAValueThatNoFileMayHave) {
    Document document;
    Workspace workspace = blankWorkspace();
    workspace.job.water.temperature = Temperature::fromCelsius(900.0);
    AnswerService service(document);
    document.startNew(workspace);
    ASSERT_TRUE(settled(service));
    EXPECT_FALSE(service.latest()->prepared);
    ASSERT_FALSE(service.latest()->errors.empty());
    EXPECT_EQ(service.latest()->errors[0].place, "water.temperature_C");
}

TEST(AnswerService, ReadsAChartAndFollowsItsPinsAndItsPage) {
    const QTemporaryDir folder;
    const QString page = folder.filePath(QStringLiteral("page.png"));
    drawPage(page);
    Document document;
    AnswerService service(document);
    document.startNew(chartedWorkspace(page.toStdString()));
    ASSERT_TRUE(settled(service));
    const auto first = service.latest();
    ASSERT_TRUE(first->errors.empty()) << first->errors[0].code << " " << first->errors[0].place;
    const ChartAnswer& chart = first->charts.at("page.reading.json");
    ASSERT_TRUE(chart.page);
    EXPECT_EQ(chart.page->width, 600);
    ASSERT_TRUE(chart.lines);
    ASSERT_TRUE(chart.lines->lines.at(0).fit);
    // The line begins at (60, 80): 40 m * (360 - 80) / 320 = 35 m; half a pixel is 0.06 m.
    EXPECT_NEAR(chart.lines->lines[0].samples.front().value, 35.0, 0.15);

    document.edit(QStringLiteral("Move the pin"), [](Workspace& w) {
        Reading reading = *w.charts[0].reading;
        reading.pins[2].value = 80.0; // the axis says twice as much
        w.charts[0].reading = std::make_shared<const Reading>(reading);
    });
    ASSERT_TRUE(settled(service));
    const auto second = service.latest()->charts.at("page.reading.json");
    EXPECT_EQ(second.page, chart.page); // not opened again
    EXPECT_NEAR(second.lines->lines[0].samples.front().value, 70.0, 0.3);

    drawPage(page, 16); // the page itself changes: 2 m lower at 80 m over 320 px is 4 m
    QFile file(page);
    ASSERT_TRUE(file.open(QIODevice::ReadWrite));
    file.setFileTime(QDateTime::currentDateTime().addSecs(5), QFileDevice::FileModificationTime);
    file.close();
    document.edit(QStringLiteral("Move the click"), [](Workspace& w) {
        Reading reading = *w.charts[0].reading;
        reading.lines[0].followFrom[0].y_px += 16; // on paper of the old page
        w.charts[0].reading = std::make_shared<const Reading>(reading);
    });
    ASSERT_TRUE(settled(service));
    const auto third = service.latest()->charts.at("page.reading.json");
    ASSERT_TRUE(third.errors.empty()) << third.errors[0].code;
    EXPECT_NEAR(third.lines->lines[0].samples.front().value, 66.0, 0.3);
}

TEST(AnswerService, AnswersTheOtherPumpsWhileOneIsBeingRead) {
    const QTemporaryDir folder;
    const QString page = folder.filePath(QStringLiteral("page.png"));
    drawPage(page);
    Document document;
    Workspace workspace = chartedWorkspace(page.toStdString());
    workspace.job.pumps.insert(workspace.job.pumps.begin(), tablePump("Known"));
    Reading bare = *workspace.charts[0].reading;
    bare.pins.clear();
    workspace.charts[0].reading = std::make_shared<const Reading>(bare);
    AnswerService service(document);
    document.startNew(workspace);
    ASSERT_TRUE(settled(service));
    const auto answer = service.latest();
    EXPECT_FALSE(answer->errors.empty());
    ASSERT_TRUE(answer->prepared);
    EXPECT_EQ(answer->prepared->pumps(), 1U);
    EXPECT_TRUE(answer->shownCase);
    EXPECT_TRUE(answer->charts.at("page.reading.json").page);
    EXPECT_FALSE(answer->charts.at("page.reading.json").errors.empty());
}

// While something is dragged, the quick answers take over what hardly changes; the whole must not.
TEST(AnswerService, TheWholeOwesNothingToTheEditsBefore) {
    const QTemporaryDir folder;
    const QString page = folder.filePath(QStringLiteral("page.png"));
    drawPage(page);
    Document document;
    AnswerService service(document);
    Workspace workspace = chartedWorkspace(page.toStdString());
    document.startNew(workspace);
    ASSERT_TRUE(settled(service));
    const int drag = document.newDrag();
    for (int step = 1; step <= 6; ++step) {
        document.edit(
            QStringLiteral("Move the pin"),
            [step](Workspace& w) {
                Reading reading = *w.charts[0].reading;
                reading.pins[1].at.x_px = 540.0 + 0.5 * step;
                w.charts[0].reading = std::make_shared<const Reading>(reading);
            },
            drag);
        const auto reading = document.workspace().charts[0].reading;
        ASSERT_TRUE(QTest::qWaitFor([&] { return service.latest()->workspace.charts[0].reading == reading; },
                                    kPatience_ms));
        EXPECT_TRUE(service.latest()->shownCase);
        EXPECT_FALSE(service.latest()->needs.empty());
    }
    ASSERT_TRUE(settled(service));
    const auto dragged = service.latest();
    ASSERT_TRUE(dragged->findings);
    EXPECT_FALSE(dragged->stale);

    Document other;
    AnswerService afresh(other);
    other.startNew(document.workspace());
    ASSERT_TRUE(settled(afresh));
    const auto fresh = afresh.latest();
    ASSERT_TRUE(fresh->findings);
    EXPECT_EQ(textOfFindings(*dragged->findings), textOfFindings(*fresh->findings));
    EXPECT_EQ(dragged->shownCase->duty->flow, fresh->shownCase->duty->flow);
    EXPECT_EQ(dragged->shownCase->duty->head, fresh->shownCase->duty->head);
    ASSERT_EQ(dragged->needs.size(), fresh->needs.size());
    EXPECT_EQ(dragged->needs[0].head, fresh->needs[0].head);
}

TEST(AnswerService, SaysWhenAPageCannotBeOpened) {
    Document document;
    AnswerService service(document);
    document.startNew(chartedWorkspace("/nowhere/page.png"));
    ASSERT_TRUE(settled(service));
    const ChartAnswer chart = service.latest()->charts.at("page.reading.json");
    EXPECT_FALSE(chart.page);
    ASSERT_FALSE(chart.errors.empty());
    EXPECT_EQ(chart.errors[0].code, "no-such-file");
    EXPECT_TRUE(service.latest()->prepared); // the site's need all the same
}

TEST(AnswerService, EndsAtOnceInTheMiddleOfItsWork) {
    Workspace workspace = blankWorkspace();
    workspace.job.pumps = {tablePump("One"), tablePump("Two"), tablePump("Three"), tablePump("Four")};
    const Zone zone = workspace.job.site.zones[0];
    for (int i = 2; i <= 24; ++i) {
        workspace.job.site.zones.push_back(zone);
        workspace.job.site.zones.back().name = "Zone " + std::to_string(i);
        workspace.job.site.zones.back().level = Level::fromMetres(0.5 * i);
    }
    Document document;
    document.startNew(workspace);
    QElapsedTimer ending;
    {
        AnswerService service(document);
        QSignalSpy answered(&service, &AnswerService::answered);
        ASSERT_TRUE(QTest::qWaitFor([&] { return answered.count() > 0; }, kPatience_ms));
        QTest::qWait(150); // into the whole, which begins after a moment's quiet
        ending.start();
    }
    EXPECT_LT(ending.elapsed(), 5000); // a debug build on a busy machine; mostly some tens of ms
}

} // namespace
} // namespace headmark::test
