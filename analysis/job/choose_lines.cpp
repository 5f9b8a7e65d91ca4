#include "analysis/job/choose_lines.h"

#include "analysis/job/error_codes.h"
#include "analysis/job/json_document.h"

#include <optional>

namespace headmark {

namespace {

constexpr CurveQuantity kQuantities[] = {CurveQuantity::head, CurveQuantity::efficiency, CurveQuantity::power,
                                         CurveQuantity::npshRequired};

LineQuantity lineQuantityOf(CurveQuantity quantity) {
    switch (quantity) {
    case CurveQuantity::head:
        return LineQuantity::head;
    case CurveQuantity::efficiency:
        return LineQuantity::efficiency;
    case CurveQuantity::power:
        return LineQuantity::power;
    case CurveQuantity::npshRequired:
        break;
    }
    return LineQuantity::npshRequired;
}

std::vector<std::size_t> candidates(const Reading& reading, CurveQuantity quantity) {
    std::vector<std::size_t> found;
    for (std::size_t i = 0; i < reading.lines.size(); ++i) {
        if (reading.lines[i].quantity == lineQuantityOf(quantity)) found.push_back(i);
    }
    return found;
}

std::vector<std::string> namesOf(const Reading& reading, const std::vector<std::size_t>& lines) {
    std::vector<std::string> names;
    for (const std::size_t line : lines)
        names.push_back(reading.lines[line].name);
    return names;
}

// The line of one quantity in one reading; empty where it has none. `place`: of the reading in the job.
Result<std::optional<std::size_t>> lineOf(const ReadingUse& use, const Reading& reading,
                                          CurveQuantity quantity, const std::string& place) {
    const std::vector<std::size_t> found = candidates(reading, quantity);
    const std::string key = placeOfKey(placeOfKey(place, "lines"), keyOf(quantity));
    const auto asked = use.lines.find(quantity);
    if (asked == use.lines.end()) {
        if (found.empty()) return std::optional<std::size_t>();
        if (found.size() == 1) return std::optional<std::size_t>(found.front());
        return Error{std::string(code::kLineChoiceNeeded),
                     "",
                     key,
                     {{"quantity", std::string(keyOf(quantity))},
                      {"lines", namesOf(reading, found)},
                      {"reading", use.path}}};
    }
    for (const std::size_t line : found) {
        if (reading.lines[line].name == asked->second) return std::optional<std::size_t>(line);
    }
    return Error{std::string(code::kUnknownLine),
                 "",
                 key,
                 {{"quantity", std::string(keyOf(quantity))},
                  {"name", asked->second},
                  {"reading", use.path},
                  {"known", namesOf(reading, found)}}};
}

Error givenTwice(CurveQuantity quantity, const std::string& place, const std::string& line,
                 const std::string& first, const std::string& firstLine) {
    Error error{std::string(code::kQuantityTwice),
                "",
                place,
                {{"quantity", std::string(keyOf(quantity))}, {"line", line}, {"first", first}}};
    if (!firstLine.empty()) error.facts.push_back({"first_line", firstLine});
    return error;
}

} // namespace

Result<ChosenLines> chooseLines(const Pump& pump, const PumpReadings& readings, const std::string& place) {
    ChosenLines chosen;
    const auto placeOf = [&](std::size_t r) { return placeOfItem(placeOfKey(place, "readings"), r); };
    const auto nameOf = [&](ChosenLine l) { return readings[l.reading]->lines[l.line].name; };
    for (std::size_t r = 0; r < readings.size(); ++r) {
        for (const CurveQuantity quantity : kQuantities) {
            const auto line = lineOf(pump.readings[r], *readings[r], quantity, placeOf(r));
            if (!line) return line.error();
            if (!*line) continue;
            const ChosenLine here{r, **line};
            if (pump.curves.contains(quantity)) {
                const std::string curve = placeOfKey(placeOfKey(place, "curves"), keyOf(quantity));
                return givenTwice(quantity, placeOf(r), nameOf(here), curve, "");
            }
            const auto [first, added] = chosen.emplace(quantity, here);
            if (!added) {
                return givenTwice(quantity, placeOf(r), nameOf(here), placeOf(first->second.reading),
                                  nameOf(first->second));
            }
        }
    }
    if (!chosen.contains(CurveQuantity::head) && !pump.curves.contains(CurveQuantity::head))
        return Error{std::string(code::kPumpWithoutHead), "", place, {{"name", pump.name}}};
    return chosen;
}

const char* keyOf(CurveQuantity quantity) {
    switch (quantity) {
    case CurveQuantity::head:
        return "head";
    case CurveQuantity::efficiency:
        return "efficiency";
    case CurveQuantity::power:
        return "power";
    case CurveQuantity::npshRequired:
        break;
    }
    return "npsh_required";
}

} // namespace headmark
