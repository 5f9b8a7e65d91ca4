#include "analysis/water/iapws.h"

#include "analysis/core/assertion.h"

#include <array>
#include <cmath>

namespace headmark::iapws {

namespace {

constexpr double kGasConstant_J_kgK = 461.51805; // SR6-08
constexpr double kReference_K = 10.0;
constexpr double kReference_Pa = 1e5;
constexpr double kColdestLiquid_K = 253.15;
constexpr double kHottestLiquid_K = 383.15;

struct Term {
    double factor;
    int exponent;
};

// SR6-08 Table 1: series in alpha (a) and beta (b) for the isobaric heat capacity (indices 1 to 4), the
// specific volume (5 to 10) and its derivative by pressure (11 to 17).
constexpr std::array kHeatAlpha = {Term{-1.661470539e5, 4}, Term{2.708781640e6, 5}, Term{-1.557191544e8, 7}};
constexpr std::array kHeatBeta = {Term{-8.237426256e-1, 2}, Term{1.908956353, 3}, Term{-2.017597384, 4},
                                  Term{8.546361348e-1, 5}};
constexpr double kHeatConstant = -8.983025854;
constexpr double kVolumeConstant = 1.93763157e-2;
constexpr std::array kVolumeAlpha = {Term{6.74458446e3, 4}, Term{-2.22521604e5, 5}, Term{1.00231247e8, 7},
                                     Term{-1.63552118e9, 8}, Term{8.32299658e9, 9}};
constexpr std::array kVolumeBeta = {Term{5.78545292e-3, 1}, Term{-1.53195665e-2, 2},
                                    Term{3.11337859e-2, 3}, Term{-4.23546241e-2, 4},
                                    Term{3.38713507e-2, 5}, Term{-1.19946761e-2, 6}};
constexpr std::array kStiffnessAlpha = {Term{-7.5245878e-6, 1}, Term{-1.3767418e-2, 3}, Term{1.0627293e1, 5},
                                        Term{-2.0457795e2, 6}, Term{1.2037414e3, 7}};
constexpr std::array kStiffnessBeta = {Term{-3.1091470e-6, 1}, Term{2.8964919e-5, 3},  Term{-1.3112763e-4, 4},
                                       Term{3.0410453e-4, 5},  Term{-3.9034594e-4, 6}, Term{2.3403117e-4, 7},
                                       Term{-4.8510101e-5, 9}};

// SR6-08 viscosity: 1e-6 Pa s, exponents on T/300 K.
constexpr std::array<double, 4> kViscosityFactor = {280.68, 511.45, 61.131, 0.45903};
constexpr std::array<double, 4> kViscosityExponent = {-1.9, -7.7, -19.6, -40.0};

// R7-97 Table 34.
constexpr std::array<double, 10> kSaturation = {
    1167.0521452767, -724213.16703206, -17.073846940092, 12020.82470247,    -3232555.0322333,
    14.91510861353,  -4823.2657361591, 405113.40542057,  -0.23855557567849, 650.17534844798};
constexpr double kFreezing_K = 273.15;
constexpr double kCritical_K = 647.096;

template <class Terms>
double sum(const Terms& terms, double x) {
    double total = 0.0;
    for (const Term& term : terms) {
        total += term.factor * std::pow(x, term.exponent);
    }
    return total;
}

// sum n a x^(n+1): T-derivative of the series in alpha (minus that in beta) times Tr.
template <class Terms>
double firstDerivative(const Terms& terms, double x) {
    double total = 0.0;
    for (const Term& term : terms) {
        total += term.exponent * term.factor * std::pow(x, term.exponent + 1);
    }
    return total;
}

template <class Terms>
double secondDerivative(const Terms& terms, double x) {
    double total = 0.0;
    for (const Term& term : terms) {
        total += term.exponent * (term.exponent + 1) * term.factor * std::pow(x, term.exponent + 2);
    }
    return total;
}

struct Arguments {
    double alpha, beta;
};

Arguments argumentsAt(double temperature_K) {
    HEADMARK_ASSERT(temperature_K >= kColdestLiquid_K && temperature_K <= kHottestLiquid_K,
                    "temperature outside the range of SR6-08");
    return {kReference_K / (593.0 - temperature_K), kReference_K / (temperature_K - 232.0)};
}

double volume_m3_kg(const Arguments& x) {
    return kGasConstant_J_kgK * kReference_K / kReference_Pa *
           (kVolumeConstant + sum(kVolumeAlpha, x.alpha) + sum(kVolumeBeta, x.beta));
}

} // namespace

double liquidDensity_kg_m3(double temperature_K) { return 1.0 / volume_m3_kg(argumentsAt(temperature_K)); }

double liquidViscosity_Pa_s(double temperature_K) {
    HEADMARK_ASSERT(temperature_K >= kColdestLiquid_K && temperature_K <= kHottestLiquid_K,
                    "temperature outside the range of SR6-08");
    double micropascalSeconds = 0.0;
    for (std::size_t i = 0; i < kViscosityFactor.size(); ++i) {
        micropascalSeconds += kViscosityFactor[i] * std::pow(temperature_K / 300.0, kViscosityExponent[i]);
    }
    return micropascalSeconds * 1e-6;
}

double liquidSoundSpeed_m_s(double temperature_K) {
    const Arguments x = argumentsAt(temperature_K);
    const double volume = volume_m3_kg(x);
    const double volumePerKelvin =
        kGasConstant_J_kgK / kReference_Pa *
        (firstDerivative(kVolumeAlpha, x.alpha) - firstDerivative(kVolumeBeta, x.beta));
    const double volumePerPascal = kGasConstant_J_kgK * kReference_K / (kReference_Pa * kReference_Pa) *
                                   (sum(kStiffnessAlpha, x.alpha) + sum(kStiffnessBeta, x.beta));
    const double heatCapacity_J_kgK =
        -kGasConstant_J_kgK *
        (kHeatConstant + temperature_K / kReference_K *
                             (secondDerivative(kHeatAlpha, x.alpha) + secondDerivative(kHeatBeta, x.beta)));
    return volume * std::sqrt(-heatCapacity_J_kgK / (heatCapacity_J_kgK * volumePerPascal +
                                                     temperature_K * volumePerKelvin * volumePerKelvin));
}

double saturationPressure_Pa(double temperature_K) {
    HEADMARK_ASSERT(temperature_K >= kFreezing_K && temperature_K <= kCritical_K,
                    "temperature outside the range of IF97 region 4");
    const auto& n = kSaturation;
    const double theta = temperature_K + n[8] / (temperature_K - n[9]);
    const double a = theta * theta + n[0] * theta + n[1];
    const double b = n[2] * theta * theta + n[3] * theta + n[4];
    const double c = n[5] * theta * theta + n[6] * theta + n[7];
    const double root = 2.0 * c / (-b + std::sqrt(b * b - 4.0 * a * c));
    return 1e6 * root * root * root * root;
}

} // namespace headmark::iapws
