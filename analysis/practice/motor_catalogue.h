#pragma once
// Usual efficiency and power factor of a motor by supply and rating: data/motors.csv, sources there.

#include "analysis/units/quantities.h"

#include <optional>
#include <string_view>

namespace headmark {

struct UsualMotor {
    Power rated;
    Efficiency efficiency;
    double powerFactor = 0.0;
};

struct MotorSupply {
    int phases = 3;
    double volts = 400.0;
};

// Of a two-pole motor (a permanent capacitor where there is one phase); the row of the nearest rating above,
// the largest beyond the table.
[[nodiscard]] UsualMotor usualMotor(int phases, Power rated);

// From words such as "400 V three-phase", "230 V, 1 phase": volts and phases; what is missing follows from
// what is there (below 300 V one phase). Empty without either.
[[nodiscard]] std::optional<MotorSupply> supplyIn(std::string_view words);

} // namespace headmark
