#pragma once
// The small menu at a clicked line: what does it show? A click, or arrows and Return; Escape leaves it.

#include "analysis/chart/reading.h"

#include <QFrame>
#include <QPushButton>
#include <QVBoxLayout>

#include <vector>

namespace headmark {

class LineChoice : public QFrame {
    Q_OBJECT

  public:
    explicit LineChoice(QWidget* parent);
    // `first` stands at the top. Shown beside a place of the parent.
    void ask(PixelPoint at, LineQuantity first, QPoint beside);

  signals:
    void chosen(headmark::PixelPoint at, headmark::LineQuantity quantity);
    void left();

  protected:
    void keyPressEvent(QKeyEvent* event) override;

  private:
    QVBoxLayout* layout_;
    std::vector<QPushButton*> buttons_;
    PixelPoint at_;
};

} // namespace headmark
