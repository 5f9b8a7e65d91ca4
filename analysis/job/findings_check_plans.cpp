// The parts of a pump's findings beside its cases: zones at once, shift plan, installation, connection sheet.
#include "analysis/job/error_codes.h"
#include "analysis/job/findings_check_parts.h"

namespace headmark::findings_check {

namespace {

void checkStudyFigure(const PlacedValue& at, ReadLog& log) {
    const ObjectReader figure(at, log,
                              {"code", "place", "values", "title", "formula", "with", "result", "source"});
    checkName(figure, "code");
    checkTexts(figure, {"place", "title", "formula", "with", "result", "source"});
    checkObject(figure, "values", checkValues);
}

void checkLimit(const PlacedValue& at, ReadLog& log) {
    const ObjectReader limit(at, log, {"code", "zone"});
    checkName(limit, "code");
    (void)limit.name("zone"); // left out: none in particular
}

void checkOneMore(const PlacedValue& at, ReadLog& log) {
    const ObjectReader change(at, log, {"change", "best_set"});
    checkName(change, "change");
    checkCount(change, "best_set");
}

bool isTimeOfDay(std::string_view text) {
    const auto digit = [&](std::size_t i) { return text[i] >= '0' && text[i] <= '9'; };
    if (text.size() != 5 || text[2] != ':' || !digit(0) || !digit(1) || !digit(3) || !digit(4)) return false;
    return text.substr(0, 2) < "24" && text.substr(3) < "60";
}

// Without a window nothing says when to begin.
void checkStart(const ObjectReader& object, std::string_view key) {
    if (!present(object, key, Presence::mayBeLeftOut)) return;
    const auto start = object.text(key);
    if (start && !isTimeOfDay(*start)) object.refuse(code::kBadTime, key, {{"found", *start}});
}

void checkStation(const PlacedValue& at, ReadLog& log) {
    const ObjectReader station(at, log, {"station", "zone", "start", "minutes", "flow_m3_h"});
    checkCount(station, "station");
    checkName(station, "zone");
    checkStart(station, "start");
    checkNumber(station, "minutes", kNotNegative);
    checkNumber(station, "flow_m3_h", kAny);
}

void checkShift(const PlacedValue& at, ReadLog& log) {
    const ObjectReader shift(at, log,
                             {"zones", "start", "minutes", "minutes_95", "flow_m3_h", "flow_95_m3_h",
                              "energy_kWh", "energy_95_kWh", "stations"});
    checkObject(shift, "zones", checkNames);
    checkStart(shift, "start");
    checkFigure(shift, "minutes", "minutes_95", kNotNegative);
    checkFigure(shift, "flow_m3_h", "flow_95_m3_h");
    checkFigure(shift, "energy_kWh", "energy_95_kWh", kNotNegative, Presence::neededOrNull);
    if (shift.has("stations")) checkItems(shift, "stations", checkStation);
}

void checkTankAt(const PlacedValue& at, ReadLog& log) {
    const ObjectReader tank(at, log, {"minute", "time", "left_m3", "level_m"});
    checkNumber(tank, "minute", kNotNegative);
    checkStart(tank, "time");
    checkNumber(tank, "left_m3", kNotNegative);
    checkNumber(tank, "level_m", kAny);
}

void checkSheetPart(const PlacedValue& at, ReadLog& log) {
    const ObjectReader part(at, log,
                            {"number", "part", "name", "size", "line", "origin", "count", "length_m",
                             "branch_of", "place", "item", "slot", "purpose"});
    checkCount(part, "number");
    checkName(part, "part");
    checkTexts(part, {"name", "size", "place", "item", "slot", "purpose"});
    part.need("line");
    (void)part.choice<int>("line", {{"inlet", 0}, {"pump", 1}, {"outlet", 2}, {"main", 3}, {"control", 4}});
    part.need("origin");
    (void)part.choice<int>("origin", {{"run", 0}, {"adapter", 1}, {"added", 2}});
    checkCount(part, "count");
    checkNumber(part, "length_m", kNotNegative, Presence::neededOrNull);
    checkObject(part, "branch_of", checkWhole, Presence::neededOrNull);
}

void checkJoint(const PlacedValue& at, ReadLog& log) {
    const ObjectReader joint(at, log, {"before", "after", "code", "right", "seal", "text", "source"});
    checkCount(joint, "before");
    checkCount(joint, "after");
    checkName(joint, "code");
    checkBoolean(joint, "right");
    checkTexts(joint, {"seal", "text", "source"});
}

void checkBillRow(const PlacedValue& at, ReadLog& log) {
    const ObjectReader row(at, log, {"part", "text", "count", "length_m", "numbers"});
    checkName(row, "part");
    checkTexts(row, {"text"});
    checkCount(row, "count");
    checkNumber(row, "length_m", kNotNegative, Presence::neededOrNull);
    checkItems(row, "numbers", checkWhole);
}

void checkStep(const PlacedValue& at, ReadLog& log) {
    const ObjectReader step(at, log, {"code", "text", "parts"});
    checkName(step, "code");
    checkTexts(step, {"text"});
    checkItems(step, "parts", checkWhole);
}

void checkCommissioning(const PlacedValue& at, ReadLog& log) {
    const ObjectReader row(at, log, {"code", "text", "expected", "expected_text", "why", "reading", "parts"});
    checkName(row, "code");
    checkTexts(row, {"text", "expected_text", "why", "reading"});
    checkObject(row, "expected", checkValues);
    checkItems(row, "parts", checkWhole);
}

} // namespace

void checkStudy(const PlacedValue& at, ReadLog& log) {
    const ObjectReader study(at, log, {"topic", "figures", "cautions"});
    checkName(study, "topic");
    checkItems(study, "figures", checkStudyFigure);
    checkItems(study, "cautions", checkCaution);
}

void checkZonesAtOnce(const PlacedValue& at, ReadLog& log) {
    const ObjectReader zones(at, log,
                             {"any_set", "every_choice_works_for", "best_set", "best_sets", "best_sets_count",
                              "best_sets_counted", "proven", "best_set_at_most", "any_set_at_most", "limits",
                              "one_more", "cautions"});
    for (const auto key : {"any_set", "best_set", "best_sets_count", "best_set_at_most", "any_set_at_most"}) {
        checkCount(zones, key);
    }
    checkItems(zones, "every_choice_works_for", checkWhole);
    checkItems(zones, "best_sets", checkNames);
    const auto sets = zones.value("best_sets");
    if (sets && sets->value->is_array() && sets->value->size() > kMostBestSets) {
        zones.refuse(code::kListTooLong, "best_sets",
                     {{"found", static_cast<std::int64_t>(sets->value->size())},
                      {"limit", static_cast<std::int64_t>(kMostBestSets)}});
    }
    checkBoolean(zones, "proven");
    if (zones.has("best_sets_counted")) checkBoolean(zones, "best_sets_counted");
    checkItems(zones, "limits", checkLimit);
    if (zones.has("one_more")) checkItems(zones, "one_more", checkOneMore);
    if (zones.has("cautions")) checkItems(zones, "cautions", checkCaution);
}

void checkShiftPlan(const PlacedValue& at, ReadLog& log) {
    const ObjectReader plan(at, log,
                            {"shifts", "total_hours", "total_95_hours", "total_energy_kWh",
                             "total_energy_95_kWh", "cost", "cost_95", "objective", "proven", "gap_share",
                             "fits_window", "tank", "cautions"});
    checkItems(plan, "shifts", checkShift);
    checkFigure(plan, "total_hours", "total_95_hours", kNotNegative);
    checkFigure(plan, "total_energy_kWh", "total_energy_95_kWh", kNotNegative, Presence::neededOrNull);
    checkFigure(plan, "cost", "cost_95", kNotNegative, Presence::mayBeLeftOut);
    (void)plan.choice<int>("objective", {{"time", 0}, {"energy", 1}, {"shifts", 2}});
    (void)plan.boolean("proven");
    (void)plan.boolean("fits_window");
    checkNumber(plan, "gap_share", kShareRange, Presence::mayBeLeftOut);
    if (plan.has("tank")) checkItems(plan, "tank", checkTankAt);
    if (plan.has("cautions")) checkItems(plan, "cautions", checkCaution);
}

void checkConnections(const PlacedValue& at, ReadLog& log) {
    const ObjectReader sheet(at, log, {"parts", "joints", "bill", "assembly", "commissioning", "cautions"});
    checkItems(sheet, "parts", checkSheetPart);
    checkItems(sheet, "joints", checkJoint);
    checkItems(sheet, "bill", checkBillRow);
    checkItems(sheet, "assembly", checkStep);
    checkItems(sheet, "commissioning", checkCommissioning);
    checkItems(sheet, "cautions", checkCaution);
}

} // namespace headmark::findings_check
