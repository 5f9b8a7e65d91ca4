#pragma once
// A set point held by the pump's speed: what the study says of it, and which set point a zone asks for.

#include "analysis/practice/installation.h"

#include <optional>

namespace headmark {

// Speed, power and pressures of every case at the set point; what is short, out of reach, or not needed.
void addSetPoint(const InstallationQuestion& question, GaugePressure hold, Study& study);

// Least set point, in whole kPa, at which the worst emitter of an open zone has its lower limit in that case:
// the tree solved with that pressure at the pump's outlet, by halving. Empty where the zone has no such
// limit, or where the pump (the weakest delivered, if the job asks for it) cannot hold it at full speed.
[[nodiscard]] std::optional<GaugePressure> setPointFor(const CaseSolver& solver, const Case& setting,
                                                       std::size_t zone);

} // namespace headmark
