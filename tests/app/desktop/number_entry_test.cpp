#include "app/desktop/frame/number_entry.h"

#include <QTest>
#include <QToolTip>
#include <gtest/gtest.h>

namespace headmark {
namespace {

class NumberEntryTest : public ::testing::Test {
  protected:
    NumberEntryTest() {
        entry_.show();
        entry_.activateWindow();
        entry_.setFocus();
        EXPECT_TRUE(QTest::qWaitFor([this] { return entry_.hasFocus(); }, 5000));
        QObject::connect(&entry_, &NumberEntry::entered,
                         [this](std::optional<double> figure) { entered_ = figure; });
    }

    NumberEntry entry_;
    std::optional<double> entered_;
};

TEST_F(NumberEntryTest, TakesPointAndCommaAlike) {
    for (const char* typed : {"12.5", "12,5"}) {
        entry_.setFigure(1.0, 1);
        entry_.selectAll();
        QTest::keyClicks(&entry_, QString::fromLatin1(typed));
        QTest::keyClick(&entry_, Qt::Key_Return);
        ASSERT_TRUE(entered_.has_value()) << typed;
        EXPECT_DOUBLE_EQ(*entered_, 12.5) << typed;
    }
}

// An answer that comes while a marked field waits for the next key must not turn it into an addition.
TEST_F(NumberEntryTest, StaysMarkedWhenANewFigureIsSet) {
    entry_.setFigure(4.0, 1);
    entry_.selectAll();
    entry_.setFigure(5.0, 1);
    QTest::keyClicks(&entry_, QStringLiteral("2,4"));
    QTest::keyClick(&entry_, Qt::Key_Return);
    ASSERT_TRUE(entered_.has_value());
    EXPECT_DOUBLE_EQ(*entered_, 2.4);
}

TEST_F(NumberEntryTest, LeavesWhatIsBeingTyped) {
    entry_.setFigure(4.0, 1);
    entry_.selectAll();
    QTest::keyClicks(&entry_, QStringLiteral("7"));
    entry_.setFigure(5.0, 1);
    EXPECT_EQ(entry_.text(), QStringLiteral("7"));
}

TEST_F(NumberEntryTest, RefusesAFractionWhereThingsAreCountedAndSaysWhy) {
    entry_.setRange({1.0, 1000.0, false, true});
    entry_.setFigure(8.0, 0);
    entry_.selectAll();
    QTest::keyClicks(&entry_, QStringLiteral("6,5"));
    QTest::keyClick(&entry_, Qt::Key_Return);
    EXPECT_FALSE(entered_.has_value());
    EXPECT_EQ(entry_.toolTip(), QStringLiteral("Only a whole number is possible here."));
    EXPECT_EQ(QToolTip::text(), entry_.toolTip());
    entry_.selectAll();
    QTest::keyClicks(&entry_, QStringLiteral("6,0"));
    QTest::keyClick(&entry_, Qt::Key_Return);
    ASSERT_TRUE(entered_.has_value());
    EXPECT_DOUBLE_EQ(*entered_, 6.0);
}

// Colour is never the only sign.
TEST_F(NumberEntryTest, ShowsASignWhileWhatStandsThereCannotBeTaken) {
    entry_.setFigure(8.0, 0);
    EXPECT_TRUE(entry_.actions().isEmpty());
    entry_.setText(QStringLiteral("eight"));
    EXPECT_EQ(entry_.actions().size(), 1);
    entry_.setText(QStringLiteral("8"));
    EXPECT_TRUE(entry_.actions().isEmpty());
}

} // namespace
} // namespace headmark
