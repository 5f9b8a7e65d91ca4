#pragma once
// What the items of a run, the kinds of source and the outlets of a zone are called on the screen, and in
// which sizes the catalogue has them.

#include "analysis/duty/site.h"
#include "app/document/display_units.h"

#include <QString>

#include <vector>

namespace headmark {

[[nodiscard]] QString itemName(const RunItem& item);
[[nodiscard]] QString itemSize(const RunItem& item);
// The one figure that sets the item, as text: length, set pressure, k, Kv; empty: it has none.
[[nodiscard]] QString itemSetting(const RunItem& item, const DisplayUnits& units);

[[nodiscard]] QString pipeName(const PipeKind& kind);
[[nodiscard]] QString pipeSize(const PipeKind& kind);
[[nodiscard]] QString sourceName(const std::string& kind); // "Water" where no kind is said
[[nodiscard]] QString emittersWords(const Zone& zone, const DisplayUnits& units);

// The same item in every size the catalogue has; for a fitting first "as the pipe".
struct SizeChoice {
    QString words;
    RunItem item;
};
[[nodiscard]] std::vector<SizeChoice> sizeChoices(const RunItem& item);

// As many decimals as the figure was typed with, at most six: 12.25 stays 12.25, 60 stays 60.
[[nodiscard]] int enoughDecimals(double figure);
[[nodiscard]] QString exactFigure(double figure);

} // namespace headmark
