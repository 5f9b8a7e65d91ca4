// Figures of the studies by hand. Pump 40 m - 0.25 Q^2 (m3/h), its power 1.0, 1.3 and 1.6 kW at 0, 5 and
// 10 m3/h; water at -2, -1.5 and -1 m; at 15 C 999.10 kg/m3 (IAPWS SR6-08), gravity 9.80665 m/s2.
#include "tests/analysis/practice/study_site.h"

#include <gtest/gtest.h>

namespace headmark {
namespace {

using namespace testing;

StudySite powered() {
    StudySite s;
    s.pump.power = curveThrough({{0.0, 1000.0}, {5.0, 1300.0}, {10.0, 1600.0}});
    return s;
}

// High water: (-1 + 40) m above the pump, 39 x 9.79783 kPa; on 60 Hz heads grow by (60/50)^2: 56.6 m.
TEST(StudyFigures, PressureAgainstShutValvesAndItsSlipTo60Hertz) {
    const Study study = StudySite().ask(ratingsStudy);
    EXPECT_NEAR(resultOf(study, "shut-off-pressure"), 382.12, 0.02);
    EXPECT_NEAR(resultOf(study, "shut-off-at-60-hz"), 554.56, 0.03);
}

// A casing for 600 kPa: 600 - 382.12.
TEST(StudyFigures, SpareOfTheWeakestPart) {
    StudySite s;
    s.pump.greatestPressure = GaugePressure::fromKilopascals(600.0);
    EXPECT_NEAR(resultOf(s.ask(ratingsStudy), "rating-spare"), 217.88, 0.02);
}

// 1000 W at 10 K: 1000 x 3600/(999.1 x 4184 x 10) m3/h.
TEST(StudyFigures, ReturnThatCarriesTheHeat) {
    EXPECT_NEAR(resultOf(powered().ask(shutInStudy), "return-by-heat"), 0.0861, 1e-4);
}

TEST(StudyFigures, GreatestShaftPowerAndTheMotorsSpare) {
    StudySite s = powered();
    Motor motor;
    motor.rated = Power::fromKilowatts(2.2);
    s.pump.motor = motor;
    const Study study = s.ask(motorStudy);
    EXPECT_NEAR(resultOf(study, "greatest-shaft-power"), 1.6, 1e-6);
    EXPECT_NEAR(resultOf(study, "motor-spare"), 1.375, 1e-6);
}

// Boyle: 60 l x 281.325 kPa (1/301.325 - 1/451.325), pressures absolute, ISO 2533 air of 101.325 kPa.
TEST(StudyFigures, DrawdownOfAVessel) {
    StudySite s;
    s.site.control = ControlKind::pressureHeld;
    s.site.vessel = Vessel{Volume::fromLitres(60.0), GaugePressure::fromKilopascals(180.0),
                           GaugePressure::fromKilopascals(200.0), GaugePressure::fromKilopascals(350.0)};
    EXPECT_NEAR(resultOf(s.ask(heldPressureStudy), "vessel-drawdown"), 18.62, 0.01);
}

// 5 m of a 50 mm pipe hold 9.817 l, a casing of 2 l comes on top.
TEST(StudyFigures, WaterToFillInBeforeTheFirstStart) {
    EXPECT_NEAR(resultOf(StudySite().ask(suctionStudy), "priming-volume"), 11.817, 0.001);
}

} // namespace
} // namespace headmark
