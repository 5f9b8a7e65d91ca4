#include "analysis/practice/vessel.h"

#include "analysis/core/assertion.h"

#include <algorithm>
#include <limits>

namespace headmark {

namespace {

// Drawdown of a vessel of 1 m3.
double drawdownShare(AbsolutePressure precharge, AbsolutePressure cutIn, AbsolutePressure cutOut) {
    const double p1 = precharge.inPascals(), p3 = cutOut.inPascals();
    const double p2 = std::max(cutIn.inPascals(), p1);
    HEADMARK_ASSERT(p1 > 0.0, "pressures are absolute");
    return p3 > p2 ? p1 * (1.0 / p2 - 1.0 / p3) : 0.0;
}

} // namespace

Volume vesselDrawdown(Volume vessel, AbsolutePressure precharge, AbsolutePressure cutIn,
                      AbsolutePressure cutOut) {
    return vessel * drawdownShare(precharge, cutIn, cutOut);
}

Volume vesselForDrawdown(Volume drawdown, AbsolutePressure precharge, AbsolutePressure cutIn,
                         AbsolutePressure cutOut) {
    const double share = drawdownShare(precharge, cutIn, cutOut);
    HEADMARK_ASSERT(share > 0.0, "cut-out above cut-in and pre-charge");
    return drawdown / share;
}

double startsPerHour(Volume useful, Flow pump, Flow draw) {
    const double u = useful.inCubicMetres(), q = draw.inCubicMetresPerHour(),
                 full = pump.inCubicMetresPerHour();
    if (q <= 0.0 || q >= full) return 0.0;
    return u > 0.0 ? q * (full - q) / (u * full) : std::numeric_limits<double>::infinity();
}

double mostStartsPerHour(Volume useful, Flow pump) { return startsPerHour(useful, pump, pump * 0.5); }

Volume usefulVolumeFor(Flow pump, double starts) {
    HEADMARK_ASSERT(starts > 0.0, "a limit of starts is above 0");
    return Volume::fromCubicMetres(pump.inCubicMetresPerHour() / (4.0 * starts));
}

} // namespace headmark
