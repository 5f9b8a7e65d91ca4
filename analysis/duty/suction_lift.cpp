#include "analysis/duty/suction_lift.h"

#include <algorithm>
#include <cmath>

namespace headmark {

bool isSubmersedSource(std::string_view kind) {
    return kind == "buried_tank_submersible" || kind == "well_deep";
}

bool isMainsSource(std::string_view kind) { return kind == "mains_direct_boost"; }

bool drawsFromMains(const Site& site) { return site.source && isMainsSource(site.source->kind); }

double nextTenthUp_m(double value_m) { return std::ceil(10.0 * value_m - 1e-6) / 10.0; }

double practicalLift_m(const SiteModel& model, const Rules& rules) {
    const double thousands = std::max(0.0, model.altitude().inMetres()) / 1000.0;
    return std::max(0.0, rules.value("suction_lift_max") - rules.value("suction_lift_altitude") * thousands);
}

} // namespace headmark
