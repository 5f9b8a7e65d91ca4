#include "app/desktop/frame/main_window.h"

#include "app/desktop/charts/charts_place.h"
#include "app/desktop/duty/duty_place.h"
#include "app/desktop/frame/card.h"
#include "app/desktop/frame/units_menu.h"
#include "app/desktop/installation/installation_place.h"
#include "app/desktop/shifts/shifts_place.h"
#include "app/desktop/site/site_place.h"

#include <QCloseEvent>
#include <QLocale>

namespace headmark {

MainWindow::MainWindow(QWidget* parent)
    : QMainWindow(parent), answers_(document_), recovery_(document_), desk_(document_, answers_),
      rail_(new Rail), messages_(new MessageBar), stack_(new QStackedWidget), work_(new QWidget),
      places_(new QStackedWidget), strip_(nullptr), start_(new StartView), title_(new QLabel),
      saved_(faintLabel({})), unitsButton_(new QToolButton) {
    desk_.setUnits(settings_.units());
    strip_ = new AnswerStrip(desk_);
    makePlaces();
    auto* row = new QHBoxLayout(work_);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(0);
    row->addWidget(rail_);
    row->addWidget(places_, 1);
    stack_->addWidget(start_);
    stack_->addWidget(work_);
    auto* all = new QWidget;
    auto* column = new QVBoxLayout(all);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(messages_);
    column->addWidget(stack_, 1);
    column->addWidget(strip_);
    setCentralWidget(all);
    makeActions();
    makeToolBar();

    connect(&desk_, &Desk::said, this, &MainWindow::say);
    connect(&desk_, &Desk::placeAsked, this, &MainWindow::showPlace);
    connect(&desk_, &Desk::workingAsked, this, [this] { showPlace(PlaceId::duty); });
    connect(&desk_, &Desk::unitsChanged, this, [this] {
        settings_.setUnits(desk_.units());
        refreshUnits();
    });
    connect(&document_, &Document::fileChanged, this, &MainWindow::refreshTitle);
    connect(&document_, &Document::workspaceChanged, this, &MainWindow::refreshTitle);
    connect(start_, &StartView::newSiteAsked, this, &MainWindow::newSite);
    connect(start_, &StartView::openAsked, this, &MainWindow::openDialog);
    connect(start_, &StartView::pathChosen, this, &MainWindow::openJob);
    connect(start_, &StartView::sampleAsked, this, &MainWindow::openSample);
    connect(start_, &StartView::pageDropped, this, &MainWindow::openPage);
    connect(start_, &StartView::restoreAsked, this, [this](const QString& id) {
        if (!recovery_.restore(id)) say(tr("That work could not be read; it was left where it is."), true);
        refreshTitle();
    });
    connect(start_, &StartView::discardAsked, this, [this](const QString& id) {
        recovery_.discard(id);
        refreshStart();
    });
    setAcceptDrops(true);
    resize(1280, 800);
    settings_.restoreWindow(*this);
    refreshStart();
    refreshTitle();
}

void MainWindow::makePlaces() {
    const auto add = [this](PlaceId id, Place* place, const QString& text, const QKeySequence& keys) {
        byId_[id] = place;
        places_->addWidget(place);
        rail_->add(id, text, keys);
        const auto mark = [this, id, place] { rail_->setMark(id, place->mark(), place->markWords()); };
        connect(place, &Place::markChanged, this, mark);
        mark();
    };
    add(PlaceId::site, new SitePlace(desk_, nullptr), tr("Site"), QKeySequence(tr("Alt+1")));
    charts_ = new ChartsPlace(desk_, nullptr);
    add(PlaceId::charts, charts_, tr("Charts"), QKeySequence(tr("Alt+2")));
    add(PlaceId::duty, new DutyPlace(desk_, nullptr), tr("Duty"), QKeySequence(tr("Alt+3")));
    add(PlaceId::shifts, new ShiftsPlace(desk_, nullptr), tr("Shifts"), QKeySequence(tr("Alt+4")));
    add(PlaceId::installation, new InstallationPlace(desk_, nullptr), tr("Installation"),
        QKeySequence(tr("Alt+5")));
    connect(rail_, &Rail::chosen, this, &MainWindow::showPlace);
    showPlace(PlaceId::site);
}

Place* MainWindow::place(PlaceId id) const { return byId_.at(id); }

void MainWindow::showPlace(PlaceId id) {
    places_->setCurrentWidget(byId_.at(id));
    rail_->setCurrent(id);
}

void MainWindow::say(const QString& sentence, bool isError) { messages_->say(sentence, isError); }

void MainWindow::refreshStart() {
    start_->setRecent(settings_.recentJobs());
    start_->setSampleAvailable(!samplePath().isEmpty());
    std::vector<LeftWork> left;
    for (const auto& pending : recovery_.pending())
        left.push_back(
            {pending.id, pending.title, QLocale().toString(pending.changed, QLocale::ShortFormat)});
    start_->setLeftWork(left);
    stack_->setCurrentWidget(document_.isOpen() ? work_ : static_cast<QWidget*>(start_));
    strip_->setVisible(document_.isOpen());
}

void MainWindow::refreshTitle() {
    const bool open = document_.isOpen();
    if (open != (stack_->currentWidget() == work_)) refreshStart();
    const QString title = QString::fromStdString(document_.job().title);
    const QString shown = !open ? tr("Headmark") : title.isEmpty() ? tr("Untitled site") : title;
    title_->setText(shown);
    const bool unsaved = document_.isChanged() || document_.filePath().isEmpty();
    saved_->setText(!open ? QString() : unsaved ? tr("not saved") : tr("saved"));
    setWindowTitle(open ? tr("%1[*] – Headmark").arg(shown) : tr("Headmark"));
    setWindowModified(open && document_.isChanged());
}

void MainWindow::closeEvent(QCloseEvent* event) {
    if (!mayClose()) {
        event->ignore();
        return;
    }
    settings_.keepWindow(*this);
    document_.close();
    event->accept();
}

void MainWindow::changeEvent(QEvent* event) {
    QMainWindow::changeEvent(event);
    if (event->type() == QEvent::PaletteChange) emit desk_.themeChanged();
}

} // namespace headmark
