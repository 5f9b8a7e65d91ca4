#include "analysis/chart/mapping.h"

#include "mapping_readings.h"

#include <gtest/gtest.h>

#include <random>
#include <string>

namespace headmark {
namespace {

using namespace testing;

constexpr auto kLeft = ValueAxis::left;
constexpr auto kRight = ValueAxis::right;
// Of exact pins: rounding only, in units of the axes' spans 16 and 50 and of the page's 1600 px.
constexpr double kRounding = 1e-9;

std::string textOf(const Error& error, const std::string& key) {
    const Fact* fact = findFact(error.facts, key);
    if (!fact) return "(none)";
    if (const auto* text = std::get_if<std::string>(&fact->value)) return *text;
    if (const auto* number = std::get_if<std::int64_t>(&fact->value)) return std::to_string(*number);
    return std::to_string(std::get<double>(fact->value));
}

void expectTruth(const ChartMapping& mapping, const PageOf& page, ValueAxis axis, double valuePerLeft = 1.0) {
    for (const double flow : {0.5, 4.0, 9.0, 15.5}) {
        for (const double value : {1.0, 17.0, 33.0, 49.0}) {
            const AxisPoint found = mapping.axisFromPixel(page(flow, value), axis);
            EXPECT_NEAR(found.flow, flow, kRounding * 16.0);
            EXPECT_NEAR(found.value, value * valuePerLeft, kRounding * 50.0 * valuePerLeft);
            const PixelPoint back = mapping.pixelFromAxis({flow, value * valuePerLeft}, axis);
            EXPECT_NEAR(back.x_px, page(flow, value).x_px, kRounding * 1600.0);
            EXPECT_NEAR(back.y_px, page(flow, value).y_px, kRounding * 1600.0);
        }
    }
}

TEST(Mapping, RecoversAnUprightPageFromTheContractsFourPins) {
    Reading reading;
    reading.pins = {pinAt({210, 1530}, 0.0, 0.0), pinAt({1810, 1530}, 16.0, {}), pinAt({210, 230}, {}, 50.0),
                    pinAt({1810, 230}, 16.0, 50.0)};
    const auto mapping = solveMapping(reading);
    ASSERT_TRUE(mapping.ok());
    EXPECT_EQ(mapping->model(), MappingModel::upright);
    EXPECT_EQ(mapping->degreesOfFreedom(), 2);
    // By hand: 100 px a unit of flow, 26 px a unit of value, upwards.
    const AxisPoint middle = mapping->axisFromPixel({1010.0, 880.0}, kLeft);
    EXPECT_NEAR(middle.flow, 8.0, 1e-10);
    EXPECT_NEAR(middle.value, 25.0, 1e-10);
    EXPECT_NEAR(mapping->axisByPixel({500, 500}, kLeft)(0, 0), 0.01, 1e-12);
    EXPECT_NEAR(mapping->axisByPixel({500, 500}, kLeft)(1, 1), -1.0 / 26.0, 1e-12);
    ASSERT_EQ(mapping->pinResiduals_px().size(), 4u);
    EXPECT_LT(mapping->rms_px(), 1e-9);
    EXPECT_FALSE(mapping->pinsDisagree());
}

TEST(Mapping, ReadsUprightFromTwoPinsAtOppositeCorners) {
    Reading reading;
    reading.pins = {pinAt({210, 1530}, 0.0, 0.0), pinAt({1810, 230}, 16.0, 50.0)};
    const auto mapping = solveMapping(reading);
    ASSERT_TRUE(mapping.ok());
    EXPECT_EQ(mapping->degreesOfFreedom(), 0);
    EXPECT_NEAR(mapping->axisFromPixel({1010, 880}, kLeft).flow, 8.0, 1e-10);
    // By hand: x is the mean of two clicks of 0.7 px, at 100 px a unit.
    EXPECT_NEAR(std::sqrt(mapping->axisCovariance({1010, 880}, kLeft)(0, 0)), 0.7 / std::sqrt(2.0) / 100.0,
                1e-9);
    EXPECT_NEAR(std::sqrt(mapping->axisCovariance({1810, 230}, kLeft)(0, 0)), 0.7 / 100.0, 1e-9);
}

TEST(Mapping, RecoversATurnedPageAsAffine) {
    const PageOf page = turnedPage(1.5);
    const auto mapping = solveMapping(cornersOf(page));
    ASSERT_TRUE(mapping.ok());
    EXPECT_EQ(mapping->model(), MappingModel::affine);
    expectTruth(*mapping, page, kLeft);
}

TEST(Mapping, RecoversAPageLyingOnItsSide) {
    const PageOf page = turnedPage(90.0);
    const auto mapping = solveMapping(cornersOf(page));
    ASSERT_TRUE(mapping.ok());
    EXPECT_EQ(mapping->model(), MappingModel::affine);
    expectTruth(*mapping, page, kLeft);
}

TEST(Mapping, RecoversASlantedPageAsPerspective) {
    const auto chosen = solveMapping(nineOf(slantedPage));
    ASSERT_TRUE(chosen.ok());
    EXPECT_EQ(chosen->model(), MappingModel::perspective);
    EXPECT_EQ(chosen->degreesOfFreedom(), 10);
    expectTruth(*chosen, slantedPage, kLeft);
}

TEST(Mapping, SolvesAForcedPerspectiveFromFourPins) {
    Reading reading = cornersOf(slantedPage);
    reading.mapping = MappingModel::perspective;
    const auto mapping = solveMapping(reading);
    ASSERT_TRUE(mapping.ok());
    EXPECT_EQ(mapping->model(), MappingModel::perspective);
    EXPECT_EQ(mapping->degreesOfFreedom(), 0);
    expectTruth(*mapping, slantedPage, kLeft);
}

TEST(Mapping, ReadsLogarithmicAxes) {
    Reading reading;
    reading.flowScale = reading.valueScale = AxisScale::log10;
    reading.pins = {pinAt({100, 900}, 1.0, 0.1), pinAt({1300, 900}, 1000.0, {}), pinAt({100, 100}, {}, 10.0)};
    const auto mapping = solveMapping(reading);
    ASSERT_TRUE(mapping.ok());
    // By hand: 400 px a decade of both.
    const AxisPoint point = mapping->axisFromPixel({500.0, 500.0}, kLeft);
    EXPECT_NEAR(point.flow, 10.0, 1e-8);
    EXPECT_NEAR(point.value, 1.0, 1e-9);
    EXPECT_NEAR(mapping->pixelFromAxis({100.0, 0.1}, kLeft).x_px, 900.0, 1e-7);
    EXPECT_NEAR(mapping->axisByPixel({500, 500}, kLeft)(0, 0), 10.0 * std::log(10.0) / 400.0, 1e-9);
}

TEST(Mapping, HalfPinsAloneTieATurnedPage) {
    const PageOf page = turnedPage(-1.0);
    Reading reading;
    for (const auto& [flow, value] : {std::pair(0.0, 3.0), std::pair(6.0, 0.0), std::pair(16.0, 45.0)})
        reading.pins.push_back(pinAt(page(flow, value), flow, {}));
    for (const auto& [flow, value] : {std::pair(1.0, 0.0), std::pair(9.0, 50.0), std::pair(15.0, 20.0)})
        reading.pins.push_back(pinAt(page(flow, value), {}, value));
    reading.mapping = MappingModel::affine;
    const auto mapping = solveMapping(reading);
    ASSERT_TRUE(mapping.ok());
    EXPECT_EQ(mapping->degreesOfFreedom(), 0);
    expectTruth(*mapping, page, kLeft);
}

TEST(Mapping, HalfPinsJoinFullPinsInPerspective) {
    Reading reading = cornersOf(slantedPage);
    reading.pins[3].value.reset();
    reading.pins.push_back(pinAt(slantedPage(10.0, 40.0), {}, 40.0));
    reading.pins.push_back(pinAt(slantedPage(5.0, 20.0), 5.0, {}));
    reading.mapping = MappingModel::perspective;
    const auto mapping = solveMapping(reading);
    ASSERT_TRUE(mapping.ok());
    expectTruth(*mapping, slantedPage, kLeft);
}

TEST(Mapping, ARightAxisBesideALeftOneHasItsOwnScale) {
    for (const MappingModel model :
         {MappingModel::upright, MappingModel::affine, MappingModel::perspective}) {
        const PageOf page = model == MappingModel::perspective ? PageOf(slantedPage)
                                                               : turnedPage(model == MappingModel::affine);
        Reading reading = nineOf(page);
        reading.pins.push_back(pinAt(page(16.0, 0.0), {}, 0.0, kRight));
        reading.pins.push_back(pinAt(page(16.0, 50.0), 16.0, 80.0, kRight));
        const auto mapping = solveMapping(reading);
        ASSERT_TRUE(mapping.ok());
        EXPECT_EQ(mapping->model(), model);
        EXPECT_EQ(mapping->covariance().rows(), model == MappingModel::upright  ? 6
                                                : model == MappingModel::affine ? 8
                                                                                : 10);
        expectTruth(*mapping, page, kLeft);
        expectTruth(*mapping, page, kRight, 1.6);
    }
}

TEST(Mapping, ARightAxisAloneIsThePapersOwn) {
    Reading reading = cornersOf(turnedPage(0.0));
    for (Pin& pin : reading.pins)
        pin.axis = kRight;
    const auto mapping = solveMapping(reading);
    ASSERT_TRUE(mapping.ok());
    EXPECT_EQ(mapping->covariance().rows(), 4);
    EXPECT_TRUE(mapping->hasAxis(kRight));
    EXPECT_FALSE(mapping->hasAxis(kLeft));
    expectTruth(*mapping, turnedPage(0.0), kRight);
    EXPECT_THROW((void)mapping->axisFromPixel({0, 0}, kLeft), InternalError);
}

TEST(Mapping, DerivativesAgreeWithDifferences) {
    Reading reading = nineOf(slantedPage);
    reading.valueScale = AxisScale::log10;
    for (Pin& pin : reading.pins)
        pin.value = std::pow(10.0, *pin.value / 25.0);
    reading.pins.push_back(pinAt(slantedPage(16.0, 0.0), {}, 2.0, kRight));
    reading.pins.push_back(pinAt(slantedPage(16.0, 50.0), 16.0, 200.0, kRight));
    const auto mapping = solveMapping(reading);
    ASSERT_TRUE(mapping.ok());
    ASSERT_EQ(mapping->model(), MappingModel::perspective);
    const PixelPoint at{700.0, 650.0};
    const double step_px = 0.01;
    for (const ValueAxis axis : {kLeft, kRight}) {
        const Eigen::Matrix2d by = mapping->axisByPixel(at, axis);
        for (int k = 0; k < 2; ++k) {
            const double dx = k == 0 ? step_px : 0.0, dy = k == 1 ? step_px : 0.0;
            const AxisPoint after = mapping->axisFromPixel({at.x_px + dx, at.y_px + dy}, axis);
            const AxisPoint before = mapping->axisFromPixel({at.x_px - dx, at.y_px - dy}, axis);
            EXPECT_NEAR(by(0, k), (after.flow - before.flow) / (2.0 * step_px), 1e-8);
            EXPECT_NEAR(by(1, k), (after.value - before.value) / (2.0 * step_px), 1e-7);
        }
    }
}

// Moving one pin's click moves the solution as covariance and derivatives by the parameters say: with every
// figure pinned exactly once the covariance is the sum of what each click does, found by solving again.
TEST(Mapping, CovarianceIsWhatTheClicksDoOneByOne) {
    for (const MappingModel model :
         {MappingModel::upright, MappingModel::affine, MappingModel::perspective}) {
        Reading reading = nineOf(slantedPage);
        reading.pins.push_back(pinAt(slantedPage(16.0, 0.0), {}, 5.0, kRight));
        reading.pins.push_back(pinAt(slantedPage(16.0, 50.0), 16.0, 85.0, kRight));
        reading.pins[4].sigma_px = 2.0;
        reading.mapping = MappingModel::perspective;
        if (model != MappingModel::perspective) {
            for (std::size_t i = 0; i < reading.pins.size(); ++i) {
                const double flow = reading.pins[i].flow.value_or(16.0);
                const double value =
                    i < 9 ? *reading.pins[i].value : (*reading.pins[i].value - 5.0) / 80.0 * 50.0;
                reading.pins[i].at = turnedPage(model == MappingModel::affine ? 2.0 : 0.0)(flow, value);
            }
            reading.mapping = model;
        }
        const PixelPoint at{620.0, 560.0};
        for (const ValueAxis axis : {kLeft, kRight}) {
            Eigen::Matrix2d expected = Eigen::Matrix2d::Zero();
            for (std::size_t i = 0; i < reading.pins.size(); ++i) {
                const double sigma_px = reading.pins[i].sigma_px.value_or(reading.sigmas.pin_px);
                for (const bool ofX : {true, false}) {
                    const auto moved = [&](double by_px) {
                        Reading other = reading;
                        (ofX ? other.pins[i].at.x_px : other.pins[i].at.y_px) += by_px;
                        return solveMapping(other).value().axisFromPixel(at, axis);
                    };
                    const AxisPoint after = moved(0.01), before = moved(-0.01);
                    const Eigen::Vector2d by((after.flow - before.flow) / 0.02,
                                             (after.value - before.value) / 0.02);
                    expected += by * by.transpose() * sigma_px * sigma_px;
                }
            }
            const auto mapping = solveMapping(reading);
            ASSERT_TRUE(mapping.ok());
            const Eigen::Matrix2d found = mapping->axisCovariance(at, axis);
            EXPECT_LT((found - expected).norm(), 1e-4 * expected.norm()) << found << "\n" << expected;
        }
    }
}

// A frame without a grid: on a page that stands upright its lines may stand on whole dots; one that was
// scanned aslant may be bent by the scanner's feed as well, which no line between them shows.
TEST(Mapping, AFramePromisesLessOnAPageThatStandsAslant) {
    const auto sigmaBy = [](double degrees, MappingModel model) {
        const PageOf page = turnedPage(degrees);
        std::vector<KnownRuling> frame;
        for (const bool upright : {false, true}) {
            for (const bool far : {false, true}) {
                KnownRuling ruling{upright, far ? (upright ? 16.0 : 50.0) : 0.0, {}};
                for (double share = 0.05; share < 1.0; share += 0.05)
                    ruling.places.push_back(upright ? page(ruling.figure, 50.0 * share)
                                                    : page(16.0 * share, ruling.figure));
                frame.push_back(ruling);
            }
        }
        Reading reading = cornersOf(page);
        reading.mapping = model;
        const auto mapping = solveMapping(reading, frame);
        EXPECT_TRUE(mapping.ok());
        EXPECT_EQ(mapping->rulings(), 4u);
        // Across a smooth line, px; 24 px are one of value.
        const PixelPoint at = page(8.0, 25.0);
        const Eigen::Matrix2Xd by = mapping->axisByParameters(at, kLeft, 0.0);
        return 24.0 * std::sqrt((by * mapping->covariance() * by.transpose())(1, 1));
    };
    const double upright = sigmaBy(0.0, MappingModel::upright), aslant = sigmaBy(1.0, MappingModel::affine);
    EXPECT_GT(upright, 0.03);
    EXPECT_GT(aslant, 1.2 * upright);
    EXPECT_LT(aslant, 0.5);
}

TEST(Mapping, SaysThatPinsDisagreeAndWhichOne) {
    Reading reading = nineOf(turnedPage(0.5));
    reading.pins[4].at.x_px += 30.0;
    const auto mapping = solveMapping(reading);
    ASSERT_TRUE(mapping.ok());
    EXPECT_TRUE(mapping->pinsDisagree());
    const auto& distances = mapping->pinResiduals_px();
    EXPECT_EQ(std::max_element(distances.begin(), distances.end()) - distances.begin(), 4);
    const auto sound = solveMapping(nineOf(turnedPage(0.5)));
    EXPECT_GT(mapping->axisCovariance({1000, 900}, kLeft)(0, 0),
              10.0 * sound->axisCovariance({1000, 900}, kLeft)(0, 0));
}

TEST(Mapping, RefusesTooFewFigures) {
    Reading reading = cornersOf(turnedPage(0.0));
    for (Pin& pin : reading.pins)
        pin.flow = 4.0;
    auto failed = solveMapping(reading);
    ASSERT_FALSE(failed.ok());
    EXPECT_EQ(failed.error().code, "too-few-pinned");
    EXPECT_EQ(failed.error().place, "pins");
    EXPECT_EQ(textOf(failed.error(), "what"), "flow");
    EXPECT_EQ(textOf(failed.error(), "found"), "1");

    reading = cornersOf(turnedPage(0.0));
    for (Pin& pin : reading.pins)
        pin.value.reset();
    failed = solveMapping(reading);
    EXPECT_EQ(failed.error().code, "too-few-pinned");
    EXPECT_EQ(textOf(failed.error(), "what"), "left");
    EXPECT_EQ(textOf(failed.error(), "found"), "0");

    reading = cornersOf(turnedPage(0.0));
    reading.lines.push_back({});
    reading.lines[0].axis = kRight;
    failed = solveMapping(reading);
    EXPECT_EQ(failed.error().code, "too-few-pinned");
    EXPECT_EQ(textOf(failed.error(), "what"), "right");

    EXPECT_EQ(solveMapping(Reading{}).error().code, "too-few-pinned");
}

TEST(Mapping, RefusesFiguresThatAreNotOnALogScale) {
    Reading reading = cornersOf(turnedPage(0.0));
    reading.valueScale = AxisScale::log10;
    reading.pins[0].value = 1.0;
    const auto failed = solveMapping(reading);
    ASSERT_FALSE(failed.ok());
    EXPECT_EQ(failed.error().code, "not-on-log-scale");
    EXPECT_EQ(failed.error().place, "pins[1].value");
    EXPECT_EQ(textOf(failed.error(), "found"), std::to_string(0.0));
    reading.valueScale = AxisScale::linear;
    reading.flowScale = AxisScale::log10;
    EXPECT_EQ(solveMapping(reading).error().place, "pins[0].flow");
}

TEST(Mapping, RefusesPinsInARow) {
    Reading reading;
    for (const double flow : {0.0, 4.0, 16.0})
        reading.pins.push_back(pinAt({210.0 + 100.0 * flow, 1530.0}, flow, 3.0 * flow));
    EXPECT_EQ(solveMapping(reading).error().code, "pins-in-a-row");
    // on a slope they tie an upright page, but nothing richer
    for (Pin& pin : reading.pins)
        pin.at.y_px -= 40.0 * *pin.flow;
    EXPECT_TRUE(solveMapping(reading).ok());
    reading.mapping = MappingModel::affine;
    EXPECT_EQ(solveMapping(reading).error().code, "pins-in-a-row");
}

TEST(Mapping, RefusesTwoFiguresAtOnePlace) {
    Reading reading;
    reading.pins = {pinAt({210, 1530}, 0.0, 0.0), pinAt({212, 230}, 16.0, 50.0), pinAt({900, 600}, {}, 35.8)};
    const auto failed = solveMapping(reading);
    ASSERT_FALSE(failed.ok());
    EXPECT_EQ(failed.error().code, "pins-too-close");
    EXPECT_EQ(textOf(failed.error(), "what"), "flow");
    EXPECT_NEAR(std::get<double>(findFact(failed.error().facts, "distance_px")->value), 2.0, 1e-6);
}

TEST(Mapping, RefusesAForcedModelOfMoreUnknownsThanFigures) {
    Reading reading = cornersOf(turnedPage(0.0));
    reading.pins.pop_back();
    reading.mapping = MappingModel::perspective;
    const auto failed = solveMapping(reading);
    ASSERT_FALSE(failed.ok());
    EXPECT_EQ(failed.error().code, "mapping-needs-pins");
    EXPECT_EQ(textOf(failed.error(), "model"), "perspective");
    EXPECT_EQ(textOf(failed.error(), "pins"), "6");
    EXPECT_EQ(textOf(failed.error(), "needed"), "8");
}

// Two corners clicked the wrong way about: the only perspective through them folds the page over.
TEST(Mapping, RefusesAPerspectiveThatFoldsThePage) {
    Reading reading = cornersOf(turnedPage(0.0));
    std::swap(reading.pins[2].at, reading.pins[3].at);
    reading.mapping = MappingModel::perspective;
    const auto failed = solveMapping(reading);
    ASSERT_FALSE(failed.ok());
    EXPECT_EQ(failed.error().code, "mapping-not-found");
    EXPECT_EQ(textOf(failed.error(), "model"), "perspective");
}

class RandomReading {
  public:
    explicit RandomReading(unsigned seed) : random_(seed) {}

    Reading draw() {
        Reading reading;
        if (chance(0.2)) reading.flowScale = AxisScale::log10;
        if (chance(0.2)) reading.valueScale = AxisScale::log10;
        if (chance(0.4)) reading.mapping = static_cast<MappingModel>(whole(3));
        const int pins = whole(9);
        for (int i = 0; i < pins; ++i) {
            Pin pin;
            pin.at = {coordinate(), coordinate()};
            if (chance(0.75)) pin.flow = figure();
            if (chance(0.75)) pin.value = figure();
            if (chance(0.2)) pin.axis = kRight;
            if (chance(0.1)) pin.sigma_px = chance(0.5) ? 0.0 : 100.0;
            if (chance(0.1) && i > 0) pin.at = reading.pins.back().at;
            reading.pins.push_back(pin);
        }
        return reading;
    }

  private:
    bool chance(double share) { return std::uniform_real_distribution<>(0.0, 1.0)(random_) < share; }
    int whole(int below) { return std::uniform_int_distribution<>(0, below - 1)(random_); }
    double coordinate() { return chance(0.4) ? 100.0 * whole(4) : 3000.0 * unit() - 500.0; }
    double figure() {
        if (chance(0.5)) return whole(4);
        return chance(0.9) ? 100.0 * unit() : std::pow(10.0, 24.0 * unit() - 12.0);
    }
    double unit() { return std::uniform_real_distribution<>(0.0, 1.0)(random_); }

    std::mt19937 random_;
};

TEST(Mapping, NeverGivesANumberThatIsNone) {
    RandomReading source(11);
    int solved = 0;
    for (int i = 0; i < 2500; ++i) {
        const Reading reading = source.draw();
        const auto mapping = solveMapping(reading);
        if (!mapping.ok()) {
            EXPECT_FALSE(mapping.error().code.empty());
            continue;
        }
        ++solved;
        EXPECT_TRUE(std::isfinite(mapping->chiSquare()) && std::isfinite(mapping->rms_px()));
        EXPECT_TRUE(mapping->covariance().allFinite());
        for (const ValueAxis axis : {kLeft, kRight}) {
            if (!mapping->hasAxis(axis)) continue;
            for (const Pin& pin : reading.pins) {
                const AxisPoint point = mapping->axisFromPixel(pin.at, axis);
                EXPECT_TRUE(std::isfinite(point.flow) && std::isfinite(point.value));
                const PixelPoint back = mapping->pixelFromAxis(point, axis);
                EXPECT_TRUE(std::isfinite(back.x_px) && std::isfinite(back.y_px));
                const Eigen::Matrix2d covariance = mapping->axisCovariance(pin.at, axis);
                EXPECT_TRUE(covariance.allFinite());
                EXPECT_GE(covariance(0, 0), 0.0);
            }
        }
    }
    EXPECT_GT(solved, 500);
}

} // namespace
} // namespace headmark
