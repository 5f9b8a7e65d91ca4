#pragma once
// A pressure vessel between cut-in and cut-out, and how often its pump starts.
//   drawdown   V p1 (1/p2 - 1/p3), absolute: pre-charge p1, cut-in p2, cut-out p3 (Boyle)
//   starts     with draw q and pump flow Q: cycle t = U Q/(q (Q - q)), shortest at q = Q/2: 4 U/Q
//   useful volume for at most n starts an hour: U = Q (1 h/n)/4
// Source: MIL-HDBK-1005/9A, section 2.5.3.6; US Army EI 11C201. The pump's flow is taken as one figure
// between cut-in and cut-out; the air is taken as keeping its temperature.

#include "analysis/units/quantities.h"

namespace headmark {

// Below pre-charge the vessel holds no water: a cut-in under it counts as the pre-charge.
[[nodiscard]] Volume vesselDrawdown(Volume vessel, AbsolutePressure precharge, AbsolutePressure cutIn,
                                    AbsolutePressure cutOut);
[[nodiscard]] Volume vesselForDrawdown(Volume drawdown, AbsolutePressure precharge, AbsolutePressure cutIn,
                                       AbsolutePressure cutOut);
// 0 without a draw or where the draw takes all the pump gives (it then never stops).
[[nodiscard]] double startsPerHour(Volume useful, Flow pump, Flow draw);
[[nodiscard]] double mostStartsPerHour(Volume useful, Flow pump);
[[nodiscard]] Volume usefulVolumeFor(Flow pump, double startsPerHour);

} // namespace headmark
