// From a pump as described to its curves.
#include "analysis/job/analyse.h"

#include "analysis/curve/fit_points.h"

#include <algorithm>

namespace headmark {

namespace {

const char* keyOf(CurveQuantity q) {
    switch (q) {
    case CurveQuantity::head:
        return "head";
    case CurveQuantity::efficiency:
        return "efficiency";
    case CurveQuantity::power:
        return "power";
    case CurveQuantity::npshRequired:
        break;
    }
    return "npsh_required";
}

Result<PumpCurve> curveOf(const CurvePoints& points, CurveQuantity quantity, const std::string& place) {
    std::vector<CurveSample> samples;
    for (const auto& p : points.points)
        samples.push_back({p.flow.inCubicMetresPerSecond(), p.value});
    auto fit =
        fitPoints(std::move(samples), quantity == CurveQuantity::head ? CurveSense::head : CurveSense::any,
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

} // namespace

Result<PumpModel> pumpModelOf(const Pump& pump, const std::string& place) {
    PumpModel m;
    m.name = pump.name;
    if (!pump.readings.empty())
        return Error{"chart-not-read", "", place + ".readings", {{"pump", pump.name}}};
    for (const auto& [quantity, points] : pump.curves) {
        auto curve = curveOf(points, quantity, place);
        if (!curve) return curve.error();
        const bool mustBePositive = quantity == CurveQuantity::head || quantity == CurveQuantity::power;
        if (mustBePositive && !positive(*curve, quantity == CurveQuantity::power)) {
            return Error{"curve-not-positive", "", place + ".curves." + keyOf(quantity), {}};
        }
        switch (quantity) {
        case CurveQuantity::head:
            m.head = *curve;
            break;
        case CurveQuantity::efficiency:
            m.efficiency = *curve;
            break;
        case CurveQuantity::power:
            m.power = *curve;
            break;
        case CurveQuantity::npshRequired:
            m.npshRequired = *curve;
            break;
        }
    }
    m.powerAtMotorInput = pump.powerAtMotorInput;
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
