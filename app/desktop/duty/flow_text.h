#pragma once
// Rich text that stands as high as its content, wraps with its width and follows the theme; its links can be
// reached by keyboard (Tab from one to the next, Return to follow).

#include <QTextBrowser>

namespace headmark {

class FlowText : public QTextBrowser {
    Q_OBJECT

  public:
    explicit FlowText(QWidget* parent = nullptr);
    void showHtml(const QString& html); // unchanged text stays untouched
    // Top of an anchor's text, in this widget's coordinates; -1: there is none.
    [[nodiscard]] int topOf(const QString& anchor) const;

  protected:
    void resizeEvent(QResizeEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

  private:
    void fit();
    void frame(bool focused);
    QString shown_;
};

} // namespace headmark
