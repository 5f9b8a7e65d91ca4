#pragma once
// When watering is allowed: two times of the day. What cannot be a window is marked in place with the
// sentence why, and is not taken.

#include "app/desktop/frame/desk.h"

#include <QLabel>
#include <QLineEdit>

#include <optional>
#include <string>

namespace headmark {

// "21:00" of "21:00", "21.00", "21", "2100" or "9:5"; empty: no time of the day.
[[nodiscard]] std::optional<std::string> parsedTime(const QString& typed);

class WindowEdit : public QWidget {
    Q_OBJECT

  public:
    explicit WindowEdit(Desk& desk, QWidget* parent = nullptr);
    void refresh();
    [[nodiscard]] QLineEdit& from() const { return *from_; }
    [[nodiscard]] QLineEdit& to() const { return *to_; }
    [[nodiscard]] QString complaint() const { return complaint_->text(); }

  private:
    void take();
    void complain(const QString& why);

    Desk& desk_;
    QLineEdit *from_, *to_;
    QLabel* complaint_;
};

} // namespace headmark
