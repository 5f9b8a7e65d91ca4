#pragma once
// A line above the places for sentences that no place can show in place: what went wrong, what was done.

#include <QLabel>
#include <QWidget>

namespace headmark {

class MessageBar : public QWidget {
    Q_OBJECT

  public:
    explicit MessageBar(QWidget* parent = nullptr);
    void say(const QString& sentence, bool isError);
    [[nodiscard]] QString sentence() const { return label_->text(); }

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    QLabel* label_;
    bool isError_ = false;
};

} // namespace headmark
