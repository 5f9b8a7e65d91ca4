// The mapping refined by the rulings that are tied to printed figures: they count as pins along their whole
// length, and what is left of curled paper becomes a smooth warp.

#include "analysis/chart/mapping_solver.h"
#include "analysis/chart/mapping_starts.h"
#include "analysis/chart/paper_warp.h"

#include <Eigen/Dense>

#include <cmath>
#include <utility>

namespace headmark {

// Every place of a ruling is a pin without its other figure.
void MappingSolver::addRulings(const std::vector<KnownRuling>& rulings, const Scatters& scatters) {
    const ValueAxis axis = frame_.hasAxis(ValueAxis::left) ? ValueAxis::left : ValueAxis::right;
    for (const KnownRuling& ruling : rulings) {
        for (const PixelPoint at : ruling.places) {
            ScaledPin scaled;
            scaled.x = (at.x_px - frame_.centre_.x_px) / frame_.halfExtent_;
            scaled.y = (at.y_px - frame_.centre_.y_px) / frame_.halfExtent_;
            const RulingScatter& scatter = ruling.upright ? scatters.upright : scatters.level;
            scaled.sigma = scatter.ofPlace(ruling.places.size()) / frame_.halfExtent_;
            if (ruling.upright)
                scaled.u = frame_.flow_.scaledFrom(ruling.figure);
            else
                scaled.v = frame_.valueAxis(axis).scaledFrom(ruling.figure);
            figures_ += 1;
            pins_.push_back(scaled);
            if (!ruling.right || !frame_.rightIsOwnScale_) continue;
            scaled.v = frame_.right_.scaledFrom(*ruling.right);
            scaled.onOwnScale = true;
            figures_ += 1;
            pins_.push_back(scaled);
        }
    }
}

std::vector<RulingPlace> MappingSolver::placesOf(const ChartMapping& mapping,
                                                 const std::vector<KnownRuling>& rulings) const {
    const ValueAxis axis = frame_.hasAxis(ValueAxis::left) ? ValueAxis::left : ValueAxis::right;
    std::vector<RulingPlace> places;
    for (std::size_t k = 0; k < rulings.size(); ++k) {
        for (const PixelPoint at : rulings[k].places) {
            const ChartMapping::Place place = mapping.placeOf(at);
            RulingPlace p{k, rulings[k].upright, place.u, place.v, 0.0, 0.0, 0.0};
            p.off = p.upright ? frame_.flow_.scaledFrom(rulings[k].figure) - place.flatU
                              : frame_.valueAxis(axis).scaledFrom(rulings[k].figure) - place.flatV;
            const Eigen::Matrix2d byPixel = mapping.pixelByPlace(place);
            p.perOff_px = frame_.halfExtent_ * byPixel.col(p.upright ? 0 : 1).norm();
            p.pixels = p.off * p.perOff_px;
            places.push_back(p);
        }
    }
    return places;
}

// What the rulings leave, as smooth shifts of u and v.
void MappingSolver::uncurl(ChartMapping& mapping, const std::vector<KnownRuling>& rulings) const {
    const std::vector<RulingPlace> places = placesOf(mapping, rulings);
    const SenseWarp level = warpOf(places, false), upright = warpOf(places, true);
    mapping.drift_.ofU = upright.errors;
    mapping.drift_.ofV = level.errors;
    if (!level.taken && !upright.taken) return;
    mapping.warp_.active = true;
    mapping.warp_.u = upright.shift;
    mapping.warp_.v = level.shift;
    for (const RulingPlace& p : places) {
        const Eigen::Vector2d shift = mapping.warp_.shift(p.u, p.v);
        mapping.warp_px_ =
            std::max(mapping.warp_px_, shift.norm() * frame_.halfExtent_ * std::abs(mapping.parameters_[1]));
    }
}

// The right axis's own scale on paper whose curl is taken out: r0 and r1 by least squares through its pins,
// or the rulings they stand on.
void MappingSolver::settleRightAxis(ChartMapping& mapping, const std::vector<KnownRuling>& rulings) const {
    if (!mapping.warp_.active || !frame_.rightIsOwnScale_) return;
    std::vector<std::pair<double, double>> places; // own scale, v
    for (const KnownRuling& ruling : rulings) {
        for (const PixelPoint at : ruling.places)
            if (ruling.right)
                places.emplace_back(frame_.right_.scaledFrom(*ruling.right), mapping.placeOf(at).flatV);
    }
    if (places.empty()) {
        for (const Pin& pin : reading_.pins)
            if (pin.axis == ValueAxis::right && pin.value)
                places.emplace_back(frame_.right_.scaledFrom(*pin.value), mapping.placeOf(pin.at).flatV);
    }
    Eigen::MatrixX2d a(static_cast<Eigen::Index>(places.size()), 2);
    Eigen::VectorXd b(a.rows());
    for (Eigen::Index k = 0; k < a.rows(); ++k) {
        a.row(k) << 1.0, places[static_cast<std::size_t>(k)].first;
        b[k] = places[static_cast<std::size_t>(k)].second;
    }
    const Eigen::Vector2d x = a.colPivHouseholderQr().solve(b);
    if (!x.allFinite() || x[1] == 0.0) return;
    mapping.parameters_[kRight0] = x[0];
    mapping.parameters_[kRight1] = x[1];
}

std::optional<MappingSolver::Candidate> MappingSolver::richestWithRulings() const {
    for (const MappingModel model :
         {MappingModel::perspective, MappingModel::affine, MappingModel::upright}) {
        if (reading_.mapping && *reading_.mapping != model) continue;
        const auto found = candidate(model);
        if (found.ok() && !closeFigures(found->parameters)) return *found;
    }
    return std::nullopt;
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

// A mapping takes a place and a scale from each sense of rulings, a perspective and a warp more.
MappingSolver::Scatters MappingSolver::scattersOf(const ChartMapping& mapping,
                                                  const std::vector<KnownRuling>& rulings) const {
    double taken = mapping.model() == MappingModel::perspective ? 2.5 : 2.0;
    if (mapping.warp_.active) taken += 1.0;
    const std::vector<RulingPlace> places = placesOf(mapping, rulings);
    return {scatterOf(places, false, taken), scatterOf(places, true, taken)};
}

bool MappingSolver::pinsLieWithin(const ChartMapping& mapping) const {
    // Sigmas of a pin; at four, one careful reading in a thousand would lose its grid.
    constexpr double kAgree = 5.0, kLeastSigma_px = 0.3;
    for (std::size_t i = 0; i < reading_.pins.size(); ++i) {
        const double sigma = reading_.pins[i].sigma_px.value_or(reading_.sigmas.pin_px);
        const double curl = mapping.warp_.active ? mapping.warp_px_ : 0.0;
        if (mapping.pinResiduals_px_[i] > kAgree * std::max(sigma, kLeastSigma_px) + curl) return false;
    }
    return true;
}

// Where no two rulings show how a page is bent it is bent all the same: a photograph by its paper and lens, a
// page that stands aslant by the feed of the scanner that took it. One that stands upright was drawn so. Rule
// of this program.
double MappingSolver::unseenWave_px(MappingModel model) const {
    constexpr double kCurl = 0.002; // of half the chart
    constexpr double kFeed_px = 0.15;
    switch (model) {
    case MappingModel::perspective:
        return kCurl * frame_.halfExtent_;
    case MappingModel::affine:
        return kFeed_px;
    case MappingModel::upright:
        break;
    }
    return 0.0;
}

// What the page did to the rulings one by one it may have done to all of them, or to the lines: half a pen's
// width or a pixel's rounding, by no more than single rulings are off. A part of what they are off by is only
// the finding of their middles, which is each ruling's own. What bends neighbours alike bends the lines
// between.
void MappingSolver::tellDrift(ChartMapping& mapping, const Scatters& scatters) const {
    constexpr double kOfAll = 0.7, kFinding_px = 0.05, kLeast_px = 0.02;
    const auto ofAll = [&](const RulingScatter& scatter) {
        const double displaced_px2 = scatter.apart_px * scatter.apart_px - kFinding_px * kFinding_px;
        return std::max(kOfAll * std::sqrt(std::max(displaced_px2, 0.0)), kLeast_px);
    };
    mapping.drift_.shift_px = {ofAll(scatters.upright), ofAll(scatters.level)};
    mapping.drift_.wave_px = {scatters.upright.shared_px, scatters.level.shared_px};
    const std::size_t known[] = {scatters.upright.rulings, scatters.level.rulings};
    for (std::size_t way = 0; way < 2; ++way) {
        double& wave = mapping.drift_.wave_px[way];
        if (known[way] < 2) wave = unseenWave_px(mapping.model());
        // What put single rulings of a scanned page off may be its feed, which bends lines as well.
        else if (mapping.model() != MappingModel::upright)
            wave = std::hypot(wave, mapping.drift_.shift_px[way]);
    }
    mapping.widenByDrift();
}

// The ruling that lies farthest off as a whole, of a sense that is more apart than print is.
std::optional<std::size_t> MappingSolver::suspect(const ChartMapping& mapping,
                                                  const std::vector<KnownRuling>& rulings,
                                                  const Scatters& scatters) const {
    constexpr double kOfPrint_px = 0.6;
    constexpr std::size_t kFewest = 5;
    std::vector<double> sums(rulings.size(), 0.0);
    for (const RulingPlace& p : placesOf(mapping, rulings))
        sums[p.ruling] += p.pixels / static_cast<double>(rulings[p.ruling].places.size());
    std::optional<std::size_t> worst;
    for (std::size_t k = 0; k < rulings.size(); ++k) {
        const RulingScatter& scatter = rulings[k].upright ? scatters.upright : scatters.level;
        if (scatter.apart_px < kOfPrint_px || scatter.rulings < kFewest) continue;
        if (!worst || std::abs(sums[k]) > std::abs(sums[*worst])) worst = k;
    }
    return worst;
}

// A row of letters or another line among the rulings drags the mapping: one that leaves the others far better
// together is left out.
ChartMapping MappingSolver::refined(const ChartMapping& pinned, const std::vector<KnownRuling>& rulings) {
    std::vector<KnownRuling> left = rulings;
    std::optional<Refined> best = refinedBy(left);
    constexpr int kMost = 3;
    constexpr double kFarBetter = 0.5;
    for (int k = 0; k < kMost && best; ++k) {
        const auto one = suspect(best->mapping, left, best->scatters);
        if (!one) break;
        const bool upright = left[*one].upright;
        std::vector<KnownRuling> fewer = left;
        fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(*one));
        const auto without = refinedBy(fewer);
        if (!without) break;
        const auto apart = [&](const Refined& r) {
            return (upright ? r.scatters.upright : r.scatters.level).apart_px;
        };
        if (apart(*without) > kFarBetter * apart(*best)) break;
        left = std::move(fewer);
        best = without;
    }
    if (!best || !pinsLieWithin(best->mapping)) return pinned;
    constexpr double kMost_px = 3.0;
    if (std::max(best->scatters.level.apart_px, best->scatters.upright.apart_px) > kMost_px) return pinned;
    best->mapping.rulings_ = left.size();
    tellDrift(best->mapping, best->scatters);
    return best->mapping;
}

// The places of a ruling enter as if each were on its own, with as much error as makes their mean right; a
// ruling's direction is known far better. The covariance of least squares so weighted, where the places' true
// errors are their own and their ruling's: (J'J)^-1 J' Omega J (J'J)^-1.
Eigen::MatrixXd MappingSolver::covarianceBy(const Candidate& chosen, const std::vector<KnownRuling>& rulings,
                                            const Scatters& scatters) const {
    const Eigen::MatrixXd& j = chosen.jacobian;
    Eigen::Index places = 0;
    const auto rowsOf = [&](const KnownRuling& ruling) {
        const bool both = ruling.right && frame_.rightIsOwnScale_;
        return static_cast<Eigen::Index>(ruling.places.size()) * (both ? 2 : 1);
    };
    for (const KnownRuling& ruling : rulings)
        places += rowsOf(ruling);
    Eigen::Index row = j.rows() - places; // the pins' rows come first
    Eigen::MatrixXd middle = j.topRows(row).transpose() * j.topRows(row);
    for (const KnownRuling& ruling : rulings) {
        const auto own = j.middleRows(row, rowsOf(ruling));
        row += rowsOf(ruling);
        const RulingScatter& scatter = ruling.upright ? scatters.upright : scatters.level;
        const double all = std::pow(scatter.ofPlace(ruling.places.size()), 2);
        const Eigen::RowVectorXd sum = own.colwise().sum();
        middle += std::pow(scatter.within_px, 2) / all * (own.transpose() * own) +
                  std::pow(scatter.apart_px, 2) / all * (sum.transpose() * sum);
    }
    return chosen.covariance * middle * chosen.covariance;
}

std::optional<MappingSolver::Refined> MappingSolver::refinedBy(const std::vector<KnownRuling>& rulings) {
    if (rulings.empty()) return std::nullopt;
    constexpr double kGuess_px = 0.3;
    const std::size_t pins = reading_.pins.size();
    const int figures = figures_;
    Refined found;
    found.scatters.level.apart_px = found.scatters.upright.apart_px = kGuess_px;
    constexpr int kRounds =
        3; // the first, by the richest model, tells the scatter by which the model is chosen
    bool settled = true;
    for (int round = 0; round < kRounds && settled; ++round) {
        addRulings(rulings, found.scatters);
        auto chosen = round == 0 ? richestWithRulings() : simplestWithRulings();
        if (chosen) chosen->covariance = covarianceBy(*chosen, rulings, found.scatters);
        pins_.resize(pins);
        figures_ = figures;
        settled = chosen.has_value();
        if (!settled) break;
        found.mapping = mappingOf(*chosen, 1.0);
        uncurl(found.mapping, rulings);
        settleRightAxis(found.mapping, rulings);
        found.scatters = scattersOf(found.mapping, rulings);
    }
    if (!settled) return std::nullopt;
    return found;
}

} // namespace headmark
