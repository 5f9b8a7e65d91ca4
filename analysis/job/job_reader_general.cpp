// Water, energy, limits, uncertainty and choices of the connection sheet: the short objects at the top of a
// job.

#include "analysis/job/job_reader_parts.h"
#include "analysis/pipework/catalogue.h"

namespace headmark {

namespace {

// Liquid water in pipes; the upper end is where plastic pipe and suction lift both fail (common practice).
constexpr NumberRange kTemperature_C{0.0, 60.0};
constexpr NumberRange kAltitude_m{-500.0, 5000.0};
constexpr NumberRange kPricePerKilowattHour{0.0, 1000.0};
constexpr NumberRange kMargin_m{0.0, 50.0};
constexpr NumberRange kMarginShare{0.0, 2.0};
constexpr NumberRange kRule{1e-6, 1e6}; // none of them is 0 or below
constexpr NumberRange kLevelSigma_m{0.0, 50.0};

} // namespace

WaterConditions readWater(const PlacedValue& at, ReadLog& log) {
    const ObjectReader object(at, log, {"temperature_C", "altitude_m"});
    WaterConditions water;
    water.temperature =
        object.amount("temperature_C", kTemperature_C, Temperature::fromCelsius).value_or(water.temperature);
    water.altitude = object.amount("altitude_m", kAltitude_m, Length::fromMetres).value_or(water.altitude);
    return water;
}

EnergyTariff readEnergy(const PlacedValue& at, ReadLog& log) {
    const ObjectReader object(at, log, {"price_per_kWh", "currency"});
    return {object.number("price_per_kWh", kPricePerKilowattHour), object.text("currency").value_or("")};
}

// In place of rows of the table of limits; a rule without a value there cannot be set.
std::map<std::string, double> readRules(const PlacedValue& at, ReadLog& log) {
    std::vector<std::string> known;
    for (const LimitRow& row : limitRows()) {
        if (row.value && (known.empty() || known.back() != row.code)) known.push_back(row.code);
    }
    const ObjectReader object(at, log, known);
    std::map<std::string, double> rules;
    for (const std::string& code : known) {
        if (const auto value = object.number(code, kRule)) rules[code] = *value;
    }
    return rules;
}

Limits readLimits(const PlacedValue& at, ReadLog& log) {
    const ObjectReader object(at, log, {"pump", "npsh_margin_m", "npsh_margin_share", "band", "rules"});
    Limits limits;
    limits.asDelivered = object.choice<bool>("pump", {{"as-delivered", true}, {"as-printed", false}})
                             .value_or(limits.asDelivered);
    const auto margin = object.amount("npsh_margin_m", kMargin_m, Head::fromMetres);
    const auto share = object.number("npsh_margin_share", kMarginShare);
    limits.npshMarginOwn = margin || share;
    limits.npshMargin = margin.value_or(limits.npshMargin);
    limits.npshMarginShare = share.value_or(limits.npshMarginShare);
    limits.preferredBandOnly =
        object.choice<bool>("band", {{"any", false}, {"preferred", true}}).value_or(limits.preferredBandOnly);
    if (const auto rules = object.value("rules")) limits.rules = Rules(readRules(*rules, log));
    return limits;
}

Uncertainty readUncertainty(const PlacedValue& at, ReadLog& log) {
    const ObjectReader object(at, log,
                              {"level_m", "length_share", "roughness_share", "k_share", "emitter_share"});
    Uncertainty sigma;
    sigma.level = object.amount("level_m", kLevelSigma_m, Head::fromMetres).value_or(sigma.level);
    sigma.lengthShare = object.number("length_share", kShareRange).value_or(sigma.lengthShare);
    sigma.roughnessShare = object.number("roughness_share", kShareRange).value_or(sigma.roughnessShare);
    sigma.kShare = object.number("k_share", kShareRange).value_or(sigma.kShare);
    sigma.emitterShare = object.number("emitter_share", kShareRange).value_or(sigma.emitterShare);
    return sigma;
}

namespace {

// What fits no slot of the sheet is passed over there, since runs change; the last choice of a slot counts.
std::map<std::string, std::string> readChosenParts(const std::vector<PlacedValue>& items, ReadLog& log) {
    std::vector<std::string> known;
    for (const PartRow& row : partRows())
        known.push_back(row.code);
    std::map<std::string, std::string> chosen;
    for (const PlacedValue& item : items) {
        const ObjectReader choice(item, log, {"slot", "part"});
        choice.need("slot");
        choice.need("part");
        const auto slot = choice.name("slot");
        const auto part = choice.name("part");
        if (part && !findPart(*part)) refuseCode(*choice.value("part"), "part", known, log);
        if (slot && part) chosen[*slot] = *part;
    }
    return chosen;
}

} // namespace

SheetChoices readConnections(const PlacedValue& at, ReadLog& log) {
    const ObjectReader object(at, log,
                              {"exposure", "temporary", "plastic_tank", "plastic_ports", "clamp", "parts"});
    SheetChoices choices;
    choices.exposure =
        object.choice<Exposure>("exposure", {{"sheltered", Exposure::sheltered}, {"open", Exposure::open}})
            .value_or(choices.exposure);
    choices.temporary = object.boolean("temporary").value_or(choices.temporary);
    choices.plasticTank = object.boolean("plastic_tank").value_or(choices.plasticTank);
    choices.plasticPumpPorts = object.boolean("plastic_ports").value_or(choices.plasticPumpPorts);
    choices.clamp = object
                        .choice<Clamp>("clamp", {{"heavy_band", Clamp::heavyBand},
                                                 {"worm_drive", Clamp::wormDrive},
                                                 {"none", Clamp::none}})
                        .value_or(choices.clamp);
    choices.parts = readChosenParts(object.list("parts"), log);
    return choices;
}

} // namespace headmark
