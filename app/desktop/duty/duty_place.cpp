#include "app/desktop/duty/duty_place.h"

#include "app/desktop/duty/cases_card.h"
#include "app/desktop/duty/cautions_card.h"
#include "app/desktop/duty/duty_picture.h"
#include "app/desktop/duty/duty_words.h"
#include "app/desktop/duty/interval_card.h"
#include "app/desktop/duty/plot_card.h"
#include "app/desktop/duty/trying.h"
#include "app/desktop/duty/what_if_card.h"
#include "app/desktop/duty/working_card.h"
#include "app/desktop/duty/zones_card.h"
#include "app/document/latest_only.h"

#include <QHBoxLayout>
#include <QScrollArea>
#include <QScrollBar>
#include <QTimer>

#include <algorithm>

namespace headmark {

namespace {

constexpr int kRest_ms = 100;
constexpr int kColumnLetters = 56;     // width of the right column in letters of the font,
constexpr double kColumnAtMost = 0.40; // but no more than this share of the place

std::optional<CaseAnswer> copyOf(const CaseAnswer* answer) {
    return answer ? std::optional(*answer) : std::nullopt;
}

} // namespace

DutyPlace::DutyPlace(Desk& desk, QWidget* parent)
    : Place(desk, parent), plot_(new PlotCard(desk)), details_(new QTimer(this)),
      asItIs_(std::make_unique<DutyPicture>()), trying_(new Trying(this)),
      pictures_(std::make_unique<LatestOnly>()) {
    makeRight();
    auto* layout = new QHBoxLayout(this);
    layout->setContentsMargins(12, 12, 0, 12);
    layout->setSpacing(8);
    layout->addWidget(plot_, 1);
    layout->addWidget(scroll_);
    details_->setSingleShot(true);
    details_->setInterval(kRest_ms);
    connect(details_, &QTimer::timeout, this, [this] { refreshWords(false); });
    connectDesk();
    connectCards();
    refresh();
}

// Nothing tried is delivered to cards that go.
DutyPlace::~DutyPlace() { delete trying_; }

DutyPlot& DutyPlace::plot() const { return plot_->plot(); }

void DutyPlace::makeRight() {
    cases_ = new CasesCard(desk_);
    zones_ = new ZonesCard(desk_);
    whatIf_ = new WhatIfCard(desk_);
    cautions_ = new CautionsCard;
    working_ = new WorkingCard;
    intervals_ = new IntervalCard;
    auto* column = new QWidget;
    auto* layout = new QVBoxLayout(column);
    layout->setContentsMargins(0, 0, 12, 0);
    layout->setSpacing(10);
    for (QWidget* card :
         std::initializer_list<QWidget*>{cases_, zones_, whatIf_, cautions_, working_, intervals_})
        layout->addWidget(card);
    layout->addStretch(1);
    scroll_ = new QScrollArea;
    scroll_->setWidget(column);
    scroll_->setWidgetResizable(true);
    scroll_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll_->setFocusPolicy(Qt::NoFocus);
    scroll_->viewport()->setAutoFillBackground(false);
    column->setAutoFillBackground(false);
}

void DutyPlace::resizeEvent(QResizeEvent* event) {
    Place::resizeEvent(event);
    fitColumn();
}

void DutyPlace::fitColumn() {
    const int wanted = kColumnLetters * fontMetrics().averageCharWidth() + 40;
    const int least =
        scroll_->widget()->minimumSizeHint().width() + scroll_->verticalScrollBar()->sizeHint().width();
    scroll_->setFixedWidth(std::max(least, std::min(wanted, static_cast<int>(kColumnAtMost * width()))));
}

void DutyPlace::connectDesk() {
    connect(&desk_.answers, &AnswerService::answered, this, &DutyPlace::refresh);
    connect(&desk_.document, &Document::workspaceChanged, this, [this] { newCase_ = true; });
    connect(&desk_, &Desk::shownChanged, this, [this] {
        newCase_ = true;
        refresh();
    });
    connect(&desk_, &Desk::unitsChanged, this, &DutyPlace::refresh);
    connect(&desk_, &Desk::themeChanged, this, [this] {
        plot_->refreshTheme();
        working_->refreshTheme();
        refresh();
    });
    connect(&desk_, &Desk::workingAsked, this, &DutyPlace::showWorking);
}

void DutyPlace::connectCards() {
    connect(cases_, &CasesCard::drawnChanged, this, &DutyPlace::askPicture);
    connect(zones_, &ZonesCard::changed, this, &DutyPlace::askTried);
    connect(zones_, &ZonesCard::keepAsked, this, &DutyPlace::keepTried);
    connect(whatIf_, &WhatIfCard::changed, this, &DutyPlace::askTried);
    connect(trying_, &Trying::answered, this, &DutyPlace::showTried);
    connect(trying_, &Trying::curveAnswered, this, [this] {
        drawTried();
        emit triedCurveShown();
    });
    connect(trying_, &Trying::failed, &desk_, [this](const QString& why) { emit desk_.said(why, true); });
}

// After a pump or a case went away the first is shown. Made cases are known with the answer only.
void DutyPlace::keepShownInside() {
    const Job& job = desk_.document.job();
    const auto answer = desk_.answers.latest();
    Shown shown = desk_.shown();
    const auto pumps = static_cast<int>(job.pumps.size());
    auto cases = static_cast<int>(job.cases.size());
    if (!job.casesGiven) {
        const bool known = answer->prepared && !answer->stale && !answer->workspace.job.casesGiven;
        cases = known ? static_cast<int>(answer->prepared->cases().size()) : 0;
    }
    if (shown.pump > 0 && shown.pump >= pumps) shown.pump = 0;
    if (cases > 0 && shown.caseIndex >= cases) shown.caseIndex = 0;
    if (shown.pump == desk_.shown().pump && shown.caseIndex == desk_.shown().caseIndex) return;
    desk_.show(shown);
}

// Out of sight only the mark follows: a pin dragged at Charts must not wait for curves nobody sees.
void DutyPlace::refresh() {
    keepShownInside();
    late_ = !isVisible();
    if (late_)
        emit markChanged();
    else
        refreshAll();
}

void DutyPlace::showEvent(QShowEvent* event) {
    Place::showEvent(event);
    if (late_) refreshAll();
}

void DutyPlace::refreshAll() {
    late_ = false;
    plot_->refresh();
    cases_->refresh();
    if (newCase_) resetTried();
    const auto prepared = desk_.answers.latest()->prepared;
    newCase_ = newCase_ && (!prepared || prepared->pumps() == 0); // nothing to set the sliders by as yet
    whatIf_->refreshWords();
    if (trying_->answer()) cases_->showTried(trying_->answer()->of);
    refreshWords(desk_.answers.latest()->stale);
    askPicture();
    emit markChanged();
}

const CaseAnswer* DutyPlace::shownAnswer() const {
    const auto answer = desk_.answers.latest();
    const std::vector<CaseEntry> entries = caseEntries(*answer, desk_.shown());
    const auto index = static_cast<std::size_t>(desk_.shown().caseIndex);
    return index < entries.size() ? entries[index].answer : nullptr;
}

// The texts, now or when what is dragged rests: they take several times as long as the answer itself.
void DutyPlace::refreshWords(bool whenItRests) {
    if (whenItRests) {
        details_->start();
        return;
    }
    refreshZones();
    refreshDetails();
}

void DutyPlace::refreshDetails() {
    details_->stop();
    const auto answer = desk_.answers.latest(); // keeps what shownAnswer() points to
    const CaseAnswer* asItIs = shownAnswer();
    const auto tried = trying_->answer();
    const std::optional<CaseAnswer> shown = tried ? tried->of : copyOf(asItIs);
    const Site& site = tried ? tried->tried->job().site : answer->workspace.job.site;
    const auto pump = static_cast<std::size_t>(desk_.shown().pump);
    const PumpFindings* found =
        answer->findings && pump < answer->findings->pumps.size() ? &answer->findings->pumps[pump] : nullptr;
    cautions_->show(shown, found ? found->cautions : Cautions{}, site);
    working_->show(shown, site);
    working_->showZonesAtOnce(
        found && found->zonesAtOnce
            ? zonesAtOnceWords(*found->zonesAtOnce, screenPhrasing(answer->workspace.job.site))
            : QString());
    intervals_->show(tried ? nullptr : asItIs, desk_.units(), answer->stale);
    // Wider words may have come; their widths are known with the next layout.
    QTimer::singleShot(0, this, &DutyPlace::fitColumn);
}

// Flows and pressures beside the valves, and the sets known to work.
void DutyPlace::refreshZones() {
    const auto answer = desk_.answers.latest(); // keeps what shownAnswer() points to
    const auto tried = trying_->answer();
    const CaseAnswer* of = tried ? (tried->of ? &*tried->of : nullptr) : shownAnswer();
    zones_->show(of, answer->workspace.job.site);
    zones_->setKeepable(change().zonesOpen.has_value());
    const auto pump = static_cast<std::size_t>(desk_.shown().pump);
    const bool known = !answer->stale && answer->findings && pump < answer->findings->pumps.size() &&
                       answer->findings->pumps[pump].zonesAtOnce;
    zones_->showSets(known ? &*answer->findings->pumps[pump].zonesAtOnce : nullptr);
}

void DutyPlace::askPicture() {
    PictureQuestion question{desk_.answers.latest(), cases_->drawn(),
                             static_cast<std::size_t>(desk_.shown().pump),
                             std::make_shared<const DutyPicture>(*asItIs_)};
    pictures_->ask([this, question = std::move(question)]() -> LatestOnly::Delivery {
        auto picture = std::make_shared<const DutyPicture>(pictureOf(question));
        return [this, picture] { showPicture(*picture); };
    });
}

void DutyPlace::showPicture(const DutyPicture& picture) {
    if (&picture != asItIs_.get()) *asItIs_ = picture;
    plot_->setDrawable(!picture.systems.empty());
    if (!change().isNone()) {
        askTried();
        return;
    }
    plot().show(*asItIs_, desk_.units());
}

void DutyPlace::showWorking(const QString& code) {
    if (late_) refreshAll(); // asked from the strip while another place is on the screen
    emit desk_.placeAsked(PlaceId::duty);
    const bool ofCautions = code == QLatin1String("cautions");
    const int inCard = ofCautions ? 0 : working_->unfold(code);
    QWidget* card = ofCautions ? static_cast<QWidget*>(cautions_) : working_;
    // The unfolded text gets its height with the next layout.
    QTimer::singleShot(0, this, [this, card, inCard] {
        scroll_->verticalScrollBar()->setValue(card->y() + std::max(0, inCard));
    });
}

} // namespace headmark
