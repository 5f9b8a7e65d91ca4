#pragma once
// Words of the duty place that are more than labels: verdict lines, cases in words, the phrasing of the
// screen.

#include "app/desktop/frame/rail.h"
#include "app/desktop/frame/screen_phrasing.h"
#include "app/document/answer_service.h"
#include "app/document/display_units.h"
#include "app/words/phrasing.h"

#include <QString>

namespace headmark {

// "9.8 m³/h at 33.1 m · serves", or what stops it.
[[nodiscard]] QString verdictLine(const CaseAnswer& answer, const DisplayUnits& units,
                                  const Phrasing& phrasing);
[[nodiscard]] Sign verdictSign(const CaseAnswer& answer);

// "3 zones, low water, filter at service, 90 % speed".
[[nodiscard]] QString caseWords(const MadeCase& setting, const Site& site);

[[nodiscard]] QString waterWords(WaterLevel level);
[[nodiscard]] QString filterWords(FilterState state);

// How many zones may run together, in whole sentences; empty without zones.
[[nodiscard]] QString zonesAtOnceWords(const ZonesAtOnceFinding& finding, const Phrasing& phrasing);

[[nodiscard]] QString percentText(double share);
// "9.3 to 10.2 m³/h"
[[nodiscard]] QString rangeText(double low, double high, const QString& symbol);

} // namespace headmark
