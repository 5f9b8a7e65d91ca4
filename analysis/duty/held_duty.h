#pragma once
// A drive that holds a pressure at the pump's outlet by its speed ("hold_kPa"), and what becomes of a duty
// point under it.
//   outlet     energy line there = pump level + hold/(rho g), whatever is drawn: fixes the flow of every
//   outlet pump       H = outlet - source level + suction loss(Q) speed      share s of full speed with
//   factor s^2 h(Q/s) = H (affinity laws); h as printed at full speed
// The set point is held where s lies between the speed that just reaches it against shut valves and full
// speed. Where even full speed gives less the pump runs at full speed as without a drive; where the source
// alone brings more than the set point the drive has nothing to do, and full speed is answered as well.
// Simplifications: the velocity head at the outlet (some centimetres) is not taken off; efficiency does not
// fall with speed; the drive's own losses are left out. Source: affinity laws; energy equation.

#include "analysis/duty/crossings.h"
#include "analysis/duty/site_model.h"

#include <optional>

namespace headmark {

// Level of the energy line that the drive holds at the pump's outlet; empty without a set point.
[[nodiscard]] std::optional<double> heldOutlet_m(const SiteModel& model);

struct SpeedAt {
    enum class Where {
        held,   // `share` holds it
        atFull, // not below full speed, or nothing to do for the pump: full speed
        left,   // the speed would hold it at a flow left of the chart; `share` puts the chart's end there
        right   // the same to the right
    };
    Where where = Where::atFull;
    double share = 1.0; // of the speed of the curve given
};

// Share of the curve's speed at which it gives that head (times `factor`) at that flow.
[[nodiscard]] SpeedAt speedFor(const PumpCurve& full, double factor, double flow_m3_s, double head_m);

struct HeldDuty {
    SpeedAt speed;
    Crossings crossings; // with one crossing where held, none to the left or right; not solved at full speed
};

// `outlet_m` as heldOutlet_m. The solver keeps its last solution as the next start.
[[nodiscard]] HeldDuty findHeldDuty(TreeSolver& solver, const PumpCurve& full, double factor,
                                    double outlet_m);

// The whole tree with the energy line at the pump's outlet held at a level, whatever flows.
[[nodiscard]] const TreeSolution& solvedAtOutlet(TreeSolver& solver, double outlet_m);

} // namespace headmark
