#pragma once
// A drawing of a connection sheet as SVG 1.1: one user unit is one millimetre, black on nothing, words in the
// phrasing's language. For the command line and for export from the screen alike.

#include "analysis/connections/schematic.h"
#include "app/words/phrasing.h"

#include <QByteArray>

namespace headmark {

[[nodiscard]] QByteArray drawingSvg(const Schematic& drawing, const QString& title, const Phrasing& phrasing);

} // namespace headmark
