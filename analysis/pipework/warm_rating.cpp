#include "analysis/pipework/warm_rating.h"

namespace headmark {

double WarmFactors::of(const Element& element) const {
    switch (element.plastic) {
    case Plastic::polyethylene:
        return polyethylene;
    case Plastic::pvcu:
        return pvcu;
    case Plastic::none:
        break;
    }
    return 1.0;
}

std::optional<double> WarmFactors::rating_kPa(const Element& element) const {
    if (!element.rating) return std::nullopt;
    return element.rating->inKilopascals() * of(element);
}

WarmFactors warmFactors(const Rules& rules, Temperature water) {
    return {rules.valueAt_C("pe_temperature_factor", water.inCelsius()),
            rules.valueAt_C("pvcu_temperature_factor", water.inCelsius())};
}

Facts warmFacts(const Element& element, const WarmFactors& warm, Temperature water) {
    if (!element.rating || warm.of(element) >= 1.0) return {};
    return {{"side", std::string("warm")},
            {"nominal_kPa", element.rating->inKilopascals()},
            {"water_C", water.inCelsius()}};
}

} // namespace headmark
