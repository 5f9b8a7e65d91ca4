#pragma once
// What the program remembers between two starts, in the user's own configuration folder.

#include "app/document/display_units.h"

#include <QByteArray>
#include <QSettings>
#include <QString>
#include <QStringList>

namespace headmark {

class Settings {
  public:
    Settings();

    // Before anything was chosen: those usual where the system's language is spoken.
    [[nodiscard]] DisplayUnits units() const;
    void setUnits(const DisplayUnits& units);

    // Latest first, at most eight, only those that are still there.
    [[nodiscard]] QStringList recentJobs() const;
    void addRecentJob(const QString& path);

    // "de", "fr_CH"; empty: the system's.
    [[nodiscard]] QString language() const;
    void setLanguage(const QString& language);

    // 0: with the system; the desk's theme gives the others their meaning.
    [[nodiscard]] int look() const;
    void setLook(int look);

    [[nodiscard]] QByteArray windowGeometry() const;
    [[nodiscard]] QByteArray windowState() const;
    void setWindow(const QByteArray& geometry, const QByteArray& state);

    // A main window's size, place, bars and docks. A template, so that this library needs no widgets.
    template <class Window>
    void keepWindow(const Window& window) {
        setWindow(window.saveGeometry(), window.saveState());
    }
    template <class Window>
    void restoreWindow(Window& window) const {
        if (const QByteArray geometry = windowGeometry(); !geometry.isEmpty())
            window.restoreGeometry(geometry);
        if (const QByteArray state = windowState(); !state.isEmpty()) window.restoreState(state);
    }

  private:
    [[nodiscard]] int chosen(const QString& key, int usual, int choices) const;
    QSettings store_;
};

} // namespace headmark
