#include "analysis/practice/surge.h"

#include <gtest/gtest.h>

#include <array>

namespace headmark {
namespace {

SurgePipe pipe(double length_m, double wave_m_s, double change_m_s) {
    return {Length::fromMetres(length_m), Velocity::fromMetresPerSecond(wave_m_s),
            Velocity::fromMetresPerSecond(change_m_s)};
}

double jump_m(std::span<const SurgePipe> pipes, double closing_s) {
    return surgeIn(pipes, Duration::fromSeconds(closing_s)).jump.inMetres();
}

// Hand calculation: 2 (100 m 1 m/s + 20 m 2 m/s)/(9.80665 m/s2 2 s) = 14.276 m.
TEST(Surge, SlowClosingStopsTheWaterOfEveryPipe) {
    const std::array pipes{pipe(100.0, 300.0, 1.0), pipe(20.0, 300.0, 2.0)};
    EXPECT_NEAR(jump_m(pipes, 2.0), 14.276, 1e-3);
}

TEST(Surge, IsNeverMoreThanASuddenStop) {
    const std::array pipes{pipe(100.0, 300.0, 1.0), pipe(20.0, 300.0, 2.0)};
    const double sudden_m = jump_m(pipes, 0.0);
    EXPECT_NEAR(sudden_m, 300.0 * 2.0 / 9.80665, 1e-9);
    for (double closing_s = 0.01; closing_s < 3.0; closing_s *= 1.3)
        EXPECT_LE(jump_m(pipes, closing_s), sudden_m);
}

TEST(Surge, AClosingTimeForAGivenJumpGivesThatJump) {
    const std::array pipes{pipe(240.0, 280.0, 1.1)};
    const Duration time = closingTimeFor(pipes, Head::fromMetres(12.0));
    EXPECT_NEAR(surgeIn(pipes, time).jump.inMetres(), 12.0, 1e-9);
}

TEST(Surge, DoesNotAskWhichWayTheWaterRan) {
    const std::array forward{pipe(240.0, 280.0, 1.1)}, back{pipe(240.0, 280.0, -1.1)};
    EXPECT_EQ(jump_m(forward, 1.0), jump_m(back, 1.0));
    EXPECT_EQ(jump_m(forward, 0.0), jump_m(back, 0.0));
}

TEST(WaveSpeed, FallsFromTheSpeedOfSoundAsTheWallThins) {
    const Velocity sound = Velocity::fromMetresPerSecond(1466.0);
    const Density density = Density::fromKilogramsPerCubicMetre(999.1);
    double before = sound.inMetresPerSecond();
    for (const double wall_mm : {20.0, 10.0, 5.0, 2.5, 1.2}) {
        const PipeWall wall{Length::fromMillimetres(50.0), Length::fromMillimetres(wall_mm), 1.0e9, 0.45};
        const double a = waveSpeed(sound, density, wall).inMetresPerSecond();
        EXPECT_LT(a, before);
        before = a;
    }
}

} // namespace
} // namespace headmark
