#include "text_fit.h"

#include <QLabel>
#include <QPushButton>

#include <gtest/gtest.h>

namespace headmark {
namespace {

// The walker itself: each kind of misfit is found, and a window in order is not blamed.
class Walker : public testing::Test {
  protected:
    Walker() {
        window_.resize(400, 200);
        label_->setGeometry(10, 10, 380, 40);
        button_->setGeometry(10, 60, 380, 40);
        window_.show();
    }
    QWidget window_;
    QLabel* label_ = new QLabel(QStringLiteral("Water stands below the pump"), &window_);
    QPushButton* button_ = new QPushButton(QStringLiteral("Read the line"), &window_);
};

TEST_F(Walker, FindsNothingWhereAllFits) { EXPECT_TRUE(textMisfits(window_).isEmpty()); }

TEST_F(Walker, FindsASqueezedLabel) {
    label_->setGeometry(10, 10, 60, 40);
    ASSERT_EQ(textMisfits(window_).size(), 1);
    EXPECT_TRUE(textMisfits(window_).front().contains(QStringLiteral("Water stands below the pump")));
}

TEST_F(Walker, FindsAWrappedLabelThatIsTooLow) {
    label_->setWordWrap(true);
    label_->setGeometry(10, 10, 60, 20);
    EXPECT_FALSE(textMisfits(window_).isEmpty());
}

TEST_F(Walker, FindsASqueezedButtonAndOneThatLiesOverAnother) {
    button_->setGeometry(10, 60, 40, 40);
    EXPECT_EQ(textMisfits(window_).size(), 1);
    button_->setGeometry(10, 30, 380, 40);
    EXPECT_EQ(textMisfits(window_).size(), 1);
}

} // namespace
} // namespace headmark
