#pragma once
// A field for one figure. Point and comma are both the decimal separator in every locale; what cannot be a
// figure is marked in place by a sign and its colour, and is not taken; the sentence why is the field's tip,
// and stands under it at once when somebody tries to enter it.

#include <QLineEdit>

#include <functional>
#include <optional>

namespace headmark {

class NumberEntry : public QLineEdit {
    Q_OBJECT

  public:
    struct Range {
        double least = -1e9, greatest = 1e9;
        bool mayBeEmpty = false;
        bool whole = false; // counts things: no fraction
    };

    explicit NumberEntry(QWidget* parent = nullptr);
    void setRange(const Range& range) { range_ = range; }
    // Shows a figure without telling of it. Empty shows nothing. Not while the user types in the field.
    void setFigure(std::optional<double> figure, int decimals = -1);
    [[nodiscard]] std::optional<double> figure() const;
    // Empty: what stands there is taken.
    [[nodiscard]] QString complaint() const;

  signals:
    // Return or leaving the field after a change that could be taken.
    void entered(std::optional<double> figure);

  private:
    void look();
    void finish();
    void say() const; // why it is not taken, under the field
    Range range_;
    QString shown_;
    QAction* sign_; // seen while there is a complaint
};

} // namespace headmark
