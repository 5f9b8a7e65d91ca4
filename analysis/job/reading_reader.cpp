#include "analysis/job/reading_reader.h"

#include "analysis/job/base64.h"
#include "analysis/job/error_codes.h"
#include "analysis/job/job_reader_parts.h"
#include "analysis/job/json_document.h"
#include "analysis/job/reading_reader_parts.h"
#include "analysis/units/unit_table.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <limits>
#include <set>

namespace headmark {

namespace {

constexpr NumberRange kDpi{10.0, 4800.0};
// Zero would call a click exact, and no mapping could explain the pins.
constexpr NumberRange kSigma_px{0.001, 1000.0};
constexpr int kGreatestPage = 1'000'000;

constexpr std::string_view kPdf = "application/pdf";

void readEmbedded(const ObjectReader& object, ChartPage& chart) {
    // Larger than any text in a file of the greatest size.
    constexpr std::size_t kLongest = std::numeric_limits<std::size_t>::max();
    const auto type = object.choice<std::string_view>("media_type", {{"image/png", "image/png"},
                                                                     {"image/jpeg", "image/jpeg"},
                                                                     {"image/tiff", "image/tiff"},
                                                                     {"image/bmp", "image/bmp"},
                                                                     {"image/webp", "image/webp"},
                                                                     {kPdf, kPdf}});
    if (type) chart.mediaType = *type;
    if (type && *type != kPdf) object.exclude({"page", "dpi"}, *type);
    const auto text = object.text("base64", kLongest);
    if (!text) return;
    if (text->empty()) {
        object.refuse(code::kEmptyText, "base64");
        return;
    }
    Base64Bytes decoded = decodeBase64(*text);
    if (decoded.badCharacter) {
        object.refuse(code::kBadBase64, "base64",
                      {{"position", static_cast<std::int64_t>(*decoded.badCharacter + 1)}});
        return;
    }
    chart.bytes = std::make_shared<const std::string>(std::move(decoded.bytes));
}

ChartPage readChart(const PlacedValue& at, ReadLog& log) {
    const ObjectReader object(at, log, {"path", "page", "dpi", "media_type", "base64"});
    ChartPage chart;
    chart.page = object.integer("page", 1, kGreatestPage);
    chart.dpi = object.number("dpi", kDpi).value_or(chart.dpi);
    if (object.has("path")) {
        chart.path = object.name("path").value_or("");
        object.exclude({"media_type", "base64"}, "path");
    } else if (object.has("media_type") || object.has("base64")) {
        object.needBeside("media_type", "base64");
        object.needBeside("base64", "media_type");
        readEmbedded(object, chart);
    } else if (object.valid()) {
        log.add(code::kOneOfNeeded, at.place, {{"keys", std::vector<std::string>{"path", "base64"}}});
    }
    return chart;
}

std::vector<std::string> symbolsOf(Dimension dimension) {
    std::vector<std::string> symbols;
    for (const Unit& unit : unitTable()) {
        if (unit.dimension == dimension) symbols.emplace_back(unit.symbol);
    }
    return symbols;
}

void readUnit(const ObjectReader& object, std::string_view key, Dimension dimension, std::string& symbol) {
    const auto found = object.text(key);
    if (!found) return;
    if (!findUnit(dimension, *found)) {
        object.refuse(code::kUnknownChoice, key, {{"found", *found}, {"allowed", symbolsOf(dimension)}});
        return;
    }
    symbol = *found;
}

PrintedUnits readUnits(const PlacedValue& at, ReadLog& log) {
    const ObjectReader object(at, log, {"flow", "head", "efficiency", "power", "npsh_required"});
    PrintedUnits units;
    object.need("flow");
    readUnit(object, "flow", Dimension::flow, units.flow);
    readUnit(object, "head", Dimension::head, units.head);
    readUnit(object, "efficiency", Dimension::efficiency, units.efficiency);
    readUnit(object, "power", Dimension::power, units.power);
    readUnit(object, "npsh_required", Dimension::head, units.npshRequired);
    return units;
}

AxisScale readScale(const ObjectReader& object, std::string_view key) {
    return object.choice<AxisScale>(key, {{"linear", AxisScale::linear}, {"log10", AxisScale::log10}})
        .value_or(AxisScale::linear);
}

Pin readPin(const PlacedValue& at, const Reading& reading, ReadLog& log) {
    const ObjectReader object(at, log, {"px", "flow", "value", "axis", "sigma_px"});
    Pin pin;
    if (object.need("px")) pin.at = readPixel(*object.value("px"), log).value_or(PixelPoint());
    if (object.valid() && !object.has("flow") && !object.has("value"))
        log.add(code::kOneOfNeeded, at.place, {{"keys", std::vector<std::string>{"flow", "value"}}});
    pin.flow = object.number("flow", kPrintedRange);
    pin.value = object.number("value", kPrintedRange);
    checkOnScale(pin.flow, reading.flowScale, object.placeOf("flow"), log);
    checkOnScale(pin.value, reading.valueScale, object.placeOf("value"), log);
    pin.axis = readAxis(object).value_or(ValueAxis::left);
    pin.sigma_px = object.number("sigma_px", kSigma_px);
    return pin;
}

void refuseTooFew(std::string_view what, std::size_t different, ReadLog& log) {
    constexpr std::size_t kLeast = 2;
    if (different >= kLeast) return;
    log.add(code::kTooFewPinned, "pins",
            {{"what", std::string(what)}, {"found", static_cast<std::int64_t>(different)}});
}

// Two different figures on the flow axis and on each value axis that a line uses.
void checkPinned(const Reading& reading, ReadLog& log) {
    std::set<double> flows, values[2];
    for (const Pin& pin : reading.pins) {
        if (pin.flow) flows.insert(*pin.flow);
        if (pin.value) values[pin.axis == ValueAxis::right].insert(*pin.value);
    }
    refuseTooFew("flow", flows.size(), log);
    const auto used = [&](ValueAxis axis) {
        return std::any_of(reading.lines.begin(), reading.lines.end(),
                           [&](const ChartLine& line) { return line.axis == axis; });
    };
    if (used(ValueAxis::left)) refuseTooFew("left", values[0].size(), log);
    if (used(ValueAxis::right)) refuseTooFew("right", values[1].size(), log);
}

void readPinsAndLines(const ObjectReader& top, Reading& reading) {
    ReadLog& log = top.log();
    const std::size_t before = log.errors().size();
    if (top.need("pins")) {
        for (const auto& item : top.list("pins")) {
            reading.pins.push_back(readPin(item, reading, log));
        }
    }
    if (top.need("lines")) {
        const auto items = top.list("lines");
        if (items.empty() && top.value("lines")->value->is_array()) top.refuse(code::kEmptyList, "lines");
        reading.lines = readLines(items, reading.flowScale, log);
    }
    // A pin or line that was refused may be the one that seems to be missing.
    if (log.errors().size() == before) checkPinned(reading, log);
}

Reading readReading(const ObjectReader& top) {
    ReadLog& log = top.log();
    Reading reading;
    reading.madeBy = top.text("made_by").value_or("");
    if (top.need("chart")) reading.chart = readChart(*top.value("chart"), log);
    if (top.need("printed_units")) reading.printedUnits = readUnits(*top.value("printed_units"), log);
    if (const auto at = top.value("scales")) {
        const ObjectReader scales(*at, log, {"flow", "value"});
        reading.flowScale = readScale(scales, "flow");
        reading.valueScale = readScale(scales, "value");
    }
    if (const auto at = top.value("sigma_px")) {
        const ObjectReader sigmas(*at, log, {"pin", "spot"});
        reading.sigmas.pin_px = sigmas.number("pin", kSigma_px).value_or(reading.sigmas.pin_px);
        reading.sigmas.spot_px = sigmas.number("spot", kSigma_px).value_or(reading.sigmas.spot_px);
    }
    reading.mapping = top.choice<MappingModel>("mapping", {{"upright", MappingModel::upright},
                                                           {"affine", MappingModel::affine},
                                                           {"perspective", MappingModel::perspective}});
    readPinsAndLines(top, reading);
    return reading;
}

} // namespace

std::optional<PixelPoint> readPixel(const PlacedValue& at, ReadLog& log) {
    if (!at.value->is_array()) {
        refuseType(at, "list", log);
        return std::nullopt;
    }
    if (at.value->size() != 2) {
        log.add(code::kWrongLength, at.place,
                {{"found", static_cast<std::int64_t>(at.value->size())}, {"expected", std::int64_t{2}}});
        return std::nullopt;
    }
    const auto x = numberOf({&(*at.value)[0], placeOfItem(at.place, 0)}, kPixelRange, log);
    const auto y = numberOf({&(*at.value)[1], placeOfItem(at.place, 1)}, kPixelRange, log);
    return x && y ? std::optional<PixelPoint>({*x, *y}) : std::nullopt;
}

std::optional<ValueAxis> readAxis(const ObjectReader& object) {
    return object.choice<ValueAxis>("axis", {{"left", ValueAxis::left}, {"right", ValueAxis::right}});
}

void checkOnScale(std::optional<double> figure, AxisScale scale, const std::string& place, ReadLog& log) {
    if (figure && scale == AxisScale::log10 && *figure <= 0.0)
        log.add(code::kNotOnLogScale, place, {{"found", *figure}});
}

ReadingReading readReadingDocument(const nlohmann::ordered_json& document, const std::string& fileName,
                                   Finish finish) {
    ReadLog log(fileName, finish);
    const PlacedValue root{&document, ""};
    if (!checkFormatAndVersion(root, "headmark-reading", kReadingVersion, log))
        return {std::nullopt, log.errors()};
    const ObjectReader top(root, log,
                           {"format", "version", "made_by", "chart", "printed_units", "scales", "sigma_px",
                            "pins", "mapping", "lines"});
    Reading reading = readReading(top);
    if (!log.clean()) return {std::nullopt, log.errors()};
    reading.extras = log.extras();
    return {std::move(reading), {}};
}

ReadingReading readReadingFile(const std::string& path, Finish finish) {
    const auto document = readJsonFile(path);
    if (!document) return {std::nullopt, {document.error()}};
    ReadingReading read = readReadingDocument(*document, path, finish);
    if (read.reading) read.reading->chart.folder = folderOf(path);
    return read;
}

} // namespace headmark
