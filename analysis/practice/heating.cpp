#include "analysis/practice/heating.h"

#include "analysis/core/assertion.h"

namespace headmark {

double temperatureRise_K(Head head, Efficiency efficiency) {
    HEADMARK_ASSERT(efficiency.inShare() > 0.0, "no work is done at no efficiency");
    return factor::kStandardGravity_m_s2 * head.inMetres() / kHeatOfWater_J_kgK *
           (1.0 / efficiency.inShare() - 1.0);
}

double shutInHeating_K_min(Power shaft, double water_kg) {
    HEADMARK_ASSERT(water_kg > 0.0, "a casing holds water");
    return 60.0 * shaft.inWatts() / (water_kg * kHeatOfWater_J_kgK);
}

Flow returnFlowForRise(Power shaft, Density density, double rise_K) {
    HEADMARK_ASSERT(rise_K > 0.0, "the return warms a little");
    return Flow::fromCubicMetresPerSecond(shaft.inWatts() /
                                          (density.inKilogramsPerCubicMetre() * kHeatOfWater_J_kgK * rise_K));
}

} // namespace headmark
