#pragma once
// One place of the desk: a page of the main window with its mark in the rail.

#include "app/desktop/frame/desk.h"

#include <QWidget>

namespace headmark {

enum class PlaceMark { empty, ready, attention };

class Place : public QWidget {
    Q_OBJECT

  public:
    Place(Desk& desk, QWidget* parent) : QWidget(parent), desk_(desk) {}

    [[nodiscard]] virtual PlaceMark mark() const = 0;
    // A few words beside the mark, read aloud and shown as tip: "2 warnings".
    [[nodiscard]] virtual QString markWords() const = 0;

  signals:
    void markChanged();

  protected:
    Desk& desk_;
};

} // namespace headmark
