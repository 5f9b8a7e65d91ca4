#include "analysis/practice/vessel.h"

#include <gtest/gtest.h>

#include <cmath>

namespace headmark {
namespace {

AbsolutePressure kilopascals(double p) { return AbsolutePressure::fromKilopascals(p); }

TEST(Vessel, HoldsNoWaterBelowItsPrecharge) {
    const Volume vessel = Volume::fromLitres(60.0);
    // Boyle by hand: 60 l 300 (1/300 - 1/450) = 20 l, whatever the cut-in below 300 kPa.
    EXPECT_NEAR(vesselDrawdown(vessel, kilopascals(300), kilopascals(250), kilopascals(450)).inLitres(), 20.0,
                1e-9);
}

TEST(Vessel, GivesNothingWhereCutOutIsNotAboveCutIn) {
    EXPECT_EQ(vesselDrawdown(Volume::fromLitres(60.0), kilopascals(200), kilopascals(300), kilopascals(300))
                  .inLitres(),
              0.0);
}

TEST(Vessel, VolumeForADrawdownGivesThatDrawdown) {
    const auto p1 = kilopascals(281), p2 = kilopascals(301), p3 = kilopascals(451);
    const Volume vessel = vesselForDrawdown(Volume::fromLitres(30.0), p1, p2, p3);
    EXPECT_NEAR(vesselDrawdown(vessel, p1, p2, p3).inLitres(), 30.0, 1e-9);
}

TEST(Starts, NoDrawAndAFullDrawNeverSwitch) {
    const Volume useful = Volume::fromLitres(20.0);
    const Flow pump = Flow::fromCubicMetresPerHour(6.0);
    EXPECT_EQ(startsPerHour(useful, pump, {}), 0.0);
    EXPECT_EQ(startsPerHour(useful, pump, pump), 0.0);
}

TEST(Starts, AreMostAtHalfThePumpsFlow) {
    const Volume useful = Volume::fromLitres(20.0);
    const Flow pump = Flow::fromCubicMetresPerHour(6.0);
    const double most = mostStartsPerHour(useful, pump);
    for (double share = 0.05; share < 1.0; share += 0.05)
        EXPECT_LE(startsPerHour(useful, pump, pump * share), most * (1.0 + 1e-12));
    EXPECT_NEAR(usefulVolumeFor(pump, most).inLitres(), 20.0, 1e-9);
}

TEST(Starts, WithoutAUsefulVolumeThePumpSwitchesWithoutEnd) {
    EXPECT_TRUE(
        std::isinf(startsPerHour({}, Flow::fromCubicMetresPerHour(6.0), Flow::fromCubicMetresPerHour(1.0))));
}

} // namespace
} // namespace headmark
