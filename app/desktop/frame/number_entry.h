#pragma once
// A field for one figure. Point and comma are both the decimal separator in every locale; what cannot be a
// figure is marked in place with the sentence why, and is not taken.

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
    Range range_;
    QString shown_;
};

} // namespace headmark
