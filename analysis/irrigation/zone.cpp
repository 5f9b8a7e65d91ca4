#include "analysis/irrigation/zone.h"

#include "analysis/irrigation/emitter_catalogue.h"

#include <cmath>

namespace headmark {

double Emitters::outlets() const {
    if (whole) {
        return 1.0;
    }
    if (count) {
        return *count;
    }
    if (!metres) {
        return 1.0;
    }
    const EmitterRow* row = findEmitterType(type);
    const bool perMetre = row != nullptr && row->perMetre;
    if (perMetre || !spacing) {
        return metres->inMetres();
    }
    // 30 m at 0.3 m is 100 outlets, although the division gives a hair less.
    constexpr double kRounding = 1e-9;
    return std::floor(*metres / *spacing + kRounding);
}

} // namespace headmark
