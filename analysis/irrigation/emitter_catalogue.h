#pragma once
// The catalogue of outlets: analysis/irrigation/data/emitters.csv, each row with its source, embedded.
//   power:         q = q_nominal (p/at)^x, at = h_nominal metres of water of 1000 kg/m3 (1 m = 9.80665 kPa)
//   variation:    how much new emitters differ, as coefficient of variation; from memory of the classes of
//                 ASABE EP405 (drippers 0.05, thin tape and microtubes 0.07); empty: not known
//   compensating:  rows with x = 0: q_nominal from p_min to p_max, below p_min the flow falls with the root

#include "analysis/irrigation/zone.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace headmark {

struct EmitterRow {
    std::string code, name, kind;
    bool perMetre = false; // the law is that of one metre of hose
    EmitterLaw law;
    GaugePressure least, greatest; // working range
    std::optional<double> variationShare;
    double filtration_micron = 0.0;
    std::string confidence, source;
};

[[nodiscard]] std::span<const EmitterRow> emitterRows();

// The row of that code, or null.
[[nodiscard]] const EmitterRow* findEmitterType(std::string_view code);

} // namespace headmark
