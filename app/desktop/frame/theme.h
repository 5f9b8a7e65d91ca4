#pragma once
// Colours and measures of every screen, light and dark. Curves take the Okabe-Ito colours, which people with
// any colour sight can tell apart; colour is never the only sign.

#include <QApplication>
#include <QColor>
#include <QFont>

namespace headmark {

enum class ThemeChoice { asSystem, light, dark };

struct Theme {
    bool dark = false;
    QColor window;         // behind everything
    QColor surface;        // cards, tables, the page's frame
    QColor sunken;         // rail, fields at rest
    QColor border, handle; // handle: of scroll bars
    QColor text, faint;    // faint: units, explanations
    QColor accent, accentText;
    QColor strip, stripText, stripFaint; // the answer strip
    QColor good, warning, danger, note;
    QColor pumpCurve, systemCurve, efficiency, power, npsh, delivered, preferred; // plots
    QColor pin;                                                                   // pins on a page
};

// The theme in force.
[[nodiscard]] const Theme& theme();

// Palette and style of the whole program.
void applyTheme(QApplication& application, ThemeChoice choice);

// Text sizes relative to the program's font, which follows the system.
[[nodiscard]] QFont titleFont();  // of a card
[[nodiscard]] QFont figureFont(); // of the answer strip
[[nodiscard]] QFont smallFont();

} // namespace headmark
