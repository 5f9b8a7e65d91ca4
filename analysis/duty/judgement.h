#pragma once
// The limits a case is judged by, each as a caution of severity danger or warning that stops it from serving.
// Lower limits: emitters' least pressure, a zone that gets no water.
// Upper limits: emitters' greatest pressure, ratings of pipes and pump.
// Flow ceiling: a filter's greatest flow (broken the sooner the more zones are open).
// Inlet and motor: NPSH margin, motor overload.

#include "analysis/duty/case_solver.h"
#include "analysis/pipework/warm_rating.h"

namespace headmark {

// Whether the suction can be judged: no known system curve, and the water's level is said.
[[nodiscard]] bool suctionKnown(const Site& site);

struct JudgedState {
    const SiteModel* model;
    const SiteTree* tree;
    const PumpModel* pump; // at the case's speed
    const Limits* limits;
    FilterState filter;
    WarmFactors warm; // of the water, on what pipes bear
};

[[nodiscard]] Cautions lowerBreaches(const JudgedState& state, const Crossing& at);
[[nodiscard]] Cautions upperBreaches(const JudgedState& state, const Crossing& at);
[[nodiscard]] Cautions flowCeilingBreaches(const JudgedState& state, const Crossing& at);
[[nodiscard]] Cautions inletAndMotorBreaches(const JudgedState& state, const Crossing& at);

// Whether the pressure anywhere could pass a rating with the energy line's top at this level.
[[nodiscard]] bool ratingsInReach(const JudgedState& state, double top_m);

// Whether anything is there that an upper limit could be broken by (else a high end beyond the chart is
// harmless).
[[nodiscard]] bool hasUpperLimits(const JudgedState& state);

} // namespace headmark
