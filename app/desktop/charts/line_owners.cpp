#include "app/desktop/charts/line_owners.h"

#include <algorithm>

namespace headmark {

namespace {

constexpr CurveQuantity kQuantities[] = {CurveQuantity::head, CurveQuantity::efficiency, CurveQuantity::power,
                                         CurveQuantity::npshRequired};

const Reading* readingOf(const Workspace& workspace, const std::string& path) {
    const int index = chartIndex(workspace, path);
    return index < 0 ? nullptr : workspace.charts[static_cast<std::size_t>(index)].reading.get();
}

ReadingUse* useOf(Pump& pump, const std::string& path) {
    const auto found = std::find_if(pump.readings.begin(), pump.readings.end(),
                                    [&](const ReadingUse& use) { return use.path == path; });
    return found == pump.readings.end() ? nullptr : &*found;
}

std::vector<const ChartLine*> linesOf(const Reading& reading, CurveQuantity quantity) {
    std::vector<const ChartLine*> found;
    for (const ChartLine& line : reading.lines) {
        if (curveQuantityOf(line.quantity) == quantity) found.push_back(&line);
    }
    return found;
}

// Names what was taken for granted: the only line of a quantity.
void spellOut(Workspace& workspace, const std::string& path) {
    const Reading* reading = readingOf(workspace, path);
    if (!reading) return;
    for (Pump& pump : workspace.job.pumps) {
        ReadingUse* use = useOf(pump, path);
        if (!use) continue;
        for (const CurveQuantity quantity : kQuantities) {
            const auto candidates = linesOf(*reading, quantity);
            if (candidates.size() == 1) use->lines.emplace(quantity, candidates.front()->name);
        }
    }
}

// A chart from which a pump takes nothing is not its reading; a pump without any curve is no pump.
void tidy(Workspace& workspace, const std::string& path) {
    auto& pumps = workspace.job.pumps;
    const auto isLeftEmpty = [&](Pump& pump) {
        const ReadingUse* use = useOf(pump, path);
        if (!use || !use->lines.empty()) return false;
        std::erase_if(pump.readings, [&](const ReadingUse& r) { return r.path == path; });
        return pump.readings.empty() && pump.curves.empty();
    };
    std::erase_if(pumps, isLeftEmpty);
}

std::string freePumpName(const Workspace& workspace, const std::string& wanted) {
    const auto taken = [&](const std::string& name) {
        return std::any_of(workspace.job.pumps.begin(), workspace.job.pumps.end(),
                           [&](const Pump& pump) { return pump.name == name; });
    };
    std::string name = wanted;
    for (int number = 2; taken(name); ++number)
        name = wanted + " " + std::to_string(number);
    return name;
}

bool has(const Pump& pump, CurveQuantity quantity) {
    return pump.curves.contains(quantity) ||
           std::any_of(pump.readings.begin(), pump.readings.end(),
                       [&](const ReadingUse& use) { return use.lines.contains(quantity); });
}

} // namespace

std::optional<CurveQuantity> curveQuantityOf(LineQuantity quantity) {
    switch (quantity) {
    case LineQuantity::head:
        return CurveQuantity::head;
    case LineQuantity::efficiency:
        return CurveQuantity::efficiency;
    case LineQuantity::power:
        return CurveQuantity::power;
    case LineQuantity::npshRequired:
        return CurveQuantity::npshRequired;
    case LineQuantity::isoEfficiency:
        break;
    }
    return std::nullopt;
}

void changeReading(Workspace& workspace, const std::string& path,
                   const std::function<void(Reading&)>& change) {
    const int index = chartIndex(workspace, path);
    if (index < 0) return;
    auto& sheet = workspace.charts[static_cast<std::size_t>(index)];
    Reading reading = *sheet.reading;
    change(reading);
    sheet.reading = std::make_shared<const Reading>(std::move(reading));
}

std::string freeLineName(const Reading& reading, const std::string& wanted) {
    const auto taken = [&](const std::string& name) {
        return std::any_of(reading.lines.begin(), reading.lines.end(),
                           [&](const ChartLine& line) { return line.name == name; });
    };
    std::string name = wanted;
    for (int number = 2; taken(name); ++number)
        name = wanted + " " + std::to_string(number);
    return name;
}

std::vector<std::size_t> ownersOf(const Workspace& workspace, const std::string& path, std::size_t line) {
    const Reading* reading = readingOf(workspace, path);
    if (!reading || line >= reading->lines.size()) return {};
    const auto quantity = curveQuantityOf(reading->lines[line].quantity);
    if (!quantity) return {};
    const bool only = linesOf(*reading, *quantity).size() == 1;
    std::vector<std::size_t> owners;
    for (std::size_t p = 0; p < workspace.job.pumps.size(); ++p) {
        for (const ReadingUse& use : workspace.job.pumps[p].readings) {
            if (use.path != path) continue;
            const auto named = use.lines.find(*quantity);
            if (named == use.lines.end() ? only : named->second == reading->lines[line].name)
                owners.push_back(p);
        }
    }
    return owners;
}

void giveLine(Workspace& workspace, const std::string& path, std::size_t line, std::size_t pump) {
    const Reading* reading = readingOf(workspace, path);
    if (!reading || line >= reading->lines.size() || pump >= workspace.job.pumps.size()) return;
    const auto quantity = curveQuantityOf(reading->lines[line].quantity);
    if (!quantity) return;
    spellOut(workspace, path);
    Pump& taker = workspace.job.pumps[pump];
    taker.curves.erase(*quantity);
    for (ReadingUse& use : taker.readings)
        use.lines.erase(*quantity);
    ReadingUse* use = useOf(taker, path);
    if (!use) use = &taker.readings.emplace_back(ReadingUse{path, {}});
    use->lines[*quantity] = reading->lines[line].name;
    // What this chart prints once and the pump has from nowhere else comes with it, and is named; several
    // lines with none of them named would be a question.
    for (const CurveQuantity other : kQuantities) {
        const auto candidates = linesOf(*reading, other);
        if (candidates.empty() || use->lines.contains(other)) continue;
        if (!has(taker, other)) use->lines[other] = candidates.front()->name;
    }
    std::erase_if(taker.readings, [](const ReadingUse& r) { return r.lines.empty(); });
}

void takeLineAway(Workspace& workspace, const std::string& path, std::size_t line) {
    const Reading* reading = readingOf(workspace, path);
    if (!reading || line >= reading->lines.size()) return;
    const auto quantity = curveQuantityOf(reading->lines[line].quantity);
    if (!quantity) return;
    spellOut(workspace, path);
    for (Pump& pump : workspace.job.pumps) {
        ReadingUse* use = useOf(pump, path);
        if (!use) continue;
        const auto named = use->lines.find(*quantity);
        if (named != use->lines.end() && named->second == reading->lines[line].name) use->lines.erase(named);
    }
    tidy(workspace, path);
}

std::size_t givePumpOfItsOwn(Workspace& workspace, const std::string& path, std::size_t line,
                             const std::string& name) {
    Pump pump;
    pump.name = freePumpName(workspace, name);
    workspace.job.pumps.push_back(std::move(pump));
    const std::size_t index = workspace.job.pumps.size() - 1;
    giveLine(workspace, path, line, index);
    return index;
}

void findOwner(Workspace& workspace, const std::string& path, std::size_t line, std::size_t shownPump,
               const std::string& pumpName) {
    const Reading* reading = readingOf(workspace, path);
    if (!reading || line >= reading->lines.size()) return;
    const auto quantity = curveQuantityOf(reading->lines[line].quantity);
    if (!quantity) return;
    auto& pumps = workspace.job.pumps;
    // Every pump that stands on this chart and lacks the quantity takes a line that is the only one of it.
    std::vector<std::size_t> lacking;
    bool onChart = false;
    for (std::size_t p = 0; p < pumps.size(); ++p) {
        if (!useOf(pumps[p], path)) continue;
        onChart = true;
        if (!has(pumps[p], *quantity)) lacking.push_back(p);
    }
    if (lacking.empty() && !onChart && shownPump < pumps.size() && !has(pumps[shownPump], *quantity))
        lacking.push_back(shownPump);
    if (!lacking.empty()) {
        const bool shownLacks = std::find(lacking.begin(), lacking.end(), shownPump) != lacking.end();
        giveLine(workspace, path, line, shownLacks ? shownPump : lacking.front());
        if (linesOf(*readingOf(workspace, path), *quantity).size() == 1) spellOut(workspace, path);
        return;
    }
    if (*quantity == CurveQuantity::head && !onChart) givePumpOfItsOwn(workspace, path, line, pumpName);
}

std::size_t makePumpsOfHeadLines(Workspace& workspace, const std::string& path) {
    const Reading* reading = readingOf(workspace, path);
    if (!reading) return 0;
    const auto keep = workspace.charts[static_cast<std::size_t>(chartIndex(workspace, path))].reading;
    std::size_t made = 0;
    for (std::size_t line = 0; line < keep->lines.size(); ++line) {
        if (keep->lines[line].quantity != LineQuantity::head) continue;
        if (!ownersOf(workspace, path, line).empty()) continue;
        givePumpOfItsOwn(workspace, path, line, keep->lines[line].name);
        ++made;
    }
    return made;
}

void addLine(Workspace& workspace, const std::string& path, const ChartLine& line, std::size_t shownPump,
             const std::string& pumpName) {
    spellOut(workspace, path);
    std::size_t index = 0;
    changeReading(workspace, path, [&](Reading& reading) {
        const std::string name = freeLineName(reading, line.name);
        reading.lines.push_back(line);
        reading.lines.back().name = name;
        index = reading.lines.size() - 1;
    });
    findOwner(workspace, path, index, shownPump, pumpName);
}

void removeLine(Workspace& workspace, const std::string& path, std::size_t line) {
    takeLineAway(workspace, path, line);
    changeReading(workspace, path, [&](Reading& reading) {
        if (line < reading.lines.size())
            reading.lines.erase(reading.lines.begin() + static_cast<std::ptrdiff_t>(line));
    });
}

void renameLine(Workspace& workspace, const std::string& path, std::size_t line, const std::string& name) {
    const Reading* reading = readingOf(workspace, path);
    if (!reading || line >= reading->lines.size() || name.empty() || reading->lines[line].name == name)
        return;
    spellOut(workspace, path);
    const std::string before = reading->lines[line].name;
    const auto quantity = curveQuantityOf(reading->lines[line].quantity);
    const std::string after = freeLineName(*reading, name);
    for (Pump& pump : workspace.job.pumps) {
        ReadingUse* use = useOf(pump, path);
        if (!use || !quantity) continue;
        const auto named = use->lines.find(*quantity);
        if (named != use->lines.end() && named->second == before) named->second = after;
    }
    changeReading(workspace, path, [&](Reading& r) { r.lines[line].name = after; });
}

void changeQuantity(Workspace& workspace, const std::string& path, std::size_t line, LineQuantity quantity) {
    const Reading* reading = readingOf(workspace, path);
    if (!reading || line >= reading->lines.size() || reading->lines[line].quantity == quantity) return;
    const std::vector<std::size_t> owners = ownersOf(workspace, path, line);
    spellOut(workspace, path);
    const auto before = curveQuantityOf(reading->lines[line].quantity);
    const auto after = curveQuantityOf(quantity);
    const std::string lineName = reading->lines[line].name;
    changeReading(workspace, path, [&](Reading& r) {
        r.lines[line].quantity = quantity;
        if (quantity != LineQuantity::power) r.lines[line].powerAtMotorInput = false;
        r.lines[line].levelShare.reset(); // of equal efficiency only, which no click here asks for
    });
    for (const std::size_t p : owners) {
        Pump& pump = workspace.job.pumps[p];
        ReadingUse* use = useOf(pump, path);
        if (!use) continue;
        if (before) use->lines.erase(*before);
        if (after && !has(pump, *after)) use->lines[*after] = lineName;
    }
    tidy(workspace, path);
}

void removeSheet(Workspace& workspace, const std::string& path) {
    for (Pump& pump : workspace.job.pumps) {
        if (ReadingUse* use = useOf(pump, path)) use->lines.clear();
    }
    tidy(workspace, path);
    std::erase_if(workspace.charts, [&](const ChartSheet& sheet) { return sheet.path == path; });
}

} // namespace headmark
