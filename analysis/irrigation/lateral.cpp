#include "analysis/irrigation/lateral.h"

#include "analysis/core/assertion.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <optional>
#include <utility>

namespace headmark {

namespace {

// The pipe before one outlet: its friction and its rise.
class Section {
  public:
    Section(const PipeKind& pipe, double length_m, double slopeShare, const ElementContext& context)
        : rise_m_(slopeShare * length_m) {
        if (context.friction == FrictionMethod::hazenWilliams) {
            HEADMARK_ASSERT(pipe.hazenWilliamsC && *pipe.hazenWilliamsC > 0.0, "a lateral without its C");
            hazenWilliams_ = hazenWilliamsCoefficient(pipe.bore.inMetres(), length_m, *pipe.hazenWilliamsC);
        } else {
            darcy_.emplace(pipe.bore.inMetres(), length_m, pipe.roughness.inMetres(), context.viscosity);
        }
    }

    [[nodiscard]] double rise_m() const { return rise_m_; }

    // What the head must be higher before the section than behind it.
    [[nodiscard]] double drop_m(double flow_m3_s) const {
        if (flow_m3_s <= 0.0) return rise_m_;
        if (darcy_) return rise_m_ + darcy_->at(flow_m3_s).loss_m;
        return rise_m_ + hazenWilliams_ * std::pow(flow_m3_s, kHazenWilliamsExponent);
    }

  private:
    double rise_m_;
    std::optional<PipeFriction> darcy_;
    double hazenWilliams_ = 0.0;
};

// Where a march begins. On a long level lateral under little head the far heads are smaller than any number a
// double holds: there the last `dry` outlets are taken as under no head, and the march begins before them.
struct Start {
    double far_m = 0.0; // head of the first outlet marched
    int dry = 0;
    friend bool operator==(const Start&, const Start&) = default;
};

constexpr double kLeastFarHead_m = 1e-280;

// Halfway, by ratio where the ends lie far apart, so that small heads are reached in few steps.
double between(double a_m, double b_m) {
    return a_m > 0.0 && b_m > 4.0 * a_m ? std::sqrt(a_m) * std::sqrt(b_m) : std::midpoint(a_m, b_m);
}

// What a march from the far end finds at the inlet. Every figure rises with the far end's head (and falls
// with the dry outlets), because each outlet's flow, and so each section's friction, never falls with it:
// that makes bracketing safe.
struct March {
    Start start;
    double inlet_m = 0.0;
    double flow_m3_s = 0.0;
    double lowest_m = 0.0;
};

class Marcher {
  public:
    Marcher(const Laterals& laterals, const OutflowLaw& outlet, const ElementContext& context)
        : outlets_(outletsOn(laterals)), law_(outlet),
          between_(laterals.pipe, laterals.spacing.inMetres(), laterals.slopeShare, context),
          first_(laterals.pipe, laterals.spacing.inMetres() * (laterals.firstAtHalf ? 0.5 : 1.0),
                 laterals.slopeShare, context) {
        HEADMARK_ASSERT(outlets_ > 0, "a lateral shorter than its spacing");
    }

    [[nodiscard]] int outlets() const { return outlets_; }
    [[nodiscard]] const OutflowLaw& law() const { return law_; }

    // `heads_m`, if given, takes the outlets' heads from the far end on.
    [[nodiscard]] March from(Start start, std::vector<double>* heads_m = nullptr) const {
        March m{start, start.far_m, 0.0, start.dry > 0 ? 0.0 : start.far_m};
        if (heads_m != nullptr) heads_m->assign(static_cast<std::size_t>(start.dry), 0.0);
        for (int i = outlets_ - start.dry; i-- > 0;) {
            if (heads_m != nullptr) heads_m->push_back(m.inlet_m);
            m.lowest_m = std::min(m.lowest_m, m.inlet_m);
            m.flow_m3_s += law_.flowAtHead_m3_s(m.inlet_m);
            m.inlet_m += (i > 0 ? between_ : first_).drop_m(m.flow_m3_s);
        }
        return m;
    }

    // Inlet head at which water just begins to come out somewhere; 0 where the lateral falls.
    [[nodiscard]] double begin_m() const { return std::max(0.0, first_.rise_m()); }

    // The march that ends at an inlet head. Without flow the far end would have the inlet's head less the
    // rise, and friction only lowers it; with no outlet under pressure the inlet has no more than the rise to
    // the first.
    [[nodiscard]] March atInlet(double inlet_m) const {
        const double riseBehindFirst_m = between_.rise_m() * (outlets_ - 1);
        March high = from({inlet_m - first_.rise_m() - riseBehindFirst_m});
        if (high.flow_m3_s <= 0.0) return high;
        Start lowest{std::min(high.start.far_m, -std::max(0.0, riseBehindFirst_m))};
        if (between_.rise_m() == 0.0) {
            lowest = {kLeastFarHead_m, dryOutlets(inlet_m)};
            if (lowest.dry > 0) high = from({stageEnd_m(), lowest.dry});
        }
        return bracketed(
            from(lowest), high, [&](const March& m) { return m.inlet_m - inlet_m; },
            1e-12 * std::max(1.0, inlet_m));
    }

    // The march whose worst outlet just has this head.
    [[nodiscard]] March atLowest(double head_m) const {
        // The far end has at least the worst outlet's head; raised until even the worst one has enough.
        const March low = from({head_m});
        if (low.lowest_m >= head_m) return low;
        March high = low;
        for (double raise_m = head_m - low.lowest_m; high.lowest_m < head_m; raise_m *= 2.0) {
            high = from({head_m + raise_m});
        }
        return bracketed(
            low, high, [&](const March& m) { return m.lowest_m - head_m; }, 0.0);
    }

    // A start between two others, a's march below b's.
    [[nodiscard]] Start middle(const Start& a, const Start& b) const {
        if (a.dry == b.dry) return {between(a.far_m, b.far_m), a.dry};
        if (a.dry > b.dry + 1) return {kLeastFarHead_m, std::midpoint(b.dry, a.dry)};
        if (b.far_m > kLeastFarHead_m) return {kLeastFarHead_m, b.dry};
        return {between(a.far_m, stageEnd_m()), a.dry};
    }

  private:
    // Head of an outlet of a level lateral when the next one behind it has the least head.
    [[nodiscard]] double stageEnd_m() const {
        return kLeastFarHead_m + between_.drop_m(law_.flowAtHead_m3_s(kLeastFarHead_m));
    }

    // Fewest far outlets of a level lateral to be left dry for the inlet head to be reached.
    [[nodiscard]] int dryOutlets(double inlet_m) const {
        const auto reached = [&](int dry) { return from({kLeastFarHead_m, dry}).inlet_m <= inlet_m; };
        int few = 0, enough = outlets_ - 1;
        while (few < enough) {
            const int dry = std::midpoint(few, enough);
            if (reached(dry)) {
                enough = dry;
            } else {
                few = dry + 1;
            }
        }
        return enough;
    }

    // Narrows low (miss <= 0) and high (miss >= 0) by turns of false position and halving; gives the upper
    // end once they are neighbours or its miss is within the tolerance.
    template <class Miss>
    [[nodiscard]] March bracketed(March low, March high, Miss miss, double tolerance_m) const {
        constexpr int kMostMarches = 400;
        for (int k = 0; k < kMostMarches && miss(high) > tolerance_m; ++k) {
            const double below = -miss(low), above = miss(high);
            if (below <= tolerance_m) return low;
            const double a_m = low.start.far_m, b_m = high.start.far_m;
            double far_m = between(a_m, b_m);
            if (k % 3 != 2 && !(a_m > 0.0 && b_m > 4.0 * a_m)) {
                // A little towards the end that is further off, so that both ends move.
                constexpr double kNudge = 0.02;
                const double share = below / (above + below);
                const double nudge = kNudge * std::min(share, 1.0 - share);
                far_m = a_m + (share < 0.5 ? share + nudge : share - nudge) * (b_m - a_m);
            }
            if (far_m <= a_m || far_m >= b_m) far_m = std::midpoint(a_m, b_m);
            if (far_m <= a_m || far_m >= b_m) break;
            const March next = from({far_m, high.start.dry});
            (miss(next) < 0.0 ? low : high) = next;
        }
        return high;
    }

    int outlets_;
    OutflowLaw law_;
    Section between_, first_;
};

// Chooses the knots of a lateral's table: marches at heads of the far end, halved where the table misses the
// march in between. No inlet head needs to be searched for.
class TableMaker {
  public:
    explicit TableMaker(const Marcher& marcher) : marcher_(marcher) {}

    std::shared_ptr<const OutflowTable> make() {
        const bool capped = marcher_.law().kind == OutflowLaw::Kind::compensating;
        March end = capped ? marcher_.atLowest(marcher_.law().headAt_m) : marcher_.atInlet(lastHead_m());
        knots_ = {marcher_.atInlet(firstHead_m()), end};
        // A lateral so steep and so little throttled that it saturates before the inlet has any head.
        if (knots_[0].inlet_m >= end.inlet_m || knots_[0].flow_m3_s >= end.flow_m3_s) knots_ = {end};
        settled_.assign(knots_.size() - 1, false);
        while (refine(table(capped))) {
        }
        return std::make_shared<const OutflowTable>(table(capped));
    }

  private:
    static constexpr double kGreatestHead_m = 200.0; // twice what the header promises; straight on beyond
    static constexpr double kFirstStep_m = 1e-3;     // above the head at which water begins
    static constexpr double kTolerance = 4e-4; // of the flow: header 0.1 %, less what the checks may miss

    [[nodiscard]] double firstHead_m() const { return marcher_.begin_m() + kFirstStep_m; }
    [[nodiscard]] double lastHead_m() const { return std::max(kGreatestHead_m, 2.0 * firstHead_m()); }

    [[nodiscard]] OutflowTable table(bool capped) const {
        std::vector<double> flows_m3_s{0.0}, heads_m{0.0};
        const auto add = [&](double flow_m3_s, double head_m) {
            if (head_m <= heads_m.back()) return;
            // Where every outlet that runs is at its regulated flow and the next ones still wait for water,
            // the flow stands still over a stretch of heads: a hair more keeps it rising.
            constexpr double kHair = 1e-10;
            flows_m3_s.push_back(std::max(flow_m3_s, flows_m3_s.back() * (1.0 + kHair)));
            heads_m.push_back(head_m);
        };
        // Up to the head at which water begins next to nothing flows; a table must rise all the same.
        constexpr double kNextToNothing = 1e-3;
        const March& first = knots_.front();
        if (marcher_.begin_m() > 0.0) add(kNextToNothing * first.flow_m3_s, marcher_.begin_m());
        // On a falling lateral the far outlets run before the inlet has any head.
        add(first.flow_m3_s, std::max(first.inlet_m, kFirstStep_m));
        for (std::size_t i = 1; i < knots_.size(); ++i)
            add(knots_[i].flow_m3_s, knots_[i].inlet_m);
        return {std::move(flows_m3_s), std::move(heads_m), capped};
    }

    // Halves every interval in which the table misses; false when none does.
    bool refine(const OutflowTable& table) {
        std::vector<March> knots{knots_.front()};
        std::vector<bool> settled;
        for (std::size_t i = 0; i + 1 < knots_.size(); ++i) {
            const March &a = knots_[i], &b = knots_[i + 1];
            const Start middle = marcher_.middle(a.start, b.start);
            if (settled_[i] || fine(table, a, b, middle)) {
                settled.push_back(true);
            } else {
                knots.push_back(marcher_.from(middle));
                settled.insert(settled.end(), 2, false);
            }
            knots.push_back(b);
        }
        const bool more = knots.size() > knots_.size();
        if (more) unsettleNeighbours(settled);
        knots_ = std::move(knots);
        settled_ = std::move(settled);
        return more;
    }

    // A new knot changes the curve's slope at the knots beside it, hence the intervals next to it.
    static void unsettleNeighbours(std::vector<bool>& settled) {
        const std::vector<bool> before = settled;
        for (std::size_t i = 0; i < settled.size(); ++i) {
            if ((i > 0 && !before[i - 1]) || (i + 1 < settled.size() && !before[i + 1])) settled[i] = false;
        }
    }

    [[nodiscard]] bool fine(const OutflowTable& table, const March& a, const March& b,
                            const Start& middle) const {
        if (a.inlet_m >= kGreatestHead_m) return true;
        // Both the table and the lateral stay between the knots' flows.
        if (b.flow_m3_s - a.flow_m3_s <= kTolerance * a.flow_m3_s) return true;
        if (middle == a.start || middle == b.start) return true;
        const Start quarter = marcher_.middle(a.start, middle),
                    threeQuarters = marcher_.middle(middle, b.start);
        for (const Start& start : {quarter, middle, threeQuarters}) {
            const March m = marcher_.from(start);
            if (std::abs(table.flowAtHead_m3_s(m.inlet_m) - m.flow_m3_s) > kTolerance * m.flow_m3_s)
                return false;
        }
        return true;
    }

    const Marcher& marcher_;
    std::vector<March> knots_;  // rising
    std::vector<bool> settled_; // the interval after each knot
};

LateralState stateOf(const Marcher& marcher, const Start& start) {
    LateralState state;
    const March march = marcher.from(start, &state.outletHead_m);
    std::reverse(state.outletHead_m.begin(), state.outletHead_m.end());
    state.inletHead_m = march.inlet_m;
    state.flow_m3_s = march.flow_m3_s;
    const auto [lowest, highest] = std::minmax_element(state.outletHead_m.begin(), state.outletHead_m.end());
    state.lowestHead_m = *lowest;
    state.highestHead_m = *highest;
    state.lowestFlow_m3_s = marcher.law().flowAtHead_m3_s(*lowest);
    state.highestFlow_m3_s = marcher.law().flowAtHead_m3_s(*highest);
    state.meanFlow_m3_s = march.flow_m3_s / marcher.outlets();
    return state;
}

} // namespace

int outletsOn(const Laterals& laterals) {
    constexpr double kRounding =
        1e-9; // 30 m at 0.3 m is 100 outlets, although the division gives a hair less
    return static_cast<int>(std::floor(laterals.length / laterals.spacing + kRounding));
}

LateralState lateralFromFarEnd(const Laterals& laterals, const OutflowLaw& outlet,
                               const ElementContext& context, double lastOutletHead_m) {
    return stateOf(Marcher(laterals, outlet, context), {lastOutletHead_m});
}

LateralState lateralAtInlet(const Laterals& laterals, const OutflowLaw& outlet, const ElementContext& context,
                            double inletHead_m) {
    HEADMARK_ASSERT(inletHead_m >= 0.0, "a lateral under suction");
    const Marcher marcher(laterals, outlet, context);
    return stateOf(marcher, marcher.atInlet(inletHead_m).start);
}

std::shared_ptr<const OutflowTable> lateralTable(const Laterals& laterals, const OutflowLaw& outlet,
                                                 const ElementContext& context) {
    const Marcher marcher(laterals, outlet, context);
    return TableMaker(marcher).make();
}

} // namespace headmark
