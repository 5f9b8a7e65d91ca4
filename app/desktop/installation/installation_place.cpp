#include "app/desktop/installation/installation_place.h"

#include "app/desktop/duty/picture_export.h"
#include "app/desktop/frame/screen_phrasing.h"
#include "app/desktop/frame/theme.h"
#include "app/desktop/installation/sheet_files.h"
#include "app/words/error_words.h"
#include "app/words/safety_words.h"

#include <QClipboard>
#include <QGuiApplication>

namespace headmark {

namespace {

QScrollArea* scrolled(QWidget* inner) {
    auto* area = new QScrollArea;
    area->setWidget(inner);
    area->setWidgetResizable(true);
    area->setFrameShape(QFrame::NoFrame);
    area->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    area->setFocusPolicy(Qt::NoFocus);
    area->viewport()->setAutoFillBackground(false);
    inner->setAutoFillBackground(false);
    return area;
}

} // namespace

InstallationPlace::InstallationPlace(Desk& desk, QWidget* parent)
    : Place(desk, parent), tabs_(new QTabBar), pages_(new QStackedWidget), pump_(new PumpChoice(desk)),
      copy_(quietButton(tr("Copy"))), export_(quietButton(tr("Export…"))), noticeButton_(mainButton({})),
      notice_(wrappedLabel({})), state_(faintLabel({})), guards_(new GuardsView(desk)),
      connections_(new ConnectionsView(desk)), firstStart_(new FirstStart), usual_(wrappedLabel({})) {
    tabs_->addTab(tr("What guards the pump"));
    tabs_->addTab(tr("Connection sheet"));
    tabs_->addTab(tr("First start"));
    tabs_->setTabToolTip(kGuards,
                         tr("Suction, shut valves, filling, ratings, filter, surge, control, motor."));
    tabs_->setTabToolTip(kConnections, tr("Every part from the source to the main, and how they join."));
    tabs_->setTabToolTip(kFirstStart, tr("What to do and read when the plant first runs."));
    tabs_->setExpanding(false);
    tabs_->setDrawBase(false);
    tabs_->setElideMode(Qt::ElideRight);
    tabs_->setAccessibleName(tr("Parts of the place Installation"));
    copy_->setToolTip(tr("Puts the list of parts as text on the clipboard."));
    export_->setToolTip(
        tr("Writes the sheet as PDF, the drawing as SVG or PNG, or the list of parts as CSV."));
    auto* top = new QHBoxLayout;
    top->setContentsMargins(12, 8, 12, 0);
    top->addWidget(tabs_, 1);
    for (QWidget* widget :
         {static_cast<QWidget*>(pump_), static_cast<QWidget*>(copy_), static_cast<QWidget*>(export_)})
        top->addWidget(widget);
    auto* noticeCard = new Card;
    noticeCard->content().addWidget(notice_);
    noticeCard->content().addWidget(noticeButton_, 0, Qt::AlignLeft);
    noticePage_ = new QWidget;
    auto* noticeLayout = new QVBoxLayout(noticePage_);
    noticeLayout->setContentsMargins(12, 12, 12, 12);
    noticeLayout->addWidget(noticeCard);
    noticeLayout->addStretch(1);
    connectionsPage_ = scrolled(connections_);
    makeFirstStart();
    for (QWidget* page : {static_cast<QWidget*>(guards_), connectionsPage_, firstPage_, noticePage_})
        pages_->addWidget(page);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    layout->addLayout(top);
    auto* stateLine = new QHBoxLayout;
    stateLine->setContentsMargins(14, 2, 12, 0);
    stateLine->addWidget(state_);
    layout->addLayout(stateLine);
    layout->addWidget(pages_, 1);

    connect(tabs_, &QTabBar::currentChanged, this, &InstallationPlace::refresh);
    connect(&desk_.answers, &AnswerService::answered, this, &InstallationPlace::refresh);
    connect(&desk_, &Desk::shownChanged, this, &InstallationPlace::refresh);
    connect(&desk_, &Desk::unitsChanged, this, &InstallationPlace::refresh);
    connect(&desk_, &Desk::themeChanged, this, &InstallationPlace::refresh);
    connect(copy_, &QPushButton::clicked, this, &InstallationPlace::copy);
    connect(export_, &QPushButton::clicked, this, [this] {
        exportPicture(desk_, this, tr("connection-sheet.pdf"),
                      [this](const QString& path) { return writeTo(path); });
    });
    connect(noticeButton_, &QPushButton::clicked, this, [this] { emit desk_.placeAsked(noticePlace_); });
    refresh();
}

void InstallationPlace::makeFirstStart() {
    auto* card = new Card(tr("Read and write down at the first start"));
    card->content().addWidget(
        wrappedLabel(tr("The figures expected are those of the pump as printed, at usual water with a clean "
                        "filter. What is read now is the baseline of every later check.")));
    card->content().addWidget(firstStart_);
    auto* always = new Card(tr("What always holds"));
    always->content().addWidget(usual_);
    auto* inner = new QWidget;
    auto* layout = new QVBoxLayout(inner);
    layout->setContentsMargins(12, 12, 12, 12);
    layout->setSpacing(10);
    layout->addWidget(card);
    layout->addWidget(always);
    layout->addStretch(1);
    firstPage_ = scrolled(inner);
}

const PumpFindings* InstallationPlace::found(const Answer& answer) const {
    const auto pump = static_cast<std::size_t>(desk_.shown().pump);
    if (!answer.findings || pump >= answer.findings->pumps.size()) return nullptr;
    return &answer.findings->pumps[pump];
}

void InstallationPlace::showEvent(QShowEvent* event) {
    Place::showEvent(event);
    if (late_) refresh();
}

// Out of sight only the mark follows.
void InstallationPlace::refresh() {
    late_ = !isVisible();
    if (late_) {
        emit markChanged();
        return;
    }
    const auto answer = desk_.answers.latest();
    const PumpFindings* of = found(*answer);
    const bool hasSheet = of && of->connections;
    pump_->refresh();
    const bool sheetShown = tabs_->currentIndex() != kGuards;
    for (QPushButton* button : {copy_, export_}) {
        button->setVisible(sheetShown);
        button->setEnabled(hasSheet && !answer->stale);
    }
    state_->setText(answer->stale && hasSheet && sheetShown ? tr("Being worked out anew.") : QString());
    state_->setVisible(!state_->text().isEmpty());
    if (!sheetShown) {
        pages_->setCurrentWidget(guards_); // follows the answers by itself
    } else if (!hasSheet) {
        refreshNotice(*answer, of != nullptr);
        pages_->setCurrentWidget(noticePage_);
    } else if (tabs_->currentIndex() == kConnections) {
        connections_->show(*of->connections, answer->workspace.job.site, answer->stale);
        pages_->setCurrentWidget(connectionsPage_);
    } else {
        firstStart_->show(of->connections->commissioning);
        usual_->setText(
            usualCautions(screenPhrasing(answer->workspace.job.site)).join(QStringLiteral("\n\n")));
        pages_->setCurrentWidget(firstPage_);
    }
    emit markChanged();
}

// What is missing, in a sentence, with the way to mend it.
void InstallationPlace::refreshNotice(const Answer& answer, bool hasFindings) {
    QString words, button;
    noticePlace_ = PlaceId::charts;
    if (!answer.errors.empty()) {
        words = sentences(answer.errors);
        const bool ofSite = answer.errors.front().place.rfind("site", 0) == 0;
        noticePlace_ = ofSite ? PlaceId::site : PlaceId::charts;
        button = ofSite ? tr("Go to the site") : tr("Go to the charts");
    } else if (answer.workspace.job.pumps.empty()) {
        words = tr("The sheet is made for a pump: it begins with its threads and what it delivers.");
        button = tr("Add a pump");
    } else if (hasFindings && answer.workspace.job.site.system) {
        words = tr("The site is given as a known system curve, so there is no run of pipe to connect.");
        noticePlace_ = PlaceId::site;
        button = tr("Go to the site");
    } else {
        words = tr("The sheet is being worked out.");
    }
    notice_->setText(words);
    noticeButton_->setText(button);
    noticeButton_->setVisible(!button.isEmpty());
}

void InstallationPlace::copy() {
    QGuiApplication::clipboard()->setText(connections_->parts().text());
    emit desk_.said(tr("The list of parts is on the clipboard."), false);
}

bool InstallationPlace::writeTo(const QString& path) const {
    const auto answer = desk_.answers.latest();
    const PumpFindings* of = found(*answer);
    return of && of->connections && writeSheet(path, *of, answer->workspace.job);
}

} // namespace headmark
