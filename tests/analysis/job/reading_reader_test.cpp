#include "analysis/job/reading_reader.h"

#include "analysis/job/base64.h"
#include "analysis/job/error_codes.h"
#include "job_documents.h"

#include <cmath>

namespace headmark {
namespace {

Json readingJson() { return jobJson("full.reading.json"); }

// The contract's own example in short: one picture, two scales, one line.
Json smallReading() {
    return Json::parse(R"({
        "format": "headmark-reading", "version": 1,
        "chart": {"path": "page.png"},
        "printed_units": {"flow": "m3/h"},
        "pins": [{"px": [210, 1530], "flow": 0, "value": 0}, {"px": [1810, 230], "flow": 16, "value": 50}],
        "lines": [{"quantity": "head", "follow_from": [[620, 480]]}]
    })");
}

ReadingReading readWith(Json document, const std::string& place, const Json& value) {
    document[pointerOf(place)] = value;
    return readReadingDocument(document, "chart.json");
}

ReadingReading smallWith(const std::string& place, const Json& value) {
    return readWith(smallReading(), place, value);
}

std::string listedErrors(const std::vector<Error>& errors) {
    std::string text;
    for (const Error& error : errors) {
        text += "\n  " + error.code + " at " + error.place;
    }
    return text;
}

// The error of that code and place, or one without a code (and a failed test).
Error errorAt(const ReadingReading& reading, std::string_view code, const std::string& place) {
    EXPECT_FALSE(reading.reading);
    for (const Error& error : reading.errors) {
        if (error.code == code && error.place == place) return error;
    }
    ADD_FAILURE() << "no " << code << " at " << place << listedErrors(reading.errors);
    return {};
}

void expectRefused(const ReadingReading& reading, std::string_view code, const std::string& place) {
    EXPECT_EQ(errorAt(reading, code, place).code, code);
    EXPECT_EQ(reading.errors.size(), 1u) << listedErrors(reading.errors);
}

void expectRead(const ReadingReading& reading) {
    EXPECT_TRUE(reading.reading) << listedErrors(reading.errors);
}

void expectRefusedAt(const std::string& place, const Json& value, const std::string& errorPlace) {
    Json spoiled = readingJson();
    if (place.empty())
        spoiled = value;
    else
        spoiled[pointerOf(place)] = value;
    const auto reading = readReadingDocument(spoiled, "chart.json");
    EXPECT_FALSE(reading.reading) << place << " = " << value.dump();
    bool named = false;
    for (const Error& error : reading.errors) {
        named = named || error.place == errorPlace;
        EXPECT_EQ(error.file, "chart.json");
    }
    EXPECT_TRUE(named) << place << " = " << value.dump() << listedErrors(reading.errors);
}

TEST(ReadingReader, ReadsEveryKeyOfTheChart) {
    const auto read = readReadingFile(jobPath("full.reading.json"));
    ASSERT_TRUE(read.reading) << listedErrors(read.errors);
    const Reading& reading = *read.reading;
    EXPECT_EQ(reading.madeBy, "written by hand");
    EXPECT_EQ(reading.extras.size(), 1u);
    EXPECT_EQ(reading.chart.path, "pages/north-brochure.pdf");
    EXPECT_EQ(reading.chart.page, 3);
    EXPECT_EQ(reading.chart.dpi, 200.0);
    EXPECT_EQ(reading.printedUnits.flow, "US gal/min");
    EXPECT_EQ(reading.printedUnits.head, "ft");
    EXPECT_EQ(reading.printedUnits.power, "hp");
    EXPECT_EQ(reading.printedUnits.npshRequired, "psi");
    EXPECT_EQ(reading.flowScale, AxisScale::log10);
    EXPECT_EQ(reading.valueScale, AxisScale::linear);
    EXPECT_EQ(reading.sigmas.pin_px, 0.5);
    EXPECT_EQ(reading.sigmas.spot_px, 1.5);
    EXPECT_EQ(reading.mapping, MappingModel::affine);
    ASSERT_EQ(reading.pins.size(), 5u);
    EXPECT_EQ(reading.pins[0].at, (PixelPoint{210.5, 1530.0}));
    EXPECT_EQ(reading.pins[0].flow, 1.0);
    EXPECT_EQ(reading.pins[0].value, 0.0);
    EXPECT_EQ(reading.pins[0].sigma_px, std::nullopt);
    EXPECT_EQ(reading.pins[1].value, std::nullopt);
    EXPECT_EQ(reading.pins[1].sigma_px, 2.0);
    EXPECT_EQ(reading.pins[2].axis, ValueAxis::left);
    EXPECT_EQ(reading.pins[2].flow, std::nullopt);
    EXPECT_EQ(reading.pins[3].axis, ValueAxis::right);
}

TEST(ReadingReader, ReadsEveryKeyOfTheLines) {
    const auto read = readReadingFile(jobPath("full.reading.json"));
    ASSERT_TRUE(read.reading) << listedErrors(read.errors);
    const auto& lines = read.reading->lines;
    ASSERT_EQ(lines.size(), 5u);
    EXPECT_EQ(lines[0].name, "upper");
    EXPECT_EQ(lines[0].quantity, LineQuantity::head);
    EXPECT_EQ(lines[0].axis, ValueAxis::left);
    ASSERT_EQ(lines[0].followFrom.size(), 2u);
    EXPECT_EQ(lines[0].followFrom[1], (PixelPoint{900.0, 520.5}));
    ASSERT_EQ(lines[0].spots.size(), 2u);
    EXPECT_EQ(lines[0].spots[0], (PixelPoint{300.0, 400.0}));
    EXPECT_EQ(lines[0].betweenFlows, std::pair(2.0, 90.0));
    EXPECT_EQ(lines[0].ink, (InkColour{31, 119, 180})); // 1F = 31, 77 = 119, b4 = 180
    EXPECT_EQ(lines[0].degree, 3);
    EXPECT_EQ(lines[1].quantity, LineQuantity::efficiency);
    EXPECT_EQ(lines[1].axis, ValueAxis::right);
    EXPECT_EQ(lines[1].degree, std::nullopt);
    EXPECT_TRUE(lines[2].powerAtMotorInput);
    EXPECT_FALSE(lines[0].powerAtMotorInput);
    EXPECT_EQ(lines[3].quantity, LineQuantity::npshRequired);
    EXPECT_EQ(lines[4].quantity, LineQuantity::isoEfficiency);
    EXPECT_EQ(lines[4].levelShare, 0.6);
}

TEST(ReadingReader, TakesTheContractsDefaultsForWhatIsLeftOut) {
    const auto read = readReadingDocument(smallReading(), "chart.json");
    ASSERT_TRUE(read.reading) << listedErrors(read.errors);
    const Reading& reading = *read.reading;
    EXPECT_EQ(reading.chart.page, std::nullopt);
    EXPECT_EQ(reading.chart.dpi, 300.0);
    EXPECT_EQ(reading.printedUnits.head, "m");
    EXPECT_EQ(reading.printedUnits.efficiency, "%");
    EXPECT_EQ(reading.printedUnits.power, "kW");
    EXPECT_EQ(reading.printedUnits.npshRequired, "m");
    EXPECT_EQ(reading.flowScale, AxisScale::linear);
    EXPECT_EQ(reading.valueScale, AxisScale::linear);
    EXPECT_EQ(reading.sigmas.pin_px, 0.7);
    EXPECT_EQ(reading.sigmas.spot_px, 1.0);
    EXPECT_EQ(reading.mapping, std::nullopt);
    EXPECT_EQ(reading.lines[0].axis, ValueAxis::left);
    EXPECT_EQ(reading.lines[0].name, "Line 1");
    EXPECT_FALSE(reading.lines[0].powerAtMotorInput);
}

TEST(ReadingReader, RefusesAWrongTypeAtEveryPlace) {
    const Json document = readingJson();
    for (const Node& node : nodesOf(document)) {
        const Json& value = *node.value;
        expectRefusedAt(node.place, nullptr, node.place);
        expectRefusedAt(node.place, true, node.place);
        if (!value.is_array()) expectRefusedAt(node.place, Json::array({Json::array()}), node.place);
        if (!value.is_object()) expectRefusedAt(node.place, Json::object(), node.place);
        if (!value.is_number()) expectRefusedAt(node.place, 7, node.place);
        if (!value.is_string()) expectRefusedAt(node.place, "no such thing", node.place);
    }
}

TEST(ReadingReader, RefusesAnUnknownKeyInEveryObject) {
    const Json document = readingJson();
    for (const Node& node : nodesOf(document)) {
        if (!node.value->is_object()) continue;
        Json spoiled = *node.value;
        spoiled["zz_unknown"] = 1;
        expectRefusedAt(node.place, spoiled, placeOfKey(node.place, "zz_unknown"));
    }
}

TEST(ReadingReader, RefusesAbsurdNumbers) {
    const Json document = readingJson();
    for (const Node& node : nodesOf(document)) {
        if (!node.value->is_number()) continue;
        expectRefusedAt(node.place, -1e12, node.place);
        expectRefusedAt(node.place, 1e12, node.place);
    }
}

TEST(ReadingReader, GivesEitherAReadingOrAReasonWhateverKeyIsLeftOut) {
    const Json document = readingJson();
    for (const Node& node : nodesOf(document)) {
        if (!node.value->is_object()) continue;
        for (const auto& [key, member] : node.value->items()) {
            Json spoiled = document;
            spoiled[pointerOf(node.place)].erase(key);
            const auto reading = readReadingDocument(spoiled, "chart.json");
            EXPECT_NE(reading.reading.has_value(), !reading.errors.empty())
                << node.place << " without " << key;
        }
    }
}

TEST(ReadingReader, NamesEveryNeededKeyThatIsMissing) {
    for (const std::string place : {"format", "version", "chart", "printed_units", "pins", "lines",
                                    "printed_units.flow", "pins[0].px", "lines[0].quantity"}) {
        Json document = smallReading();
        const auto pointer = pointerOf(place);
        ASSERT_TRUE(document.contains(pointer)) << place;
        document[pointer.parent_pointer()].erase(pointer.back());
        expectRefused(readReadingDocument(document, "chart.json"), "missing-key", place);
    }
}

TEST(ReadingReader, ChecksTheVersionBeforeAnythingElse) {
    Json document = smallReading();
    document["version"] = 2;
    document["lines"] = "nonsense";
    expectRefused(readReadingDocument(document, "chart.json"), "newer-version", "version");
    document["version"] = 0;
    expectRefused(readReadingDocument(document, "chart.json"), "unknown-version", "version");
    document["format"] = "headmark-job";
    expectRefused(readReadingDocument(document, "chart.json"), "wrong-format", "format");
}

TEST(ReadingReader, NamesAFileThatIsNotThere) {
    const auto reading = readReadingFile(jobPath("none.reading.json"));
    EXPECT_EQ(errorAt(reading, "no-such-file", "").file, jobPath("none.reading.json"));
}

TEST(ReadingReader, ListsTheUnitsAllowedForAnUnknownOne) {
    // A bare gallon is no unit: US and imperial ones differ by a fifth.
    const Error flow =
        errorAt(smallWith("printed_units.flow", "gal/min"), "unknown-choice", "printed_units.flow");
    EXPECT_EQ(std::get<std::vector<std::string>>(findFact(flow.facts, "allowed")->value),
              (std::vector<std::string>{"m3/h", "l/s", "l/min", "US gal/min", "imp gal/min"}));
    const std::vector<std::string> heads{"m", "ft", "kPa", "bar", "psi"};
    for (const std::string key : {"head", "npsh_required"}) {
        const std::string place = "printed_units." + key;
        const Error error = errorAt(smallWith(place, "kW"), "unknown-choice", place);
        EXPECT_EQ(std::get<std::vector<std::string>>(findFact(error.facts, "allowed")->value), heads);
        for (const auto& unit : heads) {
            expectRead(smallWith(place, unit));
        }
    }
    const Error power =
        errorAt(smallWith("printed_units.power", "PS"), "unknown-choice", "printed_units.power");
    EXPECT_EQ(std::get<std::vector<std::string>>(findFact(power.facts, "allowed")->value),
              (std::vector<std::string>{"kW", "hp"}));
    expectRefused(smallWith("printed_units.efficiency", "m"), "unknown-choice", "printed_units.efficiency");
}

TEST(ReadingReader, WantsTwoDifferentFlowsAndValuesPinned) {
    const Error flow = errorAt(smallWith("pins[1].flow", 0), "too-few-pinned", "pins");
    EXPECT_EQ(std::get<std::string>(findFact(flow.facts, "what")->value), "flow");
    EXPECT_EQ(std::get<std::int64_t>(findFact(flow.facts, "found")->value), 1);
    const Error value = errorAt(smallWith("pins[1].value", 0), "too-few-pinned", "pins");
    EXPECT_EQ(std::get<std::string>(findFact(value.facts, "what")->value), "left");
    const auto none = smallWith("pins", Json::array());
    EXPECT_EQ(none.errors.size(), 2u) << listedErrors(none.errors); // flow and value
}

TEST(ReadingReader, WantsValuesPinnedOnTheAxisThatALineUses) {
    Json document = smallReading();
    document["lines"][0]["axis"] = "right";
    const Error error = errorAt(readReadingDocument(document, "chart.json"), "too-few-pinned", "pins");
    EXPECT_EQ(std::get<std::string>(findFact(error.facts, "what")->value), "right");
    // With both on the right the left axis needs none, and their flows count all the same.
    document["pins"][0]["axis"] = "right";
    document["pins"][1]["axis"] = "right";
    expectRead(readReadingDocument(document, "chart.json"));
    document["lines"][0]["axis"] = "left";
    EXPECT_EQ(errorAt(readReadingDocument(document, "chart.json"), "too-few-pinned", "pins").facts[0].key,
              "what");
}

TEST(ReadingReader, AcceptsFlowsAndValuesOnPinsOfTheirOwn) {
    expectRead(smallWith("pins", Json::parse(R"([{"px": [0, 9], "flow": 0}, {"px": [9, 9], "flow": 5},
                                                 {"px": [0, 9], "value": 1}, {"px": [0, 0], "value": 2}])")));
    expectRefused(smallWith("pins[1]", Json::parse(R"({"px": [0, 9]})")), "one-of-needed", "pins[1]");
}

TEST(ReadingReader, RefusesFiguresThatALogarithmicScaleCannotShow) {
    Json document = smallReading();
    document["scales"] = {{"flow", "log10"}};
    expectRefused(readReadingDocument(document, "chart.json"), "not-on-log-scale", "pins[0].flow");
    expectRefused(readWith(document, "pins[0].flow", -2), "not-on-log-scale", "pins[0].flow");
    document["pins"][0]["flow"] = 0.1;
    expectRead(readReadingDocument(document, "chart.json"));
    expectRefused(readWith(document, "lines[0].between_flows", Json{0, 5}), "not-on-log-scale",
                  "lines[0].between_flows[0]");
    document["scales"] = {{"value", "log10"}};
    expectRefused(readReadingDocument(document, "chart.json"), "not-on-log-scale", "pins[0].value");
}

TEST(ReadingReader, WantsAtLeastOneLineAndOneClick) {
    expectRefused(smallWith("lines", Json::array()), "empty-list", "lines");
    expectRefused(smallWith("lines[0]", {{"quantity", "head"}}), "one-of-needed", "lines[0]");
    expectRefused(smallWith("lines[0].follow_from", Json::array()), "empty-list", "lines[0].follow_from");
    expectRefused(smallWith("lines[0]", {{"quantity", "head"}, {"spots", Json::array()}}), "empty-list",
                  "lines[0].spots");
    // One list left empty does no harm beside the other.
    expectRead(smallWith("lines[0].spots", Json::array()));
}

TEST(ReadingReader, WantsEnoughSpotsForTheLineWhereNoInkIsFollowed) {
    const Json two = Json::parse("[[1, 2], [3, 4]]");
    expectRead(smallWith("lines[0]", {{"quantity", "head"}, {"spots", two}, {"degree", 1}}));
    expectRefused(smallWith("lines[0]", {{"quantity", "head"}, {"spots", two}, {"degree", 2}}),
                  "degree-too-high", "lines[0].degree");
    expectRefused(smallWith("lines[0]", {{"quantity", "head"}, {"spots", Json::parse("[[1, 2]]")}}),
                  "too-few-points", "lines[0].spots");
    Json followed = smallReading();
    followed["lines"][0]["spots"] = Json::parse("[[1, 2]]");
    followed["lines"][0]["degree"] = 6;
    expectRead(readReadingDocument(followed, "chart.json"));
}

TEST(ReadingReader, AllowsDegreesFromOneToSix) {
    for (const int degree : {1, 6}) {
        expectRead(smallWith("lines[0].degree", degree));
    }
    for (const int degree : {0, 7, -1}) {
        expectRefused(smallWith("lines[0].degree", degree), "out-of-range", "lines[0].degree");
    }
    expectRefused(smallWith("lines[0].degree", 2.5), "wrong-type", "lines[0].degree");
}

TEST(ReadingReader, WantsInkAsSixHexadecimalDigits) {
    for (const char* ink : {"#000000", "#ABCDEF", "#abcdef", "#09afAF"}) {
        expectRead(smallWith("lines[0].ink", ink));
    }
    for (const char* ink :
         {"", "#", "000000", "#fff", "#gggggg", "#12345", "#1234567", "#12 456", "red", "#-12345"}) {
        expectRefused(smallWith("lines[0].ink", ink), "bad-colour", "lines[0].ink");
    }
}

TEST(ReadingReader, RefusesANameTwiceForOneQuantity) {
    Json document = smallReading();
    document["lines"][0]["name"] = "upper";
    document["lines"].push_back(document["lines"][0]);
    const Error error =
        errorAt(readReadingDocument(document, "chart.json"), "duplicate-name", "lines[1].name");
    EXPECT_EQ(std::get<std::string>(findFact(error.facts, "first")->value), "lines[0].name");
    document["lines"][1]["quantity"] = "npsh_required";
    expectRead(readReadingDocument(document, "chart.json"));
}

TEST(ReadingReader, NamesTheNamelessLinesApart) {
    Json document = smallReading();
    document["lines"][0]["name"] = "Line 2";
    document["lines"].push_back({{"quantity", "head"}, {"follow_from", Json::parse("[[1, 2]]")}});
    const auto read = readReadingDocument(document, "chart.json");
    ASSERT_TRUE(read.reading) << listedErrors(read.errors);
    EXPECT_EQ(read.reading->lines[1].name, "Line 3");
}

TEST(ReadingReader, TiesKeysToTheQuantityThatHasThem) {
    expectRefused(smallWith("lines[0].quantity", "iso_efficiency"), "missing-beside", "lines[0].level_share");
    expectRefused(smallWith("lines[0].level_share", 0.5), "excluded-by", "lines[0].level_share");
    expectRefused(smallWith("lines[0].power_at", "shaft"), "excluded-by", "lines[0].power_at");
    Json iso = smallReading();
    iso["lines"][0]["quantity"] = "iso_efficiency";
    iso["lines"][0]["level_share"] = 0.6;
    expectRead(readReadingDocument(iso, "chart.json"));
    expectRefused(readWith(iso, "lines[0].degree", 2), "excluded-by", "lines[0].degree");
    expectRefused(readWith(iso, "lines[0].level_share", 60), "share-not-percent", "lines[0].level_share");
    expectRefused(smallWith("lines[0].quantity", "torque"), "unknown-choice", "lines[0].quantity");
}

TEST(ReadingReader, RefusesFlowsInTheWrongOrder) {
    expectRefused(smallWith("lines[0].between_flows", Json{5, 5}), "not-ascending", "lines[0].between_flows");
    expectRefused(smallWith("lines[0].between_flows", Json{5}), "wrong-length", "lines[0].between_flows");
    expectRefused(smallWith("pins[0].px", Json{1, 2, 3}), "wrong-length", "pins[0].px");
    // A document built in memory can hold what no file can.
    expectRefused(smallWith("pins[0].px", Json{1, std::nan("")}), "out-of-range", "pins[0].px[1]");
}

Json embedded(const std::string& type, const std::string& base64) {
    return {{"media_type", type}, {"base64", base64}};
}

TEST(ReadingReader, ReadsAnEmbeddedChart) {
    // RFC 4648 section 10: "foobar" is "Zm9vYmFy".
    for (const char* type :
         {"image/png", "image/jpeg", "image/tiff", "image/bmp", "image/webp", "application/pdf"}) {
        const auto read = smallWith("chart", embedded(type, "Zm9vYmFy"));
        ASSERT_TRUE(read.reading) << type << listedErrors(read.errors);
        ASSERT_TRUE(read.reading->chart.bytes);
        EXPECT_EQ(*read.reading->chart.bytes, "foobar");
        EXPECT_EQ(read.reading->chart.mediaType, type);
        EXPECT_EQ(read.reading->chart.path, "");
    }
    expectRefused(smallWith("chart", embedded("image/svg+xml", "Zm9vYmFy")), "unknown-choice",
                  "chart.media_type");
    expectRefused(smallWith("chart", embedded("image/png", "")), "empty-text", "chart.base64");
    const Error bad =
        errorAt(smallWith("chart", embedded("image/png", "Zm9v YmFy")), "bad-base64", "chart.base64");
    EXPECT_EQ(std::get<std::int64_t>(findFact(bad.facts, "position")->value), 5);
}

TEST(ReadingReader, WantsOneChartAndOnlyOne) {
    expectRefused(smallWith("chart", Json::object()), "one-of-needed", "chart");
    expectRefused(smallWith("chart", {{"media_type", "image/png"}}), "missing-beside", "chart.base64");
    expectRefused(smallWith("chart", {{"base64", "Zm9v"}}), "missing-beside", "chart.media_type");
    expectRefused(smallWith("chart", {{"path", "a.png"}, {"base64", "Zm9v"}}), "excluded-by", "chart.base64");
    expectRefused(smallWith("chart.path", " "), "empty-text", "chart.path");
    Json picture = embedded("image/png", "Zm9v");
    picture["dpi"] = 300;
    expectRefused(smallWith("chart", picture), "excluded-by", "chart.dpi");
    picture["media_type"] = "application/pdf";
    expectRead(smallWith("chart", picture));
    expectRefused(smallWith("chart.page", 0), "out-of-range", "chart.page");
}

TEST(Base64, DecodesThePublishedVectors) {
    // RFC 4648 section 10.
    const std::pair<const char*, const char*> vectors[] = {{"", ""},
                                                           {"Zg==", "f"},
                                                           {"Zm8=", "fo"},
                                                           {"Zm9v", "foo"},
                                                           {"Zm9vYg==", "foob"},
                                                           {"Zm9vYmE=", "fooba"},
                                                           {"Zm9vYmFy", "foobar"}};
    for (const auto& [text, bytes] : vectors) {
        const auto decoded = decodeBase64(text);
        EXPECT_FALSE(decoded.badCharacter) << text;
        EXPECT_EQ(decoded.bytes, bytes);
    }
    // All ones: six digits of 63.
    EXPECT_EQ(decodeBase64("//8=").bytes, "\xFF\xFF");
}

TEST(Base64, RefusesWhatIsNotStrict) {
    const std::pair<const char*, std::size_t> broken[] = {
        {"Zg", 2},       // no padding
        {"Zg=", 3},      // half of it
        {"Zm9v=", 5},    // too much
        {"====", 0},     // nothing padded
        {"Zg==Zg==", 2}, // padding inside
        {"Zm9v\n", 4},   // line end
        {"Zm-_", 2},     // the alphabet for addresses
        {"Zh==", 1},     // unused bits set: "f" again
        {"Zm9=", 2},     // the same with two bytes
        {"A", 1},
    };
    for (const auto& [text, where] : broken) {
        const auto decoded = decodeBase64(text);
        EXPECT_EQ(decoded.badCharacter, where) << text;
        EXPECT_EQ(decoded.bytes, "") << text;
    }
}

} // namespace
} // namespace headmark
