#pragma once
// The connection sheet of one pump of a job, its expected figures for commissioning, and their part of the
// findings document. A thread that cannot be read is a caution, not a refusal: the size of the run stands in.
//
// Expected figures, for usual water, a clean filter and the pump as printed; H the head at the flow Q:
//   inlet gauge, standing   rho g (source - pump); 0 where the pump lifts: its foot valve carries the column
//   inlet gauge, running    rho g (NPSH available - (p_air - p_vapour)/(rho g) - v^2/(2 g))
//   outlet gauge            that of the inlet, with H added and the velocity heads changed; behind the riser of
//                           a pump in the water less its height and its loss
// v in the bore next to the pump on that side. Source of the method: energy equation, ISO 9906 total head.

#include "analysis/job/findings.h"
#include "analysis/job/prepared_job.h"
#include "analysis/job/wording.h"

#include <nlohmann/json_fwd.hpp>

#include <span>

namespace headmark {

// `studies` of the same pump and cases; figures found there are not computed again. Empty for a known system
// curve, of which no run is known.
[[nodiscard]] std::optional<ConnectionFinding> connectionFinding(const PreparedJob& prepared,
                                                                 std::size_t pump,
                                                                 std::span<const CaseAnswer> cases,
                                                                 std::span<const Study> studies);

// What the sheet of a pump is made from, for trying another part in a place. A thread that cannot be read is
// left out.
[[nodiscard]] SheetInput sheetInputOf(const PreparedJob& prepared, std::size_t pump);

// {"parts", "joints", "bill", "assembly", "commissioning", "cautions"}; numbers of parts count from 1.
[[nodiscard]] nlohmann::ordered_json connectionJson(const ConnectionFinding& finding, const Wording& wording);

// The document of one pump: {"format": "headmark-connection-sheet", "version", "pump", "sheet"}.
[[nodiscard]] std::string sheetJson(const PumpFindings& pump, const Wording& wording);

} // namespace headmark
