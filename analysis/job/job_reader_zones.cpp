// The zones of a site: take-off, branch, emitters, laterals and need.

#include "analysis/irrigation/emitter_catalogue.h"
#include "analysis/job/error_codes.h"
#include "analysis/job/job_reader_parts.h"

#include <nlohmann/json.hpp>

#include <algorithm>

namespace headmark {

namespace {

constexpr NumberRange kLevel_m{-12'000.0, 9000.0};
constexpr NumberRange kOutletFlow_l_h{0.01, 1'000'000.0};
constexpr NumberRange kZoneFlow_m3_h{0.001, 100'000.0};
constexpr NumberRange kPressure_kPa{0.1, 10'000.0};
constexpr NumberRange kLimit_kPa{0.0, 10'000.0};
constexpr NumberRange kExponent{0.0, 1.5}; // compensating 0, turbulent 0.5, laminar 1; some tapes lie above
constexpr NumberRange kMetres{0.01, 1'000'000.0};
constexpr NumberRange kSpacing_m{0.01, 1000.0};
constexpr NumberRange kLateralLength_m{0.01, 100'000.0};
constexpr NumberRange kSlopeShare{-1.0, 1.0};
constexpr NumberRange kNeed_m3{0.0, 1'000'000.0};
constexpr NumberRange kArea_m2{0.01, 1e9};
constexpr NumberRange kDepth_mm{0.0, 500.0};
constexpr NumberRange kVariationShare{0.0, 0.5}; // beyond, emitters are waste
constexpr NumberRange kPassage_mm{0.05, 50.0};   // of a fine dripper, of a large gun's nozzle
constexpr int kMostPerPlant = 100;
constexpr int kMostOutlets = 10'000'000;
constexpr int kMostLaterals = 100'000;

void refuseOrder(const ObjectReader& object, std::string_view lower, double low, std::string_view upper,
                 double high) {
    object.refuse(code::kNotAscending, upper,
                  {{"lower", object.placeOf(lower)},
                   {"lower_value", low},
                   {"upper", object.placeOf(upper)},
                   {"upper_value", high}});
}

// One outlet that holds its flow over a range of pressure.
void readCompensating(const ObjectReader& object, EmitterLaw& law) {
    object.exclude({"exponent", "at_kPa"}, "regulated_from_kPa");
    object.needBeside("regulated_from_kPa", "regulated_to_kPa");
    object.needBeside("regulated_to_kPa", "regulated_from_kPa");
    law.regulatedFrom = object.amount("regulated_from_kPa", kPressure_kPa, Pressure::fromKilopascals);
    law.regulatedTo = object.amount("regulated_to_kPa", kPressure_kPa, Pressure::fromKilopascals);
    if (!law.regulatedFrom || !law.regulatedTo) return;
    law.at = *law.regulatedFrom;
    if (*law.regulatedFrom >= *law.regulatedTo)
        refuseOrder(object, "regulated_from_kPa", law.regulatedFrom->inKilopascals(), "regulated_to_kPa",
                    law.regulatedTo->inKilopascals());
}

void readPowerLaw(const ObjectReader& object, std::string_view flowKey, EmitterLaw& law) {
    object.needBeside("at_kPa", flowKey);
    law.at = object.amount("at_kPa", kPressure_kPa, Pressure::fromKilopascals).value_or(Pressure());
    law.exponent = object.number("exponent", kExponent).value_or(law.exponent);
}

// The law from a type of the catalogue; its row, or null.
const EmitterRow* readType(const ObjectReader& object, Emitters& emitters) {
    object.exclude({"at_kPa", "exponent", "regulated_from_kPa", "regulated_to_kPa"}, "type");
    const auto code = object.name("type");
    if (!code) return nullptr;
    const EmitterRow* row = findEmitterType(*code);
    if (!row) {
        std::vector<std::string> known;
        for (const EmitterRow& candidate : emitterRows()) {
            known.push_back(candidate.code);
        }
        refuseCode(*object.value("type"), "emitter", known, object.log());
        return nullptr;
    }
    emitters.type = row->code;
    emitters.law = row->law;
    return row;
}

void readSpelledLaw(const ObjectReader& object, Emitters& emitters) {
    emitters.law.nominal =
        object.amount("flow_l_h", kOutletFlow_l_h, Flow::fromLitresPerHour).value_or(Flow());
    if (object.has("regulated_from_kPa") || object.has("regulated_to_kPa")) {
        readCompensating(object, emitters.law);
    } else {
        readPowerLaw(object, "flow_l_h", emitters.law);
    }
}

void readWholeZone(const ObjectReader& object, Emitters& emitters) {
    emitters.whole = true;
    object.exclude({"count", "metres", "spacing_m", "regulated_from_kPa", "regulated_to_kPa"}, "total_m3_h");
    emitters.law.nominal =
        object.amount("total_m3_h", kZoneFlow_m3_h, Flow::fromCubicMetresPerHour).value_or(Flow());
    readPowerLaw(object, "total_m3_h", emitters.law);
}

// How many outlets: a count, or metres with their spacing (metres alone where the type is rated per metre).
void readOutlets(const ObjectReader& object, bool perMetre, Emitters& emitters) {
    object.atMostOneOf({"count", "metres"}, true);
    emitters.count = object.integer("count", 1, kMostOutlets);
    emitters.metres = object.amount("metres", kMetres, Length::fromMetres);
    emitters.spacing = object.amount("spacing_m", kSpacing_m, Length::fromMetres);
    if (object.has("count") || perMetre) {
        object.exclude({"spacing_m"}, object.has("count") ? "count" : "type");
        return;
    }
    if (object.has("metres")) object.needBeside("spacing_m", "metres");
    if (emitters.metres && emitters.spacing && *emitters.spacing > *emitters.metres)
        object.refuse(
            code::kSpacingBeyondLength, "spacing_m",
            {{"spacing_m", emitters.spacing->inMetres()}, {"length_m", emitters.metres->inMetres()}});
}

// Given limits, else the type's, else the range of a compensating outlet.
void readPressureLimits(const ObjectReader& object, const EmitterRow* row, Emitters& emitters) {
    if (row) {
        emitters.least = row->least;
        emitters.greatest = row->greatest;
    } else if (emitters.law.regulatedFrom && emitters.law.regulatedTo) {
        emitters.least = GaugePressure() + *emitters.law.regulatedFrom;
        emitters.greatest = GaugePressure() + *emitters.law.regulatedTo;
    }
    const auto least = object.amount("min_kPa", kLimit_kPa, GaugePressure::fromKilopascals);
    const auto greatest = object.amount("max_kPa", kLimit_kPa, GaugePressure::fromKilopascals);
    emitters.limitsGiven = least || greatest;
    if (least) emitters.least = least;
    if (greatest) emitters.greatest = greatest;
    if (!emitters.limitsGiven || !emitters.least || !emitters.greatest ||
        *emitters.least < *emitters.greatest)
        return;
    const double low = emitters.least->inKilopascals();
    const double high = emitters.greatest->inKilopascals();
    if (least && greatest) {
        refuseOrder(object, "min_kPa", low, "max_kPa", high);
    } else if (least) { // above what the outlet itself is made for
        object.refuse(code::kOutOfRange, "min_kPa",
                      {{"found", low}, {"least", kLimit_kPa.least}, {"greatest", high}});
    } else {
        object.refuse(code::kOutOfRange, "max_kPa",
                      {{"found", high}, {"least", low}, {"greatest", kLimit_kPa.greatest}});
    }
}

// How alike the emitters are made: given, else the type's. A zone known only as a whole has none.
void readVariation(const ObjectReader& object, const EmitterRow* row, Emitters& emitters) {
    if (emitters.whole) object.exclude({"variation_share", "per_plant"}, "total_m3_h");
    if (row) emitters.variation = row->variationShare;
    const auto given = object.number("variation_share", kVariationShare);
    emitters.variationGiven = given.has_value();
    if (given) emitters.variation = given;
    emitters.perPlant = object.integer("per_plant", 1, kMostPerPlant).value_or(1);
    emitters.passage = object.amount("passage_mm", kPassage_mm, Length::fromMillimetres);
}

Laterals readLaterals(const PlacedValue& at, FrictionMethod friction, ReadLog& log) {
    const ObjectReader object(at, log, {"count", "pipe", "length_m", "spacing_m", "first_at", "slope_share"});
    Laterals laterals;
    object.need("count");
    laterals.count = object.integer("count", 1, kMostLaterals).value_or(1);
    if (object.need("pipe")) laterals.pipe = readPipeKind(*object.value("pipe"), friction, log);
    object.need("length_m");
    object.need("spacing_m");
    const auto length = object.amount("length_m", kLateralLength_m, Length::fromMetres);
    const auto spacing = object.amount("spacing_m", kSpacing_m, Length::fromMetres);
    laterals.firstAtHalf = object.choice<bool>("first_at", {{"full", false}, {"half", true}}).value_or(false);
    laterals.slopeShare = object.number("slope_share", kSlopeShare).value_or(0.0);
    if (!length || !spacing) return laterals;
    laterals.length = *length;
    laterals.spacing = *spacing;
    if (*spacing > *length)
        object.refuse(code::kSpacingBeyondLength, "spacing_m",
                      {{"spacing_m", spacing->inMetres()}, {"length_m", length->inMetres()}});
    return laterals;
}

void readNeed(const ObjectReader& object, Zone& zone) {
    if (object.has("need_m3_per_day"))
        object.exclude({"area_m2", "need_mm_per_day"}, "need_m3_per_day");
    else if (object.has("area_m2") || object.has("need_mm_per_day")) {
        object.needBeside("area_m2", "need_mm_per_day");
        object.needBeside("need_mm_per_day", "area_m2");
    }
    zone.needPerDay = object.amount("need_m3_per_day", kNeed_m3, Volume::fromCubicMetres);
    zone.area = object.amount("area_m2", kArea_m2, Area::fromSquareMetres);
    zone.needDepthPerDay = object.amount("need_mm_per_day", kDepth_mm, Length::fromMillimetres);
}

void checkTakeoff(const ObjectReader& object, const std::string& name, const Run& delivery) {
    std::vector<std::string> known;
    for (const RunItem& item : delivery) {
        const auto* takeoff = std::get_if<TakeoffItem>(&item);
        if (takeoff && !takeoff->name.empty()) known.push_back(takeoff->name);
    }
    if (std::find(known.begin(), known.end(), name) == known.end())
        object.refuse(code::kUnknownTakeoff, "takeoff", {{"name", name}, {"known", known}});
}

Zone readZone(const PlacedValue& at, const Run& delivery, FrictionMethod friction, ReadLog& log) {
    const ObjectReader object(at, log,
                              {"name", "takeoff", "level_m", "branch", "emitters", "laterals",
                               "need_m3_per_day", "area_m2", "need_mm_per_day"});
    Zone zone;
    zone.name = object.name("name").value_or("");
    if (const auto takeoff = object.name("takeoff")) {
        zone.takeoff = *takeoff;
        checkTakeoff(object, *takeoff, delivery);
    }
    zone.level = object.amount("level_m", kLevel_m, Level::fromMetres).value_or(Level());
    zone.branch = readRun(object.list("branch"), friction, false, log);
    if (const auto laterals = object.value("laterals"))
        zone.laterals = readLaterals(*laterals, friction, log);
    if (object.need("emitters"))
        zone.emitters = readEmitters(*object.value("emitters"), object.has("laterals"), log);
    readNeed(object, zone);
    return zone;
}

} // namespace

Emitters readEmitters(const PlacedValue& at, bool onLaterals, ReadLog& log) {
    const ObjectReader object(at, log,
                              {"count", "flow_l_h", "at_kPa", "exponent", "regulated_from_kPa",
                               "regulated_to_kPa", "type", "metres", "spacing_m", "total_m3_h", "min_kPa",
                               "max_kPa", "variation_share", "per_plant", "passage_mm"});
    Emitters emitters;
    const bool formGiven = !object.atMostOneOf({"type", "flow_l_h", "total_m3_h"}, true).empty();
    const EmitterRow* row = nullptr;
    if (object.has("total_m3_h")) {
        readWholeZone(object, emitters);
    } else if (object.has("type")) {
        row = readType(object, emitters);
    } else if (formGiven) {
        readSpelledLaw(object, emitters);
    }
    if (onLaterals) {
        object.exclude({"count", "metres", "spacing_m", "total_m3_h"}, "laterals");
    } else if (!object.has("total_m3_h") && object.valid()) {
        readOutlets(object, row && row->perMetre, emitters);
    }
    readPressureLimits(object, row, emitters);
    readVariation(object, row, emitters);
    return emitters;
}

std::vector<Zone> readZones(const std::vector<PlacedValue>& items, const Run& delivery,
                            FrictionMethod friction, ReadLog& log) {
    std::vector<Zone> zones;
    for (const auto& item : items) {
        zones.push_back(readZone(item, delivery, friction, log));
    }
    std::vector<std::pair<std::string*, std::string>> named;
    for (std::size_t i = 0; i < zones.size(); ++i) {
        named.emplace_back(&zones[i].name, items[i].place + ".name");
    }
    settleNames("Zone", std::move(named), log);
    return zones;
}

} // namespace headmark
