#include "app/desktop/duty/duty_place.h"

#include "app/desktop/duty/cases_card.h"
#include "app/desktop/duty/cautions_card.h"
#include "app/desktop/duty/duty_picture.h"
#include "app/desktop/duty/duty_plot.h"
#include "app/desktop/duty/duty_words.h"
#include "app/desktop/duty/interval_card.h"
#include "app/desktop/duty/what_if_card.h"
#include "app/desktop/duty/working_card.h"
#include "app/desktop/frame/dialogs.h"
#include "app/desktop/frame/theme.h"
#include "app/document/latest_only.h"
#include "app/words/error_words.h"

#include <QClipboard>
#include <QComboBox>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QScrollArea>
#include <QScrollBar>
#include <QShortcut>
#include <QSignalBlocker>
#include <QTimer>

#include <algorithm>

namespace headmark {

namespace {

constexpr int kDetailsPace_ms = 120;
constexpr int kColumnLetters = 56;     // width of the right column in letters of the font,
constexpr double kColumnAtMost = 0.40; // but no more than this share of the place

std::optional<CaseAnswer> copyOf(const CaseAnswer* answer) {
    return answer ? std::optional(*answer) : std::nullopt;
}

} // namespace

DutyPlace::DutyPlace(Desk& desk, QWidget* parent)
    : Place(desk, parent), details_(new QTimer(this)), asItIs_(std::make_unique<DutyPicture>()),
      pictures_(std::make_unique<LatestOnly>()), tries_(std::make_unique<LatestOnly>()),
      curves_(std::make_unique<LatestOnly>()) {
    auto* layout = new QHBoxLayout(this);
    layout->setContentsMargins(12, 12, 0, 12);
    layout->setSpacing(8);
    layout->addWidget(makeLeft(), 1);
    layout->addWidget(makeRight());
    details_->setSingleShot(true);
    details_->setInterval(kDetailsPace_ms);
    connect(details_, &QTimer::timeout, this, &DutyPlace::refreshDetails);
    connectDesk();
    refresh();
}

DutyPlace::~DutyPlace() = default;

QWidget* DutyPlace::makeLeft() {
    auto* card = new Card;
    pump_ = new QComboBox;
    pump_->setAccessibleName(tr("Pump shown"));
    pump_->setToolTip(tr("The pump all places show; the others' curves stand faintly behind it."));
    pump_->setSizeAdjustPolicy(QComboBox::AdjustToContents);
    notice_ = wrappedLabel({});
    noticeButton_ = mainButton({});
    copy_ = quietButton(tr("Copy"));
    copy_->setToolTip(tr("Puts the plot on the clipboard as a picture."));
    export_ = quietButton(tr("Export…"));
    export_->setToolTip(tr("Writes the plot as PNG, SVG or PDF, or its figures as CSV."));
    whole_ = quietButton(tr("Show all"));
    whole_->setToolTip(tr("Undoes the zoom; a double click on the plot does so too."));
    auto* bar = new QHBoxLayout;
    bar->addWidget(pump_);
    bar->addStretch(1);
    bar->addWidget(whole_);
    bar->addWidget(copy_);
    bar->addWidget(export_);
    auto* noticeLine = new QHBoxLayout;
    noticeLine->addWidget(notice_, 1);
    noticeLine->addWidget(noticeButton_);
    plot_ = new DutyPlot;
    reading_ = faintLabel({});
    reading_->setFont(smallFont());
    reading_->setTextInteractionFlags(Qt::NoTextInteraction);
    reading_->setMinimumHeight(2 * QFontMetrics(smallFont()).lineSpacing());
    reading_->setAlignment(Qt::AlignTop);
    card->content().addLayout(bar);
    card->content().addLayout(noticeLine);
    card->content().addWidget(plot_, 1);
    card->content().addWidget(reading_);
    const QString hint =
        tr("Point at the plot to read its curves. Turn the wheel or drag a rectangle to zoom.");
    reading_->setText(hint);
    connect(plot_, &DutyPlot::pointed, this,
            [this, hint](const QString& words) { reading_->setText(words.isEmpty() ? hint : words); });
    connect(copy_, &QPushButton::clicked, this, &DutyPlace::copyPlot);
    connect(export_, &QPushButton::clicked, this, &DutyPlace::exportPlot);
    connect(whole_, &QPushButton::clicked, plot_, &DutyPlot::showAll);
    auto* copyKey = new QShortcut(QKeySequence::Copy, plot_, nullptr, nullptr, Qt::WidgetShortcut);
    connect(copyKey, &QShortcut::activated, this, &DutyPlace::copyPlot);
    connect(pump_, qOverload<int>(&QComboBox::activated), this, [this](int index) {
        Shown shown = desk_.shown();
        shown.pump = index;
        desk_.show(shown);
    });
    connect(noticeButton_, &QPushButton::clicked, this, [this] { emit desk_.placeAsked(noticePlace_); });
    return card;
}

QWidget* DutyPlace::makeRight() {
    cases_ = new CasesCard(desk_);
    whatIf_ = new WhatIfCard(desk_);
    cautions_ = new CautionsCard;
    working_ = new WorkingCard;
    intervals_ = new IntervalCard;
    auto* column = new QWidget;
    auto* layout = new QVBoxLayout(column);
    layout->setContentsMargins(0, 0, 12, 0);
    layout->setSpacing(10);
    for (QWidget* card :
         {static_cast<QWidget*>(cases_), static_cast<QWidget*>(whatIf_), static_cast<QWidget*>(cautions_),
          static_cast<QWidget*>(working_), static_cast<QWidget*>(intervals_)})
        layout->addWidget(card);
    layout->addStretch(1);
    scroll_ = new QScrollArea;
    scroll_->setWidget(column);
    scroll_->setWidgetResizable(true);
    scroll_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll_->setFocusPolicy(Qt::NoFocus);
    scroll_->viewport()->setAutoFillBackground(false);
    column->setAutoFillBackground(false);
    return scroll_;
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
        reading_->setFont(smallFont());
        working_->refreshTheme();
        refresh();
    });
    connect(&desk_, &Desk::workingAsked, this, &DutyPlace::showWorking);
    connect(cases_, &CasesCard::drawnChanged, this, &DutyPlace::askPicture);
    connect(whatIf_, &WhatIfCard::changed, this, &DutyPlace::askTried);
    connect(whatIf_, &WhatIfCard::resetAsked, this, [this] {
        resetWhatIf();
        cases_->refresh();
        showPicture(*asItIs_);
        refreshDetails();
    });
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

void DutyPlace::refresh() {
    keepShownInside();
    refreshPumps();
    refreshNotice();
    cases_->refresh();
    if (newCase_) resetWhatIf();
    newCase_ = newCase_ && !desk_.answers.latest()->prepared; // nothing to set the sliders by as yet
    whatIf_->refreshWords();
    if (tried_) cases_->showTried(tried_->of);
    refreshDetails();
    askPicture();
    emit markChanged();
}

void DutyPlace::refreshPumps() {
    const Job& job = desk_.answers.latest()->workspace.job;
    const QSignalBlocker blocker(pump_);
    QStringList names, now;
    for (const Pump& pump : job.pumps)
        names << QString::fromStdString(pump.name);
    for (int i = 0; i < pump_->count(); ++i)
        now << pump_->itemText(i);
    if (names != now) {
        pump_->clear();
        pump_->addItems(names);
    }
    pump_->setCurrentIndex(desk_.shown().pump);
    pump_->setVisible(names.size() > 1);
}

void DutyPlace::refreshNotice() {
    const auto answer = desk_.answers.latest();
    QString words, button;
    if (!answer->errors.empty()) {
        words = sentences(answer->errors);
        const bool ofSite = answer->errors.front().place.rfind("site", 0) == 0;
        noticePlace_ = ofSite ? PlaceId::site : PlaceId::charts;
        button = ofSite ? tr("Go to the site") : tr("Go to the charts");
    } else if (answer->prepared && answer->prepared->pumps() == 0) {
        words =
            tr("This is what the site asks of a pump. Next, give it one: read its chart, or type a table of "
               "flow and head.");
        noticePlace_ = PlaceId::charts;
        button = tr("Add a pump");
    } else if (answer->shownCase && !answer->shownCase->duty) {
        words = tr("There is no duty point in this case: see what stops it under “Look at these”.");
    }
    notice_->setText(words);
    notice_->setVisible(!words.isEmpty());
    noticeButton_->setText(button);
    noticeButton_->setVisible(!button.isEmpty());
}

const CaseAnswer* DutyPlace::shownAnswer() const {
    const auto answer = desk_.answers.latest();
    const std::vector<CaseEntry> entries = caseEntries(*answer, desk_.shown());
    const auto index = static_cast<std::size_t>(desk_.shown().caseIndex);
    return index < entries.size() ? entries[index].answer : nullptr;
}

void DutyPlace::refreshDetails() {
    details_->stop();
    const auto answer = desk_.answers.latest(); // keeps what shownAnswer() points to
    const CaseAnswer* asItIs = shownAnswer();
    const std::optional<CaseAnswer> shown = tried_ ? tried_->of : copyOf(asItIs);
    const Site& site = tried_ ? tried_->tried->job().site : answer->workspace.job.site;
    const auto pump = static_cast<std::size_t>(desk_.shown().pump);
    const PumpFindings* found =
        answer->findings && pump < answer->findings->pumps.size() ? &answer->findings->pumps[pump] : nullptr;
    cautions_->show(shown, found ? found->cautions : Cautions{}, site);
    working_->show(shown, site);
    working_->showZonesAtOnce(
        found && found->zonesAtOnce
            ? zonesAtOnceWords(*found->zonesAtOnce, screenPhrasing(answer->workspace.job.site))
            : QString());
    intervals_->show(tried_ ? nullptr : asItIs, desk_.units(), answer->stale);
    // Wider words may have come; their widths are known with the next layout.
    QTimer::singleShot(0, this, &DutyPlace::fitColumn);
}

void DutyPlace::forgetTried() {
    tries_->forget();
    curves_->forget();
    tried_.reset();
    triedCurve_.reset();
}

void DutyPlace::resetWhatIf() {
    forgetTried();
    details_->stop();
    const auto answer = desk_.answers.latest();
    const std::vector<CaseEntry> entries = caseEntries(*answer, desk_.shown());
    const auto index = static_cast<std::size_t>(desk_.shown().caseIndex);
    whatIf_->setEnabled(index < entries.size());
    if (index < entries.size())
        whatIf_->reset(entries[index].setting, answer->workspace.job.site, answer->prepared->pumps() > 0);
}

void DutyPlace::askPicture() {
    PictureQuestion question{desk_.answers.latest(), cases_->drawn(),
                             static_cast<std::size_t>(desk_.shown().pump)};
    pictures_->ask([this, question = std::move(question)]() -> LatestOnly::Delivery {
        auto picture = std::make_shared<const DutyPicture>(pictureOf(question));
        return [this, picture] { showPicture(*picture); };
    });
}

void DutyPlace::showPicture(const DutyPicture& picture) {
    if (&picture != asItIs_.get()) *asItIs_ = picture;
    const bool drawable = !picture.systems.empty();
    for (QPushButton* button : {copy_, export_, whole_})
        button->setEnabled(drawable);
    if (!whatIf_->change().isNone()) {
        askTried();
        return;
    }
    plot_->show(*asItIs_, desk_.units());
}

void DutyPlace::askTried() {
    const auto answer = desk_.answers.latest();
    const std::vector<CaseEntry> entries = caseEntries(*answer, desk_.shown());
    const auto index = static_cast<std::size_t>(desk_.shown().caseIndex);
    if (index >= entries.size()) return;
    if (whatIf_->change().isNone()) {
        forgetTried();
        cases_->refresh();
        showPicture(*asItIs_);
        refreshDetails();
        return;
    }
    const WhatIfQuestion question{answer->prepared, static_cast<std::size_t>(desk_.shown().pump),
                                  entries[index].setting, whatIf_->change(), asItIs_->greatest_m3_s};
    tries_->ask([this, question]() -> LatestOnly::Delivery {
        auto tried = std::make_shared<const Result<WhatIfAnswer>>(headmark::whatIf(question));
        return [this, tried, question] {
            if (tried->ok())
                showTried(std::make_shared<const WhatIfAnswer>(tried->value()), question);
            else
                emit desk_.said(sentence(tried->error()), true);
        };
    });
}

void DutyPlace::showTried(const std::shared_ptr<const WhatIfAnswer>& tried, const WhatIfQuestion& question) {
    tried_ = tried;
    drawTried();
    cases_->showTried(tried->of);
    if (!details_->isActive()) details_->start();
    emit triedShown();
    curves_->ask([this, tried, question]() -> LatestOnly::Delivery {
        auto curve = std::make_shared<const CurvePlot>(systemCurveOf(*tried, question));
        return [this, curve] {
            triedCurve_ = curve;
            drawTried();
            emit triedCurveShown();
        };
    });
}

void DutyPlace::drawTried() {
    plot_->show(triedPicture(*asItIs_, *tried_, triedCurve_ ? *triedCurve_ : CurvePlot{}), desk_.units(),
                true);
}

void DutyPlace::showWorking(const QString& code) {
    emit desk_.placeAsked(PlaceId::duty);
    const bool ofCautions = code == QLatin1String("cautions");
    const int inCard = ofCautions ? 0 : working_->unfold(code);
    QWidget* card = ofCautions ? static_cast<QWidget*>(cautions_) : working_;
    // The unfolded text gets its height with the next layout.
    QTimer::singleShot(0, this, [this, card, inCard] {
        scroll_->verticalScrollBar()->setValue(card->y() + std::max(0, inCard));
    });
}

void DutyPlace::copyPlot() {
    QGuiApplication::clipboard()->setPixmap(plot_->pixmap());
    emit desk_.said(tr("The plot is on the clipboard."), false);
}

void DutyPlace::exportPlot() {
    const QString path = dialogs().exportPath(
        this, tr("duty.png"),
        tr("Picture, PNG (*.png);;Drawing, SVG (*.svg);;Page, PDF (*.pdf);;Table, CSV (*.csv)"));
    if (path.isEmpty()) return;
    if (!DutyPlot::canWrite(path)) {
        emit desk_.said(tr("The name must end with .png, .svg, .pdf or .csv, which tells what to write."),
                        true);
    } else if (plot_->writeTo(path)) {
        emit desk_.said(tr("Written: %1").arg(QFileInfo(path).fileName()), false);
    } else {
        emit desk_.said(
            tr("“%1” could not be written; is the folder there, and may you write in it?").arg(path), true);
    }
}

} // namespace headmark
