#include "app/document/what_if.h"

#include <cmath>

namespace headmark {

Site changedSite(const Site& site, const WhatIfChange& change) {
    Site tried = site;
    // The low level carries the tried one: the usual one also sets the valve of a tank return.
    if (change.water && tried.source) tried.source->low = *change.water;
    if (change.valveKv_m3_h) {
        FittingItem valve;
        valve.kv_m3_h = change.valveKv_m3_h;
        tried.delivery.insert(tried.delivery.begin(), valve);
    }
    return tried;
}

Case changedCase(const Case& setting, const WhatIfChange& change) {
    Case tried = setting;
    if (change.speedShare) tried.speedShare = *change.speedShare;
    if (change.water) tried.level = WaterLevel::low;
    if (change.zonesOpen) tried.zonesOpen = *change.zonesOpen;
    return tried;
}

Case keptCase(const Case& setting, const WhatIfChange& change, const std::string& name) {
    WhatIfChange kept;
    kept.speedShare = change.speedShare;
    kept.zonesOpen = change.zonesOpen;
    Case made = changedCase(setting, kept);
    made.name = name;
    return made;
}

Result<WhatIfAnswer> whatIf(const WhatIfQuestion& q) {
    WhatIfAnswer answer{q.change, q.prepared, changedCase(q.setting.setting, q.change), {}, {}};
    const bool hasPump = q.pump < q.prepared->pumps();
    if (q.change.water || q.change.valveKv_m3_h) {
        Site site = changedSite(q.prepared->job().site, q.change);
        if (site.tankReturn && hasPump) {
            site.tankReturn->valveKv_m3_h = q.prepared->solver(q.pump).returnKv_m3_h();
            site.tankReturn->setFlow.reset();
        }
        auto tried = q.prepared->withSite(site);
        if (!tried) return tried.error();
        answer.tried = std::make_shared<const PreparedJob>(std::move(*tried));
    }
    if (hasPump) {
        answer.of = answer.tried->answer(q.pump, answer.setting, q.setting.fillingEmptyMain);
        answer.plot = answer.tried->plot(q.pump, answer.setting);
    }
    return answer;
}

CurvePlot systemCurveOf(const WhatIfAnswer& answer, const WhatIfQuestion& q) {
    return answer.tried->systemCurve(answer.setting, q.greatest_m3_s, q.pump, q.setting.fillingEmptyMain);
}

std::optional<double> valveKvOfStep_m3_h(int step) {
    // From hardly felt to all but shut on the mains of gardens and fields.
    constexpr double kOpen_m3_h = 200.0, kTight_m3_h = 0.5;
    if (step <= 0) return std::nullopt;
    const double share = static_cast<double>(step - 1) / (kValveSteps - 1);
    return kOpen_m3_h * std::pow(kTight_m3_h / kOpen_m3_h, share);
}

} // namespace headmark
