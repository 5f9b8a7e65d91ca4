#include "analysis/pipework/chain.h"

#include "analysis/core/assertion.h"

#include <algorithm>
#include <cmath>

namespace headmark {

void Chain::addPipe(double bore_m, double length_m, double roughness_m, KinematicViscosity viscosity) {
    const auto same = std::find_if(pipes_.begin(), pipes_.end(), [&](const PipeFriction& p) {
        return p.bore_m() == bore_m && p.roughness_m() == roughness_m;
    });
    if (same != pipes_.end()) {
        same->addLength(length_m);
        return;
    }
    pipes_.emplace_back(bore_m, length_m, roughness_m, viscosity);
}

void Chain::addPower(double coefficient, double exponent) {
    if (coefficient == 0.0) return;
    if (exponent == 2.0) {
        quadratic_ += coefficient;
        return;
    }
    const auto same = std::find_if(powers_.begin(), powers_.end(),
                                   [&](const PowerTerm& t) { return t.exponent == exponent; });
    if (same != powers_.end()) {
        same->coefficient += coefficient;
        return;
    }
    powers_.push_back({coefficient, exponent});
}

void Chain::add(const Element& element, const ElementContext& context, FilterState filter,
                double allowanceShare, const ElementFactors& factors) {
    switch (element.kind) {
    case ElementKind::pipe: {
        const double length_m = element.length_m * (1.0 + allowanceShare) * factors.length;
        if (context.friction == FrictionMethod::hazenWilliams) {
            addPower(hazenWilliamsCoefficient(element.bore_m, length_m, element.hazenWilliamsC),
                     kHazenWilliamsExponent);
        } else {
            addPipe(element.bore_m, length_m, element.roughness_m * factors.roughness, context.viscosity);
        }
        return;
    }
    case ElementKind::fitting:
        addQuadratic(element.quadratic_s2_m5 * factors.loss);
        addLinear(element.linear_s_m2 * factors.loss);
        addCrack(element.crack_m);
        return;
    case ElementKind::filter:
        // At service the filter takes its gauge reading at any flow: that is when it gets
        // cleaned. One whose loss does not rise with dirt stays as it is clean.
        if (filter == FilterState::service && element.filterService_m > 0.0) {
            addCrack(element.filterService_m);
        } else {
            addPower(element.filterCoefficient * factors.loss, element.filterExponent);
        }
        return;
    case ElementKind::takeoff:
        return;
    case ElementKind::regulator:
        HEADMARK_ASSERT(false, "a regulator ends a chain, it is not part of one");
    }
}

LossAt Chain::at(double flow_m3_s) const {
    LossAt sum{crack_m_ + (linear_ + quadratic_ * flow_m3_s) * flow_m3_s,
               linear_ + 2.0 * quadratic_ * flow_m3_s};
    for (const PipeFriction& pipe : pipes_) {
        const LossAt part = pipe.at(flow_m3_s);
        sum.loss_m += part.loss_m;
        sum.slope_s_m2 += part.slope_s_m2;
    }
    if (flow_m3_s > 0.0) {
        for (const PowerTerm& term : powers_) {
            const double loss_m = term.coefficient * std::pow(flow_m3_s, term.exponent);
            sum.loss_m += loss_m;
            sum.slope_s_m2 += term.exponent * loss_m / flow_m3_s;
        }
    }
    return sum;
}

double elementLoss_m(const Element& element, const ElementContext& context, FilterState filter,
                     double allowanceShare, double flow_m3_s) {
    if (element.kind == ElementKind::regulator || element.kind == ElementKind::takeoff) return 0.0;
    if (flow_m3_s <= 0.0) return 0.0;
    Chain chain;
    chain.add(element, context, filter, allowanceShare);
    return chain.at(flow_m3_s).loss_m;
}

} // namespace headmark
