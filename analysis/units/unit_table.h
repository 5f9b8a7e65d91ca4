#pragma once
// The one table of units that charts and screens may use, with exact factors.
// Pressure as head is taken as metres of water at 1000 kg/m3: 1 m = 9.80665 kPa (conventional).

#include <span>
#include <string_view>

namespace headmark {

enum class Dimension { flow, head, power, efficiency };

struct Unit {
    Dimension dimension;
    std::string_view symbol; // as the reading file writes it: "m3/h", "US gal/min"
    double inSi;             // SI value of one unit: m3/s, m, W, share
    std::string_view source;
};

[[nodiscard]] std::span<const Unit> unitTable();

// The unit of that symbol, or null. Symbols are matched exactly: no guessing between gallons.
[[nodiscard]] const Unit* findUnit(Dimension dimension, std::string_view symbol);

} // namespace headmark
