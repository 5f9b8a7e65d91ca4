#include "analysis/practice/surge.h"

#include "analysis/core/assertion.h"

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

// Length times change of velocity, over all pipes.
double momentum_m2_s(std::span<const SurgePipe> pipes) {
    double sum = 0.0;
    for (const SurgePipe& p : pipes)
        sum += p.length.inMetres() * std::abs(p.change.inMetresPerSecond());
    return sum;
}

} // namespace

Velocity waveSpeed(Velocity sound, Density density, const PipeWall& pipe) {
    HEADMARK_ASSERT(pipe.elasticity_Pa > 0.0 && pipe.wall.inMetres() > 0.0, "a wall has a modulus");
    const double c = sound.inMetresPerSecond();
    const double bulk_Pa = density.inKilogramsPerCubicMetre() * c * c;
    const double slenderness = pipe.bore / pipe.wall;
    double restraint = 1.0;
    if (pipe.poisson) {
        const double nu = *pipe.poisson;
        restraint = 2.0 / slenderness * (1.0 + nu) + pipe.bore / (pipe.bore + pipe.wall) * (1.0 - nu * nu);
    }
    return Velocity::fromMetresPerSecond(
        c / std::sqrt(1.0 + restraint * bulk_Pa * slenderness / pipe.elasticity_Pa));
}

Head suddenSurge(Velocity wave, Velocity change) {
    return Head::fromMetres(wave.inMetresPerSecond() * std::abs(change.inMetresPerSecond()) /
                            factor::kStandardGravity_m_s2);
}

Duration criticalTime(Length length, Velocity wave) {
    return Duration::fromSeconds(2.0 * length.inMetres() / wave.inMetresPerSecond());
}

Surge surgeIn(std::span<const SurgePipe> pipes, Duration closing) {
    Surge surge;
    for (const SurgePipe& p : pipes) {
        surge.ifSudden = std::max(surge.ifSudden, suddenSurge(p.wave, p.change));
        surge.critical = surge.critical + criticalTime(p.length, p.wave);
    }
    surge.jump = surge.ifSudden;
    const double closing_s = closing.inSeconds();
    if (closing_s > 0.0) {
        const Head slow =
            Head::fromMetres(2.0 * momentum_m2_s(pipes) / (factor::kStandardGravity_m_s2 * closing_s));
        surge.jump = std::min(surge.jump, slow);
    }
    return surge;
}

Duration closingTimeFor(std::span<const SurgePipe> pipes, Head allowed) {
    HEADMARK_ASSERT(allowed.inMetres() > 0.0, "some jump is always there");
    return Duration::fromSeconds(2.0 * momentum_m2_s(pipes) /
                                 (factor::kStandardGravity_m_s2 * allowed.inMetres()));
}

} // namespace headmark
