#pragma once
// Solves one operating case of one pump on one site: duty points as printed and at both ends of what the
// maker may deliver, zone pressures, NPSH, efficiency, power, and whether the case serves. "Serves" and the
// limits of a zone set are the job file's (contract): lower limits are judged at the low end of delivery,
// upper ones at the high end, NPSH margin and motor at the worst of the three points. Where a drive holds a
// set point all three are at the speeds that hold it (held_duty.h), zone sets no less than cases.

#include "analysis/duty/case_answer.h"
#include "analysis/duty/site_model.h"
#include "analysis/pipework/warm_rating.h"

#include <array>
#include <memory>

namespace headmark {

// One solved point of a case: as printed, or with the head multiplied.
struct SolvedPoint {
    double factor = 1.0;
    Crossings crossings;
    // Where a drive holds the set point (held_duty.h): the share of running speed, and the pump at it.
    std::optional<double> heldShare;
    std::optional<PumpModel> slowed;
    // Null where there is no stable duty.
    [[nodiscard]] const Crossing* duty() const { return crossings.duty(); }
};

struct JudgedState;

class CaseSolver {
  public:
    CaseSolver(const SiteModel& model, const PumpModel& pump, const Limits& limits);

    // The whole answer without intervals.
    [[nodiscard]] CaseAnswer answer(const Case& setting, bool fillingEmptyMain = false) const;
    // The pump as printed only: its duty point, and the share of running speed at which it stands there.
    struct Duty {
        std::optional<Crossing> crossing;
        double speedShare = 1.0;
    };
    [[nodiscard]] Duty duty(const Case& setting, bool fillingEmptyMain = false) const;

    // The two questions of zones at once, each at its own corner of levels and filter states.
    [[nodiscard]] bool lowerLimitsHold(const std::vector<bool>& open) const;
    [[nodiscard]] bool upperLimitsHold(const std::vector<bool>& open) const;
    // How a set of zones runs at usual water with a clean filter, the pump as printed; empty without a duty.
    [[nodiscard]] std::optional<SetRun> run(const std::vector<bool>& open) const;
    // Whether a set's failures and passes are inherited as zones_at_once.h needs: the head curve falls, power
    // and NPSH required rise with flow, and the preferred region is not asked for.
    [[nodiscard]] bool limitsInherit() const;
    // Whether shaft power and NPSH required rise with flow, where they are judged.
    [[nodiscard]] bool powerAndNpshRise() const;
    [[nodiscard]] bool headFalls() const { return falls_; }
    // Level of the energy line at the pump's outlet that a drive holds; empty without a set point.
    [[nodiscard]] std::optional<double> heldOutlet_m() const { return heldOutlet_m_; }
    [[nodiscard]] const WarmFactors& warm() const { return warm_; }
    // By which a case serves: the job's, where it sets no NPSH margin with that of the table of limits.
    [[nodiscard]] const Limits& limits() const { return limits_; }
    // By which the suction side is advised: a pump of high suction specific speed had better keep more.
    [[nodiscard]] const Limits& advisedLimits() const { return advised_; }

    // Valve setting of the tank return (Kv), from set_flow_m3_h or valve_kv_m3_h; empty: no valve.
    [[nodiscard]] std::optional<double> returnKv_m3_h() const { return returnKv_; }
    [[nodiscard]] bool returnReachesSetFlow() const { return returnReaches_; }

    [[nodiscard]] CaseSetting settingOf(const Case& c, bool fillingEmptyMain = false) const;
    [[nodiscard]] const SiteModel& model() const { return *model_; }
    [[nodiscard]] const PumpModel& pump() const { return pump_; } // before a case's speed share

  private:
    struct State;
    [[nodiscard]] SolvedPoint solvePoint(State& state, double factor) const;
    [[nodiscard]] JudgedState judged(const State& state, const SolvedPoint& point) const;
    void judge(const State& state, const SolvedPoint& printed, const SolvedPoint& low,
               const SolvedPoint& high, const CaseAnswer& answer, Cautions& breaches) const;
    void findReturnValve();

    const SiteModel* model_;
    PumpModel pump_;
    Limits limits_, advised_;
    bool falls_ = true;
    bool inherits_ = true;
    std::optional<double> heldOutlet_m_;
    WarmFactors warm_;
    std::optional<double> returnKv_;
    bool returnReaches_ = true;
};

// NPSH available at the pump's inlet: (p_air - p_vapour)/(rho g) + source level - pump level - suction loss.
[[nodiscard]] double npshAvailable_m(const SiteModel& model, const PipeTree& tree, double flow_m3_s);
// Of the suction at a flow; nothing at none.
[[nodiscard]] double suctionLoss_m(const PipeTree& tree, double flow_m3_s);

// Margin that must be kept: the larger of npsh_margin_m and npsh_margin_share x required (ANSI/HI 9.6.1).
// Where the job sets neither, a solver's limits() hold those of the table (0.6 m and 10 %), its
// advisedLimits() 1.0 m and 20 % for a pump whose suction specific speed at best flow is known to be above
// 145.
[[nodiscard]] double npshMarginNeeded_m(const Limits& limits, double required_m);

// Lowest and highest pressure head over a zone's emitters, and what one of them gives.
struct ZoneHeads {
    double lowest_m = 0.0, highest_m = 0.0;
    double lowestFlow_m3_s = 0.0, meanFlow_m3_s = 0.0, highestFlow_m3_s = 0.0;
};
[[nodiscard]] ZoneHeads zoneHeads(const SiteModel& model, std::size_t zone, double headAboveZone_m);

} // namespace headmark
