#include "app/desktop/shifts/shifts_place.h"

#include "analysis/job/shift_finding.h"
#include "app/desktop/duty/caution_rows.h"
#include "app/desktop/duty/picture_export.h"
#include "app/desktop/frame/screen_phrasing.h"
#include "app/desktop/frame/theme.h"
#include "app/words/error_words.h"

#include <QClipboard>
#include <QGuiApplication>
#include <QMimeData>
#include <QScrollBar>

#include <algorithm>

namespace headmark {

namespace {

constexpr int kBeside_letters = 150; // width of the place in letters from which the table stands beside
constexpr double kSideShare = 0.42;  // of the place's width

QScrollArea* scrolled(QWidget* inner) {
    auto* area = new QScrollArea;
    area->setWidget(inner);
    area->setWidgetResizable(true);
    area->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    area->setFocusPolicy(Qt::NoFocus);
    area->viewport()->setAutoFillBackground(false);
    inner->setAutoFillBackground(false);
    return area;
}

} // namespace

ShiftsPlace::ShiftsPlace(Desk& desk, QWidget* parent) : Place(desk, parent) {
    makeChartCard();
    makeColumn();
    auto* inner = new QWidget;
    parts_ = new QBoxLayout(QBoxLayout::LeftToRight, inner);
    parts_->setContentsMargins(12, 12, 12, 12);
    parts_->setSpacing(10);
    parts_->addWidget(chartCard_, 1);
    parts_->addWidget(side_);
    page_ = scrolled(inner);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(page_);
    connectDesk();
    refresh();
}

void ShiftsPlace::makeChartCard() {
    chartCard_ = new Card(tr("Shifts"));
    pump_ = new PumpChoice(desk_);
    state_ = faintLabel({});
    copy_ = quietButton(tr("Copy"));
    copy_->setToolTip(tr("Puts the chart as a picture and the table as text on the clipboard."));
    export_ = quietButton(tr("Export…"));
    export_->setToolTip(tr("Writes the chart as PNG, SVG or PDF, or the table as CSV."));
    chartCard_->addToTitle(pump_);
    chartCard_->addToTitle(copy_);
    chartCard_->addToTitle(export_);
    notice_ = wrappedLabel({});
    noticeButton_ = mainButton({});
    chart_ = new ShiftChart;
    noTank_ =
        faintLabel(tr("The volume of the source is not stated, so how its level falls over the night is not "
                      "known."));
    tankButton_ = quietButton(tr("State it"));
    tankButton_->setAccessibleName(tr("State the volume of the source"));
    noTankLine_ = new QWidget;
    auto* line = new QHBoxLayout(noTankLine_);
    line->setContentsMargins(0, 0, 0, 0);
    line->addWidget(noTank_, 1);
    line->addWidget(tankButton_);
    chartCard_->content().addWidget(state_);
    chartCard_->content().addWidget(notice_);
    chartCard_->content().addWidget(noticeButton_, 0, Qt::AlignLeft);
    chartCard_->content().addWidget(chart_, 1);
    chartCard_->content().addWidget(noTankLine_);
    chartCard_->content().addStretch(0);
    connect(chart_, &ShiftChart::shiftChosen, this, &ShiftsPlace::chooseShift);
    connect(copy_, &QPushButton::clicked, this, &ShiftsPlace::copy);
    connect(export_, &QPushButton::clicked, this, [this] {
        exportPicture(desk_, this, tr("shifts.csv"), [this](const QString& path) { return writeTo(path); });
    });
    connect(tankButton_, &QPushButton::clicked, this, [this] { emit desk_.siteFormAsked(SiteForm::water); });
    connect(noticeButton_, &QPushButton::clicked, this, [this] {
        if (noticePlace_ == PlaceId::site)
            emit desk_.siteFormAsked(noticeForm_);
        else
            emit desk_.placeAsked(noticePlace_);
    });
}

void ShiftsPlace::makeColumn() {
    tableCard_ = new Card(tr("For the controller"));
    table_ = new ShiftTable;
    tableCard_->content().addWidget(table_);
    totals_ = new ShiftTotals;
    cautionsCard_ = new Card(tr("Look at these"));
    cautionRows_ = new CautionRows;
    cautionsCard_->content().addWidget(cautionRows_);
    auto* column = new QWidget;
    auto* layout = new QVBoxLayout(column);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(10);
    for (Card* card : {tableCard_, static_cast<Card*>(totals_), cautionsCard_})
        layout->addWidget(card);
    layout->addStretch(1);
    side_ = scrolled(column);
    connect(table_, &ShiftTable::shiftChosen, this, &ShiftsPlace::chooseShift);
    connect(totals_, &ShiftTotals::settingsAsked, this,
            [this] { emit desk_.siteFormAsked(SiteForm::control); });
}

void ShiftsPlace::connectDesk() {
    connect(&desk_.answers, &AnswerService::answered, this, &ShiftsPlace::refresh);
    connect(&desk_, &Desk::shownChanged, this, &ShiftsPlace::refresh);
    connect(&desk_, &Desk::unitsChanged, this, &ShiftsPlace::refresh);
    connect(&desk_, &Desk::themeChanged, this, &ShiftsPlace::refresh);
}

const PumpFindings* ShiftsPlace::found(const Answer& answer) const {
    const auto pump = static_cast<std::size_t>(desk_.shown().pump);
    if (!answer.findings || pump >= answer.findings->pumps.size()) return nullptr;
    const PumpFindings& of = answer.findings->pumps[pump];
    // Stale findings may speak of zones that are gone.
    const Site& site = answer.workspace.job.site;
    if (!of.shiftPlan) return nullptr;
    for (const auto& shift : of.shiftPlan->shifts) {
        for (const auto& station : shift.stations) {
            if (station.station > static_cast<int>(site.zones.size())) return nullptr;
        }
    }
    return &of;
}

void ShiftsPlace::showEvent(QShowEvent* event) {
    Place::showEvent(event);
    if (late_) refresh();
}

// Out of sight only the mark follows.
void ShiftsPlace::refresh() {
    late_ = !isVisible();
    if (late_) {
        emit markChanged();
        return;
    }
    const auto answer = desk_.answers.latest();
    const PumpFindings* of = found(*answer);
    const bool hasPlan = of && !of->shiftPlan->shifts.empty();
    pump_->refresh();
    refreshNotice(*answer, of != nullptr);
    chart_->setVisible(hasPlan);
    tableCard_->setVisible(hasPlan);
    totals_->setVisible(hasPlan);
    cautionsCard_->setVisible(of != nullptr);
    noTankLine_->setVisible(hasPlan && of->shiftPlan->tank.empty());
    for (QPushButton* button : {copy_, export_})
        button->setEnabled(hasPlan && !answer->stale);
    if (hasPlan) {
        const ShiftNight night = shiftNight(answer->workspace.job, *answer->findings,
                                            static_cast<std::size_t>(desk_.shown().pump), desk_.units());
        chart_->show(night, answer->stale);
        table_->show(night);
        table_->setEnabled(!answer->stale);
        totals_->show(*of->shiftPlan, answer->workspace.job);
    } else {
        chart_->clear();
    }
    if (of) refreshCautions(*answer, *of->shiftPlan);
    side_->setVisible(of != nullptr);
    fitWidth();
    emit markChanged();
}

// What is missing, in a sentence, with the way to mend it.
void ShiftsPlace::refreshNotice(const Answer& answer, bool hasPlan) {
    const Job& job = answer.workspace.job;
    const auto stated = [](const Zone& z) { return z.needPerDay || (z.area && z.needDepthPerDay); };
    const bool noNeed = std::none_of(job.site.zones.begin(), job.site.zones.end(), stated);
    QString words, button, state;
    noticePlace_ = PlaceId::site;
    noticeForm_ = SiteForm::zones;
    if (job.site.zones.empty()) {
        words = tr("Shifts are planned for zones, and this site has none.");
        button = tr("Go to the zones");
    } else if (noNeed) {
        words = tr("No zone says how much water it needs a day, so there is nothing to plan yet.");
        button = tr("State the needs");
    } else if (!answer.errors.empty()) {
        words = sentences(answer.errors);
        const bool ofSite = answer.errors.front().place.rfind("site", 0) == 0;
        noticePlace_ = ofSite ? PlaceId::site : PlaceId::charts;
        button = ofSite ? tr("Go to the site") : tr("Go to the charts");
    } else if (job.pumps.empty()) {
        words =
            tr("The zones say what they need; with a pump it can be planned which of them run together and "
               "when.");
        noticePlace_ = PlaceId::charts;
        button = tr("Add a pump");
    } else if (answer.stale) {
        state = hasPlan ? tr("Being worked out anew; this is the plan of before your last change.")
                        : tr("The plan is being worked out.");
    } else if (!hasPlan) {
        words = tr("There are more zones than a plan can be worked out for.");
    }
    notice_->setText(words);
    notice_->setVisible(!words.isEmpty());
    noticeButton_->setText(button);
    noticeButton_->setVisible(!button.isEmpty());
    state_->setText(state);
    state_->setVisible(!state.isEmpty());
}

void ShiftsPlace::refreshCautions(const Answer& answer, const ShiftPlanFinding& plan) {
    cautionRows_->show(plan.cautions, screenPhrasing(answer.workspace.job.site));
    cautionsCard_->setVisible(!plan.cautions.empty());
}

std::vector<QString> ShiftsPlace::cautions() const { return cautionRows_->sentences(); }

void ShiftsPlace::chooseShift(int shift) {
    chart_->select(static_cast<std::size_t>(shift));
    table_->select(static_cast<std::size_t>(shift));
}

bool ShiftsPlace::writeTo(const QString& path) const {
    if (pathEnding(path) != QLatin1String("csv")) return chart_->writeTo(path);
    const auto answer = desk_.answers.latest();
    const PumpFindings* of = found(*answer);
    if (!of) return false;
    Findings shown;
    shown.pumps.push_back(*of);
    return writeWhole(path, QByteArray::fromStdString(shiftsCsv(shown)));
}

void ShiftsPlace::copy() {
    auto* copied = new QMimeData;
    copied->setImageData(chart_->pixmap().toImage());
    copied->setText(table_->text());
    QGuiApplication::clipboard()->setMimeData(copied);
    emit desk_.said(tr("The shifts are on the clipboard, as a picture and as a table."), false);
}

void ShiftsPlace::resizeEvent(QResizeEvent* event) {
    Place::resizeEvent(event);
    fitWidth();
}

// Beside each other where there is room; else one below the other, and the page scrolls.
void ShiftsPlace::fitWidth() {
    const bool beside = width() >= kBeside_letters * fontMetrics().averageCharWidth();
    parts_->setDirection(beside ? QBoxLayout::LeftToRight : QBoxLayout::TopToBottom);
    const int least =
        side_->widget()->minimumSizeHint().width() + side_->verticalScrollBar()->sizeHint().width();
    side_->setMinimumHeight(beside ? 0 : side_->widget()->sizeHint().height());
    side_->setMinimumWidth(beside ? std::max(least, static_cast<int>(kSideShare * width())) : least);
    side_->setMaximumWidth(beside ? side_->minimumWidth() : QWIDGETSIZE_MAX);
}

} // namespace headmark
