#pragma once
// The figures, cautions and workings of a solved case (parts of CaseSolver::answer).

#include "analysis/duty/judgement.h"

namespace headmark {

struct CautionInputs {
    const JudgedState* judged;
    const CaseSolver* solver;
    const Case* setting;
    bool fillingEmptyMain;
    const SolvedPoint *printed, *low, *high;
};

// Duty, efficiency, power, NPSH, zones and return flow at the duty point.
void fillDuty(const CautionInputs& inputs, const Crossing& duty, CaseAnswer& answer);

// Why there is no duty within the read range.
[[nodiscard]] Caution missCaution(const CautionInputs& inputs);
// Why one end of the delivered range has no duty.
[[nodiscard]] Caution deliveredMissCaution(const CautionInputs& inputs, bool highEnd);
[[nodiscard]] Caution bandCaution(const CaseAnswer& answer, Severity severity);
// With every valve shut: a danger, or a note where a switch or a drive is to stop the pump.
[[nodiscard]] Caution noFlowCaution(const CautionInputs& inputs, const CaseAnswer& answer);
// Pressure at the pump's outlet of the weakest pump delivered against shut valves, low water.
[[nodiscard]] double weakestShutOff_kPa(const CaseSolver& solver);
// How a pump held at a pressure stands in a case; only where the site holds one.
[[nodiscard]] Cautions heldCautions(const CautionInputs& inputs, const CaseAnswer& answer);

// What does not stop the case but must be said: velocities, speed, droop, transition flow, missing curves ...
[[nodiscard]] Cautions adviceCautions(const CautionInputs& inputs, const CaseAnswer& answer);

// The part of them that concerns the suction side (suction_cautions.cpp); `duty` null: none.
void addSuctionCautions(const JudgedState& state, const Crossing* duty, Cautions& out);

[[nodiscard]] Working workingOf(const CautionInputs& inputs, const CaseAnswer& answer);

} // namespace headmark
