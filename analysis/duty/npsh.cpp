#include "analysis/duty/npsh.h"

namespace headmark {

namespace {

double pressureHead_m(const SuctionState& s) {
    return (s.onSurface - s.vapour).inPascals() /
           (s.density.inKilogramsPerCubicMetre() * factor::kStandardGravity_m_s2);
}

} // namespace

Head npshAvailable(const SuctionState& s) {
    return Head::fromMetres(pressureHead_m(s)) + s.surfaceAbovePump - s.loss;
}

Head greatestLiftFor(const SuctionState& s, Head needed) {
    return Head::fromMetres(pressureHead_m(s)) - s.loss - needed;
}

} // namespace headmark
