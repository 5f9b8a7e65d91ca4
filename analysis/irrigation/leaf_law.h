#pragma once
// What a zone draws as a function of the head at its branch's end: one OutflowLaw for the pipe tree.
// Pressures become heads of the water pumped, h = p/(rho g).

#include "analysis/irrigation/zone.h"
#include "analysis/pipework/element.h"
#include "analysis/pipework/tree.h"

namespace headmark {

// Law of one outlet.
[[nodiscard]] OutflowLaw outletLaw(const EmitterLaw& law, Density density);

// Law of the whole zone: all outlets, or its laterals condensed into a table.
[[nodiscard]] OutflowLaw zoneLaw(const Zone& zone, const ElementContext& context);

[[nodiscard]] double headOf_m(Pressure pressure, Density density);
[[nodiscard]] double pressureOf_Pa(double head_m, Density density);

} // namespace headmark
