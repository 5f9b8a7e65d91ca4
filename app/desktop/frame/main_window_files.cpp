// Opening, saving and closing what the window shows.

#include "app/desktop/frame/main_window.h"

#include "app/desktop/charts/charts_place.h"
#include "app/desktop/charts/page_intake.h"
#include "app/desktop/frame/dialogs.h"
#include "app/words/error_words.h"

#include <QCoreApplication>
#include <QDir>
#include <QDragEnterEvent>
#include <QFileInfo>

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

// At every place: a page dropped on Site or Duty is looked at in Charts.
void MainWindow::dragEnterEvent(QDragEnterEvent* event) {
    if (!filesIn(*event->mimeData()).isEmpty()) event->acceptProposedAction();
}

void MainWindow::dropEvent(QDropEvent* event) {
    const QStringList files = filesIn(*event->mimeData());
    if (files.isEmpty()) return;
    event->acceptProposedAction();
    openPath(files.front());
}

} // namespace headmark
