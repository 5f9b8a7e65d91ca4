// The lines of a reading: what they are, where they were clicked, and what else is known of them.

#include "analysis/job/error_codes.h"
#include "analysis/job/reading_reader_parts.h"

#include <nlohmann/json.hpp>

#include <array>
#include <map>
#include <set>

namespace headmark {

namespace {

constexpr int kGreatestFitDegree = 6;
// A line of equal efficiency at nothing would be the axis itself.
constexpr NumberRange kLevelShare{0.001, 1.0};

std::vector<PixelPoint> readPixels(const ObjectReader& object, std::string_view key) {
    std::vector<PixelPoint> pixels;
    for (const auto& item : object.list(key)) {
        if (const auto pixel = readPixel(item, object.log())) pixels.push_back(*pixel);
    }
    return pixels;
}

std::size_t lengthOf(const ObjectReader& object, std::string_view key) {
    const auto at = object.value(key);
    return at && at->value->is_array() ? at->value->size() : 0;
}

bool isListOrLeftOut(const ObjectReader& object, std::string_view key) {
    const auto at = object.value(key);
    return !at || at->value->is_array();
}

// Clicks there must be, and enough of them where the ink is not followed.
void checkClicks(const ObjectReader& object, const ChartLine& line) {
    if (!object.valid() || !isListOrLeftOut(object, "follow_from") || !isListOrLeftOut(object, "spots"))
        return;
    if (!object.has("follow_from") && !object.has("spots")) {
        object.log().add(code::kOneOfNeeded, object.place(),
                         {{"keys", std::vector<std::string>{"follow_from", "spots"}}});
        return;
    }
    const auto spots = static_cast<std::int64_t>(lengthOf(object, "spots"));
    if (lengthOf(object, "follow_from") > 0) return;
    constexpr std::int64_t kLeastSpots = 2;
    if (spots == 0) {
        object.refuse(code::kEmptyList, object.has("spots") ? "spots" : "follow_from");
    } else if (spots < kLeastSpots && line.quantity != LineQuantity::isoEfficiency) {
        object.refuse(code::kTooFewPoints, "spots", {{"points", spots}, {"least", kLeastSpots}});
    } else if (line.degree && *line.degree >= spots) {
        object.refuse(code::kDegreeTooHigh, "degree",
                      {{"degree", static_cast<std::int64_t>(*line.degree)}, {"points", spots}});
    }
}

std::optional<unsigned> hexDigit(char c) {
    if (c >= '0' && c <= '9') return static_cast<unsigned>(c - '0');
    if (c >= 'a' && c <= 'f') return static_cast<unsigned>(c - 'a' + 10);
    if (c >= 'A' && c <= 'F') return static_cast<unsigned>(c - 'A' + 10);
    return std::nullopt;
}

std::optional<InkColour> colourOf(std::string_view text) {
    if (text.size() != 7 || text[0] != '#') return std::nullopt;
    std::array<std::uint8_t, 3> parts{};
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const auto high = hexDigit(text[1 + 2 * i]), low = hexDigit(text[2 + 2 * i]);
        if (!high || !low) return std::nullopt;
        parts[i] = static_cast<std::uint8_t>(*high * 16U + *low);
    }
    return InkColour{parts[0], parts[1], parts[2]};
}

std::optional<InkColour> readInk(const ObjectReader& object) {
    const auto text = object.text("ink");
    if (!text) return std::nullopt;
    const auto colour = colourOf(*text);
    if (!colour) object.refuse(code::kBadColour, "ink", {{"found", *text}});
    return colour;
}

// Keys that only some quantities may have.
void readByQuantity(const ObjectReader& object, std::optional<LineQuantity> quantity, ChartLine& line) {
    line.powerAtMotorInput =
        object.choice<bool>("power_at", {{"shaft", false}, {"motor_input", true}}).value_or(false);
    line.levelShare = object.number("level_share", kLevelShare);
    line.degree = object.integer("degree", 1, kGreatestFitDegree);
    if (!quantity) return;
    const std::string word = object.value("quantity")->value->get<std::string>();
    if (*quantity != LineQuantity::power) object.exclude({"power_at"}, word);
    if (*quantity != LineQuantity::isoEfficiency) {
        object.exclude({"level_share"}, word);
    } else {
        object.needBeside("level_share", word);
        object.exclude({"degree"}, word); // samples in order, no fit
    }
}

ChartLine readLine(const PlacedValue& at, AxisScale flowScale, ReadLog& log) {
    const ObjectReader object(at, log,
                              {"name", "quantity", "axis", "follow_from", "spots", "between_flows", "ink",
                               "degree", "power_at", "level_share"});
    ChartLine line;
    line.name = object.name("name").value_or("");
    object.need("quantity");
    const auto quantity =
        object.choice<LineQuantity>("quantity", {{"head", LineQuantity::head},
                                                 {"efficiency", LineQuantity::efficiency},
                                                 {"power", LineQuantity::power},
                                                 {"npsh_required", LineQuantity::npshRequired},
                                                 {"iso_efficiency", LineQuantity::isoEfficiency}});
    line.quantity = quantity.value_or(line.quantity);
    line.axis = readAxis(object).value_or(line.axis);
    line.followFrom = readPixels(object, "follow_from");
    line.spots = readPixels(object, "spots");
    line.betweenFlows = object.ascendingPair("between_flows", kPrintedRange);
    if (line.betweenFlows)
        checkOnScale(line.betweenFlows->first, flowScale, object.placeOf("between_flows") + "[0]", log);
    line.ink = readInk(object);
    readByQuantity(object, quantity, line);
    checkClicks(object, line);
    return line;
}

// A name may stand for one line of each quantity; the nameless get names of their own.
void settleLineNames(std::vector<ChartLine>& lines, const std::vector<PlacedValue>& items, ReadLog& log) {
    std::map<std::pair<LineQuantity, std::string>, std::string> firstPlace;
    std::set<std::string> taken;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        if (lines[i].name.empty()) continue;
        const std::string place = items[i].place + ".name";
        const auto [first, added] = firstPlace.emplace(std::pair(lines[i].quantity, lines[i].name), place);
        if (!added) log.add(code::kDuplicateName, place, {{"name", lines[i].name}, {"first", first->second}});
        taken.insert(lines[i].name);
    }
    for (std::size_t i = 0; i < lines.size(); ++i) {
        for (std::size_t number = i + 1; lines[i].name.empty(); ++number) {
            const std::string candidate = "Line " + std::to_string(number);
            if (taken.insert(candidate).second) lines[i].name = candidate;
        }
    }
}

} // namespace

std::vector<ChartLine> readLines(const std::vector<PlacedValue>& items, AxisScale flowScale, ReadLog& log) {
    std::vector<ChartLine> lines;
    for (const auto& item : items) {
        lines.push_back(readLine(item, flowScale, log));
    }
    settleLineNames(lines, items, log);
    return lines;
}

} // namespace headmark
