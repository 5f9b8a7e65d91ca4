#pragma once
// Two figures of which the second must be the greater, one under the other. What breaks that is said under
// them and not taken; the fields keep what was typed until it is mended.

#include "app/desktop/frame/desk.h"
#include "app/desktop/frame/number_entry.h"
#include "app/desktop/site/site_ranges.h"

#include <QLabel>

#include <array>
#include <functional>
#include <optional>

namespace headmark {

class OrderedPairEdit : public QWidget {
    Q_OBJECT

  public:
    using Figure = std::optional<double>;
    using Pair = std::array<Figure, 2>; // in base units, the lesser first

    struct Field {
        QString label, tip;
    };
    struct About {
        std::array<Field, 2> fields; // the lesser first
        QString step;                // the name of its undo step
        Quantity quantity = Quantity::plain;
        QString unit; // of plain figures
        FigureRange range{-1e9, 1e9};
        bool bothOrNone = false;
        QString notAscending, oneMissing; // sentences
        std::function<Pair(const Workspace&)> get;
        std::function<void(Workspace&, const Pair&)> set;
    };
    OrderedPairEdit(Desk& desk, About about, QWidget* parent = nullptr);

    void refresh();
    [[nodiscard]] NumberEntry& entry(std::size_t which) const { return *entries_[which]; }
    [[nodiscard]] QString complaint() const { return complaint_->text(); }

  private:
    void take();
    void complain(const QString& why);
    [[nodiscard]] Figure typed(std::size_t which) const; // in base units

    Desk& desk_;
    About about_;
    Pair shown_{};
    std::array<NumberEntry*, 2> entries_;
    std::array<QLabel*, 2> units_;
    QLabel* complaint_;
};

} // namespace headmark
