#include "analysis/chart/chart_reader.h"

#include "analysis/chart/chart_codes.h"
#include "analysis/chart/line_samples.h"
#include "analysis/chart/line_tracing.h"
#include "analysis/chart/ruling_figures.h"
#include "analysis/chart/rulings.h"
#include "analysis/units/unit_table.h"

#include <algorithm>
#include <array>
#include <cmath>
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
    std::vector<int> corners; // of the chart, rounded: the rulings are looked for between them

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
    bool provisional = false;

    bool operator==(const ScaleKey&) const = default;
};

ScaleKey scaleKeyOf(const Reading& reading, const ChartMapping& mapping, bool provisional) {
    return {reading.printedUnits,
            reading.flowScale,
            reading.valueScale,
            reading.sigmas,
            reading.pins,
            reading.mapping,
            mapping.model(),
            mapping.hasAxis(ValueAxis::left),
            mapping.hasAxis(ValueAxis::right),
            provisional};
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

// The one pin without which the others agree, by more figures than their mapping needs; none where several
// may be wrong.
std::optional<Caution> wrongPin(const Reading& reading) {
    std::optional<Caution> found;
    for (std::size_t i = 0; i < reading.pins.size(); ++i) {
        Reading others = reading;
        others.pins.erase(others.pins.begin() + static_cast<std::ptrdiff_t>(i));
        const auto mapping = solveMapping(others);
        const Pin& pin = reading.pins[i];
        if (!mapping || mapping->pinsDisagree() || mapping->degreesOfFreedom() < 1) continue;
        if (!mapping->hasAxis(pin.axis)) continue;
        if (found) return std::nullopt;
        const AxisPoint at = mapping->axisFromPixel(pin.at, pin.axis);
        const auto off = [&](AxisPoint said) {
            const PixelPoint there = mapping->pixelFromAxis(said, pin.axis);
            return std::hypot(there.x_px - pin.at.x_px, there.y_px - pin.at.y_px);
        };
        const double flowOff = pin.flow ? off({*pin.flow, at.value}) : 0.0;
        const double valueOff = pin.value ? off({at.flow, *pin.value}) : 0.0;
        const bool byFlow = flowOff > valueOff;
        Caution c;
        c.code = code::kPinContradicts;
        c.severity = Severity::warning;
        c.place = "pins[" + std::to_string(i) + "]";
        c.values = {{"what", std::string(byFlow ? "flow" : "value")},
                    {"figure", byFlow ? *pin.flow : pin.value.value_or(at.value)},
                    {"expected", byFlow ? at.flow : at.value},
                    {"off_px", std::max(flowOff, valueOff)}};
        found = c;
    }
    return found;
}

Cautions cautionsOf(const ChartMapping& mapping, const Reading& reading, bool provisional) {
    constexpr double kCurled_px = 1.5; // less is the print's and the scanner's own
    if (!mapping.pinsDisagree() && mapping.warp_px() > kCurled_px) {
        Caution c;
        c.code = code::kPaperCurled;
        c.severity = Severity::note;
        c.place = "pins";
        c.values = {{"warp_px", mapping.warp_px()},
                    {"rulings", static_cast<std::int64_t>(mapping.rulings())}};
        complete(c);
        return {c};
    }
    if (!mapping.pinsDisagree()) return {};
    if (auto wrong = provisional ? std::nullopt : wrongPin(reading)) {
        complete(*wrong);
        return {*wrong};
    }
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

// Rounded, so that a pin that is nudged keeps rulings and traces.
constexpr int kCornerStep_px = 8;

// The pinned chart's corners on the page, in steps of kCornerStep_px.
std::vector<int> cornersOf(const Reading& reading, const ChartMapping& mapping, const Page& page) {
    const ValueAxis axis = mapping.hasAxis(ValueAxis::left) ? ValueAxis::left : ValueAxis::right;
    double flows[2] = {1e300, -1e300}, values[2] = {1e300, -1e300};
    for (const Pin& pin : reading.pins) {
        if (pin.flow) {
            flows[0] = std::min(flows[0], *pin.flow);
            flows[1] = std::max(flows[1], *pin.flow);
        }
        if (pin.value && pin.axis == axis) {
            values[0] = std::min(values[0], *pin.value);
            values[1] = std::max(values[1], *pin.value);
        }
    }
    std::vector<int> corners;
    for (const double value : values) {
        for (const double flow : flows) {
            const PagePoint at = pagePointOf(mapping.pixelFromAxis({flow, value}, axis), page);
            for (const double place : {at.x, at.y})
                corners.push_back(
                    static_cast<int>(std::lround(std::clamp(place, -1e6, 1e6) / kCornerStep_px)));
        }
    }
    return corners;
}

// Whether no corner lies farther from where it was than a small share of the chart.
bool areNear(const std::vector<int>& corners, const std::vector<int>& known) {
    if (corners.size() != known.size()) return false;
    constexpr double kNear = 0.05; // of the diagonal; rule of this program
    const double diagonal = std::hypot(corners[6] - corners[0], corners[7] - corners[1]);
    for (std::size_t k = 0; k < corners.size(); k += 2) {
        if (std::hypot(corners[k] - known[k], corners[k + 1] - known[k + 1]) > kNear * diagonal) return false;
    }
    return true;
}

} // namespace

struct ChartReader::State {
    explicit State(std::shared_ptr<const Page> ofPage)
        : page(std::move(ofPage)), field(*page, cv::Rect(0, 0, page->width, page->height)) {}

    [[nodiscard]] Memory& remembered(const ChartLine& line, const PixelSigmas& sigmas);
    [[nodiscard]] Result<ReadLine> readLine(const Reading& reading, std::size_t index,
                                            const ChartMapping& mapping, const ScaleKey& scale);

    void lookForRulings(const std::vector<int>& corners);

    std::shared_ptr<const Page> page;
    InkField field;
    std::vector<int> rulingCorners;
    Rulings rulings;
    std::list<Memory> memories; // the last used first
};

void ChartReader::State::lookForRulings(const std::vector<int>& corners) {
    if (corners == rulingCorners) return;
    ChartCorners at{};
    for (std::size_t k = 0; k < at.size(); ++k)
        at[k] = {1.0 * kCornerStep_px * corners[2 * k], 1.0 * kCornerStep_px * corners[2 * k + 1]};
    rulings = Rulings::find(field, at);
    rulingCorners = corners;
}

Memory& ChartReader::State::remembered(const ChartLine& line, const PixelSigmas& sigmas) {
    const TraceKey key{line.followFrom, line.spots, line.ink, sigmas.spot_px, rulingCorners};
    const auto known =
        std::find_if(memories.begin(), memories.end(), [&](const Memory& m) { return m.key == key; });
    if (known != memories.end()) {
        memories.splice(memories.begin(), memories, known);
    } else {
        memories.push_front({key, traceLine(line, field, *page, sigmas, "", rulings), {}, {}, 0, {}});
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

ChartReader::Outcome ChartReader::read(const Reading& reading, GridLook look) {
    Outcome outcome;
    if (auto error = unitError(reading)) {
        outcome.errors.push_back(std::move(*error));
        return outcome;
    }
    const auto aside = halfPinned(reading);
    const Reading& pinned = aside ? without(reading, *aside) : reading;
    auto mapping = solveMapping(pinned);
    if (!mapping) {
        outcome.errors.push_back(mapping.error());
        return outcome;
    }
    const std::vector<int> corners = cornersOf(reading, *mapping, *state_->page);
    outcome.provisional = look == GridLook::asKnown && areNear(corners, state_->rulingCorners);
    if (!outcome.provisional) state_->lookForRulings(corners);
    // Twice: what the rulings known at once take out of curled paper brings the others to their figures.
    const int rounds = state_->rulings.empty() ? 0 : outcome.provisional ? 1 : 2;
    for (int round = 0; round < rounds; ++round)
        mapping = solveMapping(pinned, figuresOf(state_->rulings, *mapping, pinned, *state_->page));
    const ScaleKey scale = scaleKeyOf(reading, *mapping, outcome.provisional);
    ChartLines& chart = outcome.chart.emplace();
    chart.mappingCautions = cautionsOf(*mapping, reading, outcome.provisional);
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
