#include "app/desktop/frame/main_window.h"

#include "app/desktop/charts/charts_place.h"
#include "app/desktop/duty/duty_place.h"
#include "app/desktop/frame/card.h"
#include "app/desktop/frame/dialogs.h"
#include "app/desktop/frame/screen_phrasing.h"
#include "app/desktop/frame/shortcuts_page.h"
#include "app/desktop/frame/units_menu.h"
#include "app/desktop/site/site_place.h"
#include "app/words/error_words.h"
#include "app/words/safety_words.h"

#include <QActionGroup>
#include <QApplication>
#include <QCloseEvent>
#include <QDir>
#include <QFileInfo>
#include <QLocale>
#include <QMenuBar>
#include <QMessageBox>
#include <QToolBar>

namespace headmark {

QString samplePath() {
    const QString name = QStringLiteral("terrace-nursery.job.json");
    const QDir program(QCoreApplication::applicationDirPath());
    // Installed beside the program's data, or in the source tree it was built in.
    for (const QString& folder :
         {QStringLiteral("../share/headmark/samples"), QStringLiteral("../../../../samples"),
          QStringLiteral("../../../samples")}) {
        const QString path = QDir::cleanPath(program.filePath(folder + QLatin1Char('/') + name));
        if (QFileInfo::exists(path)) return path;
    }
    return {};
}

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
        unitsButton_->setText(unitsWords(desk_.units()));
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
    connect(rail_, &Rail::chosen, this, &MainWindow::showPlace);
    showPlace(PlaceId::site);
}

Place* MainWindow::place(PlaceId id) const { return byId_.at(id); }

void MainWindow::showPlace(PlaceId id) {
    places_->setCurrentWidget(byId_.at(id));
    rail_->setCurrent(id);
}

void MainWindow::makeActions() {
    makeFileMenu();
    makeEditMenu();
    makeViewMenu();
    QMenu* help = menuBar()->addMenu(tr("&Help"));
    help->addAction(tr("&Keys …"), QKeySequence(Qt::Key_F1), this, [this] { ShortcutsPage(this).exec(); });
    help->addAction(tr("&Safety …"), this, [this] {
        QMessageBox::information(this, tr("Safety"),
                                 usualCautions(screenPhrasing()).join(QStringLiteral("\n\n")));
    });
    help->addAction(tr("&About Headmark …"), this, [this] {
        QMessageBox::about(this, tr("About Headmark"),
                           tr("Headmark %1\nWhere a pump will run on this site, from its printed chart.\n"
                              "Licence: GPL-3.0-or-later.")
                               .arg(QCoreApplication::applicationVersion()));
    });
}

void MainWindow::makeFileMenu() {
    QMenu* file = menuBar()->addMenu(tr("&File"));
    file->addAction(tr("&New site"), QKeySequence::New, this, &MainWindow::newSite);
    file->addAction(tr("&Open a job …"), QKeySequence::Open, this, &MainWindow::openDialog);
    file->addAction(tr("Open the sam&ple"), this, &MainWindow::openSample)
        ->setEnabled(!samplePath().isEmpty());
    file->addSeparator();
    file->addAction(tr("&Save"), QKeySequence::Save, this, [this] { (void)save(); });
    file->addAction(tr("Save &as …"), QKeySequence(tr("Ctrl+Shift+S")), this, [this] { (void)saveAs(); });
    file->addSeparator();
    file->addAction(tr("&Close the job"), QKeySequence(tr("Ctrl+W")), this, [this] {
        if (!mayClose()) return;
        document_.close();
        refreshStart();
    });
    file->addAction(tr("&Quit"), QKeySequence(tr("Ctrl+Q")), this, &QWidget::close);
}

void MainWindow::makeEditMenu() {
    QMenu* edit = menuBar()->addMenu(tr("&Edit"));
    QAction* undo = document_.undoStack().createUndoAction(this, tr("&Undo"));
    undo->setShortcut(QKeySequence::Undo);
    undo->setObjectName(QStringLiteral("undo"));
    QAction* redo = document_.undoStack().createRedoAction(this, tr("&Redo"));
    redo->setShortcuts({QKeySequence(tr("Ctrl+Y")), QKeySequence(tr("Ctrl+Shift+Z"))});
    redo->setObjectName(QStringLiteral("redo"));
    edit->addAction(undo);
    edit->addAction(redo);
}

void MainWindow::makeViewMenu() {
    QMenu* view = menuBar()->addMenu(tr("&View"));
    QMenu* units = makeUnitsMenu(desk_, this);
    view->addMenu(units);
    unitsButton_->setMenu(units);
    unitsButton_->setPopupMode(QToolButton::InstantPopup);
    unitsButton_->setText(unitsWords(desk_.units()));
    unitsButton_->setToolTip(tr("Units of flow, head, pressure and length"));
    unitsButton_->setAccessibleName(tr("Units"));
    QMenu* look = view->addMenu(tr("&Look"));
    auto* group = new QActionGroup(this);
    const std::pair<ThemeChoice, QString> choices[] = {{ThemeChoice::asSystem, tr("As the &system")},
                                                       {ThemeChoice::light, tr("&Light")},
                                                       {ThemeChoice::dark, tr("&Dark")}};
    for (const auto& [choice, text] : choices) {
        QAction* action = look->addAction(text, this, [this, c = choice] { setTheme(c); });
        action->setCheckable(true);
        action->setActionGroup(group);
        action->setChecked(static_cast<int>(choice) == settings_.look());
    }
}

void MainWindow::makeToolBar() {
    auto* bar = addToolBar(tr("Job"));
    bar->setObjectName(QStringLiteral("job"));
    bar->setMovable(false);
    bar->setContextMenuPolicy(Qt::PreventContextMenu);
    title_->setFont(titleFont());
    title_->setContentsMargins(10, 4, 10, 4);
    bar->addWidget(title_);
    bar->addWidget(saved_);
    auto* gap = new QWidget;
    gap->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Preferred);
    bar->addWidget(gap);
    bar->addAction(findChild<QAction*>(QStringLiteral("undo")));
    bar->addAction(findChild<QAction*>(QStringLiteral("redo")));
    bar->addAction(tr("Open"), this, &MainWindow::openDialog);
    bar->addAction(tr("Save"), this, [this] { (void)save(); });
    bar->addWidget(unitsButton_);
}

void MainWindow::setTheme(ThemeChoice choice) {
    settings_.setLook(static_cast<int>(choice));
    applyTheme(*qApp, choice);
    emit desk_.themeChanged();
    for (QWidget* w : findChildren<QWidget*>())
        w->update();
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

bool MainWindow::mayClose() {
    if (!document_.isOpen() || !document_.isChanged()) return true;
    switch (dialogs().askToSave(this, title_->text())) {
    case SaveChoice::save:
        return save();
    case SaveChoice::discard:
        recovery_.forget();
        return true;
    case SaveChoice::cancel:
        break;
    }
    return false;
}

bool MainWindow::save() {
    if (document_.filePath().isEmpty()) return saveAs();
    if (const auto errors = document_.save(); !errors.empty()) {
        say(sentences(errors), true);
        return false;
    }
    settings_.addRecentJob(document_.filePath());
    say({});
    return true;
}

bool MainWindow::saveAs() {
    QString suggested = document_.filePath();
    if (suggested.isEmpty()) {
        QString name = QString::fromStdString(document_.job().title).toLower();
        name.replace(QLatin1Char(' '), QLatin1Char('-'));
        suggested = (name.isEmpty() ? tr("site") : name) + QStringLiteral(".job.json");
    }
    const QString path = dialogs().saveJobPath(this, suggested);
    if (path.isEmpty()) return false;
    if (const auto errors = document_.saveAs(path); !errors.empty()) {
        say(sentences(errors), true);
        return false;
    }
    settings_.addRecentJob(path);
    say({});
    return true;
}

void MainWindow::newSite() {
    if (!mayClose()) return;
    document_.startNew(blankWorkspace());
    say({});
    refreshStart();
    showPlace(PlaceId::site);
}

void MainWindow::openDialog() {
    if (!mayClose()) return;
    const QString path = dialogs().openJobPath(this);
    if (!path.isEmpty()) openJob(path);
}

void MainWindow::openJob(const QString& path) {
    if (!mayClose()) return;
    std::vector<Error> warnings;
    if (const auto errors = document_.open(path, &warnings); !errors.empty()) {
        say(sentences(errors), true);
        return;
    }
    settings_.addRecentJob(path);
    say(warnings.empty() ? QString() : sentences(warnings), true);
    desk_.show({});
    refreshStart();
    showPlace(document_.job().pumps.empty() ? PlaceId::site : PlaceId::duty);
}

void MainWindow::openPage(const QString& path) {
    if (!document_.isOpen()) document_.startNew(blankWorkspace());
    refreshStart();
    showPlace(PlaceId::charts);
    charts_->openPage(path);
}

void MainWindow::openSample() {
    const QString path = samplePath();
    if (path.isEmpty()) {
        say(tr("The sample was not found beside the program."), true);
        return;
    }
    openJob(path);
}

void MainWindow::openPath(const QString& path) {
    if (path.endsWith(QStringLiteral(".json"), Qt::CaseInsensitive))
        openJob(path);
    else
        openPage(path);
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
