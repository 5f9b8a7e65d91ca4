#include "app/document/settings.h"

#include <QFileInfo>
#include <QLocale>
#include <QStandardPaths>

namespace headmark {

namespace {

constexpr qsizetype kMostRecent = 8;

constexpr int kFlowUnits = 5, kHeadUnits = 2, kPressureUnits = 4, kLengthUnits = 2;

// A file of our own: tests then keep theirs apart by QStandardPaths' test mode.
QString path() {
    return QStandardPaths::writableLocation(QStandardPaths::AppConfigLocation) +
           QStringLiteral("/headmark.ini");
}

DisplayUnits usualUnits() {
    if (QLocale::system().measurementSystem() != QLocale::ImperialUSSystem) return {};
    return {FlowUnit::usGallonsPerMinute, HeadUnit::feet, PressureUnit::psi, LengthUnit::feet};
}

} // namespace

Settings::Settings() : store_(path(), QSettings::IniFormat) {}

// A value from a newer program, or one edited by hand, counts as never chosen.
int Settings::chosen(const QString& key, int usual, int choices) const {
    bool isNumber = false;
    const int value = store_.value(key, usual).toInt(&isNumber);
    return isNumber && value >= 0 && value < choices ? value : usual;
}

DisplayUnits Settings::units() const {
    const DisplayUnits usual = usualUnits();
    DisplayUnits units;
    units.flow =
        static_cast<FlowUnit>(chosen(QStringLiteral("units/flow"), static_cast<int>(usual.flow), kFlowUnits));
    units.head =
        static_cast<HeadUnit>(chosen(QStringLiteral("units/head"), static_cast<int>(usual.head), kHeadUnits));
    units.pressure = static_cast<PressureUnit>(
        chosen(QStringLiteral("units/pressure"), static_cast<int>(usual.pressure), kPressureUnits));
    units.length = static_cast<LengthUnit>(
        chosen(QStringLiteral("units/length"), static_cast<int>(usual.length), kLengthUnits));
    return units;
}

void Settings::setUnits(const DisplayUnits& units) {
    store_.setValue(QStringLiteral("units/flow"), static_cast<int>(units.flow));
    store_.setValue(QStringLiteral("units/head"), static_cast<int>(units.head));
    store_.setValue(QStringLiteral("units/pressure"), static_cast<int>(units.pressure));
    store_.setValue(QStringLiteral("units/length"), static_cast<int>(units.length));
}

QStringList Settings::recentJobs() const {
    QStringList there;
    for (const QString& job : store_.value(QStringLiteral("recentJobs")).toStringList()) {
        if (there.size() < kMostRecent && QFileInfo(job).isFile()) there.append(job);
    }
    return there;
}

void Settings::addRecentJob(const QString& job) {
    const QString absolute = QFileInfo(job).absoluteFilePath();
    QStringList jobs = recentJobs();
    jobs.removeAll(absolute);
    jobs.prepend(absolute);
    store_.setValue(QStringLiteral("recentJobs"), jobs.mid(0, kMostRecent));
}

QString Settings::language() const { return store_.value(QStringLiteral("language")).toString(); }
void Settings::setLanguage(const QString& language) { store_.setValue(QStringLiteral("language"), language); }

int Settings::look() const { return store_.value(QStringLiteral("look"), 0).toInt(); }
void Settings::setLook(int look) { store_.setValue(QStringLiteral("look"), look); }

QByteArray Settings::windowGeometry() const {
    return store_.value(QStringLiteral("window/geometry")).toByteArray();
}
QByteArray Settings::windowState() const {
    return store_.value(QStringLiteral("window/state")).toByteArray();
}

void Settings::setWindow(const QByteArray& geometry, const QByteArray& state) {
    store_.setValue(QStringLiteral("window/geometry"), geometry);
    store_.setValue(QStringLiteral("window/state"), state);
}

} // namespace headmark
