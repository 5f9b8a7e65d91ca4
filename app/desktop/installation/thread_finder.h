#pragma once
// Which thread is it? From a diameter measured with a caliper.

#include "app/desktop/frame/card.h"
#include "app/desktop/frame/number_entry.h"

#include <QComboBox>

namespace headmark {

class ThreadFinder : public Card {
    Q_OBJECT

  public:
    explicit ThreadFinder(QWidget* parent = nullptr);
    [[nodiscard]] NumberEntry& diameter() const { return *diameter_; }
    [[nodiscard]] QComboBox& side() const { return *side_; }
    [[nodiscard]] QString words() const { return found_->text(); }

  private:
    void look();

    NumberEntry* diameter_;
    QComboBox* side_;
    QLabel* found_;
};

} // namespace headmark
