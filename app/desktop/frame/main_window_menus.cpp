// The window's menus and tool bar.

#include "app/desktop/frame/main_window.h"

#include "app/desktop/frame/screen_phrasing.h"
#include "app/desktop/frame/shortcuts_page.h"
#include "app/desktop/frame/units_menu.h"
#include "app/words/safety_words.h"

#include <QActionGroup>
#include <QApplication>
#include <QMenuBar>
#include <QMessageBox>
#include <QToolBar>

namespace headmark {

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
    refreshUnits();
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

void MainWindow::refreshUnits() { unitsButton_->setText(unitsWords(desk_.units())); }

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

} // namespace headmark
