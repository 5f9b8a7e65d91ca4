#pragma once
// The forms in which a zone's outlets can be said, and the change from one to another: what was said stays
// where the new form has room for it.

#include "analysis/irrigation/zone.h"

#include <string>

namespace headmark {

enum class EmitterForm { wholeZone, typed, powerLaw, compensating };

[[nodiscard]] EmitterForm formOf(const Emitters& emitters);
void setForm(Zone& zone, EmitterForm form);

// The outlets are those of this row of the catalogue; limits and variation are the row's unless given.
void setType(Emitters& emitters, const std::string& code);

// Limits given by the user; both empty: the type's own again.
void setLimits(Emitters& emitters, std::optional<GaugePressure> least, std::optional<GaugePressure> greatest);

// Laterals count their outlets themselves; without them a number is needed again.
void setLaterals(Zone& zone, bool on);

} // namespace headmark
