// What a line of a chart must be before it is a curve of a pump, and how a chart's errors name their files.
#include "analysis/job/pump_charts.h"

#include <gtest/gtest.h>

namespace headmark {
namespace {

// Legendre coefficients on 0 to 10 m3/h.
ReadLine lineOf(std::initializer_list<double> coefficients) {
    ReadLine line;
    line.name = "upper";
    Eigen::VectorXd c(static_cast<Eigen::Index>(coefficients.size()));
    std::copy(coefficients.begin(), coefficients.end(), c.begin());
    SampleFit fit;
    fit.curve = PolynomialCurve(0.0, 10.0 / 3600.0, c);
    line.fit = std::move(fit);
    return line;
}

std::vector<std::string> codesOf(const Result<Cautions>& judged) {
    std::vector<std::string> codes;
    if (!judged) return {"error " + judged.error().code};
    for (const Caution& c : *judged)
        codes.push_back(c.code);
    return codes;
}

using Codes = std::vector<std::string>;

TEST(JudgeLine, AFallingHeadIsInOrder) {
    // 30 - 10 t: from 40 m to 20 m
    EXPECT_EQ(codesOf(judgeLine(CurveQuantity::head, lineOf({30.0, -10.0}))), Codes{});
}

TEST(JudgeLine, ADroopingHeadIsInOrder) {
    // 30 - 10 t - 8 P2(t): slope -10 - 24 t, top at t = -5/12
    EXPECT_EQ(codesOf(judgeLine(CurveQuantity::head, lineOf({30.0, -10.0, -8.0}))), Codes{});
}

TEST(JudgeLine, ARisingHeadIsRefused) {
    EXPECT_EQ(codesOf(judgeLine(CurveQuantity::head, lineOf({30.0, 10.0}))), Codes{"error head-not-falling"});
}

TEST(JudgeLine, AHeadThatRisesAgainIsWarnedOf) {
    // 30 - 10 t + 8 P2(t): slope -10 + 24 t, foot at t = 5/12; 27.92 - 10 t + 12 t^2 - ... by hand:
    // y(5/12) = 30 - 25/6 + 8 (3 * 25/144 - 1)/2 = 23.9167; y(1) = 28; rise 4.0833
    const auto judged = judgeLine(CurveQuantity::head, lineOf({30.0, -10.0, 8.0}));
    ASSERT_EQ(codesOf(judged), Codes{"head-rises-again"});
    EXPECT_NEAR(std::get<double>(findFact((*judged)[0].values, "rise_m")->value), 4.0833, 1e-4);
    EXPECT_NEAR(std::get<double>(findFact((*judged)[0].values, "flow_m3_h")->value), 5.0 + 5.0 * 5.0 / 12.0,
                1e-9);
    EXPECT_EQ((*judged)[0].severity, Severity::warning);
}

TEST(JudgeLine, AHeadBelowZeroIsRefusedUnlessItIsTheFootOfTheLine) {
    // 15 - 20 t: zero at t = 0.75, long before the end
    EXPECT_EQ(codesOf(judgeLine(CurveQuantity::head, lineOf({15.0, -20.0}))),
              Codes{"error line-not-positive"});
    // 20 - 20.2 t: ends 0.2 m below zero, half a percent of its top
    EXPECT_EQ(codesOf(judgeLine(CurveQuantity::head, lineOf({20.0, -20.2}))), Codes{"head-reaches-zero"});
}

TEST(JudgeLine, APowerAtZeroIsRefused) {
    EXPECT_EQ(codesOf(judgeLine(CurveQuantity::power, lineOf({500.0, 500.0}))),
              Codes{"error line-not-positive"});
    EXPECT_EQ(codesOf(judgeLine(CurveQuantity::power, lineOf({600.0, 500.0}))), Codes{});
    EXPECT_EQ(codesOf(judgeLine(CurveQuantity::efficiency, lineOf({0.3, 0.3}))), Codes{});
}

// A line of equal efficiency that stands upright across the curve at one flow, m3/h, from 0 to 60 m.
ReadLine isoAt(double flow_m3_h, double level) {
    ReadLine line;
    line.quantity = LineQuantity::isoEfficiency;
    line.levelShare = level;
    for (int k = 0; k <= 60; ++k)
        line.samples.push_back({{}, (flow_m3_h + 1e-4 * k) / 3600.0, 1.0 * k, 0.1});
    return line;
}

// eta = 0.64 (1 - ((Q - 5)/5)^2): 0.4096 at 2 and 8, 0.6144 at 4 and 6, 0.64 at 5 m3/h.
TEST(IsoLines, GiveTheEfficiencyOfAPumpWhoseHeadCurveTheyCross) {
    const std::vector<ReadLine> lines = {isoAt(2.0, 0.4096), isoAt(4.0, 0.6144), isoAt(6.0, 0.6144),
                                         isoAt(8.0, 0.4096)};
    ChartedCurves charted;
    charted.curves.emplace(CurveQuantity::head, lineOf({30.0, -10.0}).fit->curve);
    takeIsoLines({&lines[0], &lines[1], &lines[2], &lines[3]}, "pumps[0].readings[0]", charted);
    ASSERT_TRUE(charted.curves.contains(CurveQuantity::efficiency));
    EXPECT_NEAR(charted.curves.at(CurveQuantity::efficiency).at(5.0 / 3600.0), 0.64, 0.002);
    ASSERT_EQ(charted.cautions.size(), 1U);
    EXPECT_EQ(charted.cautions[0].code, "efficiency-from-iso-lines");
}

TEST(IsoLines, ThatCrossTooRarelyOrWithoutAHeadCurveAreNotUsed) {
    const ReadLine one = isoAt(2.0, 0.4);
    ChartedCurves crossed, headless;
    crossed.curves.emplace(CurveQuantity::head, lineOf({30.0, -10.0}).fit->curve);
    for (ChartedCurves* charted : {&crossed, &headless}) {
        takeIsoLines({&one}, "pumps[0].readings[0]", *charted);
        EXPECT_FALSE(charted->curves.contains(CurveQuantity::efficiency));
        ASSERT_EQ(charted->cautions.size(), 1U);
        EXPECT_EQ(charted->cautions[0].code, "iso-lines-not-used");
    }
}

class LostPages final : public PageSource {
  public:
    [[nodiscard]] Result<std::shared_ptr<const Page>> open(const ChartPage&) override {
        return Error{"no-such-file", "page.png", "chart.path", {}};
    }
};

TEST(ChartBook, ErrorsNameTheReadingFileAndThePicture) {
    Reading reading;
    reading.chart.path = "page.png";
    reading.printedUnits.flow = "m3/h";
    reading.pins = {{{100, 900}, 0.0, 0.0, ValueAxis::left, {}},
                    {{900, 100}, 10.0, 40.0, ValueAxis::left, {}}};
    ChartLine line;
    line.name = "H";
    line.followFrom = {{500, 300}};
    reading.lines = {line};
    LostPages pages;
    const auto chart = chartOf(reading, "charts/a.reading.json", pages);
    ASSERT_FALSE(chart.ok());
    EXPECT_EQ(chart.error().file, "charts/a.reading.json");
    EXPECT_EQ(chart.error().place, "chart.path");
    const Fact* picture = findFact(chart.error().facts, "picture");
    ASSERT_NE(picture, nullptr);
    EXPECT_EQ(std::get<std::string>(picture->value), "page.png");
}

TEST(ChartBook, ReportsEveryErrorOfAReadingFileAndTriesAgain) {
    LostPages pages;
    ChartBook book(pages);
    const auto opened = book.open("nowhere/at-all.reading.json");
    EXPECT_EQ(opened.reading, nullptr);
    ASSERT_EQ(opened.errors.size(), 1U);
    EXPECT_EQ(opened.errors[0].code, "no-such-file");
    const auto good = book.open(HEADMARK_TESTS_DIR "/jobs/full.reading.json");
    ASSERT_NE(good.reading, nullptr);
    EXPECT_EQ(good.reading->chart.folder, HEADMARK_TESTS_DIR "/jobs");
    // The same file by another name is the same reading.
    EXPECT_EQ(book.open(HEADMARK_TESTS_DIR "/jobs/../jobs/full.reading.json").reading, good.reading);
    book.forget(HEADMARK_TESTS_DIR "/jobs/full.reading.json");
    EXPECT_NE(book.open(HEADMARK_TESTS_DIR "/jobs/full.reading.json").reading, good.reading);
}

} // namespace
} // namespace headmark
