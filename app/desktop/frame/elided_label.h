#pragma once
// One line of text that may be longer than its place: shortened by dots there, and whole in its tip. It never
// asks a window to grow.

#include <QLabel>

namespace headmark {

class ElidedLabel : public QLabel {
    Q_OBJECT

  public:
    explicit ElidedLabel(const QString& text, QWidget* parent = nullptr);
    // Where the dots go: in the middle of a folder's path, at the end of a sentence.
    void setElision(Qt::TextElideMode mode);
    void setText(const QString& text); // hides QLabel's, which knows no tip
    [[nodiscard]] QSize minimumSizeHint() const override;

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    Qt::TextElideMode mode_ = Qt::ElideRight;
};

} // namespace headmark
