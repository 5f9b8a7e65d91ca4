#include "analysis/duty/suction_lift.h"

#include <algorithm>

namespace headmark {

bool isSubmersedSource(std::string_view kind) {
    return kind == "buried_tank_submersible" || kind == "well_deep";
}

double practicalLift_m(const SiteModel& model, const Rules& rules) {
    const double thousands = std::max(0.0, model.altitude().inMetres()) / 1000.0;
    return std::max(0.0, rules.value("suction_lift_max") - rules.value("suction_lift_altitude") * thousands);
}

} // namespace headmark
