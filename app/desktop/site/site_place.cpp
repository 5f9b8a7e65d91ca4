#include "app/desktop/site/site_place.h"

#include "app/desktop/frame/theme.h"
#include "app/desktop/site/item_words.h"
#include "app/desktop/site/shown_case.h"
#include "app/desktop/site/site_words.h"

#include <algorithm>

#include <QScrollArea>
#include <QScrollBar>
#include <QSignalBlocker>
#include <QTabBar>

namespace headmark {

namespace {

enum FormTab { kWaterTab, kZonesTab, kItemTab, kControlTab, kDetailsTab };

QScrollArea* scrolled(QWidget* form) {
    auto* area = new QScrollArea;
    area->setWidgetResizable(true);
    area->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    area->setWidget(form);
    area->setMinimumWidth(form->minimumSizeHint().width() + area->verticalScrollBar()->sizeHint().width());
    area->viewport()->setAutoFillBackground(false);
    form->setAutoFillBackground(false);
    return area;
}

} // namespace

SitePlace::SitePlace(Desk& desk, QWidget* parent)
    : Place(desk, parent), whole_(new QSplitter(Qt::Horizontal)), left_(new QSplitter(Qt::Vertical)),
      below_(new QStackedWidget), run_(new RunCard(desk)), zoneTable_(new ZonesTable(desk)),
      questions_(new SiteQuestions(desk)) {
    makeSection();
    below_->addWidget(run_);
    below_->addWidget(zoneTable_);
    below_->addWidget(questionsArea_ = scrolled(questions_));
    left_->addWidget(sectionCard_);
    left_->addWidget(below_);
    left_->setStretchFactor(0, 5);
    left_->setStretchFactor(1, 5);
    left_->setChildrenCollapsible(false);
    makeForms();
    whole_->addWidget(left_);
    whole_->addWidget(forms_->parentWidget() ? forms_->parentWidget() : forms_);
    whole_->setStretchFactor(0, 1);
    whole_->setStretchFactor(1, 0);
    whole_->setSizes({fontMetrics().averageCharWidth() * 110, fontMetrics().averageCharWidth() * 44});
    whole_->setChildrenCollapsible(false);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(10, 10, 10, 10);
    layout->addWidget(whole_);
    connectDesk();
    askedOf_ = desk.document.jobNumber();
    setAsksQuestions(desk.document.isOpen() && isQuestionSite(desk.document.job().site) &&
                     desk.document.filePath().isEmpty());
    refresh();
}

void SitePlace::makeSection() {
    sectionCard_ = new Card(tr("Long section"));
    section_ = new LongSectionView;
    case_ = new QComboBox;
    case_->setAccessibleName(tr("Case shown"));
    case_->setToolTip(tr("The case whose grade line and figures are shown, here and at Duty."));
    case_->setSizeAdjustPolicy(QComboBox::AdjustToContents);
    case_->setMinimumWidth(fontMetrics().averageCharWidth() * 18); // its tip says a longer one whole
    sectionCard_->addToTitle(case_);
    complaint_ = wrappedLabel({});
    complaint_->hide();
    sectionCard_->content().addWidget(complaint_);
    sectionCard_->content().addWidget(section_, 1);
    connect(case_, &QComboBox::activated, this, [this](int index) {
        Shown shown = desk_.shown();
        shown.caseIndex = index;
        desk_.show(shown);
    });
    connect(section_, &LongSectionView::picked, this, [this](const RunSpot& spot) { point(spot, false); });
    connect(run_, &RunCard::selectionMoved, this, [this](const RunSpot& spot) { point(spot, true); });
    connect(questions_, &SiteQuestions::moreAsked, this, [this] { setAsksQuestions(false); });
    askAgain_ = quietButton(tr("Plain questions"));
    askAgain_->setToolTip(tr("Back to the questions; possible while they can say all of the site."));
    connect(askAgain_, &QPushButton::clicked, this, [this] { setAsksQuestions(true); });
    run_->addToTitle(askAgain_);
    makeTables();
}

// The run and the zones share the room under the long section.
void SitePlace::makeTables() {
    showZones_ = quietButton(tr("Show the zones"));
    auto* showRun = quietButton(tr("Show the run"));
    run_->addToTitle(showZones_);
    zoneTable_->addToTitle(showRun);
    connect(showZones_, &QPushButton::clicked, this, [this] {
        zoneTable_->select(zones_->zone());
        below_->setCurrentWidget(zoneTable_);
    });
    connect(showRun, &QPushButton::clicked, this, [this] { below_->setCurrentWidget(run_); });
    connect(zoneTable_, &ZonesTable::zoneChosen, this, [this](int zone) {
        point({RunPart::zone, zone, -1}, false);
    });
}

void SitePlace::makeForms() {
    forms_ = new QTabWidget;
    forms_->setDocumentMode(true);
    forms_->tabBar()->setDrawBase(false);
    forms_->tabBar()->setUsesScrollButtons(false);
    forms_->setAccessibleName(tr("Figures of the site"));
    forms_->addTab(scrolled(water_ = new WaterForm(desk_)), tr("Water"));
    forms_->addTab(scrolled(zones_ = new ZonesForm(desk_)), tr("Zones"));
    forms_->addTab(scrolled(item_ = new ItemForm(desk_)), tr("Item"));
    forms_->addTab(scrolled(control_ = new ControlForm(desk_)), tr("Control"));
    forms_->addTab(scrolled(details_ = new DetailsForm(desk_)), tr("Details"));
    styleTabs();
    auto* card = new Card;
    card->content().addWidget(forms_);
    card->content().setContentsMargins(0, 0, 0, 0);
    connect(zones_, &ZonesForm::zoneChosen, this, [this](int zone) {
        point({RunPart::zone, zone, -1}, false);
    });
}

// Flat, with a line under the chosen one: five words fit beside each other at any text size in use.
void SitePlace::styleTabs() {
    forms_->setStyleSheet(QStringLiteral("QTabWidget::pane { border: none; }"
                                         "QTabBar::tab { padding: 5px 7px; border: none; color: %1;"
                                         " border-bottom: 2px solid transparent; background: transparent; }"
                                         "QTabBar::tab:selected { color: %2; border-bottom-color: %3; }"
                                         "QTabBar::tab:focus { color: %3; }")
                              .arg(theme().faint.name(), theme().text.name(), theme().accent.name()));
    forms_->tabBar()->ensurePolished();
    forms_->setMinimumWidth(
        std::max(forms_->tabBar()->sizeHint().width(), fontMetrics().averageCharWidth() * 36));
}

void SitePlace::connectDesk() {
    connect(&desk_.document, &Document::workspaceChanged, this, &SitePlace::followWorkspace);
    connect(&desk_.answers, &AnswerService::answered, this, &SitePlace::refresh);
    connect(&desk_, &Desk::unitsChanged, this, &SitePlace::refresh);
    connect(&desk_, &Desk::shownChanged, this, &SitePlace::refresh);
    connect(&desk_, &Desk::siteFormAsked, this, [this](SiteForm form) {
        setAsksQuestions(false);
        forms_->setCurrentIndex(static_cast<int>(form));
        emit desk_.placeAsked(PlaceId::site);
    });
    connect(&desk_, &Desk::themeChanged, this, [this] {
        styleTabs();
        refresh();
        update();
    });
}

void SitePlace::followWorkspace() {
    const Document& document = desk_.document;
    const bool asIfNew = document.filePath().isEmpty() && isQuestionSite(document.job().site);
    if (document.jobNumber() != askedOf_) { // another job; an edit does not bring the questions back
        askedOf_ = document.jobNumber();
        setAsksQuestions(document.isOpen() && asIfNew);
    }
    if (asks_ && !isQuestionSite(document.job().site)) setAsksQuestions(false);
    refresh();
}

void SitePlace::setAsksQuestions(bool asks) {
    asks_ = asks;
    below_->setCurrentWidget(asks ? static_cast<QWidget*>(questionsArea_) : run_);
    forms_->parentWidget()->setVisible(!asks);
    if (asks) questions_->refresh();
}

void SitePlace::showEvent(QShowEvent* event) {
    Place::showEvent(event);
    if (late_) refresh();
}

// Out of sight only the mark follows: a pin dragged at Charts must not wait for tables nobody sees.
void SitePlace::refresh() {
    late_ = !isVisible();
    if (late_) {
        emit markChanged();
        return;
    }
    if (asks_) questions_->refresh();
    askAgain_->setVisible(isQuestionSite(desk_.document.job().site));
    run_->refresh();
    zoneTable_->refresh();
    showZones_->setVisible(!desk_.document.job().site.zones.empty());
    if (desk_.document.job().site.zones.empty() && below_->currentWidget() == zoneTable_)
        below_->setCurrentWidget(run_);
    water_->refresh();
    zones_->update();
    item_->update();
    control_->refresh();
    details_->refresh();
    refreshCases();
    refreshSection();
    refreshComplaint();
    emit markChanged();
}

// One thing is chosen at a time, in the drawing, the table and the forms.
void SitePlace::point(const RunSpot& spot, bool fromTable) {
    if (pointing_ || (asks_ && fromTable)) return; // a hidden table chooses its first row when it is made
    pointing_ = true;
    section_->setSelected(spot.part == RunPart::branch ? RunSpot{RunPart::zone, spot.zone, -1} : spot);
    if (!fromTable) run_->select(spot);
    if (spot.zone >= 0) zones_->setZone(spot.zone);
    zoneTable_->select(spot.zone);
    item_->setSpot(spot);
    switch (spot.part) {
    case RunPart::source:
    case RunPart::pump:
        forms_->setCurrentIndex(kWaterTab);
        break;
    case RunPart::zone:
    case RunPart::outlet:
        forms_->setCurrentIndex(kZonesTab);
        break;
    case RunPart::tankReturn:
        forms_->setCurrentIndex(kControlTab);
        break;
    default:
        if (spot.index >= 0) forms_->setCurrentIndex(kItemTab);
    }
    pointing_ = false;
}

PlaceMark SitePlace::mark() const {
    const Site& site = desk_.document.job().site;
    if (!desk_.document.isOpen() || (site.zones.empty() && !site.end && !site.system))
        return PlaceMark::empty;
    const auto answer = desk_.answers.latest();
    return siteErrors(*answer).empty() && siteCautions(*answer).empty() ? PlaceMark::ready
                                                                        : PlaceMark::attention;
}

QString SitePlace::markWords() const {
    if (mark() == PlaceMark::empty) return tr("nothing yet");
    const auto answer = desk_.answers.latest();
    if (const auto errors = siteErrors(*answer); !errors.empty())
        return tr("%n thing(s) impossible", nullptr, static_cast<int>(errors.size()));
    if (const auto cautions = siteCautions(*answer); !cautions.empty())
        return tr("%n warning(s)", nullptr, static_cast<int>(cautions.size()));
    return tr("ready");
}

} // namespace headmark
