// The polynomial fit against NIST/ITL Statistical Reference Datasets, linear regression.
// Data in data/nist; certified values from the same source, typed here with all their digits.
// How near: digits = -log10(|computed - certified| / |certified|), the measure NIST itself proposes.

#include "analysis/curve/fit_points.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace headmark {
namespace {

struct Certified {
    std::string name;
    std::vector<double> coefficients;
    std::vector<double> deviations; // empty: zero, an exact polynomial
    double residualDeviation;
    double digits; // bar for coefficients and deviations
};

// gtest names the cases by this.
std::ostream& operator<<(std::ostream& out, const Certified& set) { return out << set.name; }

std::vector<CurveSample> readSet(const std::string& name) {
    std::ifstream file(std::string(HEADMARK_TESTS_DIR) + "/published/data/nist/" + name + ".csv");
    std::vector<CurveSample> samples;
    for (std::string line; std::getline(file, line);) {
        if (line.empty() || line.front() == '#' || line.front() == 'x') continue;
        std::istringstream row(line);
        CurveSample sample{};
        char comma = 0;
        row >> sample.flow_m3_s >> comma >> sample.value;
        samples.push_back(sample);
    }
    return samples;
}

double digitsOf(double computed, double certified) {
    const double error =
        certified != 0.0 ? std::abs(computed - certified) / std::abs(certified) : std::abs(computed);
    return error > 0.0 ? std::min(15.0, -std::log10(error)) : 15.0;
}

using Real = long double;
using Table = std::vector<std::vector<Real>>;

// Column k: the Legendre polynomial P_k((x - centre)/halfRange) in powers of x, from the closed sum
//   P_k(t) = 2^-k sum_m (-1)^m C(k, m) C(2k - 2m, k) t^(k - 2m)   (Abramowitz and Stegun 22.3.8)
// and the binomial theorem: another road than the code's recurrence, in extended precision throughout.
Table rawPowersOfLegendre(Real centre, Real halfRange, int degree) {
    const auto choose = [](int n, int k) {
        Real product = 1.0L;
        for (int i = 1; i <= k; ++i)
            product = product * static_cast<Real>(n - k + i) / static_cast<Real>(i);
        return product;
    };
    Table table(static_cast<std::size_t>(degree) + 1,
                std::vector<Real>(static_cast<std::size_t>(degree) + 1));
    for (int k = 0; k <= degree; ++k) {
        for (int m = 0; 2 * m <= k; ++m) {
            const int power = k - 2 * m;
            const Real factor =
                (m % 2 ? -1.0L : 1.0L) * choose(k, m) * choose(2 * k - 2 * m, k) * std::pow(0.5L, k);
            for (int i = 0; i <= power; ++i) {
                table[static_cast<std::size_t>(i)][static_cast<std::size_t>(k)] +=
                    factor * choose(power, i) * std::pow(-centre, static_cast<Real>(power - i)) /
                    std::pow(halfRange, static_cast<Real>(power));
            }
        }
    }
    return table;
}

Table tableOf(const PolynomialCurve& curve) {
    const Real least = curve.least_m3_s(), greatest = curve.greatest_m3_s();
    return rawPowersOfLegendre((least + greatest) / 2.0L, (greatest - least) / 2.0L, curve.degree());
}

class NistLinear : public ::testing::TestWithParam<Certified> {
  protected:
    void SetUp() override {
        samples_ = readSet(GetParam().name);
        ASSERT_GT(samples_.size(), GetParam().coefficients.size());
        auto fit = fitDegree(samples_, static_cast<int>(GetParam().coefficients.size()) - 1);
        ASSERT_TRUE(fit.ok());
        fit_ = *fit;
    }
    std::vector<CurveSample> samples_;
    PointFit fit_;
};

TEST_P(NistLinear, FitFindsTheCertifiedCoefficients) {
    const Certified& set = GetParam();
    const Table table = tableOf(fit_.curve);
    const Eigen::VectorXd own = fit_.curve.monomial(1.0);
    for (std::size_t i = 0; i < set.coefficients.size(); ++i) {
        Real sum = 0.0L;
        for (std::size_t k = 0; k < table.size(); ++k)
            sum += table[i][k] * fit_.curve.coefficients()[static_cast<Eigen::Index>(k)];
        EXPECT_GE(digitsOf(static_cast<double>(sum), set.coefficients[i]), set.digits) << "B" << i;
        EXPECT_GE(digitsOf(own[static_cast<Eigen::Index>(i)], set.coefficients[i]), set.digits)
            << "B" << i << " as the curve itself converts it";
    }
}

TEST_P(NistLinear, FitFindsTheCertifiedDeviations) {
    const Certified& set = GetParam();
    const auto n = static_cast<double>(samples_.size()), p = static_cast<double>(set.coefficients.size());
    const double deviation = fit_.rms * std::sqrt(n / (n - p));
    if (set.residualDeviation == 0.0) {
        double greatest = 0.0;
        for (const CurveSample& sample : samples_)
            greatest = std::max(greatest, std::abs(sample.value));
        EXPECT_LT(deviation, 1e-14 * greatest);
        return;
    }
    EXPECT_GE(digitsOf(deviation, set.residualDeviation), set.digits);
    const Table table = tableOf(fit_.curve);
    for (std::size_t i = 0; i < set.deviations.size(); ++i) {
        Real variance = 0.0L;
        for (std::size_t k = 0; k < table.size(); ++k) {
            for (std::size_t l = 0; l < table.size(); ++l) {
                variance +=
                    table[i][k] * table[i][l] *
                    fit_.curve.covariance()(static_cast<Eigen::Index>(k), static_cast<Eigen::Index>(l));
            }
        }
        EXPECT_GE(digitsOf(static_cast<double>(std::sqrt(variance)), set.deviations[i]), set.digits)
            << "B" << i;
    }
}

const Certified kSets[] = {
    {"Wampler1", {1, 1, 1, 1, 1, 1}, {}, 0.0, 9.0},
    {"Wampler2", {1.0, 0.1, 0.01, 0.001, 0.0001, 0.00001}, {}, 0.0, 9.0},
    {"Wampler3",
     {1, 1, 1, 1, 1, 1},
     {2152.32624678170, 2363.55173469681, 779.343524331583, 101.475507550350, 5.64566512170752,
      0.112324854679312},
     2360.14502379268,
     9.0},
    {"Wampler4",
     {1, 1, 1, 1, 1, 1},
     {215232.624678170, 236355.173469681, 77934.3524331583, 10147.5507550350, 564.566512170752,
      11.2324854679312},
     236014.502379268,
     9.0},
    {"Wampler5",
     {1, 1, 1, 1, 1, 1},
     {21523262.4678170, 23635517.3469681, 7793435.24331583, 1014755.07550350, 56456.6512170752,
      1123.24854679312},
     23601450.2379268,
     9.0},
    {"Pontius",
     {0.673565789473684E-03, 0.732059160401003E-06, -0.316081871345029E-14},
     {0.107938612033077E-03, 0.157817399981659E-09, 0.486652849992036E-16},
     0.205177424076185E-03,
     9.0},
    {"Filip",
     {-1467.48961422980, -2772.17959193342, -2316.37108160893, -1127.97394098372, -354.478233703349,
      -75.1242017393757, -10.8753180355343, -1.06221498588947, -0.670191154593408E-01, -0.246781078275479E-02,
      -0.402962525080404E-04},
     {298.084530995537, 559.779865474950, 466.477572127796, 227.204274477751, 71.6478660875927,
      15.2897178747400, 2.23691159816033, 0.221624321934227, 0.142363763154724E-01, 0.535617408889821E-03,
      0.896632837373868E-05},
     0.334801051324544E-02,
     7.0},
    {"Norris",
     {-0.262323073774029, 1.00211681802045},
     {0.232818234301152, 0.429796848199937E-03},
     0.884796396144373,
     9.0},
};

INSTANTIATE_TEST_SUITE_P(Published, NistLinear, ::testing::ValuesIn(kSets),
                         [](const auto& one) { return one.param.name; });

} // namespace
} // namespace headmark
