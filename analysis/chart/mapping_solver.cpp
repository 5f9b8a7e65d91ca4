#include "analysis/chart/mapping_solver.h"

#include "analysis/chart/mapping_starts.h"
#include "analysis/core/assertion.h"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <optional>
#include <string>
#include <utility>

namespace headmark {

namespace {

// A richer model is taken unless chance alone would lower the chi-square as much in more than this share of
// charts. A low share keeps "upright" for pages turned by what the pins can just not prove, and the intervals
// then miss the truth. By simulation (four corner pins of 0.7 px on 1600 x 1200 px, turned 0 to 1.5 degrees,
// 1000 draws each) 95 % intervals hold the truth at the worst angle in 90 % at 0.05, 92 % at 0.2, 93 % at
// 0.5; the error of an upright page grows by 5 %. Every scan is turned a little, so 0.5. Few are bent out of
// the parallel, and at four pins the perspective costs a tenth more error, so 0.2 there.
constexpr double kAffineSignificance = 0.5;
constexpr double kPerspectiveSignificance = 0.2;
// Below it chance does not explain the pins.
constexpr double kDisagreeSignificance = 0.001;
// Figures closer together than this share of the greater one are one figure.
constexpr double kSameFigureShare = 1e-9;
constexpr double kLeastHalfRange = 1e-100;
// No click by hand is better than this; keeps a stated zero from dividing.
constexpr double kLeastSigma_px = 1e-3;
// Pins that spread less, or figures whose lines lie nearer, tie nothing down: at 0.7 px a scale from two
// places 5 px apart is a fifth off.
constexpr double kLeastSpread_px = 5.0;
// The vanishing line must stay this far (as a share of the determinant at the centre) from pins and clicks.
constexpr double kLeastDeterminantShare = 0.02;

const char* nameOf(MappingModel model) {
    switch (model) {
    case MappingModel::upright:
        return "upright";
    case MappingModel::affine:
        return "affine";
    case MappingModel::perspective:
        return "perspective";
    }
    return "";
}

std::string placeOfPin(std::size_t index, const char* key) {
    return "pins[" + std::to_string(index) + "]." + key;
}

Error errorOf(const char* code, Facts facts = {}) { return {code, "", "pins", std::move(facts)}; }

// P(chi-square > x) for whole degrees of freedom, from Q(x; k + 2) = Q(x; k) + (x/2)^(k/2) e^(-x/2)/Gamma(k/2
// + 1), Abramowitz and Stegun 26.4.8.
double chanceOfMore(double chiSquare, int degreesOfFreedom) {
    if (degreesOfFreedom <= 0) return 1.0;
    const double half = 0.5 * std::max(chiSquare, 0.0);
    double chance = degreesOfFreedom % 2 ? std::erfc(std::sqrt(half)) : std::exp(-half);
    for (int k = degreesOfFreedom % 2 ? 1 : 2; k < degreesOfFreedom; k += 2)
        chance += std::exp(0.5 * k * std::log(half + 1e-300) - half - std::lgamma(0.5 * k + 1.0));
    return std::min(chance, 1.0);
}

std::vector<std::size_t> parametersOf(MappingModel model, bool rightIsOwnScale) {
    std::vector<std::size_t> result = {0, 1, 3, 5};
    if (model == MappingModel::affine) result = {0, 1, 2, 3, 4, 5};
    if (model == MappingModel::perspective) result = {0, 1, 2, 3, 4, 5, 6, 7};
    if (rightIsOwnScale) result.insert(result.end(), {kRight0, kRight1});
    return result;
}

} // namespace

double MappingSolver::Candidate::chance() const { return chanceOfMore(chiSquare, degreesOfFreedom); }

std::optional<Error> MappingSolver::figuresError() const {
    for (std::size_t i = 0; i < reading_.pins.size(); ++i) {
        const Pin& pin = reading_.pins[i];
        HEADMARK_ASSERT(std::isfinite(pin.at.x_px) && std::isfinite(pin.at.y_px) &&
                            std::isfinite(pin.flow.value_or(0.0)) && std::isfinite(pin.value.value_or(0.0)),
                        "pins are finite numbers");
        if (reading_.flowScale == AxisScale::log10 && pin.flow && *pin.flow <= 0.0)
            return Error{"not-on-log-scale", "", placeOfPin(i, "flow"), {{"found", *pin.flow}}};
        if (reading_.valueScale == AxisScale::log10 && pin.value && *pin.value <= 0.0)
            return Error{"not-on-log-scale", "", placeOfPin(i, "value"), {{"found", *pin.value}}};
    }
    return std::nullopt;
}

bool MappingSolver::inUse(ValueAxis axis) const {
    const bool pinned = std::any_of(reading_.pins.begin(), reading_.pins.end(),
                                    [&](const Pin& pin) { return pin.value && pin.axis == axis; });
    return pinned || std::any_of(reading_.lines.begin(), reading_.lines.end(),
                                 [&](const ChartLine& line) { return line.axis == axis; });
}

std::optional<Error> MappingSolver::scaleAxis(ScaledAxis& axis, AxisScale scale,
                                              const std::vector<double>& figures, const char* what) const {
    std::vector<double> sorted = figures;
    std::sort(sorted.begin(), sorted.end());
    std::int64_t found = sorted.empty() ? 0 : 1;
    const auto differ = [](double a, double b) {
        return b - a > kSameFigureShare * std::max(std::abs(a), std::abs(b)) && b - a > kLeastHalfRange;
    };
    for (std::size_t i = 1; i < sorted.size(); ++i)
        found += differ(sorted[i - 1], sorted[i]) ? 1 : 0;
    if (found < 2) return errorOf("too-few-pinned", {{"what", std::string(what)}, {"found", found}});
    const bool log = scale == AxisScale::log10;
    const double low = log ? std::log10(sorted.front()) : sorted.front();
    const double high = log ? std::log10(sorted.back()) : sorted.back();
    axis = {scale, 0.5 * low + 0.5 * high, 0.5 * high - 0.5 * low};
    return std::nullopt;
}

std::optional<Error> MappingSolver::scaleAxes() {
    std::vector<double> flows, left, right;
    for (const Pin& pin : reading_.pins) {
        if (pin.flow) flows.push_back(*pin.flow);
        if (pin.value) (pin.axis == ValueAxis::left ? left : right).push_back(*pin.value);
    }
    if (auto error = scaleAxis(frame_.flow_, reading_.flowScale, flows, "flow")) return error;
    const bool useRight = inUse(ValueAxis::right);
    const bool useLeft = inUse(ValueAxis::left) || !useRight;
    if (useLeft) {
        if (auto error = scaleAxis(frame_.left_, reading_.valueScale, left, "left")) return error;
    }
    if (useRight) {
        if (auto error = scaleAxis(frame_.right_, reading_.valueScale, right, "right")) return error;
    }
    frame_.rightIsOwnScale_ = useLeft && useRight;
    return std::nullopt;
}

std::optional<Error> MappingSolver::scalePixels() {
    box_ = {reading_.pins.front().at, reading_.pins.front().at};
    for (const Pin& pin : reading_.pins) {
        if (pin.flow || pin.value) box_.take(pin.at);
    }
    const double width = box_.greatest.x_px - box_.least.x_px, height = box_.greatest.y_px - box_.least.y_px;
    if (std::min(width, height) < kLeastSpread_px) return errorOf("pins-in-a-row");
    frame_.centre_ = {0.5 * box_.least.x_px + 0.5 * box_.greatest.x_px,
                      0.5 * box_.least.y_px + 0.5 * box_.greatest.y_px};
    frame_.halfExtent_ = 0.5 * std::max(width, height);
    for (const ChartLine& line : reading_.lines) {
        for (const PixelPoint& at : line.followFrom)
            box_.take(at);
        for (const PixelPoint& at : line.spots)
            box_.take(at);
    }
    return std::nullopt;
}

void MappingSolver::collectPins() {
    for (const Pin& pin : reading_.pins) {
        ScaledPin scaled;
        scaled.x = (pin.at.x_px - frame_.centre_.x_px) / frame_.halfExtent_;
        scaled.y = (pin.at.y_px - frame_.centre_.y_px) / frame_.halfExtent_;
        scaled.sigma =
            std::max(pin.sigma_px.value_or(reading_.sigmas.pin_px), kLeastSigma_px) / frame_.halfExtent_;
        if (pin.flow) scaled.u = frame_.flow_.scaledFrom(*pin.flow);
        if (pin.value) scaled.v = frame_.valueAxis(pin.axis).scaledFrom(*pin.value);
        scaled.onOwnScale = frame_.onOwnScale(pin.axis);
        figures_ += (pin.flow ? 1 : 0) + (pin.value ? 1 : 0);
        pins_.push_back(scaled);
    }
    uprightStart_ = uprightStart(pins_, frame_.rightIsOwnScale_);
}

std::vector<MappingParameters> MappingSolver::startsOf(MappingModel model) const {
    std::vector<MappingParameters> starts;
    if (model != MappingModel::upright) {
        if (const auto affine = affineStart(pins_, frame_.rightIsOwnScale_)) starts.push_back(*affine);
    }
    if (starts.empty()) starts.push_back(uprightStart_);
    if (model == MappingModel::perspective) {
        if (const auto perspective = perspectiveStart(pins_, starts.front()))
            starts.insert(starts.begin(), *perspective);
    }
    return starts;
}

// The best of what the starts settle to.
Result<MappingSolver::Candidate> MappingSolver::candidate(MappingModel model) const {
    const std::vector<std::size_t> free = parametersOf(model, frame_.rightIsOwnScale_);
    const int degreesOfFreedom = figures_ - static_cast<int>(free.size());
    if (degreesOfFreedom < 0) {
        return errorOf("mapping-needs-pins", {{"model", std::string(nameOf(model))},
                                              {"pins", static_cast<std::int64_t>(figures_)},
                                              {"needed", static_cast<std::int64_t>(free.size())}});
    }
    std::optional<PinSolution> best;
    for (const MappingParameters& start : startsOf(model)) {
        const auto solution = settle(pins_, free, start);
        if (!solution || !coversPage(solution->parameters)) continue;
        if (!best || solution->chiSquare < best->chiSquare) best = solution;
    }
    if (!best) return errorOf("mapping-not-found", {{"model", std::string(nameOf(model))}});
    if (const auto covariance = covarianceFrom(best->jacobian))
        return Candidate{model,       best->parameters, best->chiSquare, degreesOfFreedom,
                         *covariance, best->jacobian};
    // Left open by pins that fit: they lie badly. By pins that do not fit: it got stuck on the way.
    if (chanceOfMore(best->chiSquare, std::max(degreesOfFreedom, 1)) >= kDisagreeSignificance)
        return errorOf("pins-in-a-row");
    return errorOf("mapping-not-found", {{"model", std::string(nameOf(model))}});
}

// The determinant that carries pixels back to the paper is linear in x and y: of one sign at the corners, it
// is of one sign between them.
bool MappingSolver::coversPage(const MappingParameters& p) const {
    const auto determinant = [&](double x, double y) {
        return (p[1] - p[6] * x) * (p[5] - p[7] * y) - (p[2] - p[7] * x) * (p[4] - p[6] * y);
    };
    const auto scaled = [&](double x_px, double y_px) {
        return std::pair((x_px - frame_.centre_.x_px) / frame_.halfExtent_,
                         (y_px - frame_.centre_.y_px) / frame_.halfExtent_);
    };
    const double middle = determinant(0.0, 0.0);
    for (const double x_px : {box_.least.x_px, box_.greatest.x_px}) {
        for (const double y_px : {box_.least.y_px, box_.greatest.y_px}) {
            const auto [x, y] = scaled(x_px, y_px);
            const double here = determinant(x, y);
            // an upright or affine determinant is the same everywhere, zero included (told by closeFigures)
            if (here != middle && !(here / middle > kLeastDeterminantShare)) return false;
        }
    }
    return true;
}

// How far apart the lines of an axis's least and greatest figure lie, across them, at the middle.
std::optional<Error> MappingSolver::closeFigures(const MappingParameters& p) const {
    const double determinant = std::abs(p[1] * p[5] - p[2] * p[4]);
    const double alongU = std::hypot(p[1], p[4]), alongV = std::hypot(p[2], p[5]);
    const double flow_px = alongV > 0.0 ? 2.0 * frame_.halfExtent_ * determinant / alongV : 0.0;
    const double value_px = alongU > 0.0 ? 2.0 * frame_.halfExtent_ * determinant / alongU : 0.0;
    const auto close = [](const char* what, double distance_px) {
        return errorOf("pins-too-close", {{"what", std::string(what)}, {"distance_px", distance_px}});
    };
    if (!(flow_px >= kLeastSpread_px)) return close("flow", flow_px);
    const bool left = frame_.hasAxis(ValueAxis::left);
    if (!(value_px >= kLeastSpread_px)) return close(left ? "left" : "right", value_px);
    const double right_px = value_px * std::abs(p[kRight1]);
    if (frame_.rightIsOwnScale_ && !(right_px >= kLeastSpread_px)) return close("right", right_px);
    return std::nullopt;
}

ChartMapping MappingSolver::mappingOf(const Candidate& chosen, double inflation) const {
    ChartMapping mapping = frame_;
    mapping.model_ = chosen.model;
    mapping.parameters_ = chosen.parameters;
    mapping.free_ = parametersOf(chosen.model, frame_.rightIsOwnScale_);
    mapping.covariance_ = chosen.covariance * inflation;
    mapping.chiSquare_ = chosen.chiSquare;
    mapping.degreesOfFreedom_ = chosen.degreesOfFreedom;
    double squares = 0.0;
    int counted = 0;
    for (std::size_t i = 0; i < reading_.pins.size(); ++i) {
        const ScaledPin& pin = pins_[i];
        const double distance_px = distanceOf(pin, chosen.parameters) * frame_.halfExtent_;
        mapping.pinResiduals_px_.push_back(distance_px);
        squares += distance_px * distance_px;
        counted += pin.u || pin.v ? 1 : 0;
    }
    mapping.rms_px_ = std::sqrt(squares / counted);
    return mapping;
}

// A last look: nothing that is no number leaves.
Result<ChartMapping> MappingSolver::finished(const Candidate& chosen, bool disagree) const {
    if (auto error = closeFigures(chosen.parameters)) return *error;
    ChartMapping mapping = mappingOf(chosen, disagree ? std::max(1.0, chosen.reduced()) : 1.0);
    mapping.pinsDisagree_ = disagree;
    for (const ValueAxis axis : {ValueAxis::left, ValueAxis::right}) {
        if (!mapping.hasAxis(axis)) continue;
        for (const PixelPoint at : {box_.least, box_.greatest, frame_.centre_}) {
            const AxisPoint point = mapping.axisFromPixel(at, axis);
            const bool finite = std::isfinite(point.flow) && std::isfinite(point.value) &&
                                mapping.axisByPixel(at, axis).allFinite() &&
                                mapping.axisCovariance(at, axis).allFinite();
            if (!finite) return errorOf("mapping-not-found", {{"model", std::string(nameOf(chosen.model))}});
        }
    }
    return mapping;
}

Result<ChartMapping> MappingSolver::forced(MappingModel model) const {
    if (model == MappingModel::upright) {
        if (auto error = closeFigures(uprightStart_)) return *error;
    }
    const auto solved = candidate(model);
    if (!solved) return solved.error();
    return finished(*solved, solved->chance() < kDisagreeSignificance);
}

// Whether the richer model explains the pins by more than chance does.
bool MappingSolver::needed(const Candidate& richer, const Candidate& simple) {
    const double level =
        richer.model == MappingModel::perspective ? kPerspectiveSignificance : kAffineSignificance;
    return chanceOfMore(simple.chiSquare - richer.chiSquare,
                        simple.degreesOfFreedom - richer.degreesOfFreedom) < level;
}

Result<ChartMapping> MappingSolver::simplest() const {
    std::vector<Candidate> candidates;
    for (const MappingModel model :
         {MappingModel::upright, MappingModel::affine, MappingModel::perspective}) {
        const auto next = candidate(model);
        if (next.ok() && !closeFigures(next->parameters)) candidates.push_back(*next);
    }
    const auto plausible = [](const Candidate& some) { return some.chance() >= kDisagreeSignificance; };
    if (!candidates.empty() && std::none_of(candidates.begin(), candidates.end(), plausible)) {
        const auto best = std::min_element(
            candidates.begin(), candidates.end(),
            [](const Candidate& a, const Candidate& b) { return a.reduced() < b.reduced(); });
        return finished(*best, true);
    }
    for (auto simple = candidates.begin(); simple != candidates.end(); ++simple) {
        const bool enough = std::none_of(simple + 1, candidates.end(),
                                         [&](const Candidate& richer) { return needed(richer, *simple); });
        if (enough) return finished(*simple, false);
    }
    if (auto error = closeFigures(uprightStart_)) return *error;
    return errorOf("mapping-not-found", {{"model", std::string(nameOf(MappingModel::upright))}});
}

Result<ChartMapping> solveMapping(const Reading& reading) { return MappingSolver(reading).solve(); }

Result<ChartMapping> solveMapping(const Reading& reading, const std::vector<KnownRuling>& rulings) {
    MappingSolver solver(reading);
    auto pinned = solver.solve();
    if (!pinned || pinned->pinsDisagree()) return pinned;
    return solver.refined(*pinned, rulings);
}

} // namespace headmark
