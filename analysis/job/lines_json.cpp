#include "analysis/job/lines_json.h"

#include "analysis/job/cautions_json.h"
#include "analysis/units/unit_factors.h"

namespace headmark {

namespace {

using Json = nlohmann::ordered_json;

double cubicMetresPerHour(double flow_m3_s) { return flow_m3_s / factor::kCubicMetrePerHour_m3_s; }

Json listJson(const Eigen::VectorXd& values) {
    Json list = Json::array();
    for (const double value : values)
        list.push_back(finiteJson(value));
    return list;
}

// A curve without covariance is exact: zeros.
Json squareJson(const Eigen::MatrixXd& covariance, Eigen::Index size) {
    Json rows = Json::array();
    for (Eigen::Index i = 0; i < size; ++i) {
        rows.push_back(covariance.size() > 0 ? listJson(covariance.row(i).transpose())
                                             : listJson(Eigen::VectorXd::Zero(size)));
    }
    return rows;
}

// Column k: the k-th Legendre polynomial of the curve's range in powers of the flow in m3/h.
Eigen::MatrixXd monomialByLegendre(const PolynomialCurve& curve) {
    const Eigen::Index size = curve.coefficients().size();
    Eigen::MatrixXd by(size, size);
    for (Eigen::Index k = 0; k < size; ++k) {
        by.col(k) =
            curve.withCoefficients(Eigen::VectorXd::Unit(size, k)).monomial(factor::kCubicMetrePerHour_m3_s);
    }
    return by;
}

Json scaledJson(const PolynomialCurve& curve, double fromSi) {
    const double least = cubicMetresPerHour(curve.least_m3_s());
    const double greatest = cubicMetresPerHour(curve.greatest_m3_s());
    return {{"centre_m3_h", 0.5 * (least + greatest)},
            {"half_range_m3_h", 0.5 * (greatest - least)},
            {"basis", "legendre"},
            {"coefficients", listJson(fromSi * curve.coefficients())},
            {"covariance", squareJson(fromSi * fromSi * curve.covariance(), curve.coefficients().size())}};
}

Json fitJson(const SampleFit& fit, const LineQuantityKeys& keys) {
    const PolynomialCurve& curve = fit.curve;
    const std::string unit(keys.unit);
    Eigen::MatrixXd covariance;
    if (curve.covariance().size() > 0) {
        const Eigen::MatrixXd by = keys.fromSi * monomialByLegendre(curve);
        covariance = by * curve.covariance() * by.transpose();
    }
    Json json{{"degree", curve.degree()},
              {"coefficients", listJson(keys.fromSi * curve.monomial(factor::kCubicMetrePerHour_m3_s))},
              {"basis", std::string(keys.valueKey) + " = sum c[k] * (flow_m3_h)^k"},
              {"covariance", squareJson(covariance, curve.coefficients().size())},
              {"scaled", scaledJson(curve, keys.fromSi)},
              {"flow_range_m3_h",
               {cubicMetresPerHour(curve.least_m3_s()), cubicMetresPerHour(curve.greatest_m3_s())}}};
    json["rms_" + unit] = finiteJson(keys.fromSi * fit.rms);
    json["max_abs_" + unit] = finiteJson(keys.fromSi * fit.greatestResidual);
    return json;
}

Json samplesJson(const std::vector<LineSample>& samples, const LineQuantityKeys& keys) {
    const std::string valueKey(keys.valueKey);
    Json list = Json::array();
    for (const LineSample& sample : samples) {
        Json one{{"flow_m3_h", finiteJson(cubicMetresPerHour(sample.flow_m3_s))}};
        one[valueKey] = finiteJson(keys.fromSi * sample.value);
        one["px"] = {sample.at.x_px, sample.at.y_px};
        one["sigma_" + valueKey] = finiteJson(keys.fromSi * sample.sigma);
        list.push_back(std::move(one));
    }
    return list;
}

Json lineJson(const ReadLine& line, const Wording& wording) {
    const LineQuantityKeys& keys = keysOf(line.quantity);
    Json json{{"name", line.name},
              {"quantity", keys.name},
              {"axis", line.axis == ValueAxis::right ? "right" : "left"}};
    if (line.quantity == LineQuantity::power)
        json["power_at"] = line.powerAtMotorInput ? "motor_input" : "shaft";
    if (line.levelShare) json["level_share"] = *line.levelShare;
    json["trust"] = line.trust == Trust::doubtful ? "doubtful" : "sure";
    json["samples"] = samplesJson(line.samples, keys);
    json["fit"] = line.fit ? fitJson(*line.fit, keys) : Json(nullptr);
    json["cautions"] = cautionsJson(line.cautions, wording);
    return json;
}

Json mappingJson(const ChartMapping& mapping) {
    Json residuals = Json::array();
    for (const double residual_px : mapping.pinResiduals_px())
        residuals.push_back(finiteJson(residual_px));
    return {{"model", nameOf(mapping.model())},
            {"pin_residuals_px", residuals},
            {"rms_px", finiteJson(mapping.rms_px())}};
}

} // namespace

const LineQuantityKeys& keysOf(LineQuantity quantity) {
    constexpr double kKilowattsPerWatt = 1e-3;
    static constexpr LineQuantityKeys kHead{"head", "head_m", "m", 1.0};
    static constexpr LineQuantityKeys kEfficiency{"efficiency", "efficiency_share", "share", 1.0};
    static constexpr LineQuantityKeys kPower{"power", "power_kW", "kW", kKilowattsPerWatt};
    static constexpr LineQuantityKeys kNpsh{"npsh_required", "npsh_required_m", "m", 1.0};
    static constexpr LineQuantityKeys kIsoEfficiency{"iso_efficiency", "head_m", "m", 1.0};
    switch (quantity) {
    case LineQuantity::head:
        return kHead;
    case LineQuantity::efficiency:
        return kEfficiency;
    case LineQuantity::power:
        return kPower;
    case LineQuantity::npshRequired:
        return kNpsh;
    case LineQuantity::isoEfficiency:
        break;
    }
    return kIsoEfficiency;
}

std::string_view nameOf(MappingModel model) {
    switch (model) {
    case MappingModel::upright:
        return "upright";
    case MappingModel::affine:
        return "affine";
    case MappingModel::perspective:
        break;
    }
    return "perspective";
}

std::string linesJson(const ChartLines& lines, const Wording& wording) {
    Json document{{"format", "headmark-lines"}, {"version", 1}, {"mapping", mappingJson(lines.mapping)}};
    if (!lines.mappingCautions.empty()) document["cautions"] = cautionsJson(lines.mappingCautions, wording);
    document["lines"] = Json::array();
    for (const ReadLine& line : lines.lines)
        document["lines"].push_back(lineJson(line, wording));
    return document.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

} // namespace headmark
