#include "analysis/chart/paper_warp.h"
#include "analysis/chart/median.h"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <set>

namespace headmark {

namespace {

// Least squares with Cauchy's weights, c = 2.385 sigma (95 % efficiency on normal errors, Holland and Welsch
// 1977; from memory).
Eigen::VectorXd robustSolution(const Eigen::MatrixXd& a, const Eigen::VectorXd& b) {
    constexpr int kRounds = 4;
    constexpr double kCauchy = 2.385, kLeastSpread = 1e-6;
    Eigen::VectorXd weight = Eigen::VectorXd::Ones(b.size()), x;
    for (int round = 0; round < kRounds; ++round) {
        const Eigen::VectorXd root = weight.cwiseSqrt();
        x = (root.asDiagonal() * a).colPivHouseholderQr().solve(root.asDiagonal() * b);
        const Eigen::VectorXd left = b - a * x;
        const double spread = std::max(normalSpreadOf({left.begin(), left.end()}), kLeastSpread);
        weight = (1.0 + (left / (kCauchy * spread)).array().square()).inverse().matrix();
    }
    return x;
}

// Those of the lowest order, which the mapping has as well, first.
struct Terms {
    std::vector<int> used;
    Eigen::Index low = 0;
};

// The terms that so many rulings of one sense tell: fewer across them than there are rulings.
Terms termsToldBy(std::size_t count, bool upright) {
    constexpr std::size_t kForBends = 6;
    const int across = count >= kForBends ? 2 : 1;
    Terms terms;
    std::vector<int> high;
    int k = 0;
    for (int i = 0; i <= SmoothWarp::kDegree; ++i) {
        for (int j = 0; i + j <= SmoothWarp::kDegree; ++j, ++k) {
            if ((upright ? i : j) <= across) (i + j <= 1 ? terms.used : high).push_back(k);
        }
    }
    terms.low = static_cast<Eigen::Index>(terms.used.size());
    terms.used.insert(terms.used.end(), high.begin(), high.end());
    return terms;
}

struct System {
    Eigen::MatrixXd a;
    Eigen::VectorXd b;
};

System systemOf(const std::vector<RulingPlace>& places, const Terms& terms) {
    System s;
    s.a.resize(static_cast<Eigen::Index>(places.size()), static_cast<Eigen::Index>(terms.used.size()));
    s.b.resize(s.a.rows());
    for (Eigen::Index r = 0; r < s.a.rows(); ++r) {
        const RulingPlace& p = places[static_cast<std::size_t>(r)];
        const SmoothWarp::Coefficients t = SmoothWarp::terms(p.u, p.v);
        for (Eigen::Index c = 0; c < s.a.cols(); ++c)
            s.a(r, c) = t[terms.used[static_cast<std::size_t>(c)]];
        s.b[r] = p.off;
    }
    return s;
}

double meanSquare_px2(const std::vector<RulingPlace>& places) {
    constexpr double kMost_px = 5.0; // one that is 5 px off is another line
    double sum = 0.0;
    for (const RulingPlace& p : places)
        sum += std::pow(std::clamp(p.pixels, -kMost_px, kMost_px), 2);
    return sum / static_cast<double>(places.size());
}

// `terms` as one sigma each of the high ones, low ones taken out; sigma of one place in the scale of off.
std::vector<SmoothWarp::Coefficients> errorsOf(const System& s, const Terms& terms, double sigma) {
    const Eigen::Index high = s.a.cols() - terms.low;
    const Eigen::MatrixXd byLow = s.a.leftCols(terms.low).colPivHouseholderQr().solve(s.a.rightCols(high));
    const Eigen::MatrixXd own = s.a.rightCols(high) - s.a.leftCols(terms.low) * byLow;
    const Eigen::JacobiSVD<Eigen::MatrixXd> svd(own, Eigen::ComputeThinV);
    std::vector<SmoothWarp::Coefficients> errors;
    for (Eigen::Index k = 0; k < high; ++k) {
        constexpr double kLeast = 1e-6; // of the greatest: such a term is not told at all
        const double strength = svd.singularValues()[k];
        if (strength < kLeast * svd.singularValues()[0]) continue;
        const Eigen::VectorXd one = sigma / strength * svd.matrixV().col(k), low = -byLow * one;
        SmoothWarp::Coefficients error = SmoothWarp::Coefficients::Zero();
        for (Eigen::Index c = 0; c < s.a.cols(); ++c)
            error[terms.used[static_cast<std::size_t>(c)]] = c < terms.low ? low[c] : one[c - terms.low];
        errors.push_back(error);
    }
    return errors;
}

} // namespace

SenseWarp warpOf(const std::vector<RulingPlace>& all, bool upright) {
    std::vector<RulingPlace> places;
    std::set<std::size_t> rulings;
    for (const RulingPlace& p : all) {
        if (p.upright != upright) continue;
        places.push_back(p);
        rulings.insert(p.ruling);
    }
    SenseWarp warp;
    const Terms terms = termsToldBy(rulings.size(), upright);
    constexpr std::size_t kSpare = 4;
    if (rulings.size() < 2 || places.size() < terms.used.size() + kSpare) return warp;
    const System s = systemOf(places, terms);
    const Eigen::VectorXd x = robustSolution(s.a, s.b);
    std::vector<RulingPlace> after = places;
    const Eigen::VectorXd left = s.b - s.a * x;
    double perOff = 0.0;
    for (std::size_t k = 0; k < after.size(); ++k) {
        after[k].off = left[static_cast<Eigen::Index>(k)];
        after[k].pixels = after[k].off * after[k].perOff_px;
        perOff += after[k].perOff_px / static_cast<double>(after.size());
    }
    const auto idle = static_cast<double>(terms.used.size());
    const double spare = static_cast<double>(places.size()) - idle;
    const double before_px2 = meanSquare_px2(places), after_px2 = meanSquare_px2(after);
    const double ratio = (before_px2 - after_px2) / idle / std::max(after_px2 / spare, 1e-12);
    // About the ratio that chance exceeds once in a thousand, for some ten terms; and no less than is seen.
    constexpr double kRatio = 3.5, kRatioOfFew = 60.0, kLeast_px = 0.08;
    if (ratio < kRatio + kRatioOfFew / spare || before_px2 - after_px2 < kLeast_px * kLeast_px) return warp;
    warp.taken = true;
    for (Eigen::Index c = 0; c < x.size(); ++c)
        warp.shift[terms.used[static_cast<std::size_t>(c)]] = x[c];
    constexpr double kTaken = 3.0; // place and scale by the mapping, a bend by the warp
    const RulingScatter scatter = scatterOf(after, upright, kTaken);
    const double sigma_px = scatter.ofPlace(places.size() / rulings.size());
    warp.errors = errorsOf(s, terms, sigma_px / perOff);
    return warp;
}

} // namespace headmark
