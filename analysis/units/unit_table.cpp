#include "analysis/units/unit_table.h"

#include "analysis/units/unit_factors.h"

#include <algorithm>
#include <array>

namespace headmark {

namespace {

using namespace factor;

constexpr std::array kUnits = {
    Unit{Dimension::flow, "m3/h", kCubicMetrePerHour_m3_s, "SI, hour 3600 s"},
    Unit{Dimension::flow, "l/s", kLitre_m3, "SI"},
    Unit{Dimension::flow, "l/min", kLitrePerMinute_m3_s, "SI"},
    Unit{Dimension::flow, "US gal/min", kUsGallonPerMinute_m3_s, "NIST SP 811: 231 in3"},
    Unit{Dimension::flow, "imp gal/min", kImperialGallonPerMinute_m3_s, "NIST SP 811: 4.54609 l"},
    Unit{Dimension::head, "m", 1.0, "SI"},
    Unit{Dimension::head, "ft", kFoot_m, "NIST SP 811"},
    Unit{Dimension::head, "kPa", 1e3 / kMetreOfWater_Pa, "conventional metre of water, NIST SP 811"},
    Unit{Dimension::head, "bar", kBar_Pa / kMetreOfWater_Pa, "conventional metre of water, NIST SP 811"},
    Unit{Dimension::head, "psi", kPsi_Pa / kMetreOfWater_Pa, "conventional metre of water, NIST SP 811"},
    Unit{Dimension::power, "kW", 1e3, "SI"},
    Unit{Dimension::power, "hp", kHorsepower_W, "NIST SP 811: 550 ft lbf/s"},
    Unit{Dimension::efficiency, "%", 1e-2, "definition"},
};

} // namespace

std::span<const Unit> unitTable() { return kUnits; }

const Unit* findUnit(Dimension dimension, std::string_view symbol) {
    const auto found = std::find_if(kUnits.begin(), kUnits.end(), [&](const Unit& u) {
        return u.dimension == dimension && u.symbol == symbol;
    });
    return found == kUnits.end() ? nullptr : &*found;
}

} // namespace headmark
