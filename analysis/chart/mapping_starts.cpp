#include "analysis/chart/mapping_starts.h"

#include <Eigen/Dense>

#include <cmath>
#include <utility>

namespace headmark::mapping_detail {

namespace {

// Least squares of `values` on 1 and the columns; none where the columns do not determine it.
std::optional<Eigen::VectorXd> leastSquares(const Eigen::MatrixXd& rows, const Eigen::VectorXd& values) {
    if (rows.rows() < rows.cols()) return std::nullopt;
    Eigen::ColPivHouseholderQR<Eigen::MatrixXd> qr(rows);
    qr.setThreshold(1e-7);
    if (qr.rank() < rows.cols()) return std::nullopt;
    return qr.solve(values);
}

std::optional<Eigen::VectorXd> leastSquares(const std::vector<std::vector<double>>& rows,
                                            const std::vector<double>& values) {
    if (rows.empty()) return std::nullopt;
    Eigen::MatrixXd matrix(static_cast<Eigen::Index>(rows.size()),
                           static_cast<Eigen::Index>(rows.front().size()));
    for (Eigen::Index i = 0; i < matrix.rows(); ++i)
        for (Eigen::Index k = 0; k < matrix.cols(); ++k)
            matrix(i, k) = rows[static_cast<std::size_t>(i)][static_cast<std::size_t>(k)];
    return leastSquares(
        matrix, Eigen::Map<const Eigen::VectorXd>(values.data(), static_cast<Eigen::Index>(values.size())));
}

} // namespace

// x on u, and y on the figures of each value axis: three straight lines.
MappingParameters uprightStart(const std::vector<ScaledPin>& pins, bool rightIsOwnScale) {
    const auto line = [&](auto&& figureOf, bool ofX) {
        std::vector<std::vector<double>> rows;
        std::vector<double> values;
        for (const ScaledPin& pin : pins) {
            const std::optional<double> figure = figureOf(pin);
            if (!figure) continue;
            rows.push_back({1.0 / pin.sigma, *figure / pin.sigma});
            values.push_back((ofX ? pin.x : pin.y) / pin.sigma);
        }
        const auto solved = leastSquares(rows, values);
        return solved ? std::pair((*solved)[0], (*solved)[1]) : std::pair(0.0, 0.0);
    };
    const auto [x0, x1] = line([](const ScaledPin& pin) { return pin.u; }, true);
    const auto [y0, y1] =
        line([](const ScaledPin& pin) { return pin.onOwnScale ? std::nullopt : pin.v; }, false);
    MappingParameters result{x0, x1, 0.0, y0, 0.0, y1, 0.0, 0.0, 0.0, 1.0};
    if (rightIsOwnScale && std::abs(y1) > 0.0) {
        const auto [s0, s1] =
            line([](const ScaledPin& pin) { return pin.onOwnScale ? pin.v : std::nullopt; }, false);
        result[kRight0] = (s0 - y0) / y1;
        result[kRight1] = s1 / y1;
    }
    return result;
}

// The inverse mapping is linear in its own unknowns, half pins included: u = e0 + e1 x + e2 y, v likewise.
// Pages lying on their side are found this way too.
std::optional<MappingParameters> affineStart(const std::vector<ScaledPin>& pins, bool rightIsOwnScale) {
    const auto plane = [&](auto&& figureOf) {
        std::vector<std::vector<double>> rows;
        std::vector<double> values;
        for (const ScaledPin& pin : pins) {
            const std::optional<double> figure = figureOf(pin);
            if (!figure) continue;
            rows.push_back({1.0, pin.x, pin.y});
            values.push_back(*figure);
        }
        return leastSquares(rows, values);
    };
    const auto u = plane([](const ScaledPin& pin) { return pin.u; });
    const auto v = plane([](const ScaledPin& pin) { return pin.onOwnScale ? std::nullopt : pin.v; });
    if (!u || !v) return std::nullopt;
    Eigen::Matrix2d inverse;
    inverse << (*u)[1], (*u)[2], (*v)[1], (*v)[2];
    if (std::abs(inverse.determinant()) < 1e-9) return std::nullopt;
    const Eigen::Matrix2d forward = inverse.inverse();
    const Eigen::Vector2d centre = -forward * Eigen::Vector2d((*u)[0], (*v)[0]);
    MappingParameters result{centre[0],     forward(0, 0), forward(0, 1), centre[1], forward(1, 0),
                             forward(1, 1), 0.0,           0.0,           0.0,       1.0};
    if (!rightIsOwnScale) return result;
    std::vector<std::vector<double>> rows;
    std::vector<double> values;
    for (const ScaledPin& pin : pins) {
        if (!pin.onOwnScale || !pin.v) continue;
        rows.push_back({1.0, *pin.v});
        values.push_back((*v)[0] + (*v)[1] * pin.x + (*v)[2] * pin.y);
    }
    const auto right = leastSquares(rows, values);
    if (!right) return std::nullopt;
    result[kRight0] = (*right)[0];
    result[kRight1] = (*right)[1];
    return result;
}

// Multiplied out, the perspective equations are linear in its eight unknowns at every full pin.
std::optional<MappingParameters> perspectiveStart(const std::vector<ScaledPin>& pins,
                                                  const MappingParameters& near) {
    std::vector<std::vector<double>> rows;
    std::vector<double> values;
    for (const ScaledPin& pin : pins) {
        if (!pin.u || !pin.v) continue;
        const double u = *pin.u;
        const double v = pin.onOwnScale ? near[kRight0] + near[kRight1] * *pin.v : *pin.v;
        rows.push_back({1.0, u, v, 0.0, 0.0, 0.0, -u * pin.x, -v * pin.x});
        values.push_back(pin.x);
        rows.push_back({0.0, 0.0, 0.0, 1.0, u, v, -u * pin.y, -v * pin.y});
        values.push_back(pin.y);
    }
    const auto solved = leastSquares(rows, values);
    if (!solved) return std::nullopt;
    MappingParameters result = near;
    for (Eigen::Index k = 0; k < 8; ++k)
        result[static_cast<std::size_t>(k)] = (*solved)[k];
    return result;
}

} // namespace headmark::mapping_detail
