// The rules of the trade: folded until asked for, set per job, given back, named as the source.
#include "guards_on_screen.h"

#include "analysis/pipework/rule_list.h"
#include "app/desktop/frame/screen_phrasing.h"
#include "app/words/caution_words.h"

#include <QSignalSpy>

#include <gtest/gtest.h>

#include <algorithm>

namespace headmark {
namespace {

using GuardsRules = GuardsOnScreen;

TEST_F(GuardsRules, RulesStayFoldedUntilAskedForAndShowTheTable) {
    ASSERT_NO_FATAL_FAILURE(open());
    RulesCard& rules = view_->rules();
    EXPECT_FALSE(rules.table().isVisible());
    QTest::mouseClick(&rules.showButton(), Qt::LeftButton);
    EXPECT_TRUE(rules.table().isVisible());
    ASSERT_EQ(rules.model().rowCount(), static_cast<int>(judgingRows().size()));
    const int row = rowOf("floor_clearance_foot_valve"); // 0.3 m, practice: the row of the table
    const auto cell = [&](int column) { return rules.model().index(row, column).data().toString(); };
    EXPECT_EQ(cell(RulesModel::kRule), QStringLiteral("Clearance of foot valve from the floor or bed"));
    EXPECT_EQ(cell(RulesModel::kValue), QStringLiteral("0.3 m"));
    EXPECT_EQ(cell(RulesModel::kHoldsFor), QStringLiteral("foot valves"));
    EXPECT_EQ(cell(RulesModel::kSource), QStringLiteral("common practice, no source"));
}

TEST_F(GuardsRules, ARuleIsSetByPointOrCommaMarkedAndGivenBack) {
    ASSERT_NO_FATAL_FAILURE(open());
    RulesModel& model = view_->rules().model();
    const auto own = [&] { return document_.job().limits.rules.own(); };
    const int before = steps();
    ASSERT_NO_FATAL_FAILURE(typeRule("return_rise", QStringLiteral("7,5")));
    EXPECT_DOUBLE_EQ(own().at("return_rise"), 7.5);
    ASSERT_NO_FATAL_FAILURE(typeRule("return_rise", QStringLiteral("6.5")));
    EXPECT_DOUBLE_EQ(own().at("return_rise"), 6.5);
    EXPECT_EQ(steps(), before + 2);
    const int row = rowOf("return_rise");
    EXPECT_TRUE(model.isSet(row));
    EXPECT_EQ(model.index(row, RulesModel::kSource).data().toString(), QStringLiteral("set in the job"));
    EXPECT_TRUE(view_->rules().summary().contains(QLatin1Char('1')));
    ASSERT_NO_FATAL_FAILURE(typeRule("return_rise", QStringLiteral("6.5"))); // nothing new
    EXPECT_EQ(steps(), before + 2);
    QSignalSpy said(&desk_, &Desk::said);
    ASSERT_NO_FATAL_FAILURE(typeRule("return_rise", QStringLiteral("0")));
    EXPECT_EQ(said.count(), 1);
    EXPECT_DOUBLE_EQ(own().at("return_rise"), 6.5);
    ASSERT_NO_FATAL_FAILURE(typeRule("return_rise", {}));
    EXPECT_TRUE(own().empty());
    document_.undoStack().undo();
    QTableView& table = view_->rules().table();
    table.setCurrentIndex(model.index(row, RulesModel::kValue));
    EXPECT_TRUE(view_->rules().backButton().isEnabled());
    table.setFocus();
    QTest::keyClick(&table, Qt::Key_Delete);
    EXPECT_TRUE(own().empty());
    EXPECT_FALSE(view_->rules().backButton().isEnabled());
}

TEST_F(GuardsRules, ARuleThatGoesByPowerIsSetForAllOfThem) {
    ASSERT_NO_FATAL_FAILURE(open());
    RulesModel& model = view_->rules().model();
    ASSERT_NO_FATAL_FAILURE(typeRule("starts_per_hour_pump", QStringLiteral("12")));
    int rows = 0;
    for (int row = 0; row < model.rowCount(); ++row) {
        if (model.rowAt(row).code != "starts_per_hour_pump") continue;
        ++rows;
        EXPECT_EQ(model.index(row, RulesModel::kValue).data().toString(), QStringLiteral("12 an hour"));
    }
    EXPECT_EQ(rows, 5);
    EXPECT_TRUE(view_->rules().summary().contains(QLatin1Char('1')));
}

TEST_F(GuardsRules, ARuleSetInTheJobBecomesItsCautionsSource) {
    // The mouth 0.2 m above the floor, where the table asks for 0.3 m.
    ASSERT_NO_FATAL_FAILURE(open([](Job& job) {
        job.site.source->floor = Level::fromMetres(-3.4);
        job.site.source->mouth = Level::fromMetres(-3.2);
    }));
    const auto caution = [&]() -> const Caution* {
        for (const Caution& c : found("suction").cautions) {
            if (c.code.find("floor") != std::string::npos) return &c;
        }
        return nullptr;
    };
    ASSERT_TRUE(caution());
    EXPECT_EQ(caution()->source, "common practice, no source");
    const auto shown = [&] { // its words, of the answer as it is
        const auto said = view_->study("suction")->cautions();
        return caution() &&
               std::ranges::find(said, cautionSentence(*caution(), screenPhrasing(document_.job().site))) !=
                   said.end();
    };
    EXPECT_TRUE(shown());
    ASSERT_NO_FATAL_FAILURE(typeRule("floor_clearance_foot_valve", QStringLiteral("0.25")));
    ASSERT_TRUE(settled());
    ASSERT_TRUE(caution());
    EXPECT_EQ(caution()->source, "set in the job");
    EXPECT_TRUE(shown());
    bool said = false;
    for (const QLabel* label : view_->study("suction")->findChildren<QLabel*>())
        said = said || (label->isVisible() && label->text().contains(QStringLiteral("set in the job")));
    EXPECT_TRUE(said);
    ASSERT_NO_FATAL_FAILURE(typeRule("floor_clearance_foot_valve", QStringLiteral("0,15")));
    ASSERT_TRUE(settled());
    EXPECT_FALSE(caution());
    EXPECT_EQ(view_->study("suction")->cautions().size(), found("suction").cautions.size());
}

} // namespace
} // namespace headmark
