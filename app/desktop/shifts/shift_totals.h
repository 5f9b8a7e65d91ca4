#pragma once
// "In all": time, energy, cost and water of the whole night, and what the plan is the best of.

#include "analysis/job/findings.h"
#include "analysis/job/job.h"
#include "app/desktop/frame/card.h"

#include <QGridLayout>

#include <vector>

namespace headmark {

class ShiftTotals : public Card {
    Q_OBJECT

  public:
    explicit ShiftTotals(QWidget* parent = nullptr);
    void show(const ShiftPlanFinding& plan, const Job& job);
    [[nodiscard]] QString text() const; // lines of "name: figure"

  signals:
    void settingsAsked(); // window, aim and pairs are to be changed

  private:
    void add(const QString& name, const QString& figure);

    struct Row {
        QLabel *name, *figure;
    };
    QGridLayout* grid_;
    std::vector<Row> rows_;
    std::size_t used_ = 0;
};

} // namespace headmark
