#include "analysis/connections/schematic_labels.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace headmark::connections {

namespace {

constexpr double kRing_mm = 3.1; // radius of a number's ring
constexpr double kText_mm = 2.6;
constexpr double kAir_mm = 0.4;
constexpr double kRow_mm = 13.0; // of the numbers under the line
constexpr double kTier_mm = 7.0;
constexpr double kFarthest_mm = 90.0;
constexpr double kMargin = 6.0;

DrawPoint nearest(const DrawBox& box, DrawPoint to) {
    return {std::clamp(to.x, box.left, box.right()), std::clamp(to.y, box.top, box.bottom())};
}

DrawBox ringBox(DrawPoint centre) {
    return {centre.x - kRing_mm, centre.y - kRing_mm, 2.0 * kRing_mm, 2.0 * kRing_mm};
}

class Numbering {
  public:
    Numbering(Schematic& drawing, const ConnectionSheet& sheet, const std::vector<DrawBox>& obstacles)
        : drawing_(drawing), sheet_(sheet), obstacles_(obstacles) {}

    void run() {
        // What hangs has the least choice of room.
        for (const bool hanging : {true, false}) {
            for (const SchematicSymbol& symbol : drawing_.symbols) {
                const PlacedPart& part = sheet_.parts[symbol.part];
                if ((part.branchOf || part.line == SheetLine::control) == hanging) number(symbol, hanging);
            }
        }
    }

  private:
    void number(const SchematicSymbol& symbol, bool hanging) {
        for (const DrawPoint& at : hanging ? beside(symbol) : under(symbol)) {
            if (free(at, symbol)) {
                put(at, symbol);
                return;
            }
        }
        for (double distance = kRing_mm + 2.0; distance < kFarthest_mm; distance += 1.5) {
            for (int angle = 0; angle < 360; angle += 15) {
                const double radians = angle * std::numbers::pi / 180.0;
                const DrawPoint from = symbol.box.centre();
                const DrawPoint at{from.x + (symbol.box.width / 2.0 + distance) * std::cos(radians),
                                   from.y + (symbol.box.height / 2.0 + distance) * std::sin(radians)};
                if (free(at, symbol)) {
                    put(at, symbol);
                    return;
                }
            }
        }
        put({symbol.box.centre().x, symbol.box.bottom() + kFarthest_mm}, symbol);
    }

    // Numbers of the line stand in a row under it where they can.
    static std::vector<DrawPoint> under(const SchematicSymbol& symbol) {
        const DrawPoint c = symbol.box.centre();
        std::vector<DrawPoint> places;
        if (symbol.facing == Facing::up || symbol.facing == Facing::down)
            return {{symbol.box.right() + kRing_mm + 2.0, c.y}, {symbol.box.left - kRing_mm - 2.0, c.y}};
        for (const double side : {1.0, -1.0}) {
            for (int tier = 0; tier < 3; ++tier)
                places.push_back({c.x, c.y + side * (kRow_mm + tier * kTier_mm)});
        }
        return places;
    }

    static std::vector<DrawPoint> beside(const SchematicSymbol& symbol) {
        const DrawPoint c = symbol.box.centre();
        const double away = kRing_mm + 1.4;
        return {{symbol.box.right() + away, c.y},
                {symbol.box.left - away, c.y},
                {c.x, symbol.box.top - away},
                {c.x, symbol.box.bottom() + away}};
    }

    bool free(DrawPoint at, const SchematicSymbol& own) const {
        const DrawBox box = ringBox(at).grown(kAir_mm);
        const DrawPoint end = nearest(own.box, at);
        for (const SchematicSymbol& symbol : drawing_.symbols) {
            if (box.overlaps(symbol.box)) return false;
            if (symbol.part != own.part && symbol.box.crossedBy(at, end)) return false;
        }
        for (const SchematicLabel& label : drawing_.labels) {
            if (box.overlaps(label.box) || label.box.crossedBy(at, end)) return false;
        }
        for (const DrawBox& leader : leaders_) {
            if (box.overlaps(leader)) return false;
        }
        return std::none_of(obstacles_.begin(), obstacles_.end(),
                            [&](const DrawBox& o) { return box.overlaps(o); });
    }

    void put(DrawPoint at, const SchematicSymbol& symbol) {
        SchematicLabel label;
        label.part = symbol.part;
        label.text = std::to_string(symbol.part + 1);
        label.box = ringBox(at);
        label.strokes = {circleStroke(at, kRing_mm), textStroke(at, label.text, kText_mm)};
        const DrawPoint end = nearest(symbol.box, at);
        const double length = std::hypot(end.x - at.x, end.y - at.y);
        if (length > kRing_mm) {
            const DrawPoint start{at.x + (end.x - at.x) * kRing_mm / length,
                                  at.y + (end.y - at.y) * kRing_mm / length};
            label.strokes.push_back(lineStroke({start, end}));
            leaders_.push_back({std::min(start.x, end.x) - 0.1, std::min(start.y, end.y) - 0.1,
                                std::abs(end.x - start.x) + 0.2, std::abs(end.y - start.y) + 0.2});
        }
        drawing_.labels.push_back(std::move(label));
    }

    Schematic& drawing_;
    const ConnectionSheet& sheet_;
    const std::vector<DrawBox>& obstacles_;
    std::vector<DrawBox> leaders_;
};

} // namespace

void addNumbers(Schematic& drawing, const ConnectionSheet& sheet, const std::vector<DrawBox>& obstacles) {
    Numbering(drawing, sheet, obstacles).run();
}

void moveIntoSheet(Schematic& drawing) {
    std::vector<Stroke> all = drawing.strokes();
    for (const SchematicSymbol& symbol : drawing.symbols)
        all.push_back(boxStroke(symbol.box));
    for (const SchematicLabel& label : drawing.labels)
        all.push_back(boxStroke(label.box));
    const DrawBox extent = extentOf(all).grown(kMargin);
    const DrawPoint by{-extent.left, -extent.top};
    const auto move = [&](std::vector<Stroke>& strokes) {
        for (Stroke& stroke : strokes)
            stroke = placedStroke(std::move(stroke), 0, by);
    };
    move(drawing.pipes);
    for (SchematicSymbol& symbol : drawing.symbols) {
        move(symbol.strokes);
        symbol.box = {symbol.box.left + by.x, symbol.box.top + by.y, symbol.box.width, symbol.box.height};
    }
    for (SchematicLabel& label : drawing.labels) {
        move(label.strokes);
        label.box = {label.box.left + by.x, label.box.top + by.y, label.box.width, label.box.height};
    }
    drawing.width = extent.width;
    drawing.height = extent.height;
}

} // namespace headmark::connections
