#include "app/words/lines_table.h"

#include <gtest/gtest.h>

namespace headmark {
namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

// 40 m at no flow, 20 m at 10 m3/h, straight: in Legendre 30 - 10 t.
ChartLines straightHead() {
    ReadLine line;
    line.name = "upper";
    Eigen::VectorXd c(2);
    c << 30.0, -10.0;
    Eigen::MatrixXd covariance = Eigen::MatrixXd::Zero(2, 2);
    covariance(0, 0) = 0.01; // one sigma 0.1 m everywhere
    SampleFit fit;
    fit.curve = PolynomialCurve(0.0, 10.0 / 3600.0, c, covariance);
    fit.rms = 0.04;
    fit.greatestResidual = 0.1;
    line.fit = std::move(fit);
    line.samples = {{{210, 500}, 0.0, 40.0, 0.1}, {{1810, 900}, 10.0 / 3600.0, 20.0, 0.1}};
    ChartLines chart;
    chart.lines = {line};
    return chart;
}

TEST(LinesTable, ShowsEachLinesCurveWithItsIntervalAtRoundFlows) {
    const std::string text = linesTable(straightHead(), Reading{}, "page").toStdString();
    EXPECT_TRUE(has(text, "upper: head"));
    EXPECT_TRUE(has(text, "trust: sure"));
    EXPECT_TRUE(has(text, "curve of degree 1 from 0.00 to 10.0 m³/h")) << text;
    EXPECT_TRUE(has(text, "for m: 40; -2")) << text; // 40 - 2 Q by hand
    // 40 - 2 * 3 = 34 m; 1.96 * 0.1 m = 0.196 m, two digits
    EXPECT_TRUE(has(text, "      3.00           34.00        0.20\n")) << text;
}

TEST(LinesTable, SaysWhatIsDoubtfulAndWhatToDo) {
    ChartLines chart = straightHead();
    chart.lines[0].trust = Trust::doubtful;
    chart.lines[0].cautions.push_back({"line-bridged",
                                       Severity::warning,
                                       "lines[0]",
                                       {{"x_px", 620.0}, {"y_px", 480.0}, {"length_px", 40.0}},
                                       "look-at-the-gap",
                                       {},
                                       ""});
    const std::string text = linesTable(chart, Reading{}, "page").toStdString();
    EXPECT_TRUE(has(text, "trust: doubtful"));
    EXPECT_TRUE(has(text, "Warning: Line 1 of the reading has no ink for 40.00 px")) << text;
    EXPECT_TRUE(has(text, "What to do: See that the line goes on"));
}

TEST(LinesTable, LinesOfEqualEfficiencyShowTheirSamples) {
    ChartLines chart = straightHead();
    chart.lines[0].quantity = LineQuantity::isoEfficiency;
    chart.lines[0].levelShare = 0.6;
    chart.lines[0].fit.reset();
    const std::string text = linesTable(chart, Reading{}, "page").toStdString();
    EXPECT_TRUE(has(text, "upper: line of equal efficiency 60 %")) << text;
    EXPECT_TRUE(has(text, "40.00"));
}

TEST(RoundFlows, AreRoundAndKeepTheEnds) {
    EXPECT_EQ(roundFlows(0.0, 10.0, 11), (std::vector<double>{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10}));
    const auto flows = roundFlows(1.3, 15.2, 11);
    EXPECT_EQ(flows.front(), 1.3);
    EXPECT_EQ(flows[1], 2.0);
    EXPECT_EQ(flows.back(), 15.2);
    for (const double span : {0.07, 0.9, 13.0, 24.0, 777.0}) {
        const std::size_t count = roundFlows(0.3 * span, 1.3 * span, 11).size();
        EXPECT_GE(count, 8U) << span;
        EXPECT_LE(count, 17U) << span;
    }
}

} // namespace
} // namespace headmark
