#pragma once
// The drawing of a connection sheet, independent of any painter: symbols, pipes and numbers in millimetres on
// paper, x right, y down. Water flows from left to right, the pump stands between inlet and outlet; what
// hangs on a tee stands above it, drain and tank return below; a long line goes on in a second row, with a
// letter in a ring at both its ends. A number in a ring is the part's index + 1.
// Parts along the main are not drawn: the line ends at the main with an arrow. Numbers overlap neither each
// other nor any symbol, and their leaders cross none.

#include "analysis/connections/connection_sheet.h"
#include "analysis/connections/strokes.h"

#include <optional>

namespace headmark {

enum class Facing { right, down, left, up };

struct SchematicSymbol {
    std::size_t part = 0;
    std::string kind;
    Facing facing = Facing::right; // the way the water runs through it
    DrawBox box;
    std::vector<Stroke> strokes;
};

struct SchematicLabel {
    std::optional<std::size_t> part; // empty: a caption
    std::string text;
    bool word = false; // text is a code worded in part_words; the box is what room there is
    DrawBox box;
    std::vector<Stroke> strokes;
};

struct Schematic {
    double width = 0.0, height = 0.0;
    std::vector<SchematicSymbol> symbols;
    std::vector<Stroke> pipes; // with tank, water level and arrows of flow
    std::vector<SchematicLabel> labels;

    [[nodiscard]] std::vector<Stroke> strokes() const; // all, in the order of drawing
};

[[nodiscard]] Schematic schematicOf(const ConnectionSheet& sheet);

} // namespace headmark
