#include "analysis/chart/chart_reader.h"

#include "analysis/chart/chart_codes.h"
#include "analysis/chart/line_samples.h"
#include "analysis/chart/line_tracing.h"
#include "analysis/units/unit_table.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <list>
#include <set>

namespace headmark {

namespace {

// Lines traced for earlier readings of the page and kept besides those of the last: an undo finds them again.
constexpr std::size_t kSpareTraces = 24;

std::string placeOfLine(std::size_t index) { return "lines[" + std::to_string(index) + "]"; }

// All that the tracing of a line depends on, besides the page.
struct TraceKey {
    std::vector<PixelPoint> followFrom, spots;
    std::optional<InkColour> ink;
    double spotSigma_px = 0.0;

    bool operator==(const TraceKey&) const = default;
};

// All that the scale depends on; lines enter by the axes they use and, through them, by the model chosen.
struct ScaleKey {
    PrintedUnits units;
    AxisScale flow = AxisScale::linear, value = AxisScale::linear;
    PixelSigmas sigmas;
    std::vector<Pin> pins;
    std::optional<MappingModel> asked;
    MappingModel found = MappingModel::upright;
    bool left = false, right = false;

    bool operator==(const ScaleKey&) const = default;
};

ScaleKey scaleKeyOf(const Reading& reading, const ChartMapping& mapping) {
    return {reading.printedUnits,
            reading.flowScale,
            reading.valueScale,
            reading.sigmas,
            reading.pins,
            reading.mapping,
            mapping.model(),
            mapping.hasAxis(ValueAxis::left),
            mapping.hasAxis(ValueAxis::right)};
}

struct Memory {
    TraceKey key;
    std::optional<Result<TracedLine>> traced; // places without "lines[i]"
    // What was read last from it.
    ScaleKey scale;
    ChartLine line;
    std::size_t index = 0;
    std::optional<Result<ReadLine>> read;
};

// What the reading says of a line that could not be read.
ReadLine unreadLine(const ChartLine& line) {
    ReadLine unread;
    unread.name = line.name;
    unread.quantity = line.quantity;
    unread.axis = line.axis;
    unread.trust = Trust::doubtful;
    return unread;
}

void complete(Caution& caution) {
    const auto row =
        std::find_if(code::kChartCautions.begin(), code::kChartCautions.end(),
                     [&](const code::ChartCautionRow& known) { return known.code == caution.code; });
    if (row == code::kChartCautions.end()) return;
    if (caution.remedy.empty()) caution.remedy = row->remedy;
    if (caution.source.empty()) caution.source = row->source;
}

void complete(ReadLine& line) {
    for (Caution& caution : line.cautions) {
        complete(caution);
        if (!findFact(caution.values, "line"))
            caution.values.insert(caution.values.begin(), {"line", line.name});
    }
}

Cautions cautionsOf(const ChartMapping& mapping, const Reading& reading) {
    if (!mapping.pinsDisagree()) return {};
    const auto& residuals = mapping.pinResiduals_px();
    const auto worst = static_cast<std::size_t>(
        std::distance(residuals.begin(), std::max_element(residuals.begin(), residuals.end())));
    Caution c;
    c.code = "pins-disagree";
    c.severity = Severity::warning;
    c.place = "pins[" + std::to_string(worst) + "]";
    c.values = {{"residual_px", residuals[worst]},
                {"sigma_px", reading.pins[worst].sigma_px.value_or(reading.sigmas.pin_px)}};
    complete(c);
    return {c};
}

std::size_t differentValues(const Reading& reading, ValueAxis axis) {
    std::set<double> values;
    for (const Pin& pin : reading.pins) {
        if (pin.value && pin.axis == axis) values.insert(*pin.value);
    }
    return values.size();
}

bool isUsed(const Reading& reading, ValueAxis axis) {
    const auto ofAxis = [&](const auto& one) { return one.axis == axis; };
    return differentValues(reading, axis) > 0 ||
           std::any_of(reading.lines.begin(), reading.lines.end(), ofAxis);
}

// The value axis that is not pinned as yet while the other one is.
std::optional<ValueAxis> halfPinned(const Reading& reading) {
    const std::size_t left = differentValues(reading, ValueAxis::left);
    const std::size_t right = differentValues(reading, ValueAxis::right);
    if (left >= 2 && right < 2 && isUsed(reading, ValueAxis::right)) return ValueAxis::right;
    if (right >= 2 && left < 2 && isUsed(reading, ValueAxis::left)) return ValueAxis::left;
    return std::nullopt;
}

Error tooFewPinned(const Reading& reading, ValueAxis axis) {
    return Error{"too-few-pinned",
                 "",
                 "pins",
                 {{"what", std::string(axis == ValueAxis::left ? "left" : "right")},
                  {"found", static_cast<std::int64_t>(differentValues(reading, axis))}}};
}

Reading without(Reading reading, ValueAxis axis) {
    for (Pin& pin : reading.pins) {
        if (pin.axis == axis) pin.value.reset();
    }
    std::erase_if(reading.lines, [&](const ChartLine& line) { return line.axis == axis; });
    return reading;
}

// Units that are not chosen as yet.
std::optional<Error> unitError(const Reading& reading) {
    if (findUnit(Dimension::flow, reading.printedUnits.flow)) return std::nullopt;
    return Error{"missing-key", "", "printed_units.flow", {}};
}

std::optional<Error> lineError(const ChartLine& line, std::size_t index) {
    if (!line.followFrom.empty() || !line.spots.empty()) return std::nullopt;
    return Error{"one-of-needed",
                 "",
                 placeOfLine(index),
                 {{"keys", std::vector<std::string>{"follow_from", "spots"}}}};
}

} // namespace

struct ChartReader::State {
    explicit State(std::shared_ptr<const Page> ofPage)
        : page(std::move(ofPage)), field(*page, cv::Rect(0, 0, page->width, page->height)) {}

    [[nodiscard]] Memory& remembered(const ChartLine& line, const PixelSigmas& sigmas);
    [[nodiscard]] Result<ReadLine> readLine(const Reading& reading, std::size_t index,
                                            const ChartMapping& mapping, const ScaleKey& scale);

    std::shared_ptr<const Page> page;
    InkField field;
    std::list<Memory> memories; // the last used first
};

Memory& ChartReader::State::remembered(const ChartLine& line, const PixelSigmas& sigmas) {
    const TraceKey key{line.followFrom, line.spots, line.ink, sigmas.spot_px};
    const auto known =
        std::find_if(memories.begin(), memories.end(), [&](const Memory& m) { return m.key == key; });
    if (known != memories.end()) {
        memories.splice(memories.begin(), memories, known);
    } else {
        memories.push_front({key, traceLine(line, field, *page, sigmas, ""), {}, {}, 0, {}});
    }
    return memories.front();
}

Result<ReadLine> ChartReader::State::readLine(const Reading& reading, std::size_t index,
                                              const ChartMapping& mapping, const ScaleKey& scale) {
    const ChartLine& line = reading.lines[index];
    if (auto error = lineError(line, index)) return *error;
    Memory& memory = remembered(line, reading.sigmas);
    if (!*memory.traced) {
        Error error = memory.traced->error();
        error.place = placeOfLine(index) + error.place;
        return error;
    }
    const bool known = memory.read && memory.index == index && memory.line == line && memory.scale == scale;
    if (!known) {
        TracedLine traced = **memory.traced;
        for (Caution& caution : traced.cautions)
            caution.place = placeOfLine(index) + caution.place;
        memory.read = lineFromTrace(reading, index, mapping, *page, traced);
        if (*memory.read) complete(**memory.read);
        memory.index = index;
        memory.line = line;
        memory.scale = scale;
    }
    return *memory.read;
}

ChartReader::ChartReader(std::shared_ptr<const Page> page)
    : state_(std::make_unique<State>(std::move(page))) {}
ChartReader::~ChartReader() = default;
ChartReader::ChartReader(ChartReader&&) noexcept = default;
ChartReader& ChartReader::operator=(ChartReader&&) noexcept = default;

ChartReader::Outcome ChartReader::read(const Reading& reading) {
    Outcome outcome;
    if (auto error = unitError(reading)) {
        outcome.errors.push_back(std::move(*error));
        return outcome;
    }
    const auto aside = halfPinned(reading);
    auto mapping = aside ? solveMapping(without(reading, *aside)) : solveMapping(reading);
    if (!mapping) {
        outcome.errors.push_back(mapping.error());
        return outcome;
    }
    const ScaleKey scale = scaleKeyOf(reading, *mapping);
    ChartLines& chart = outcome.chart.emplace();
    chart.mappingCautions = cautionsOf(*mapping, reading);
    const auto isAside = [&](const ChartLine& line) { return aside && line.axis == *aside; };
    for (std::size_t i = 0; i < reading.lines.size(); ++i) {
        const ChartLine& line = reading.lines[i];
        auto read = isAside(line) ? Result<ReadLine>(tooFewPinned(reading, *aside))
                                  : state_->readLine(reading, i, *mapping, scale);
        if (!read) chart.unread.emplace(i, read.error());
        chart.lines.push_back(read ? std::move(read).value() : unreadLine(line));
    }
    chart.mapping = std::move(*mapping);
    // Pinned by a single value and used by no line: its pins are unfinished, and nothing else is.
    if (aside && std::none_of(reading.lines.begin(), reading.lines.end(), isAside))
        outcome.errors.push_back(tooFewPinned(reading, *aside));
    for (const auto& [index, error] : chart.unread)
        outcome.errors.push_back(error);
    if (state_->memories.size() > reading.lines.size() + kSpareTraces)
        state_->memories.resize(reading.lines.size() + kSpareTraces);
    return outcome;
}

} // namespace headmark
