// headmark: the desk.
#include "app/desktop/frame/main_window.h"

#include <QApplication>
#include <QLocale>
#include <QTranslator>

int main(int argc, char** argv) {
    QApplication application(argc, argv);
    QCoreApplication::setOrganizationName(QStringLiteral("headmark"));
    QCoreApplication::setApplicationName(QStringLiteral("headmark"));
    QCoreApplication::setApplicationVersion(QStringLiteral(HEADMARK_VERSION));
    QGuiApplication::setDesktopFileName(QStringLiteral("headmark"));
    QApplication::setWindowIcon(QIcon(QStringLiteral(":/headmark/headmark.svg")));
    headmark::applyTheme(application, static_cast<headmark::ThemeChoice>(headmark::Settings().look()));
    headmark::MainWindow window;
    const QStringList arguments = QCoreApplication::arguments();
    window.show();
    if (arguments.size() > 1) window.openPath(arguments.at(1));
    return QApplication::exec();
}
