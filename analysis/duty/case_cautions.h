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
[[nodiscard]] Caution noFlowCaution(const CaseAnswer& answer);

// What does not stop the case but must be said: velocities, speed, droop, transition flow, missing curves ...
[[nodiscard]] Cautions adviceCautions(const CautionInputs& inputs, const CaseAnswer& answer);

[[nodiscard]] Working workingOf(const CautionInputs& inputs, const CaseAnswer& answer);

} // namespace headmark
