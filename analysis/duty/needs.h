#pragma once
// Flow and head the site asks of any pump in a case, before a pump is known.
// Every open zone draws its flow at its worst emitter's lower limit (its nominal pressure where no limit is
// known): these flows are carried through the tree; the head is the greatest any zone then needs at the pump,
//   H = max over zones (zone level + limit + branch + main losses) - source level + suction loss.
// A tank return adds the flow it passes at that head. An end needs its level, pressure and losses at no flow
// in particular: there is no need to state. A regulator costs its least loss.

#include "analysis/duty/site_model.h"

namespace headmark {

struct Need {
    std::string caseName;
    Flow flow;
    Head head;
};

// Empty where no zone is open, or where a regulator keeps a zone below its limit whatever the pump.
[[nodiscard]] std::optional<Need> needOf(const SiteModel& model, const CaseSetting& setting,
                                         const std::string& name, std::optional<double> returnKv_m3_h = {});

} // namespace headmark
