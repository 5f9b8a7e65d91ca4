#include "analysis/connections/schematic.h"

#include "analysis/connections/schematic_labels.h"
#include "analysis/connections/symbols.h"

#include <algorithm>

namespace headmark {

namespace {

// Sizes of the drawing in mm, ours.
constexpr double kGap = 1.6; // between two symbols
constexpr double kArrowGap = 5.6;
constexpr double kPitch = 7.4;      // least distance of two middles, so that numbers fit side by side
constexpr double kBranchFoot = 3.6; // from the axis to the mouth of a tee's branch
constexpr double kTankWidth = 34.0;
constexpr double kLongestRow = 280.0; // about A4 across; a longer line goes on in a second row
constexpr double kCaption = 3.2;      // height of a caption's capitals
constexpr double kCaptionRoom = 46.0, kNoteRoom = 30.0; // of the longest caption, of "to the main"

int turnsOf(Facing facing) { return static_cast<int>(facing); }

// Drawn with its ends the other way round: the symbols show a tail's thread and a reducer's wide end first.
bool mirrored(const PlacedPart& part) {
    const std::string& group = part.row().group;
    if (part.ends.size() < 2) return false;
    if (group == "tail") return part.ends[0].kind == EndKind::tail;
    if (group == "reducer" && part.ends[0].kind == EndKind::thread)
        return threadSizeIndex(part.ends[0].size) < threadSizeIndex(part.ends[1].size);
    if (group == "reducer") return part.ends[0].diameter_mm < part.ends[1].diameter_mm;
    if (part.row().symbol == "adaptor") return part.ends[0].kind == EndKind::thread;
    return false;
}

Stroke arrow(DrawPoint tip, Facing facing) {
    return placedStroke(polygonStroke({{0, 0}, {-3.0, -1.3}, {-3.0, 1.3}}, true), turnsOf(facing), tip);
}

class Layout {
  public:
    explicit Layout(const ConnectionSheet& sheet) : sheet_(sheet) {}

    Schematic made() {
        if (sheet_.submersible) {
            pumpInWater();
        } else {
            inlet();
            line(sheet_.pump);
        }
        const std::vector<std::size_t> rest = outlet();
        branches(0);
        control();
        if (rest.empty())
            toMain();
        else
            secondRow(rest);
        captions();
        connections::addNumbers(drawing_, sheet_, obstacles_);
        connections::moveIntoSheet(drawing_);
        return std::move(drawing_);
    }

  private:
    std::vector<std::size_t> lineParts(SheetLine line) const {
        std::vector<std::size_t> found;
        for (std::size_t i = 0; i < sheet_.parts.size(); ++i) {
            if (sheet_.parts[i].line == line && !sheet_.parts[i].branchOf) found.push_back(i);
        }
        return found;
    }

    static bool isPipe(const PlacedPart& part) { return part.part == "pipe" || part.part == "hose"; }

    const SchematicSymbol& symbolAt(std::size_t part, DrawPoint centre, Facing facing) {
        const PlacedPart& placed = sheet_.parts[part];
        SchematicSymbol symbol;
        symbol.part = part;
        symbol.kind = placed.row().symbol;
        symbol.facing = facing;
        for (const Stroke& stroke : symbolStrokes(symbol.kind, mirrored(placed)))
            symbol.strokes.push_back(placedStroke(stroke, turnsOf(facing), centre));
        symbol.box = extentOf(symbol.strokes);
        drawing_.symbols.push_back(std::move(symbol));
        return drawing_.symbols.back();
    }

    void pipeLine(std::vector<DrawPoint> points) {
        for (std::size_t i = 1; i < points.size(); ++i) {
            const DrawPoint a = points[i - 1], b = points[i];
            obstacles_.push_back({std::min(a.x, b.x) - 0.4, std::min(a.y, b.y) - 0.4,
                                  std::abs(a.x - b.x) + 0.8, std::abs(a.y - b.y) + 0.8});
        }
        drawing_.pipes.push_back(lineStroke(std::move(points), false, true));
    }

    // The next part of the line, on the axis.
    void line(std::size_t part) {
        const SymbolSize size = symbolSize(sheet_.parts[part].row().symbol);
        const double half = size.length / 2.0;
        // Room for an arrow of flow before and after the pump.
        const bool atPump = part == sheet_.pump || afterPump_;
        double centre = edge_ + (atPump ? kArrowGap : kGap) + half;
        if (any_) centre = std::max(centre, middle_ + kPitch);
        if (started_ || any_) pipeLine({{edge_, 0.0}, {centre - half, 0.0}});
        symbolAt(part, {centre, 0.0}, Facing::right);
        if (atPump && (started_ || any_))
            drawing_.pipes.push_back(arrow({centre - half - 1.2, 0.0}, Facing::right));
        afterPump_ = part == sheet_.pump;
        if (afterPump_) pumpX_ = centre;
        middle_ = centre;
        edge_ = centre + half;
        any_ = true;
        // A tee that leads down is turned over.
        const std::string& purpose = sheet_.parts[part].purpose;
        if (purpose == "tee-for-drain" || purpose == "tee-for-tank-return") {
            SchematicSymbol& tee = drawing_.symbols.back();
            tee.strokes.clear();
            for (const Stroke& stroke : symbolStrokes(tee.kind))
                tee.strokes.push_back(placedStroke(stroke, 2, {centre, 0.0}));
            tee.box = extentOf(tee.strokes);
        }
    }

    void inlet() {
        const std::vector<std::size_t> parts = lineParts(SheetLine::inlet);
        std::size_t first = 0;
        while (first < parts.size() && !isPipe(sheet_.parts[parts[first]]))
            ++first;
        std::size_t from = 0;
        if (sheet_.lift && first < parts.size())
            from = column(parts, first);
        else if (sheet_.sourceKind == "mains_direct_boost")
            supply();
        else
            tank();
        for (std::size_t i = from; i < parts.size(); ++i)
            line(parts[i]);
    }

    // What stands in the water below the pump, from the bottom up; gives the index of the part after it.
    std::size_t column(const std::vector<std::size_t>& parts, std::size_t count) {
        constexpr double kTop = 30.0;
        double height = 0.0;
        for (std::size_t i = 0; i < count; ++i)
            height += symbolSize(sheet_.parts[parts[i]].row().symbol).length + kGap;
        double y = kTop + height;
        const bool floats = count > 0 && sheet_.parts[parts[0]].row().group == "floating-inlet";
        for (std::size_t i = 0; i < count; ++i) {
            const double length = symbolSize(sheet_.parts[parts[i]].row().symbol).length;
            symbolAt(parts[i], {0.0, y - length / 2.0}, Facing::up);
            y -= length + kGap;
            pipeLine({{0.0, y + kGap}, {0.0, y}});
        }
        pipeLine({{0.0, kTop}, {0.0, 0.0}, {8.0, 0.0}});
        drawing_.pipes.push_back(arrow({0.0, 12.0}, Facing::up));
        basin({-kTankWidth / 2.0, kTop - 12.0, kTankWidth, height + 22.0},
              floats ? kTop + height - 9.0 : kTop - 6.0);
        edge_ = middle_ = 8.0;
        started_ = true;
        return count;
    }

    void tank() {
        basin({-kTankWidth, -38.0, kTankWidth, 50.0}, -28.0);
        edge_ = -kGap - 4.0; // the connector's wall stands at x = 0
        middle_ = -kPitch;
        started_ = false;
    }

    // Parts of the outlet that hang in the water with the pump.
    std::size_t hanging(const std::vector<std::size_t>& outlet) const {
        std::size_t count = 0;
        while (count < outlet.size() && sheet_.parts[outlet[count]].hangs)
            ++count;
        return count;
    }

    // The pump hangs in the water, its riser leads up and over the edge; what it draws through hangs below
    // it.
    void pumpInWater() {
        constexpr double kLeast = 36.0, kRiser = 7.0, kOver = 8.0; // kOver: clear of the line above
        const double half = symbolSize(sheet_.parts[sheet_.pump].row().symbol).length / 2.0;
        const auto lengthOf = [&](std::size_t part) {
            return symbolSize(sheet_.parts[part].row().symbol).length;
        };
        const auto room = [&](std::size_t part) { return std::max(lengthOf(part) + kGap, kPitch); };
        const std::vector<std::size_t> outlet = lineParts(SheetLine::outlet);
        firstOnLine_ = hanging(outlet);
        double riser = 2.0 * kOver;
        for (std::size_t i = 0; i < firstOnLine_; ++i)
            riser += room(outlet[i]);
        const double depth = std::max(kLeast, riser);
        double left = -half;
        for (const std::size_t part : lineParts(SheetLine::inlet))
            left -= room(part);
        const double wall = left - 14.0;
        for (const std::size_t part : lineParts(SheetLine::inlet)) {
            const double end = left + lengthOf(part);
            symbolAt(part, {(left + end) / 2.0, depth}, Facing::right);
            left += room(part);
            pipeLine({{end, depth}, {left, depth}});
        }
        symbolAt(sheet_.pump, {0.0, depth}, Facing::right);
        const double x = half + kRiser;
        pipeLine({{half, depth}, {x, depth}});
        double y = depth;
        for (std::size_t i = 0; i < firstOnLine_; ++i) {
            const double length = lengthOf(outlet[i]), gap = room(outlet[i]) - length;
            pipeLine({{x, y}, {x, y - gap}});
            symbolAt(outlet[i], {x, y - gap - length / 2.0}, Facing::up);
            y -= gap + length;
        }
        pipeLine({{x, y}, {x, 0.0}, {x + kOver, 0.0}});
        drawing_.pipes.push_back(arrow({x, 3.0}, Facing::up));
        basin({wall, kOver + 2.0, x + kOver - wall, depth + 30.0 - kOver - 2.0}, depth - 18.0);
        edge_ = middle_ = x + kOver;
        started_ = afterPump_ = true;
        pumpY_ = depth;
    }

    void supply() {
        pipeLine({{-12.0, 0.0}, {0.0, 0.0}});
        drawing_.pipes.push_back(arrow({-4.0, 0.0}, Facing::right));
        edge_ = 0.0;
        middle_ = -kPitch;
        started_ = true;
    }

    // An open basin with its water: walls and floor, the level as a line with its mark.
    void basin(const DrawBox& box, double level) {
        drawing_.pipes.push_back(lineStroke({{box.left, box.top},
                                             {box.left, box.bottom()},
                                             {box.right(), box.bottom()},
                                             {box.right(), box.top}},
                                            false, true));
        drawing_.pipes.push_back(lineStroke({{box.left, level}, {box.right(), level}}, true));
        const double mark = box.left + 6.0;
        drawing_.pipes.push_back(
            polygonStroke({{mark - 1.6, level - 2.6}, {mark + 1.6, level - 2.6}, {mark, level}}));
        obstacles_.push_back({box.left - 0.4, box.top, 0.8, box.height});
        obstacles_.push_back({box.right() - 0.4, box.top, 0.8, box.height});
        obstacles_.push_back({box.left, level - 2.8, box.width, 3.0});
        basin_ = box;
        level_ = level;
    }

    // Draws the outlet, or as much of it as the first row takes; gives what is left for the second.
    std::vector<std::size_t> outlet() {
        std::vector<std::size_t> parts = lineParts(SheetLine::outlet);
        parts.erase(parts.begin(), parts.begin() + static_cast<std::ptrdiff_t>(firstOnLine_));
        const std::size_t cut = firstRowOf(parts);
        for (std::size_t i = 0; i < cut; ++i)
            line(parts[i]);
        rowEnd_ = edge_;
        return {parts.begin() + static_cast<std::ptrdiff_t>(cut), parts.end()};
    }

    // How many of the outlet's parts stand in the first row: all, or about half of the whole length.
    std::size_t firstRowOf(const std::vector<std::size_t>& parts) const {
        const auto room = [&](std::size_t part) {
            return std::max(symbolSize(sheet_.parts[part].row().symbol).length + kGap, kPitch);
        };
        const double before = edge_ - (basin_ ? basin_->left : 0.0);
        double whole = before;
        for (const std::size_t part : parts)
            whole += room(part);
        if (whole <= kLongestRow) return parts.size();
        double row = before;
        std::size_t count = 0;
        while (count < parts.size() && row + room(parts[count]) <= 0.5 * whole)
            row += room(parts[count++]);
        // A row of one or two parts helps nobody.
        constexpr std::size_t kFewest = 3;
        return parts.size() < 2 * kFewest ? parts.size() : std::clamp(count, kFewest, parts.size() - kFewest);
    }

    void toMain() {
        pipeLine({{edge_, 0.0}, {edge_ + 12.0, 0.0}});
        drawing_.pipes.push_back(arrow({edge_ + 12.0, 0.0}, Facing::right));
        main_ = {edge_ + 12.0, 0.0};
    }

    // A letter in a ring where the line is broken and where it goes on.
    void mark(double x) {
        drawing_.pipes.push_back(circleStroke({x, 0.0}, 3.0));
        drawing_.pipes.push_back(textStroke({x, 0.0}, "A", 2.6));
        obstacles_.push_back({x - 3.0, -3.0, 6.0, 6.0});
    }

    // The rest of the line, drawn as a row of its own and then moved below all that the first row has.
    void secondRow(const std::vector<std::size_t>& parts) {
        constexpr double kMark = 3.0, kLead = 8.0, kBetween = 10.0, kNumbers = 30.0; // room for numbers below
        pipeLine({{edge_, 0.0}, {edge_ + kLead, 0.0}});
        drawing_.pipes.push_back(arrow({edge_ + kLead, 0.0}, Facing::right));
        mark(edge_ + kLead + kMark);
        // Beside a deep basin there is room; under a tank that stands the row begins at the edge.
        const bool deep = basin_ && basin_->top > 0.0;
        const double left = deep ? basin_->right() + kBetween : (basin_ ? basin_->left : -12.0);
        const std::size_t symbols = drawing_.symbols.size(), pipes = drawing_.pipes.size(),
                          labels = drawing_.labels.size(), obstacles = obstacles_.size();
        double bottom = kNumbers;
        for (const Stroke& stroke : drawing_.strokes()) {
            const DrawBox box = extentOf({stroke});
            if (box.right() > left) bottom = std::max(bottom, box.bottom());
        }
        mark(left + kMark);
        edge_ = middle_ = left + 2.0 * kMark;
        started_ = true;
        any_ = afterPump_ = false;
        for (const std::size_t part : parts)
            line(part);
        branches(symbols);
        toMain();
        double top = -kNumbers;
        for (std::size_t i = symbols; i < drawing_.symbols.size(); ++i)
            top = std::min(top, drawing_.symbols[i].box.top);
        const double down = bottom + kBetween - top;
        const auto move = [&](std::vector<Stroke>& strokes, std::size_t from) {
            for (std::size_t i = from; i < strokes.size(); ++i)
                strokes[i] = placedStroke(std::move(strokes[i]), 0, {0.0, down});
        };
        move(drawing_.pipes, pipes);
        for (std::size_t i = symbols; i < drawing_.symbols.size(); ++i) {
            move(drawing_.symbols[i].strokes, 0);
            drawing_.symbols[i].box.top += down;
        }
        for (std::size_t i = labels; i < drawing_.labels.size(); ++i) {
            move(drawing_.labels[i].strokes, 0);
            drawing_.labels[i].box.top += down;
        }
        for (std::size_t i = obstacles; i < obstacles_.size(); ++i)
            obstacles_[i].top += down;
        main_.y += down;
    }

    void branches(std::size_t from) {
        const std::vector<SchematicSymbol> line = drawing_.symbols;
        for (std::size_t i = from; i < line.size(); ++i)
            branch(line[i].part, line[i].box.centre().x);
    }

    void branch(std::size_t tee, double x) {
        const std::string& purpose = sheet_.parts[tee].purpose;
        const bool down = purpose == "tee-for-drain" || purpose == "tee-for-tank-return";
        const Facing facing = down ? Facing::down : Facing::up;
        const double sign = down ? 1.0 : -1.0;
        double reach = kBranchFoot;
        bool any = false;
        for (std::size_t i = 0; i < sheet_.parts.size(); ++i) {
            if (sheet_.parts[i].branchOf != tee) continue;
            const double length = symbolSize(sheet_.parts[i].row().symbol).length;
            pipeLine({{x, sign * reach}, {x, sign * (reach + kGap)}});
            symbolAt(i, {x, sign * (reach + kGap + length / 2.0)}, facing);
            reach += kGap + length;
            any = true;
        }
        if (any && purpose == "tee-for-tank-return") {
            pipeLine({{x, reach}, {x, reach + 8.0}});
            drawing_.pipes.push_back(arrow({x, reach + 8.0}, Facing::down));
            caption("to-tank", {x, reach + 11.0}, kNoteRoom);
        }
    }

    void control() {
        double relayY = -30.0, below = pumpY_ - 12.0,
               floatX = basin_ ? basin_->left + basin_->width * 0.72 : -20.0;
        // Riser and rope of a pump in the water leave room at the wall only.
        if (basin_ && sheet_.submersible) floatX = basin_->left + 7.0;
        for (std::size_t part : lineParts(SheetLine::control)) {
            if (sheet_.parts[part].row().symbol == "level_switch") {
                symbolAt(part, {floatX, basin_ ? level_ + 5.0 : -20.0}, Facing::right);
                floatX -= 12.0;
                continue;
            }
            if (sheet_.parts[part].purpose == "lifting-rope") {
                rope(part);
                continue;
            }
            symbolAt(part, {pumpX_, relayY}, Facing::right);
            const double to = below;
            below = relayY - 4.0;
            drawing_.pipes.push_back(lineStroke({{pumpX_, relayY + 4.0}, {pumpX_, to}}, true));
            obstacles_.push_back({pumpX_ - 0.4, relayY + 4.0, 0.8, to - relayY - 1.0});
            relayY -= 14.0;
        }
    }

    // Down to the pump, at the side where no riser stands.
    void rope(std::size_t part) {
        constexpr double kBeside = 6.0, kAbove = 40.0, kHousing = 6.7; // of the pump's round at that side
        const double x = pumpX_ - kBeside, top = pumpY_ - kAbove;
        symbolAt(part, {x, top}, Facing::up);
        drawing_.pipes.push_back(lineStroke({{x, top + 5.5}, {x, pumpY_ - kHousing}}, true, true));
        obstacles_.push_back({x - 0.4, top + 5.5, 0.8, kAbove - 5.5 - kHousing});
    }

    void caption(std::string word, DrawPoint centre, double room) {
        SchematicLabel label;
        label.text = std::move(word);
        label.word = true;
        label.box = {centre.x - room / 2.0, centre.y - kCaption * 0.75, room, kCaption * 1.5};
        label.strokes = {textStroke(centre, label.text, kCaption, true)};
        drawing_.labels.push_back(std::move(label));
    }

    void captions() {
        double top = 0.0;
        for (const SchematicSymbol& symbol : drawing_.symbols)
            top = std::min(top, symbol.box.top); // of the first row: the second lies below it
        if (basin_) top = std::min(top, basin_->top);
        const double left = basin_ ? basin_->left : -12.0;
        const double y = top - 14.0;
        caption(sheet_.submersible ? "in-the-water" : "inlet",
                {std::max(left + kCaptionRoom / 2.0, (left + pumpX_ - 9.0) / 2.0), y}, kCaptionRoom);
        caption("outlet", {std::max(pumpX_ + 9.0 + kCaptionRoom / 2.0, (pumpX_ + 9.0 + rowEnd_) / 2.0), y},
                kCaptionRoom);
        caption("to-main", {main_.x + 2.0 + kNoteRoom / 2.0, main_.y}, kNoteRoom);
    }

    const ConnectionSheet& sheet_;
    Schematic drawing_;
    std::vector<DrawBox> obstacles_;
    std::optional<DrawBox> basin_;
    std::size_t firstOnLine_ = 0; // of the outlet's parts
    double level_ = 0.0, edge_ = 0.0, middle_ = 0.0, pumpX_ = 0.0, pumpY_ = 0.0, rowEnd_ = 0.0;
    DrawPoint main_;
    bool any_ = false, started_ = false, afterPump_ = false;
};

} // namespace

std::vector<Stroke> Schematic::strokes() const {
    std::vector<Stroke> all = pipes;
    for (const SchematicSymbol& symbol : symbols)
        all.insert(all.end(), symbol.strokes.begin(), symbol.strokes.end());
    for (const SchematicLabel& label : labels)
        all.insert(all.end(), label.strokes.begin(), label.strokes.end());
    return all;
}

Schematic schematicOf(const ConnectionSheet& sheet) { return Layout(sheet).made(); }

} // namespace headmark
