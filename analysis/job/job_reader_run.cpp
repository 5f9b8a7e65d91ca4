// The items of a run: pipes, fittings, filters, regulators and take-offs.

#include "analysis/job/error_codes.h"
#include "analysis/job/job_reader_parts.h"
#include "analysis/pipework/catalogue.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <map>

namespace headmark {

namespace {

constexpr NumberRange kBore_mm{1.0, 2000.0};
constexpr NumberRange kRoughness_mm{0.0, 50.0};
constexpr NumberRange kHazenWilliams{20.0, 200.0};
constexpr NumberRange kRating_kPa{1.0, 100'000.0};
constexpr NumberRange kLength_m{0.0, 100'000.0};
constexpr NumberRange kLevel_m{-12'000.0, 9000.0}; // deepest borehole to highest mountain
constexpr NumberRange kLossCoefficient{0.0, 100'000.0};
constexpr NumberRange kKv_m3_h{0.001, 100'000.0};
constexpr NumberRange kAngle_deg{1.0, 180.0};
constexpr NumberRange kFilterLoss_kPa{0.0, 2000.0};
constexpr NumberRange kFilterFlow_m3_h{0.001, 100'000.0};
// Laminar flow through a bed loses in proportion to the flow, turbulent with its square.
constexpr NumberRange kFilterExponent{0.5, 3.0};
constexpr NumberRange kSetPressure_kPa{1.0, 10'000.0};
// Needed above the set pressure: note of the catalogue's row.
constexpr double kRegulatorLeastLoss_kPa = 35.0;
constexpr int kMostFittings = 10'000;
constexpr std::string_view kFixedRegulator = "pressure_regulator_fixed";

template <class Row, class CodeOf>
std::vector<std::string> codesOf(std::span<const Row> rows, CodeOf codeOf) {
    std::vector<std::string> codes;
    for (const Row& row : rows) {
        const std::string& code = codeOf(row);
        if (codes.empty() || codes.back() != code) codes.push_back(code);
    }
    return codes;
}

// The sizes a fitting may have: those of its own table where it has one, else every thread size; a fitting
// with rows for some special sizes (bore ratios) has both.
std::vector<std::string> sizesOf(const FittingRow& fitting) {
    std::vector<std::string> sizes;
    for (const FittingRow& row : fittingRows()) {
        if (row.code == fitting.code && !row.size.empty()) sizes.push_back(row.size);
    }
    if (fitting.model != LossModel::kvTable || sizes.empty()) {
        for (const ThreadRow& thread : threadRows()) {
            sizes.push_back(thread.designation);
        }
    }
    return sizes;
}

std::string readSize(const ObjectReader& object, const FittingRow& fitting) {
    const auto size = object.name("size");
    if (!size) return {};
    const auto sizes = sizesOf(fitting);
    if (std::find(sizes.begin(), sizes.end(), *size) != sizes.end()) return *size;
    object.refuse(code::kNoSuchSize, "size", {{"code", fitting.code}, {"size", *size}, {"sizes", sizes}});
    return {};
}

RegulatorItem readFixedRegulator(const ObjectReader& object, const FittingRow& row) {
    object.exclude({"bore_mm", "angle_deg", "count"}, "fitting");
    if (!object.needBeside("set_kPa", "fitting")) return {};
    return {
        object.amount("set_kPa", kSetPressure_kPa, GaugePressure::fromKilopascals).value_or(GaugePressure()),
        Pressure::fromKilopascals(kRegulatorLeastLoss_kPa), row.code, readSize(object, row)};
}

void readSpelledFitting(const PlacedValue& at, const ObjectReader& object, FittingItem& fitting) {
    const ObjectReader figures(at, object.log(), {"k", "kv_m3_h"});
    figures.atMostOneOf({"k", "kv_m3_h"}, true);
    fitting.k = figures.number("k", kLossCoefficient);
    fitting.kv_m3_h = figures.number("kv_m3_h", kKv_m3_h);
    // A size tells the bore as well as "bore_mm" does.
    static const FittingRow anySize{};
    fitting.size = readSize(object, anySize);
}

RunItem readFitting(const PlacedValue& item, ReadLog& log) {
    const ObjectReader object(item, log, {"fitting", "size", "bore_mm", "angle_deg", "count", "set_kPa"});
    const PlacedValue at = *object.value("fitting");
    FittingItem fitting;
    if (at.value->is_string()) {
        const FittingRow* row = findFitting(at.value->get<std::string>());
        if (!row) {
            refuseCode(at, "fitting",
                       codesOf(
                           fittingRows(), [](auto& r) -> auto& { return r.code; }),
                       log);
            return fitting;
        }
        if (row->code == kFixedRegulator) return readFixedRegulator(object, *row);
        fitting.code = row->code;
        fitting.size = readSize(object, *row);
    } else if (at.value->is_object()) {
        readSpelledFitting(at, object, fitting);
    } else {
        refuseType(at, "text or object", log);
    }
    if (object.has("set_kPa")) object.exclude({"set_kPa"}, "fitting");
    fitting.bore = object.amount("bore_mm", kBore_mm, Length::fromMillimetres);
    fitting.angle_deg = object.number("angle_deg", kAngle_deg);
    fitting.count = object.integer("count", 1, kMostFittings).value_or(1);
    return fitting;
}

FilterItem readSpelledFilter(const PlacedValue& at, ReadLog& log) {
    const ObjectReader object(at, log, {"loss_kPa", "at_m3_h", "exponent", "service_kPa", "max_m3_h"});
    FilterItem filter;
    filter.loss = object.neededAmount("loss_kPa", kFilterLoss_kPa, Pressure::fromKilopascals);
    filter.at = object.neededAmount("at_m3_h", kFilterFlow_m3_h, Flow::fromCubicMetresPerHour);
    filter.exponent = object.number("exponent", kFilterExponent).value_or(filter.exponent);
    filter.service = object.neededAmount("service_kPa", kFilterLoss_kPa, Pressure::fromKilopascals);
    filter.greatestFlow = object.amount("max_m3_h", kFilterFlow_m3_h, Flow::fromCubicMetresPerHour);
    return filter;
}

FilterItem readFilter(const PlacedValue& item, ReadLog& log) {
    const ObjectReader object(item, log, {"filter"});
    const PlacedValue at = *object.value("filter");
    if (at.value->is_object()) return readSpelledFilter(at, log);
    if (!at.value->is_string()) {
        refuseType(at, "text or object", log);
        return {};
    }
    if (const FilterRow* row = findFilter(at.value->get<std::string>())) return row->item;
    refuseCode(at, "filter",
               codesOf(
                   filterRows(), [](auto& r) -> auto& { return r.item.code; }),
               log);
    return {};
}

RegulatorItem readRegulator(const PlacedValue& item, ReadLog& log) {
    const ObjectReader object(item, log, {"regulator"});
    const ObjectReader figures(*object.value("regulator"), log, {"set_kPa"});
    return {figures.neededAmount("set_kPa", kSetPressure_kPa, GaugePressure::fromKilopascals),
            Pressure::fromPascals(0.0), ""};
}

TakeoffItem readTakeoff(const PlacedValue& item, bool allowed, ReadLog& log) {
    const ObjectReader object(item, log, {"takeoff"});
    if (!allowed) object.refuse(code::kTakeoffMisplaced, "takeoff");
    return {object.name("takeoff").value_or("")};
}

constexpr std::string_view kItemKinds[] = {"pipe", "fitting", "filter", "regulator", "takeoff"};

// Which of the five kinds the item is; empty (and reported) if none or several.
std::string_view kindOfItem(const PlacedValue& item, ReadLog& log) {
    if (!item.value->is_object()) {
        refuseType(item, "object", log);
        return {};
    }
    std::vector<std::string> found;
    std::string_view kind;
    for (const auto candidate : kItemKinds) {
        if (!item.value->contains(std::string(candidate))) continue;
        found.emplace_back(candidate);
        kind = candidate;
    }
    const std::vector<std::string> all(std::begin(kItemKinds), std::end(kItemKinds));
    if (found.size() == 1) return kind;
    if (found.empty()) {
        log.add(code::kOneOfNeeded, item.place, {{"keys", all}});
    } else {
        log.add(code::kOnlyOneOf, item.place, {{"found", found}, {"keys", all}});
    }
    return {};
}

void checkTakeoffNames(const Run& run, const std::vector<PlacedValue>& places, ReadLog& log) {
    std::map<std::string, std::string> first;
    for (std::size_t i = 0; i < run.size(); ++i) {
        const auto* takeoff = std::get_if<TakeoffItem>(&run[i]);
        if (!takeoff || takeoff->name.empty()) continue;
        const std::string place = places[i].place + ".takeoff";
        const auto [known, added] = first.emplace(takeoff->name, place);
        if (!added) log.add(code::kDuplicateName, place, {{"name", takeoff->name}, {"first", known->second}});
    }
}

} // namespace

PipeKind readPipeKind(const PlacedValue& at, FrictionMethod friction, ReadLog& log) {
    const bool hazenWilliams = friction == FrictionMethod::hazenWilliams;
    if (at.value->is_string()) {
        const PipeRow* row = findPipe(at.value->get<std::string>());
        if (!row) {
            refuseCode(at, "pipe",
                       codesOf(
                           pipeRows(), [](auto& r) -> auto& { return r.kind.code; }),
                       log);
            return {};
        }
        if (hazenWilliams && !row->kind.hazenWilliamsC)
            log.add(code::kMissingBeside, at.place + ".hazen_williams_c",
                    {{"beside", std::string("site.friction")}});
        return row->kind;
    }
    if (!at.value->is_object()) {
        refuseType(at, "text or object", log);
        return {};
    }
    const ObjectReader object(at, log, {"bore_mm", "roughness_mm", "hazen_williams_c", "rating_kPa"});
    PipeKind kind;
    kind.bore = object.neededAmount("bore_mm", kBore_mm, Length::fromMillimetres);
    object.needBeside(hazenWilliams ? "hazen_williams_c" : "roughness_mm", "friction");
    kind.roughness = object.amount("roughness_mm", kRoughness_mm, Length::fromMillimetres).value_or(Length());
    kind.hazenWilliamsC = object.number("hazen_williams_c", kHazenWilliams);
    kind.rating = object.amount("rating_kPa", kRating_kPa, Pressure::fromKilopascals);
    return kind;
}

PipeItem readPipeItem(const ObjectReader& object, FrictionMethod friction) {
    PipeItem pipe;
    if (object.need("pipe")) pipe.kind = readPipeKind(*object.value("pipe"), friction, object.log());
    pipe.length = object.neededAmount("length_m", kLength_m, Length::fromMetres);
    pipe.riseTo = object.amount("rise_to_m", kLevel_m, Level::fromMetres);
    return pipe;
}

Run readRun(const std::vector<PlacedValue>& items, FrictionMethod friction, bool mayHaveTakeoffs,
            ReadLog& log) {
    Run run;
    for (const auto& item : items) {
        const auto kind = kindOfItem(item, log);
        if (kind == "pipe") {
            run.emplace_back(
                readPipeItem(ObjectReader(item, log, {"pipe", "length_m", "rise_to_m"}), friction));
        } else if (kind == "fitting") {
            run.push_back(readFitting(item, log));
        } else if (kind == "filter") {
            run.emplace_back(readFilter(item, log));
        } else if (kind == "regulator") {
            run.emplace_back(readRegulator(item, log));
        } else if (kind == "takeoff") {
            run.emplace_back(readTakeoff(item, mayHaveTakeoffs, log));
        } else {
            run.emplace_back(TakeoffItem{}); // reported; keeps the places in step
        }
    }
    checkTakeoffNames(run, items, log);
    return run;
}

} // namespace headmark
