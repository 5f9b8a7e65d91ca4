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
    return tried;
}

namespace {

WhatIfAnswer answerOf(const PreparedJob& job, const WhatIfQuestion& q) {
    const Case tried = changedCase(q.setting.setting, q.change);
    WhatIfAnswer answer{q.change,
                        job.job().site,
                        {},
                        {},
                        job.systemCurve(tried, q.greatest_m3_s, q.pump, q.setting.fillingEmptyMain)};
    if (q.pump < job.pumps()) {
        answer.of = job.answer(q.pump, tried, q.setting.fillingEmptyMain);
        answer.plot = job.plot(q.pump, tried);
    }
    return answer;
}

} // namespace

Result<WhatIfAnswer> whatIf(const WhatIfQuestion& q) {
    if (!q.change.water && !q.change.valveKv_m3_h) return answerOf(*q.prepared, q);
    auto tried = q.prepared->withSite(changedSite(q.prepared->job().site, q.change));
    if (!tried) return tried.error();
    return answerOf(*tried, q);
}

std::optional<double> valveKvOfStep_m3_h(int step) {
    // From hardly felt to all but shut on the mains of gardens and fields.
    constexpr double kOpen_m3_h = 200.0, kTight_m3_h = 0.5;
    if (step <= 0) return std::nullopt;
    const double share = static_cast<double>(step - 1) / (kValveSteps - 1);
    return kOpen_m3_h * std::pow(kTight_m3_h / kOpen_m3_h, share);
}

} // namespace headmark
