// Condenses a site: finds main and branches in the pipe tree with every zone open, and tabulates them.
#include "analysis/duty/condensed_site.h"

#include "analysis/duty/judgement.h"
#include "analysis/irrigation/lateral.h"
#include "analysis/irrigation/leaf_law.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

namespace headmark {

namespace {

constexpr double kNever = std::numeric_limits<double>::infinity();
constexpr std::size_t kNone = static_cast<std::size_t>(-1);

// Head above the zone at its branch's end at which the worst (or best) emitter has this head.
double headFor_m(const Zone& zone, const SiteModel& model, double emitterHead_m, bool worst) {
    if (!zone.laterals) return emitterHead_m;
    const OutflowLaw outlet = outletLaw(zone.emitters.law, model.water().density);
    const auto at = [&](double head_m) {
        const LateralState s = lateralAtInlet(*zone.laterals, outlet, model.context(), head_m);
        return worst ? s.lowestHead_m : s.highestHead_m;
    };
    double low = 0.0, high = std::max(1.0, 2.0 * emitterHead_m);
    if (at(low) >= emitterHead_m) return 0.0;
    constexpr double kFar_m = 1e5;
    while (at(high) < emitterHead_m && high < kFar_m)
        high *= 2.0;
    if (high >= kFar_m) return kNever;
    for (int k = 0; k < 100 && high - low > 1e-9 * high; ++k) {
        const double middle = 0.5 * (low + high);
        (at(middle) < emitterHead_m ? low : high) = middle;
    }
    return high;
}

} // namespace

class CondensedSite::Maker {
  public:
    explicit Maker(const CaseSolver& solver) : solver_(solver), model_(solver.model()) {}

    std::unique_ptr<const CondensedSite> make() {
        const Site& site = model_.site();
        if (site.zones.empty() || site.zones.size() > kMostMaskedZones) return nullptr;
        if (solver_.limits().preferredBandOnly || !solver_.powerAndNpshRise()) return nullptr;
        tree_ = treeAt(WaterLevel::low, FilterState::service);
        if (!findMain() || !plainBeyondFirstTakeoff()) return nullptr;
        std::unique_ptr<CondensedSite> made(new CondensedSite);
        out_ = made.get();
        findReturn();
        if (!addSupplies()) return nullptr;
        addZones();
        addPieces();
        return made;
    }

  private:
    [[nodiscard]] SiteTree treeAt(WaterLevel level, FilterState filter) const {
        CaseSetting setting;
        setting.open.assign(model_.site().zones.size(), true);
        setting.level = level;
        setting.filter = filter;
        return model_.tree(setting, solver_.returnKv_m3_h());
    }

    // Edges that lead to more than one zone, or carry items of the main, are the main; they must follow each
    // other. What hangs from them is the zones' branches.
    bool findMain() {
        const auto& edges = tree_.tree.edges;
        std::vector<bool> isMain(edges.size(), false);
        for (std::size_t e = 0; e < edges.size(); ++e) {
            for (const EdgeElement& which : tree_.edgeElements[e])
                isMain[e] = isMain[e] || which.run == EdgeElement::Run::delivery;
        }
        std::vector<int> behind(edges.size(), 0);
        for (std::size_t o = 0; o < tree_.outflows.size(); ++o) {
            for (int e = tree_.tree.outflows[o].edge; e >= 0; e = edges[static_cast<std::size_t>(e)].parent)
                ++behind[static_cast<std::size_t>(e)];
        }
        for (std::size_t e = 0; e < edges.size(); ++e)
            isMain[e] = (isMain[e] || behind[e] > 1) && behind[e] > 0;
        int last = -1;
        for (std::size_t e = 0; e < edges.size(); ++e) {
            if (!isMain[e]) continue;
            if (edges[e].parent != last) return false;
            last = static_cast<int>(e);
            main_.push_back(e);
        }
        return !main_.empty() && placeZones(isMain);
    }

    bool placeZones(const std::vector<bool>& isMain) {
        const auto& edges = tree_.tree.edges;
        branchOf_.resize(model_.site().zones.size());
        takeoffOf_.assign(branchOf_.size(), kNone); // position in main_
        firstTakeoff_ = main_.size();
        for (std::size_t o = 0; o < tree_.outflows.size(); ++o) {
            if (tree_.outflows[o].kind != OutflowOf::Kind::zone) continue;
            const std::size_t zone = tree_.outflows[o].zone;
            int e = tree_.tree.outflows[o].edge;
            for (; e >= 0 && !isMain[static_cast<std::size_t>(e)];
                 e = edges[static_cast<std::size_t>(e)].parent)
                branchOf_[zone].insert(branchOf_[zone].begin(), static_cast<std::size_t>(e));
            if (e < 0) return false;
            const auto at = std::find(main_.begin(), main_.end(), static_cast<std::size_t>(e));
            takeoffOf_[zone] = static_cast<std::size_t>(at - main_.begin());
            outflowOf_[zone] = o;
            firstTakeoff_ = std::min(firstTakeoff_, takeoffOf_[zone]);
        }
        return std::none_of(takeoffOf_.begin(), takeoffOf_.end(), [](std::size_t t) { return t == kNone; });
    }

    // Beyond the first take-off nothing may depend on the filter's state, cap its flow or hold the pressure
    // (in a branch a regulator is part of the zone).
    [[nodiscard]] bool plainBeyondFirstTakeoff() const {
        for (std::size_t e = 0; e < tree_.edgeElements.size(); ++e) {
            const auto at = std::find(main_.begin(), main_.end(), e);
            const bool before =
                at != main_.end() && static_cast<std::size_t>(at - main_.begin()) <= firstTakeoff_;
            if (before) continue;
            if (at != main_.end() && tree_.tree.edges[e].regulator) return false;
            for (const EdgeElement& which : tree_.edgeElements[e]) {
                if (which.run == EdgeElement::Run::tankReturn) continue;
                if (model_.element(which).kind == ElementKind::filter) return false;
            }
        }
        return true;
    }

    void findReturn() {
        for (std::size_t o = 0; o < tree_.outflows.size(); ++o) {
            if (tree_.outflows[o].kind == OutflowOf::Kind::tankReturn) backOutflow_ = o;
        }
    }

    [[nodiscard]] std::unique_ptr<ZoneDemand> returnOf(const SiteTree& tree, double greatest_m) const {
        if (backOutflow_ == kNone) return nullptr;
        const TreeOutflow& o = tree.tree.outflows[backOutflow_];
        return std::make_unique<ZoneDemand>(
            std::vector<TreeEdge>{tree.tree.edges[static_cast<std::size_t>(o.edge)]}, o, greatest_m);
    }

    std::optional<SupplyCurve> supplyOf(const SupplyCorner& corner) const {
        const SiteTree tree = treeAt(corner.level, corner.filter);
        const PumpModel pump = solver_.pump().atSpeed(1.0);
        // The return sees the pump's outlet: no more than the source's level and the curve's top.
        const double most_m =
            tree.tree.sourceLevel_m + corner.factor * pump.head.at(pump.head.flowOfMaximum()) + 1.0;
        const auto back = returnOf(tree, most_m);
        SupplyCurve curve(corner, solver_, tree,
                          {main_.begin(), main_.begin() + static_cast<std::ptrdiff_t>(firstTakeoff_) + 1},
                          back.get());
        if (!curve.usable()) return std::nullopt;
        return curve;
    }

    bool addSupplies() {
        const double share = solver_.limits().asDelivered ? solver_.pump().deliveredShare : 0.0;
        const auto add = [&](std::vector<SupplyCurve>& to, const SupplyCorner& corner) {
            auto curve = supplyOf(corner);
            if (!curve) return false;
            out_->greatestNet_ = std::max(out_->greatestNet_, curve->greatestNet_m3_s());
            out_->falls_ = out_->falls_ && curve->topNet_m3_s() <= 0.0;
            greatest_m_ = std::max(greatest_m_, curve->topLevel_m());
            to.push_back(std::move(*curve));
            return true;
        };
        for (const FilterState filter : {FilterState::service, FilterState::clean}) {
            if (!add(out_->weakest_, {WaterLevel::low, filter, 1.0 - share})) return false;
            for (const WaterLevel level : {WaterLevel::low, WaterLevel::high}) {
                if (!add(out_->printed_, {level, filter, 1.0})) return false;
                if (!add(out_->high_, {level, filter, 1.0 + share})) return false;
                // Under a drive the weaker pump runs faster: NPSH and motor are asked of it as well.
                if (solver_.heldOutlet_m() && !add(out_->low_, {level, filter, 1.0 - share})) return false;
            }
            out_->strongest_.push_back(out_->high_.back());
        }
        lookForRatings();
        return true;
    }

    void lookForRatings() {
        const SiteTree tree = treeAt(WaterLevel::high, FilterState::clean);
        const PumpModel pump = solver_.pump().atSpeed(1.0);
        const JudgedState judged{&model_,       &tree, &pump, &solver_.limits(), FilterState::clean,
                                 solver_.warm()};
        for (const SupplyCurve& s : out_->strongest_) {
            out_->ratingsMatter_ = out_->ratingsMatter_ ||
                                   ratingsInReach(judged, std::max(s.topRoot_m(), tree.tree.sourceLevel_m));
        }
    }

    void addZones() {
        std::vector<std::size_t> order(takeoffOf_.size());
        for (std::size_t z = 0; z < order.size(); ++z)
            order[z] = z;
        std::stable_sort(order.begin(), order.end(),
                         [&](std::size_t a, std::size_t b) { return takeoffOf_[a] > takeoffOf_[b]; });
        for (std::size_t z : order) {
            const Zone& zone = model_.site().zones[z];
            std::vector<TreeEdge> branch;
            for (std::size_t e : branchOf_[z])
                branch.push_back(tree_.tree.edges[e]);
            // No take-off sees more than the first one at no flow.
            ZoneDemand demand(branch, tree_.tree.outflows[outflowOf_.at(z)], greatest_m_ + 1.0);
            const auto& e = zone.emitters;
            const double least_m =
                e.least ? headOf_m(*e.least - GaugePressure{}, model_.water().density) : 0.0;
            const double lowest_m = demand.levelFor(headFor_m(zone, model_, least_m, true));
            double highest_m = kNever;
            if (e.greatest) {
                const double most_m = headOf_m(*e.greatest - GaugePressure{}, model_.water().density);
                const double head_m = headFor_m(zone, model_, most_m, false);
                if (std::isfinite(head_m)) highest_m = demand.levelFor(head_m);
            }
            out_->zones_.push_back({z, takeoffOf_[z] - firstTakeoff_, std::move(demand), lowest_m, highest_m,
                                    e.greatest.has_value()});
        }
    }

    void addPieces() {
        constexpr int kSteps = 512;
        const double most = 1.2 * out_->greatestNet_, step = most / kSteps;
        out_->pieces_.resize(1);
        for (std::size_t k = firstTakeoff_ + 1; k < main_.size(); ++k) {
            const Chain& chain = tree_.tree.edges[main_[k]].chain;
            std::vector<double> losses, slopes;
            for (int i = 0; i <= kSteps; ++i) {
                const LossAt loss = chain.at(step * i);
                losses.push_back(loss.loss_m);
                slopes.push_back(loss.slope_s_m2);
            }
            out_->stillLoss_m_ += losses.front();
            out_->pieces_.emplace_back(0.0, step, std::move(losses), std::move(slopes));
        }
    }

    const CaseSolver& solver_;
    const SiteModel& model_;
    SiteTree tree_;
    CondensedSite* out_ = nullptr;
    std::vector<std::size_t> main_;
    std::vector<std::vector<std::size_t>> branchOf_;
    std::vector<std::size_t> takeoffOf_;
    std::map<std::size_t, std::size_t> outflowOf_;
    std::size_t firstTakeoff_ = 0, backOutflow_ = kNone;
    double greatest_m_ = 0.0;
};

std::unique_ptr<const CondensedSite> CondensedSite::make(const CaseSolver& solver) {
    return Maker(solver).make();
}

} // namespace headmark
