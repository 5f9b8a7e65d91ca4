#include "app/desktop/shifts/shift_night.h"

#include "analysis/job/shift_finding.h"
#include "app/desktop/frame/screen_phrasing.h"
#include "app/words/caution_words.h"

#include <cmath>

namespace headmark {

namespace {

constexpr int kHour_min = 60, kDay_min = 24 * kHour_min;

void takeWindow(const Site& site, ShiftNight& night) {
    if (!site.controller || !site.controller->window) return;
    const auto& [from, to] = *site.controller->window;
    night.begin_min = minutesOfTime(from);
    const int length = (minutesOfTime(to) - *night.begin_min + kDay_min) % kDay_min;
    night.window_min = length == 0 ? kDay_min : length;
}

void takeCautions(const Site& site, ShiftNight& night) {
    const Phrasing phrasing = screenPhrasing(site);
    for (const Caution& caution : night.plan.cautions) {
        if (caution.code == "tank-runs-dry") {
            const Fact* after = findFact(caution.values, "after_min");
            if (const auto* minute = after ? std::get_if<double>(&after->value) : nullptr)
                night.dry_min = *minute;
        }
        if (caution.code != "zone-without-need" && caution.code != "zone-not-planned") continue;
        for (std::size_t z = 0; z < night.zones.size(); ++z) {
            if (caution.place == "zones[" + std::to_string(z) + "]")
                night.idle[z] = cautionLabel(caution.code, phrasing);
        }
    }
}

} // namespace

QString ShiftNight::timeOf(double minute) const {
    if (begin_min) return QString::fromStdString(timeOfMinutes(*begin_min + minute));
    const int whole = static_cast<int>(std::lround(minute));
    return QStringLiteral("%1:%2").arg(whole / kHour_min).arg(whole % kHour_min, 2, 10, QLatin1Char('0'));
}

ShiftNight shiftNight(const Job& job, const Findings& findings, std::size_t pump, const DisplayUnits& units) {
    const Site& site = job.site;
    ShiftNight night;
    night.pump = findings.pumps[pump].name;
    night.plan = *findings.pumps[pump].shiftPlan;
    night.units = units;
    for (const Zone& zone : site.zones)
        night.zones.push_back(zone.name);
    night.idle.resize(night.zones.size());
    if (site.source) {
        night.high = site.source->high;
        night.stop = site.source->stopLevel.value_or(site.source->low);
    }
    takeWindow(site, night);
    takeCautions(site, night);
    return night;
}

} // namespace headmark
