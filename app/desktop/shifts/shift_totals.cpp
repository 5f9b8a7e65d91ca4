#include "app/desktop/shifts/shift_totals.h"

#include "app/desktop/frame/screen_phrasing.h"
#include "app/words/findings_shifts.h"
#include "app/words/number_words.h"

namespace headmark {

ShiftTotals::ShiftTotals(QWidget* parent) : Card(tr("In all"), parent), grid_(new QGridLayout) {
    grid_->setHorizontalSpacing(16);
    grid_->setVerticalSpacing(4);
    grid_->setColumnStretch(1, 1);
    content().addLayout(grid_);
    auto* settings = quietButton(tr("Change window, aim and pairs"));
    content().addWidget(settings, 0, Qt::AlignLeft);
    connect(settings, &QPushButton::clicked, this, &ShiftTotals::settingsAsked);
}

void ShiftTotals::add(const QString& name, const QString& figure) {
    if (used_ == rows_.size()) {
        rows_.push_back({faintLabel({}), wrappedLabel({})});
        rows_.back().name->setWordWrap(false);
        grid_->addWidget(rows_.back().name, static_cast<int>(used_), 0, Qt::AlignTop);
        grid_->addWidget(rows_.back().figure, static_cast<int>(used_), 1);
    }
    rows_[used_].name->setText(name);
    rows_[used_].figure->setText(figure);
    ++used_;
}

void ShiftTotals::show(const ShiftPlanFinding& plan, const Job& job) {
    const Phrasing p = screenPhrasing(job.site);
    used_ = 0;
    add(tr("Time"), durationWords(plan.total.inMinutes(), p));
    if (plan.totalEnergy_kWh) add(tr("Energy"), quantityWords("kWh", *plan.totalEnergy_kWh, p));
    if (plan.cost) add(tr("Cost"), costWords(*plan.cost, job, p));
    if (!plan.tank.empty()) {
        add(tr("Source"), tr("%1 at the beginning, %2 at the end")
                              .arg(quantityWords("m3", plan.tank.front().left.inCubicMetres(), p),
                                   quantityWords("m3", plan.tank.back().left.inCubicMetres(), p)));
    }
    add(tr("Aim"), tr("%1; %2").arg(objectiveWords(plan.objective, p), provenWords(plan, p)));
    add(tr("Judged"), tr("at usual water and with a clean filter; every shift also works at all other levels "
                         "and with the filter due for cleaning"));
    for (std::size_t i = 0; i < rows_.size(); ++i) {
        rows_[i].name->setVisible(i < used_);
        rows_[i].figure->setVisible(i < used_);
    }
}

QString ShiftTotals::text() const {
    QStringList lines;
    for (std::size_t i = 0; i < used_; ++i)
        lines << QStringLiteral("%1: %2").arg(rows_[i].name->text(), rows_[i].figure->text());
    return lines.join(QLatin1Char('\n'));
}

} // namespace headmark
