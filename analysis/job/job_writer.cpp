#include "analysis/job/job_writer.h"

#include "analysis/job/job_reader.h"
#include "analysis/job/job_writer_parts.h"
#include "analysis/job/json_document.h"

#include <array>
#include <charconv>
#include <cmath>

namespace headmark {

namespace {

using Json = nlohmann::ordered_json;

Json limitsJson(const Limits& limits) {
    Json object{{"pump", limits.asDelivered ? "as-delivered" : "as-printed"}};
    if (limits.npshMarginOwn) {
        object["npsh_margin_m"] = numberJson(limits.npshMargin.inMetres());
        object["npsh_margin_share"] = numberJson(limits.npshMarginShare);
    }
    object["band"] = limits.preferredBandOnly ? "preferred" : "any";
    for (const auto& [code, value] : limits.rules.own())
        object["rules"][code] = numberJson(value);
    return object;
}

Json uncertaintyJson(const Uncertainty& sigma) {
    return {{"level_m", numberJson(sigma.level.inMetres())},
            {"length_share", numberJson(sigma.lengthShare)},
            {"roughness_share", numberJson(sigma.roughnessShare)},
            {"k_share", numberJson(sigma.kShare)},
            {"emitter_share", numberJson(sigma.emitterShare)}};
}

Json energyJson(const EnergyTariff& energy) {
    Json object = Json::object();
    setNumber(object, "price_per_kWh", energy.pricePerKilowattHour);
    setText(object, "currency", energy.currency);
    return object;
}

// Only what differs from what is taken where nothing is said.
Json connectionsJson(const SheetChoices& choices) {
    const SheetChoices usual;
    Json object = Json::object();
    if (choices.exposure != usual.exposure) object["exposure"] = "open";
    if (choices.temporary != usual.temporary) object["temporary"] = choices.temporary;
    if (choices.plasticTank != usual.plasticTank) object["plastic_tank"] = choices.plasticTank;
    if (choices.plasticPumpPorts != usual.plasticPumpPorts)
        object["plastic_ports"] = choices.plasticPumpPorts;
    if (choices.clamp != usual.clamp)
        object["clamp"] = choices.clamp == Clamp::wormDrive ? "worm_drive" : "none";
    for (const auto& [slot, part] : choices.parts)
        object["parts"].push_back({{"slot", slot}, {"part", part}});
    return object;
}

const char* levelWord(WaterLevel level) {
    switch (level) {
    case WaterLevel::low:
        return "low";
    case WaterLevel::usual:
        return "usual";
    case WaterLevel::high:
        return "high";
    }
    return "usual";
}

Json caseJson(const Case& one, bool withZones) {
    Json object = Json::object();
    setText(object, "name", one.name);
    if (withZones) object["zones_open"] = one.zonesOpen;
    object["level"] = levelWord(one.level);
    object["filter"] = one.filter == FilterState::service ? "service" : "clean";
    object["speed_share"] = numberJson(one.speedShare);
    return object;
}

} // namespace

Json numberJson(double value) {
    constexpr int kDigits = 12;
    std::array<char, 64> text{};
    const auto written =
        std::to_chars(text.data(), text.data() + text.size(), value, std::chars_format::general, kDigits);
    double rounded = value;
    std::from_chars(text.data(), written.ptr, rounded);
    constexpr double kGreatestWhole = 1e15; // every whole number below is exact in a double
    if (std::floor(rounded) == rounded && std::abs(rounded) < kGreatestWhole) {
        return static_cast<std::int64_t>(rounded);
    }
    return rounded;
}

void restoreExtras(Json& value, const std::string& place, const std::map<std::string, std::string>& extras) {
    if (value.is_object()) {
        for (auto& [key, member] : value.items()) {
            restoreExtras(member, placeOfKey(place, key), extras);
        }
        const std::string prefix = place.empty() ? "x_" : place + ".x_";
        for (auto it = extras.lower_bound(prefix); it != extras.end() && it->first.starts_with(prefix);
             ++it) {
            const std::string key = it->first.substr(prefix.size() - 2);
            value[key] = Json::parse(it->second, nullptr, false);
        }
    } else if (value.is_array()) {
        for (std::size_t i = 0; i < value.size(); ++i) {
            restoreExtras(value[i], placeOfItem(place, i), extras);
        }
    }
}

Json jobDocument(const Job& job) {
    Json document{{"format", "headmark-job"}, {"version", kJobVersion}};
    setText(document, "title", job.title);
    setText(document, "notes", job.notes);
    setText(document, "made_by", job.madeBy);
    document["water"] = {{"temperature_C", numberJson(job.water.temperature.inCelsius())},
                         {"altitude_m", numberJson(job.water.altitude.inMetres())}};
    document["energy"] = energyJson(job.energy);
    document["limits"] = limitsJson(job.limits);
    document["uncertainty"] = uncertaintyJson(job.uncertainty);
    if (!(job.connections == SheetChoices{})) document["connections"] = connectionsJson(job.connections);
    document["pumps"] = Json::array();
    for (const Pump& pump : job.pumps) {
        document["pumps"].push_back(pumpJson(pump));
    }
    document["site"] = siteJson(job.site);
    // Cases that the program made up are made again when the job is opened.
    if (job.casesGiven) {
        document["cases"] = Json::array();
        for (const Case& one : job.cases) {
            document["cases"].push_back(caseJson(one, !job.site.zones.empty()));
        }
    }
    if (job.fieldCheck) document["field_check"] = fieldCheckJson(*job.fieldCheck);
    restoreExtras(document, "", job.extras);
    return document;
}

std::string writeJob(const Job& job) {
    return jobDocument(job).dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

} // namespace headmark
