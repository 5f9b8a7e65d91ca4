// The lines document: units, keys, and curves that other programs can compute from.
#include "analysis/job/lines_json.h"

#include "tests/support/plain_wording.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <cmath>

namespace headmark {
namespace {

using Json = nlohmann::json;

// A line of that quantity over 1.2 to 15.7 m3/h, its curve of degree 4 with a covariance of full rank.
ReadLine line(LineQuantity quantity, double size) {
    ReadLine l;
    l.name = "upper";
    l.quantity = quantity;
    Eigen::VectorXd c(5);
    c << 30.0, -8.0, -2.5, 0.4, -0.1;
    Eigen::MatrixXd root(5, 5);
    for (int i = 0; i < 5; ++i)
        for (int j = 0; j < 5; ++j)
            root(i, j) = 0.01 * std::cos(1.0 + 3.0 * i + 7.0 * j);
    SampleFit fit;
    fit.curve = PolynomialCurve(1.2 / 3600.0, 15.7 / 3600.0, size * c, size * size * root * root.transpose());
    fit.rms = 0.04 * size;
    fit.greatestResidual = 0.1 * size;
    for (int i = 0; i <= 20; ++i) {
        const double flow = (1.2 + (15.7 - 1.2) * i / 20.0) / 3600.0;
        l.samples.push_back({{200.0 + i, 300.5}, flow, fit.curve.at(flow), 0.05 * size});
    }
    l.fit = std::move(fit);
    return l;
}

Json documentOf(const ReadLine& l) {
    ChartLines chart;
    chart.lines = {l};
    return Json::parse(linesJson(chart, test::PlainWording()));
}

double power(double base, std::size_t exponent) { return std::pow(base, static_cast<double>(exponent)); }

struct Kind {
    LineQuantity quantity;
    const char *name, *valueKey, *sigmaKey, *rmsKey, *greatestKey;
    double size, fromSi; // of the SI value
};

class LinesJson : public testing::TestWithParam<Kind> {};

TEST_P(LinesJson, CurveInPowersOfTheFlowGivesTheSamples) {
    const Kind& kind = GetParam();
    const Json l = documentOf(line(kind.quantity, kind.size))["lines"][0];
    EXPECT_EQ(l["quantity"], kind.name);
    const Json& fit = l["fit"];
    EXPECT_EQ(fit["degree"], 4);
    EXPECT_EQ(fit["basis"], std::string(kind.valueKey) + " = sum c[k] * (flow_m3_h)^k");
    ASSERT_EQ(l["samples"].size(), 21U);
    for (const Json& sample : l["samples"]) {
        const double flow = sample["flow_m3_h"];
        double value = 0.0;
        for (std::size_t k = 0; k < fit["coefficients"].size(); ++k)
            value += fit["coefficients"][k].get<double>() * power(flow, k);
        EXPECT_NEAR(value, sample[kind.valueKey].get<double>(), 1e-9 * 30.0 * kind.size * kind.fromSi);
        EXPECT_NEAR(sample[kind.sigmaKey].get<double>(), 0.05 * kind.size * kind.fromSi, 1e-15);
    }
    EXPECT_NEAR(fit[kind.rmsKey].get<double>(), 0.04 * kind.size * kind.fromSi, 1e-15);
    EXPECT_NEAR(fit[kind.greatestKey].get<double>(), 0.1 * kind.size * kind.fromSi, 1e-15);
    EXPECT_NEAR(fit["flow_range_m3_h"][0].get<double>(), 1.2, 1e-12);
    EXPECT_NEAR(fit["flow_range_m3_h"][1].get<double>(), 15.7, 1e-12);
}

TEST_P(LinesJson, BothCovariancesGiveTheCurvesOwnSigma) {
    const Kind& kind = GetParam();
    const ReadLine l = line(kind.quantity, kind.size);
    const Json fit = documentOf(l)["lines"][0]["fit"];
    const Json& scaled = fit["scaled"];
    EXPECT_EQ(scaled["basis"], "legendre");
    for (const double flow : {1.2, 4.0, 9.9, 15.7}) {
        const double t =
            (flow - scaled["centre_m3_h"].get<double>()) / scaled["half_range_m3_h"].get<double>();
        double plain = 0.0, legendre = 0.0;
        for (std::size_t i = 0; i < 5; ++i) {
            for (std::size_t j = 0; j < 5; ++j) {
                plain += power(flow, i) * power(flow, j) * fit["covariance"][i][j].get<double>();
                legendre += std::legendre(static_cast<unsigned>(i), t) *
                            std::legendre(static_cast<unsigned>(j), t) *
                            scaled["covariance"][i][j].get<double>();
            }
        }
        const double sigma = kind.fromSi * l.fit->curve.sigmaAt(flow / 3600.0);
        EXPECT_NEAR(std::sqrt(legendre), sigma, 1e-9 * sigma);
        // The powers cancel each other over some six digits.
        EXPECT_NEAR(std::sqrt(plain), sigma, 1e-6 * sigma);
    }
}

INSTANTIATE_TEST_SUITE_P(Quantities, LinesJson,
                         testing::Values(Kind{LineQuantity::head, "head", "head_m", "sigma_head_m", "rms_m",
                                              "max_abs_m", 1.0, 1.0},
                                         Kind{LineQuantity::efficiency, "efficiency", "efficiency_share",
                                              "sigma_efficiency_share", "rms_share", "max_abs_share", 0.01,
                                              1.0},
                                         Kind{LineQuantity::power, "power", "power_kW", "sigma_power_kW",
                                              "rms_kW", "max_abs_kW", 50.0, 1e-3},
                                         Kind{LineQuantity::npshRequired, "npsh_required", "npsh_required_m",
                                              "sigma_npsh_required_m", "rms_m", "max_abs_m", 0.1, 1.0}),
                         [](const testing::TestParamInfo<Kind>& of) { return std::string(of.param.name); });

TEST(LinesDocument, LinesOfEqualEfficiencyHaveSamplesInTheHeadPlaneAndNoFit) {
    ReadLine iso = line(LineQuantity::isoEfficiency, 1.0);
    iso.fit.reset();
    iso.levelShare = 0.6;
    const Json l = documentOf(iso)["lines"][0];
    EXPECT_EQ(l["quantity"], "iso_efficiency");
    EXPECT_EQ(l["level_share"], 0.6);
    EXPECT_TRUE(l["fit"].is_null());
    EXPECT_TRUE(l["samples"][0].contains("head_m"));
}

TEST(LinesDocument, SaysTrustAxisAndCautionsOfEachLine) {
    ReadLine doubtful = line(LineQuantity::power, 50.0);
    doubtful.trust = Trust::doubtful;
    doubtful.axis = ValueAxis::right;
    doubtful.powerAtMotorInput = true;
    doubtful.cautions.push_back(
        {"line-lost", Severity::warning, "lines[0]", {{"x_px", 620.0}}, "click-further-on", {}, "rule"});
    const Json document = documentOf(doubtful);
    EXPECT_EQ(document["format"], "headmark-lines");
    EXPECT_EQ(document["version"], 1);
    EXPECT_FALSE(document.contains("cautions"));
    const Json& l = document["lines"][0];
    EXPECT_EQ(l["trust"], "doubtful");
    EXPECT_EQ(l["axis"], "right");
    EXPECT_EQ(l["power_at"], "motor_input");
    EXPECT_EQ(l["cautions"][0],
              Json::parse(R"({"code": "line-lost", "severity": "warning", "place": "lines[0]", "values":
                              {"x_px": 620.0}, "remedy": "click-further-on", "text": "about line-lost",
                              "source": "rule"})"));
}

TEST(LinesDocument, CautionsOfThePinsStandBesideTheMapping) {
    ChartLines chart;
    chart.mappingCautions.push_back({"pins-disagree", Severity::warning, "pins[1]", {}, "", {}, ""});
    const Json document = Json::parse(linesJson(chart, test::PlainWording()));
    EXPECT_EQ(document["mapping"]["model"], "upright");
    EXPECT_EQ(document["cautions"][0]["place"], "pins[1]");
}

} // namespace
} // namespace headmark
