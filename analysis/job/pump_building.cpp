// From a pump as described to its curves.
#include "analysis/job/analyse.h"

#include "analysis/curve/fit_points.h"

#include <algorithm>

namespace headmark {

namespace {

Result<PumpCurve> curveOf(const CurvePoints& points, CurveQuantity quantity, const std::string& place) {
    std::vector<CurveSample> samples;
    for (const auto& p : points.points)
        samples.push_back({p.flow.inCubicMetresPerSecond(), p.value});
    auto fit = fitPoints(std::move(samples),
                         quantity == CurveQuantity::head ? CurveSense::oneMaximum : CurveSense::any,
                         points.degree, points.sigmaShare);
    if (!fit) {
        Error e = fit.error();
        e.place = place + ".curves." + keyOf(quantity);
        return e;
    }
    return PumpCurve(std::move(fit->curve));
}

// A polynomial through positive points may still dip below zero between them; power and head must not.
bool positive(const PumpCurve& curve, bool atEnds) {
    constexpr int kLooks = 200;
    for (int i = 0; i <= kLooks; ++i) {
        if (!atEnds && (i == 0 || i == kLooks)) continue;
        const double q = curve.least_m3_s() + (curve.greatest_m3_s() - curve.least_m3_s()) * i / kLooks;
        if (curve.at(q) <= 0.0) return false;
    }
    return true;
}

void place(CurveQuantity quantity, PumpCurve curve, PumpModel& to) {
    switch (quantity) {
    case CurveQuantity::head:
        to.head = std::move(curve);
        break;
    case CurveQuantity::efficiency:
        to.efficiency = std::move(curve);
        break;
    case CurveQuantity::power:
        to.power = std::move(curve);
        break;
    case CurveQuantity::npshRequired:
        to.npshRequired = std::move(curve);
        break;
    }
}

} // namespace

Result<PumpModel> pumpModelOf(const Pump& pump, const std::string& pumpPlace, const ChartedCurves& charted) {
    PumpModel m;
    m.name = pump.name;
    for (const auto& [quantity, points] : pump.curves) {
        auto curve = curveOf(points, quantity, pumpPlace);
        if (!curve) return curve.error();
        const bool mustBePositive = quantity == CurveQuantity::head || quantity == CurveQuantity::power;
        if (mustBePositive && !positive(*curve, quantity == CurveQuantity::power)) {
            return Error{"curve-not-positive", "", pumpPlace + ".curves." + keyOf(quantity), {}};
        }
        place(quantity, std::move(*curve), m);
    }
    for (const auto& [quantity, curve] : charted.curves)
        place(quantity, PumpCurve(curve), m);
    m.powerAtMotorInput = pump.powerAtMotorInput || charted.powerAtMotorInput;
    m.chartSpeed = pump.chartSpeed;
    if (pump.chartSpeed && pump.runSpeed) m.runRatio = *pump.runSpeed / *pump.chartSpeed;
    m.motor = pump.motor;
    m.greatestPressure = pump.greatestPressure;
    m.deliveredShare = pump.deliveredHeadShare.value_or(
        deliveredShareFor(pump.motor ? pump.motor->rated : std::optional<Power>{}));
    m.allowableShare = pump.allowableShare;
    return m;
}

} // namespace headmark
