// The mapping refined by the rulings that are tied to printed figures: they count as pins along their whole
// length, and what is left of curled paper becomes a smooth warp.

#include "analysis/chart/mapping_solver.h"
#include "analysis/chart/median.h"

#include <Eigen/Dense>

#include <cmath>
#include <utility>

namespace headmark {

// Every place of a ruling is a pin without its other figure.
void MappingSolver::addRulings(const std::vector<KnownRuling>& rulings, double sigma_px) {
    const ValueAxis axis = frame_.hasAxis(ValueAxis::left) ? ValueAxis::left : ValueAxis::right;
    for (const KnownRuling& ruling : rulings) {
        for (const PixelPoint at : ruling.places) {
            ScaledPin scaled;
            scaled.x = (at.x_px - frame_.centre_.x_px) / frame_.halfExtent_;
            scaled.y = (at.y_px - frame_.centre_.y_px) / frame_.halfExtent_;
            // A ruling may be printed or rastered off its place as a whole: its places share that.
            scaled.sigma =
                sigma_px * std::sqrt(static_cast<double>(ruling.places.size())) / frame_.halfExtent_;
            if (ruling.upright)
                scaled.u = frame_.flow_.scaledFrom(ruling.figure);
            else
                scaled.v = frame_.valueAxis(axis).scaledFrom(ruling.figure);
            figures_ += 1;
            pins_.push_back(scaled);
        }
    }
}

std::vector<MappingSolver::RulingPlace>
MappingSolver::placesOf(const ChartMapping& mapping, const std::vector<KnownRuling>& rulings) const {
    const ValueAxis axis = frame_.hasAxis(ValueAxis::left) ? ValueAxis::left : ValueAxis::right;
    std::vector<RulingPlace> places;
    for (std::size_t k = 0; k < rulings.size(); ++k) {
        for (const PixelPoint at : rulings[k].places) {
            const ChartMapping::Place place = mapping.placeOf(at);
            RulingPlace p{k, rulings[k].upright, place.u, place.v, 0.0, 0.0};
            p.off = p.upright ? frame_.flow_.scaledFrom(rulings[k].figure) - place.flatU
                              : frame_.valueAxis(axis).scaledFrom(rulings[k].figure) - place.flatV;
            const Eigen::Matrix2d byPixel = mapping.pixelByPlace(place);
            p.pixels = p.off * frame_.halfExtent_ * byPixel.col(p.upright ? 0 : 1).norm();
            places.push_back(p);
        }
    }
    return places;
}

namespace {

// Normal-consistent spread, from the median.
double spreadOf(std::vector<double> off) {
    for (double& one : off)
        one = std::abs(one);
    constexpr double kMedianToSigma = 1.4826; // of a normal scatter
    return kMedianToSigma * medianOf(std::move(off));
}

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
        const double spread = std::max(spreadOf({left.begin(), left.end()}), kLeastSpread);
        weight = (1.0 + (left / (kCauchy * spread)).array().square()).inverse().matrix();
    }
    return x;
}

// The terms of a warp that so many rulings of one sense tell: fewer across them than there are rulings.
std::vector<int> termsToldBy(std::ptrdiff_t count, bool upright) {
    constexpr std::ptrdiff_t kForBends = 6;
    const int across = count >= kForBends ? 2 : 1;
    std::vector<int> used;
    int k = 0;
    for (int i = 0; i <= SmoothWarp::kDegree; ++i) {
        for (int j = 0; i + j <= SmoothWarp::kDegree; ++j, ++k) {
            if ((upright ? i : j) <= across) used.push_back(k);
        }
    }
    return used;
}

} // namespace

// What the rulings leave, as smooth shifts of u and v. Each ruling counts as one place in the sense of the
// other direction: the degree there stays below the number of rulings.
void MappingSolver::uncurl(ChartMapping& mapping, const std::vector<KnownRuling>& rulings) const {
    const std::vector<RulingPlace> before = placesOf(mapping, rulings);
    SmoothWarp warp;
    warp.active = true;
    for (const bool upright : {false, true}) {
        const auto count = std::count_if(rulings.begin(), rulings.end(),
                                         [&](const KnownRuling& r) { return r.upright == upright; });
        if (count < 2) continue;
        const std::vector<int> used = termsToldBy(count, upright);
        std::vector<RulingPlace> places;
        for (const RulingPlace& p : before)
            if (p.upright == upright) places.push_back(p);
        constexpr std::size_t kSpare = 4;
        if (places.size() < used.size() + kSpare) continue;
        const auto rows = static_cast<Eigen::Index>(places.size()),
                   columns = static_cast<Eigen::Index>(used.size());
        Eigen::MatrixXd a(rows, columns);
        Eigen::VectorXd b(rows);
        for (Eigen::Index r = 0; r < rows; ++r) {
            const RulingPlace& p = places[static_cast<std::size_t>(r)];
            const SmoothWarp::Coefficients t = SmoothWarp::terms(p.u, p.v);
            for (Eigen::Index c = 0; c < columns; ++c)
                a(r, c) = t[used[static_cast<std::size_t>(c)]];
            b[r] = p.off;
        }
        const Eigen::VectorXd x = robustSolution(a, b);
        for (Eigen::Index c = 0; c < columns; ++c)
            (upright ? warp.u : warp.v)[used[static_cast<std::size_t>(c)]] = x[c];
    }
    ChartMapping flat = mapping;
    flat.warp_ = warp;
    const std::vector<RulingPlace> after = placesOf(flat, rulings);
    constexpr double kMostSquare_px2 = 25.0; // one that is 5 px off is another line
    const auto squares = [&](const std::vector<RulingPlace>& places) {
        double sum = 0.0;
        for (const RulingPlace& p : places)
            sum += std::min(p.pixels * p.pixels, kMostSquare_px2);
        return sum / static_cast<double>(places.size());
    };
    // Flat paper stays flat: what a warp takes from the rulings' own scatter is no curl.
    constexpr double kTakesAway = 0.4, kLeast_px = 0.3;
    if (squares(after) > kTakesAway * squares(before) || squares(before) < kLeast_px * kLeast_px) return;
    for (const RulingPlace& p : before) {
        const Eigen::Vector2d shift = warp.shift(p.u, p.v);
        flat.warp_px_ =
            std::max(flat.warp_px_, shift.norm() * frame_.halfExtent_ * std::abs(flat.parameters_[1]));
    }
    mapping = flat;
}

// The simplest model that is not much worse than the next; the rulings' scatter is their sigma already.
std::optional<MappingSolver::Candidate> MappingSolver::simplestWithRulings() const {
    std::vector<Candidate> candidates;
    for (const MappingModel model :
         {MappingModel::upright, MappingModel::affine, MappingModel::perspective}) {
        if (reading_.mapping && *reading_.mapping != model) continue;
        const auto next = candidate(model);
        if (next.ok() && !closeFigures(next->parameters)) candidates.push_back(*next);
    }
    for (auto simple = candidates.begin(); simple != candidates.end(); ++simple) {
        if (std::none_of(simple + 1, candidates.end(),
                         [&](const Candidate& richer) { return needed(richer, *simple); }))
            return *simple;
    }
    return std::nullopt;
}

// How far rulings as a whole lie off their figures, one sigma, for as many as there are parameters.
double MappingSolver::rulingSpread(const ChartMapping& mapping,
                                   const std::vector<KnownRuling>& rulings) const {
    std::vector<double> sums(rulings.size(), 0.0);
    std::vector<double> within;
    for (const RulingPlace& p : placesOf(mapping, rulings)) {
        sums[p.ruling] += p.pixels;
        within.push_back(p.pixels);
    }
    for (std::size_t k = 0; k < rulings.size(); ++k)
        sums[k] /= static_cast<double>(std::max<std::size_t>(rulings[k].places.size(), 1));
    constexpr double kOfMean = 0.35;
    // Each ruling tells a place and a direction.
    const double told = 2.0 * static_cast<double>(rulings.size());
    const double spare = std::max(told - static_cast<double>(mapping.free_.size()), 1.0);
    // The places of one ruling scatter on their own as well, to a part that their mean keeps.
    return std::max(spreadOf(sums) * std::sqrt(told / spare), kOfMean * spreadOf(within));
}

ChartMapping MappingSolver::refined(const ChartMapping& pinned, const std::vector<KnownRuling>& rulings) {
    if (rulings.empty()) return pinned;
    // Rulings are rastered to half a pixel by some programs, to a hundredth by others, and scanners bend the
    // page by some tenths: less than this no scatter among them proves.
    constexpr double kLeastSigma = 0.3, kMostSigma = 3.0;
    constexpr double kAgree = 4.0; // sigmas of a pin
    const std::size_t pins = pins_.size();
    const int figures = figures_;
    double sigma_px = 1.0;
    std::optional<ChartMapping> best;
    constexpr int kRounds = 3; // the first chooses the model by guess, the next two by the scatter it leaves
    for (int round = 0; round < kRounds; ++round) {
        pins_.resize(pins);
        figures_ = figures;
        addRulings(rulings, sigma_px);
        const auto chosen = simplestWithRulings();
        if (!chosen) return pinned;
        best = mappingOf(*chosen, 1.0);
        uncurl(*best, rulings);
        const double spread = rulingSpread(*best, rulings);
        if (spread > kMostSigma) return pinned;
        sigma_px = std::max(spread, kLeastSigma);
    }
    for (std::size_t i = 0; i < reading_.pins.size(); ++i) {
        const double sigma = reading_.pins[i].sigma_px.value_or(reading_.sigmas.pin_px);
        const double curl = best->warp_.active ? best->warp_px_ : 0.0;
        if (best->pinResiduals_px_[i] > kAgree * std::max(sigma, kLeastSigma) + curl) return pinned;
    }
    best->rulings_ = rulings.size();
    return *best;
}

} // namespace headmark
