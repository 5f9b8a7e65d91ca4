#include "analysis/connections/schematic.h"

#include "analysis/connections/symbols.h"
#include "sheet_sites.h"

#include <cmath>

namespace headmark {
namespace {

using namespace testing;

template <class Check>
void onEveryDrawing(Check check) {
    for (const NamedSite& named : sitesOfEveryKind()) {
        for (const Variant& variant : outletVariants()) {
            SCOPED_TRACE(named.name + ", " + variant.name);
            const ConnectionSheet sheet = sheetOf(withVariant(named.site, variant), variant);
            check(sheet, schematicOf(sheet));
        }
    }
}

TEST(Schematic, KeepsItsLabelsApartAndOffTheSymbols) {
    onEveryDrawing([](const ConnectionSheet& sheet, const Schematic& drawing) {
        for (std::size_t i = 0; i < drawing.labels.size(); ++i) {
            for (std::size_t k = i + 1; k < drawing.labels.size(); ++k)
                EXPECT_FALSE(drawing.labels[i].box.overlaps(drawing.labels[k].box))
                    << drawing.labels[i].text << " on " << drawing.labels[k].text;
            for (const SchematicSymbol& symbol : drawing.symbols)
                EXPECT_FALSE(drawing.labels[i].box.overlaps(symbol.box))
                    << drawing.labels[i].text << " on " << sheet.parts[symbol.part].part;
        }
    });
}

TEST(Schematic, KeepsItsSymbolsApart) {
    onEveryDrawing([](const ConnectionSheet& sheet, const Schematic& drawing) {
        for (std::size_t i = 0; i < drawing.symbols.size(); ++i) {
            for (std::size_t k = i + 1; k < drawing.symbols.size(); ++k)
                EXPECT_FALSE(drawing.symbols[i].box.overlaps(drawing.symbols[k].box))
                    << sheet.parts[drawing.symbols[i].part].part << " on "
                    << sheet.parts[drawing.symbols[k].part].part;
        }
    });
}

TEST(Schematic, LiesWhollyInsideTheSheet) {
    onEveryDrawing([](const ConnectionSheet&, const Schematic& drawing) {
        const DrawBox sheet{0.0, 0.0, drawing.width, drawing.height};
        for (const SchematicSymbol& symbol : drawing.symbols)
            EXPECT_TRUE(sheet.contains(symbol.box)) << symbol.kind;
        for (const SchematicLabel& label : drawing.labels)
            EXPECT_TRUE(sheet.contains(label.box)) << label.text;
        EXPECT_TRUE(sheet.contains(extentOf(drawing.strokes())));
        // Numbers 2.6 mm high stay legible across an A4 sheet of 277 mm within its margins.
        EXPECT_LT(drawing.width, 400.0);
        EXPECT_LT(drawing.height, 330.0);
    });
}

TEST(Schematic, DrawsAndNumbersEveryPartButTheMain) {
    onEveryDrawing([](const ConnectionSheet& sheet, const Schematic& drawing) {
        std::vector<int> drawn(sheet.parts.size(), 0), numbered(sheet.parts.size(), 0);
        for (const SchematicSymbol& symbol : drawing.symbols)
            ++drawn[symbol.part];
        for (const SchematicLabel& label : drawing.labels) {
            if (!label.part) continue;
            ++numbered[*label.part];
            EXPECT_EQ(label.text, std::to_string(*label.part + 1));
        }
        for (std::size_t i = 0; i < sheet.parts.size(); ++i) {
            const int wanted = sheet.parts[i].line == SheetLine::main ? 0 : 1;
            EXPECT_EQ(drawn[i], wanted) << sheet.parts[i].part;
            EXPECT_EQ(numbered[i], wanted) << sheet.parts[i].part;
        }
    });
}

TEST(Schematic, LeadsTheWaterFromLeftToRightThroughThePump) {
    onEveryDrawing([](const ConnectionSheet& sheet, const Schematic& drawing) {
        DrawPoint last{-1.0, 0.0};
        int rows = 1;
        for (const SchematicSymbol& symbol : drawing.symbols) {
            const PlacedPart& part = sheet.parts[symbol.part];
            if (part.branchOf || part.line == SheetLine::control || symbol.facing != Facing::right) continue;
            const DrawPoint at = symbol.box.centre();
            const bool back = at.x < last.x;
            EXPECT_TRUE(!back || at.y > last.y + 40.0) << part.part;
            rows += back ? 1 : 0;
            last = at;
        }
        EXPECT_LE(rows, 2);
    });
}

TEST(Symbols, StayWithinTheirSizeAlongTheWater) {
    for (const PartRow& part : partRows()) {
        const DrawBox extent = extentOf(symbolStrokes(part.symbol));
        EXPECT_LE(extent.width, symbolSize(part.symbol).length + 0.8) << part.symbol;
        EXPECT_EQ(extent.width > 0.0, part.symbol != "none") << part.symbol;
    }
}

TEST(Strokes, TurnClockwiseAndMirrorTheirArcs) {
    const Stroke turned = placedStroke(lineStroke({{1.0, 0.0}, {0.0, 2.0}}), 1, {10.0, 20.0});
    EXPECT_EQ(turned.points[0], (DrawPoint{10.0, 21.0})); // right becomes down
    EXPECT_EQ(turned.points[1], (DrawPoint{8.0, 20.0}));  // down becomes left
    EXPECT_EQ(placedStroke(arcStroke({0, 0}, 1.0, 0.0, 90.0), 3, {0, 0}).from_deg, 270.0);
}

TEST(DrawBox, KnowsWhatCrossesIt) {
    const DrawBox box{0.0, 0.0, 10.0, 4.0};
    EXPECT_TRUE(box.crossedBy({-5.0, 2.0}, {15.0, 2.0}));
    EXPECT_TRUE(box.crossedBy({5.0, 1.0}, {5.0, 9.0}));
    EXPECT_FALSE(box.crossedBy({-5.0, 5.0}, {15.0, 5.0}));
    EXPECT_FALSE(box.overlaps({10.0, 0.0, 2.0, 2.0})); // touching is not overlapping
}

} // namespace
} // namespace headmark
