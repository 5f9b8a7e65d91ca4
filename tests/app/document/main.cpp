// Tests of the document run without a screen and with settings and recovery files of their own.
#include <QCoreApplication>
#include <QDir>
#include <QGuiApplication>
#include <QStandardPaths>

#include <gtest/gtest.h>

int main(int argc, char** argv) {
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
    testing::InitGoogleTest(&argc, argv);
    QStandardPaths::setTestModeEnabled(true);
    QGuiApplication application(argc, argv);
    QCoreApplication::setOrganizationName(QStringLiteral("headmark"));
    // Tests run side by side: each process has folders of its own.
    QCoreApplication::setApplicationName(
        QStringLiteral("headmark-tests-%1").arg(QCoreApplication::applicationPid()));
    const int failed = RUN_ALL_TESTS();
    for (const auto place : {QStandardPaths::AppDataLocation, QStandardPaths::AppConfigLocation})
        QDir(QStandardPaths::writableLocation(place)).removeRecursively();
    return failed;
}
