#include "analysis/pipework/tree.h"

#include "analysis/core/assertion.h"

#include <algorithm>
#include <cmath>

namespace headmark {

LossAt OutflowLaw::at(double flow_m3_s) const {
    if (kind == Kind::table) { // the table is for one lateral, flowAt the number of them
        const LossAt one = table->at(flow_m3_s / flowAt_m3_s);
        return {one.loss_m, one.slope_s_m2 / flowAt_m3_s};
    }
    const double share = flow_m3_s / flowAt_m3_s;
    if (kind == Kind::compensating || inverseExponent == 2.0) {
        return {headAt_m * share * share, 2.0 * headAt_m * share / flowAt_m3_s};
    }
    if (flow_m3_s <= 0.0) return {0.0, inverseExponent > 1.0 ? 0.0 : headAt_m / flowAt_m3_s};
    const double h = headAt_m * std::pow(share, inverseExponent);
    return {h, inverseExponent * h / flow_m3_s};
}

double OutflowLaw::flowAtHead_m3_s(double head_m) const {
    if (head_m <= 0.0) return 0.0;
    if (kind == Kind::table) return flowAt_m3_s * table->flowAtHead_m3_s(head_m);
    if (kind == Kind::compensating) return flowAt_m3_s * std::sqrt(std::min(1.0, head_m / headAt_m));
    return flowAt_m3_s * std::pow(head_m / headAt_m, 1.0 / inverseExponent);
}

double OutflowLaw::cap_m3_s() const {
    if (kind == Kind::compensating) return flowAt_m3_s;
    if (kind == Kind::table && table->capped()) return flowAt_m3_s * table->greatestFlow_m3_s();
    return std::numeric_limits<double>::infinity();
}

double OutflowLaw::guess_m3_s() const {
    if (kind == Kind::table) return flowAt_m3_s * table->greatestFlow_m3_s() * 0.5;
    return flowAt_m3_s;
}

OutflowLaw OutflowLaw::timesFlow(double factor) const {
    OutflowLaw law = *this;
    law.flowAt_m3_s *= factor;
    return law;
}

OutflowTable::OutflowTable(std::vector<double> flows_m3_s, std::vector<double> heads_m, bool capped)
    : flows_(std::move(flows_m3_s)), heads_(std::move(heads_m)), capped_(capped) {
    HEADMARK_ASSERT(flows_.size() == heads_.size() && flows_.size() >= 2, "a table needs two knots");
    const std::size_t n = flows_.size();
    for (std::size_t i = 1; i < n; ++i) {
        HEADMARK_ASSERT(flows_[i] > flows_[i - 1] && heads_[i] > heads_[i - 1], "a table must rise");
    }
    // Fritsch-Carlson slopes (SIAM J. Numer. Anal. 17, 1980): the harmonic mean keeps the cubic rising.
    std::vector<double> chord(n - 1);
    for (std::size_t i = 0; i + 1 < n; ++i)
        chord[i] = (heads_[i + 1] - heads_[i]) / (flows_[i + 1] - flows_[i]);
    slopes_.assign(n, 0.0);
    const auto endSlope = [](double near, double next, double chordNear, double chordNext) {
        // Three-point formula, held rising (the usual end of a monotone cubic).
        const double d = ((2.0 * near + next) * chordNear - near * chordNext) / (near + next);
        return std::max(0.0, d);
    };
    if (n == 2) {
        slopes_.front() = slopes_.back() = chord.front();
    } else {
        slopes_.front() = endSlope(flows_[1] - flows_[0], flows_[2] - flows_[1], chord[0], chord[1]);
        slopes_.back() = endSlope(flows_[n - 1] - flows_[n - 2], flows_[n - 2] - flows_[n - 3], chord[n - 2],
                                  chord[n - 3]);
    }
    slopeBeyond_ = slopes_.back() > 0.0 ? slopes_.back() : chord.back();
    for (std::size_t i = 1; i + 1 < n; ++i) {
        const double before = flows_[i] - flows_[i - 1], after = flows_[i + 1] - flows_[i];
        const double w1 = 2.0 * after + before, w2 = after + 2.0 * before;
        slopes_[i] = (w1 + w2) / (w1 / chord[i - 1] + w2 / chord[i]);
    }
}

LossAt OutflowTable::at(double flow_m3_s) const {
    if (flow_m3_s >= flows_.back()) {
        return {heads_.back() + slopeBeyond_ * (flow_m3_s - flows_.back()), slopeBeyond_};
    }
    const auto above = std::upper_bound(flows_.begin(), flows_.end(), std::max(flow_m3_s, 0.0));
    const std::size_t i = static_cast<std::size_t>(above - flows_.begin()) - 1;
    const double span = flows_[i + 1] - flows_[i];
    const double t = (std::max(flow_m3_s, 0.0) - flows_[i]) / span;
    const double t2 = t * t, t3 = t2 * t;
    LossAt r;
    r.loss_m = (2 * t3 - 3 * t2 + 1) * heads_[i] + (t3 - 2 * t2 + t) * span * slopes_[i] +
               (-2 * t3 + 3 * t2) * heads_[i + 1] + (t3 - t2) * span * slopes_[i + 1];
    r.slope_s_m2 = (6 * t2 - 6 * t) / span * (heads_[i] - heads_[i + 1]) + (3 * t2 - 4 * t + 1) * slopes_[i] +
                   (3 * t2 - 2 * t) * slopes_[i + 1];
    return r;
}

double OutflowTable::flowAtHead_m3_s(double head_m) const {
    if (head_m <= 0.0) return 0.0;
    if (head_m >= heads_.back()) {
        return capped_ ? flows_.back() : flows_.back() + (head_m - heads_.back()) / slopeBeyond_;
    }
    const auto above = std::upper_bound(heads_.begin(), heads_.end(), head_m);
    const std::size_t i = static_cast<std::size_t>(above - heads_.begin()) - 1;
    double lo = flows_[i], hi = flows_[i + 1];
    for (int k = 0; k < 60 && hi - lo > 1e-15 * hi; ++k) {
        const double mid = 0.5 * (lo + hi);
        (at(mid).loss_m < head_m ? lo : hi) = mid;
    }
    return 0.5 * (lo + hi);
}

} // namespace headmark
