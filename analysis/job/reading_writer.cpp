#include "analysis/job/reading_writer.h"

#include "analysis/job/base64.h"
#include "analysis/job/job_writer_parts.h"
#include "analysis/job/reading_reader.h"

#include <array>
#include <cstdio>

namespace headmark {

namespace {

using Json = nlohmann::ordered_json;

Json chartJson(const ChartPage& chart) {
    Json object = Json::object();
    if (chart.bytes) {
        object["media_type"] = chart.mediaType;
        object["base64"] = encodeBase64(*chart.bytes);
    } else {
        object["path"] = chart.path;
    }
    setCount(object, "page", chart.page);
    if (chart.dpi != ChartPage().dpi) object["dpi"] = numberJson(chart.dpi);
    return object;
}

Json unitsJson(const PrintedUnits& units) {
    Json object = Json::object();
    setText(object, "flow", units.flow);
    setText(object, "head", units.head);
    setText(object, "efficiency", units.efficiency);
    setText(object, "power", units.power);
    setText(object, "npsh_required", units.npshRequired);
    return object;
}

const char* scaleWord(AxisScale scale) { return scale == AxisScale::log10 ? "log10" : "linear"; }

const char* modelWord(MappingModel model) {
    switch (model) {
    case MappingModel::upright:
        return "upright";
    case MappingModel::affine:
        return "affine";
    case MappingModel::perspective:
        break;
    }
    return "perspective";
}

const char* quantityWord(LineQuantity quantity) {
    switch (quantity) {
    case LineQuantity::head:
        return "head";
    case LineQuantity::efficiency:
        return "efficiency";
    case LineQuantity::power:
        return "power";
    case LineQuantity::npshRequired:
        return "npsh_required";
    case LineQuantity::isoEfficiency:
        break;
    }
    return "iso_efficiency";
}

Json pixelJson(PixelPoint at) { return Json::array({numberJson(at.x_px), numberJson(at.y_px)}); }

Json pixelsJson(const std::vector<PixelPoint>& pixels) {
    Json list = Json::array();
    for (const PixelPoint at : pixels)
        list.push_back(pixelJson(at));
    return list;
}

Json pinJson(const Pin& pin) {
    Json object{{"px", pixelJson(pin.at)}};
    setNumber(object, "flow", pin.flow);
    setNumber(object, "value", pin.value);
    if (pin.axis == ValueAxis::right) object["axis"] = "right";
    setNumber(object, "sigma_px", pin.sigma_px);
    return object;
}

std::string colourText(InkColour ink) {
    std::array<char, 8> text{};
    std::snprintf(text.data(), text.size(), "#%02x%02x%02x", static_cast<unsigned>(ink.red),
                  static_cast<unsigned>(ink.green), static_cast<unsigned>(ink.blue));
    return text.data();
}

Json lineJson(const ChartLine& line) {
    Json object = Json::object();
    setText(object, "name", line.name);
    object["quantity"] = quantityWord(line.quantity);
    if (line.axis == ValueAxis::right) object["axis"] = "right";
    if (!line.followFrom.empty()) object["follow_from"] = pixelsJson(line.followFrom);
    if (!line.spots.empty()) object["spots"] = pixelsJson(line.spots);
    if (line.betweenFlows) {
        object["between_flows"] =
            Json::array({numberJson(line.betweenFlows->first), numberJson(line.betweenFlows->second)});
    }
    if (line.ink) object["ink"] = colourText(*line.ink);
    // Keys that the quantity has no use for are refused by the reader.
    if (line.quantity != LineQuantity::isoEfficiency) setCount(object, "degree", line.degree);
    if (line.quantity == LineQuantity::power && line.powerAtMotorInput) object["power_at"] = "motor_input";
    if (line.quantity == LineQuantity::isoEfficiency) setNumber(object, "level_share", line.levelShare);
    return object;
}

} // namespace

Json readingDocument(const Reading& reading) {
    Json document{{"format", "headmark-reading"}, {"version", kReadingVersion}};
    setText(document, "made_by", reading.madeBy);
    document["chart"] = chartJson(reading.chart);
    document["printed_units"] = unitsJson(reading.printedUnits);
    document["scales"] = {{"flow", scaleWord(reading.flowScale)}, {"value", scaleWord(reading.valueScale)}};
    document["sigma_px"] = {{"pin", numberJson(reading.sigmas.pin_px)},
                            {"spot", numberJson(reading.sigmas.spot_px)}};
    if (reading.mapping) document["mapping"] = modelWord(*reading.mapping);
    document["pins"] = Json::array();
    for (const Pin& pin : reading.pins)
        document["pins"].push_back(pinJson(pin));
    document["lines"] = Json::array();
    for (const ChartLine& line : reading.lines)
        document["lines"].push_back(lineJson(line));
    restoreExtras(document, "", reading.extras);
    return document;
}

std::string writeReading(const Reading& reading) {
    return readingDocument(reading).dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

} // namespace headmark
