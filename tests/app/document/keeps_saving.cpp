// A program to be killed: saves one state after the other, or leaves unsaved work behind.
//   keeps_saving save JOB       state n: title "State n", a long note of it, and the reading's line "line n";
//                               says n after each save
//   keeps_saving work NAME      unsaved work titled "Left behind" under the application's name NAME; says
//   "ready"
#include "app/document/recovery.h"
#include "document_fixtures.h"

#include <QGuiApplication>
#include <QStandardPaths>

#include <iostream>
#include <string>
#include <unistd.h>

namespace {

using namespace headmark;

void toState(Workspace& workspace, int number) {
    workspace.job.title = "State " + std::to_string(number);
    workspace.job.notes = std::string(20000, static_cast<char>('a' + number % 26));
    Reading reading = *workspace.charts.at(0).reading;
    reading.lines.at(0).name = "line " + std::to_string(number);
    workspace.charts[0].reading = std::make_shared<const Reading>(std::move(reading));
}

int keepSaving(const QString& job) {
    Document document;
    if (!document.open(job).empty()) return 1;
    const int first = QString::fromStdString(document.job().title).section(QLatin1Char(' '), 1).toInt();
    for (int number = first + 1;; ++number) {
        document.edit(QStringLiteral("Next"), [&](Workspace& w) { toState(w, number); });
        if (!document.save().empty()) return 1;
        std::cout << number << std::endl;
    }
}

int leaveWork() {
    Document document;
    Recovery recovery(document);
    document.startNew(blankWorkspace());
    document.edit(QStringLiteral("Name it"), [](Workspace& w) { w.job.title = "Left behind"; });
    recovery.flush();
    std::cout << "ready" << std::endl;
    pause(); // until killed
    return 1;
}

} // namespace

int main(int argc, char** argv) {
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
    QStandardPaths::setTestModeEnabled(true);
    QGuiApplication application(argc, argv);
    const QStringList arguments = QCoreApplication::arguments();
    if (arguments.size() != 3) return 2;
    if (arguments[1] == QLatin1String("save")) return keepSaving(arguments[2]);
    QCoreApplication::setOrganizationName(QStringLiteral("headmark"));
    QCoreApplication::setApplicationName(arguments[2]);
    return leaveWork();
}
