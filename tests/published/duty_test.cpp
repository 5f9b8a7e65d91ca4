// Duty points and NPSH against published examples, through the models of a site and a pump.
// US units by exact factors: US gallon 231 cubic inches, foot 0.3048 m (NIST Handbook 44).

#include "analysis/duty/case_solver.h"

#include "support/duty_fixtures.h"

#include <gtest/gtest.h>

#include <cmath>

namespace headmark {
namespace {

using namespace testing;

constexpr double kGpm_m3_h = 3.785411784e-3 * 60.0;
constexpr double kFootOf_m = 0.3048;

std::optional<DutyPoint> dutyOf(const Site& site, const PumpModel& pump, double speedShare = 1.0) {
    const SiteModel model = modelOf(site);
    Case c = caseOf({});
    c.speedShare = speedShare;
    return CaseSolver(model, pump, Limits{}).answer(c).duty;
}

// Schaschke, Fluid Mechanics: Worked Examples for Engineers, Example 9.10: six points of a pump; lift 10 m,
// bore 0.05 m, 100 m, Fanning f 0.005 and one velocity head: H = 10 + 5.42032e5 Q^2. Read from the book's
// graph: 0.0066 m3/s at 33.8 to 34 m.
PumpModel schaschkesPump() {
    const std::vector<CurveSample> points = {{0.0, 40.0},   {0.002, 39.5}, {0.004, 38.0},
                                             {0.006, 35.0}, {0.008, 30.0}, {0.010, 20.0}};
    return pumpOf(PumpCurve(fitPoints(points, CurveSense::oneMaximum).value().curve));
}

TEST(PublishedDuty, MeetsSchaschkesSystemWhereTheGraphDoes) {
    const auto duty = dutyOf(knownSystem(10.0, 5.42032e5 / 3600.0 / 3600.0), schaschkesPump());
    ASSERT_TRUE(duty);
    EXPECT_NEAR(duty->flow.inCubicMetresPerSecond(), 0.00662, 0.01 * 0.00662);
    EXPECT_NEAR(duty->head.inMetres(), 33.75, 0.02 * 33.75);
}

// The same as pipework: a fitting of k = 4 f L/D + ... = 4 0.005 100/0.05 = 40 and the velocity head lost at
// the end. The book's g is 9.81, a difference of 0.03 %.
TEST(PublishedDuty, MeetsSchaschkesSystemAsPipework) {
    Site site = siteOf(sourceAt(0.0, 0.0, 0.0));
    site.delivery = {fitting(40.0, 50.0)};
    site.end = OutletEnd{Level::fromMetres(10.0), GaugePressure{}};
    const auto duty = dutyOf(site, schaschkesPump());
    ASSERT_TRUE(duty);
    EXPECT_NEAR(duty->flow.inCubicMetresPerSecond(), 0.00662, 0.01 * 0.00662);
    EXPECT_NEAR(duty->head.inMetres(), 33.75, 0.02 * 33.75);
}

// Closed-form set: pump 50 - 0.008 Q^2, system 20 + 0.004 Q^2 (m, m3/h).
// One 50 m3/h at 30 m; two in parallel sqrt 5000 at 40 m; two in series sqrt 4000 at 36 m.
TEST(PublishedDuty, MeetsTheClosedFormsOfOneAndTwoPumps) {
    const PumpCurve one = parabola(50.0, 0.0, -0.008, 0.0, 75.0);
    struct Arrangement {
        PumpCurve head;
        double flow_m3_h, head_m;
    };
    for (const Arrangement& a :
         {Arrangement{one, 50.0, 30.0}, Arrangement{inParallel(one, 2), 70.710678, 40.0},
          Arrangement{inSeries(one, 2), 63.245553, 36.0}}) {
        const auto duty = dutyOf(knownSystem(20.0, 0.004), pumpOf(a.head));
        ASSERT_TRUE(duty);
        EXPECT_NEAR(duty->flow.inCubicMetresPerHour(), a.flow_m3_h, 1e-5);
        EXPECT_NEAR(duty->head.inMetres(), a.head_m, 1e-5);
    }
}

// Two unequal pumps side by side, by their flows at one head: 50 - 0.008 Q^2 and 40 - 0.010 Q^2, the smaller
// one shut by its check valve above 40 m.
class UnequalPair final : public HeadSource {
  public:
    [[nodiscard]] LossAt at(double flow_m3_s) const override {
        const double q = flow_m3_s / kM3_h;
        const auto together = [](double head_m) {
            return std::sqrt(std::max(0.0, (50.0 - head_m) / 0.008)) +
                   std::sqrt(std::max(0.0, (40.0 - head_m) / 0.010));
        };
        double low = -100.0, high = 50.0;
        for (int i = 0; i < 100; ++i) {
            const double middle = 0.5 * (low + high);
            (together(middle) > q ? low : high) = middle;
        }
        const double h = 0.5 * (low + high);
        constexpr double kStep_m = 1e-4;
        const double perMetre = (together(h + kStep_m) - together(h - kStep_m)) / (2.0 * kStep_m);
        return {h, perMetre < 0.0 ? 1.0 / (perMetre * kM3_h) : -1e3};
    }
};

// Closed-form set: 62.773430 m3/h at 35.762014 m; on a static head of 42 m the first pump alone,
// sqrt(8/0.012) = 25.819889 m3/h at 44.666667 m.
TEST(PublishedDuty, MeetsTheClosedFormsOfAnUnequalPair) {
    struct Expected {
        double static_m, flow_m3_h, head_m;
    };
    for (const Expected& e : {Expected{20.0, 62.773430, 35.762014}, Expected{42.0, 25.819889, 44.666667}}) {
        const SiteModel model = modelOf(knownSystem(e.static_m, 0.004));
        const SiteTree site = model.tree({});
        TreeSolver solver(site.tree);
        const TreeSolution& s = solver.solve(UnequalPair{});
        ASSERT_EQ(s.state, TreeSolution::State::converged);
        EXPECT_NEAR(s.flow_m3_s / kM3_h, e.flow_m3_h, 1e-5);
        EXPECT_NEAR(s.pumpHead_m, e.head_m, 1e-5);
    }
}

// Hydraulic Institute, Engineering Data Book (pump and system curves): pump 380 - 0.06 Q - 0.0018 Q^2 ft,
// system 265 + 7.75e-4 Q^2 ft, Q in US gpm: 200 gpm at 296 ft. A tank 10 ft higher: 190.6 gpm.
TEST(PublishedDuty, MeetsTheHydraulicInstitutesExample) {
    std::vector<std::pair<double, double>> points;
    for (const double gpm : {0.0, 150.0, 300.0}) {
        points.emplace_back(gpm * kGpm_m3_h, (380.0 - 0.06 * gpm - 0.0018 * gpm * gpm) * kFootOf_m);
    }
    const PumpModel pump = pumpOf(curveThrough(points));
    const double perM3_h2 = 7.75e-4 * kFootOf_m / (kGpm_m3_h * kGpm_m3_h);
    const auto duty = dutyOf(knownSystem(265.0 * kFootOf_m, perM3_h2), pump);
    ASSERT_TRUE(duty);
    EXPECT_NEAR(duty->flow.inUsGallonsPerMinute(), 200.0, 0.05);
    EXPECT_NEAR(duty->head.inFeet(), 296.0, 0.05);
    const auto higher = dutyOf(knownSystem(275.0 * kFootOf_m, perM3_h2), pump);
    ASSERT_TRUE(higher);
    EXPECT_NEAR(higher->flow.inUsGallonsPerMinute(), 190.6, 0.05);
}

// NPSH available by its definition, from air pressure (ISO 2533), density and vapour pressure (IAPWS), lift
// and loss:
//   2000 m, 25 C (79501.4 Pa, 997.0470 kg/m3, 3169.747 Pa), lift 3 m, loss 0.8 m:  4.0067 m
//   1000 m, 20 C (89876.3 Pa, 998.2065 kg/m3, 2339.215 Pa), lift 4 m, loss 0.65 m: 4.2923 m
// The loss is a fitting at 1 m/s in 50 mm bore: k = loss 2 9.80665.
TEST(PublishedNpsh, FollowsFromAirVapourLiftAndLoss) {
    struct Example {
        double altitude_m, water_C, lift_m, loss_m, expected_m;
    };
    for (const Example& e :
         {Example{2000.0, 25.0, 3.0, 0.8, 4.0067}, Example{1000.0, 20.0, 4.0, 0.65, 4.2923}}) {
        Site site = siteOf(sourceAt(-e.lift_m, -e.lift_m, -e.lift_m));
        site.suction = {fitting(e.loss_m * 2.0 * 9.80665, 50.0)};
        site.end = OutletEnd{Level::fromMetres(5.0), GaugePressure{}};
        site.delivery = {fitting(1.0, 50.0)};
        WaterConditions water;
        water.temperature = Temperature::fromCelsius(e.water_C);
        water.altitude = Length::fromMetres(e.altitude_m);
        const SiteModel model = modelOf(site, {}, water);
        const double flow_m3_s = 3.14159265358979 / 4.0 * 0.05 * 0.05;
        EXPECT_NEAR(npshAvailable_m(model, model.tree({}).tree, flow_m3_s), e.expected_m, 0.0005);
    }
}

} // namespace
} // namespace headmark
