#include "analysis/irrigation/leaf_law.h"

#include "analysis/irrigation/lateral.h"

namespace headmark {

double headOf_m(Pressure pressure, Density density) {
    return pressure.inPascals() / (density.inKilogramsPerCubicMetre() * factor::kStandardGravity_m_s2);
}

double pressureOf_Pa(double head_m, Density density) {
    return head_m * density.inKilogramsPerCubicMetre() * factor::kStandardGravity_m_s2;
}

OutflowLaw outletLaw(const EmitterLaw& law, Density density) {
    OutflowLaw out;
    out.flowAt_m3_s = law.nominal.inCubicMetresPerSecond();
    if (law.compensating()) {
        out.kind = OutflowLaw::Kind::compensating;
        out.headAt_m = headOf_m(*law.regulatedFrom, density);
    } else {
        out.headAt_m = headOf_m(law.at, density);
        out.inverseExponent = 1.0 / law.exponent;
    }
    return out;
}

OutflowLaw zoneLaw(const Zone& zone, const ElementContext& context) {
    const OutflowLaw outlet = outletLaw(zone.emitters.law, context.density);
    if (!zone.laterals) return outlet.timesFlow(zone.emitters.outlets());
    OutflowLaw law;
    law.kind = OutflowLaw::Kind::table;
    law.table = lateralTable(*zone.laterals, outlet, context);
    law.flowAt_m3_s = zone.laterals->count; // the table is of one lateral
    return law;
}

} // namespace headmark
