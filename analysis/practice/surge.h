#pragma once
// How high the pressure jumps when moving water is stopped.
//   wave speed   a = sqrt(K/rho) / sqrt(1 + c K D/(E e))   K: bulk modulus, D: bore, e: wall, E: of the wall
//   sudden       dH = a dv/g                               (Joukowsky)
//   sudden means shut within Tc = 2 L/a; a slower valve: dH = 2 L dv/(g T), which is (Tc/T) a dv/g
// Pipes in a row: the highest of a dv/g among them, or 2 sum(L dv)/(g T) where that is less.
// c = 1 for a thin wall; a thick one held at its ends: c = 2e/D (1 + nu) + D/(D + e) (1 - nu^2).
// Source: Joukowsky's law and wave speed as in Subramanya, Fluid Mechanics, chapter 14; c: Wylie and
// Streeter (from memory). Air in the water, branches and the pump's own run-down are left out: all of them
// lower the jump.

#include "analysis/units/quantities.h"

#include <optional>
#include <span>

namespace headmark {

struct PipeWall {
    Length bore;
    Length wall;
    double elasticity_Pa = 0.0;
    std::optional<double> poisson; // given: the thick-wall c; else c = 1
};

// `sound`: speed of sound in the water, sqrt(K/rho). In an unyielding pipe it is the wave speed.
[[nodiscard]] Velocity waveSpeed(Velocity sound, Density density, const PipeWall& pipe);

[[nodiscard]] Head suddenSurge(Velocity wave, Velocity change);
// 2 L/a.
[[nodiscard]] Duration criticalTime(Length length, Velocity wave);

// One pipe between the valve that shuts and the place that keeps its pressure (tank, pump).
struct SurgePipe {
    Length length;
    Velocity wave;
    Velocity change; // of its velocity
};

struct Surge {
    Head jump;
    Head ifSudden;
    Duration critical; // sum of 2 L/a
};

// `closing` 0: sudden.
[[nodiscard]] Surge surgeIn(std::span<const SurgePipe> pipes, Duration closing);
// Closing time that keeps the jump at `allowed`, which is above 0.
[[nodiscard]] Duration closingTimeFor(std::span<const SurgePipe> pipes, Head allowed);

} // namespace headmark
