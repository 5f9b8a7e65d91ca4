// Tests of the desk run without a screen, with settings of their own, and a Qt warning fails the test it
// comes in.
#include "app/desktop/frame/theme.h"

#include <QApplication>
#include <QStandardPaths>

#include <gtest/gtest.h>

namespace {

void failOnWarning(QtMsgType type, const QMessageLogContext&, const QString& text) {
    // The offscreen platform's own lines, whenever a window or a drop-down list is shown.
    for (const char* own : {"propagateSizeHints", "does not support raise", "does not support grabbing"})
        if (text.contains(QLatin1String(own))) return;
    if (type == QtDebugMsg || type == QtInfoMsg) return;
    ADD_FAILURE() << "Qt warned: " << text.toStdString();
}

} // namespace

int main(int argc, char** argv) {
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
    testing::InitGoogleTest(&argc, argv);
    QStandardPaths::setTestModeEnabled(true);
    QApplication application(argc, argv);
    QCoreApplication::setOrganizationName(QStringLiteral("headmark"));
    QCoreApplication::setApplicationName(QStringLiteral("headmark-tests"));
    headmark::applyTheme(application, headmark::ThemeChoice::light);
    qInstallMessageHandler(failOnWarning);
    return RUN_ALL_TESTS();
}
