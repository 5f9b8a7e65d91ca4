#include "analysis/chart/mapping.h"
#include "analysis/chart/mapping_starts.h"
#include "analysis/chart/pin_residuals.h"
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

using namespace mapping_detail;

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

struct Box {
    PixelPoint least, greatest;

    void take(PixelPoint at) {
        least = {std::min(least.x_px, at.x_px), std::min(least.y_px, at.y_px)};
        greatest = {std::max(greatest.x_px, at.x_px), std::max(greatest.y_px, at.y_px)};
    }
};

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

class MappingSolver {
  public:
    explicit MappingSolver(const Reading& reading) : reading_(reading) {}

    Result<ChartMapping> solve() {
        if (auto error = figuresError()) return *error;
        if (auto error = scaleAxes()) return *error;
        if (auto error = scalePixels()) return *error;
        collectPins();
        return reading_.mapping ? forced(*reading_.mapping) : simplest();
    }
    // By the rulings as well; `pinned` where they and the pins do not agree. After solve().
    ChartMapping refined(const ChartMapping& pinned, const std::vector<KnownRuling>& rulings);

  private:
    struct Candidate {
        MappingModel model = MappingModel::upright;
        MappingParameters parameters{};
        double chiSquare = 0.0;
        int degreesOfFreedom = 0;
        Eigen::MatrixXd covariance;
        double chance() const { return chanceOfMore(chiSquare, degreesOfFreedom); }
        double reduced() const { return chiSquare / std::max(degreesOfFreedom, 1); }
    };

    std::optional<Error> figuresError() const;
    std::optional<Error> scaleAxes();
    std::optional<Error> scalePixels();
    void collectPins();
    bool inUse(ValueAxis axis) const;
    std::optional<Error> scaleAxis(ScaledAxis& axis, AxisScale scale, const std::vector<double>& figures,
                                   const char* what) const;

    std::vector<MappingParameters> startsOf(MappingModel model) const;

    Result<Candidate> candidate(MappingModel model) const;
    bool coversPage(const MappingParameters& parameters) const;
    std::optional<Error> closeFigures(const MappingParameters& parameters) const;
    ChartMapping mappingOf(const Candidate& chosen, double inflation) const;
    Result<ChartMapping> finished(const Candidate& chosen, bool disagree) const;
    Result<ChartMapping> forced(MappingModel model) const;
    static bool needed(const Candidate& richer, const Candidate& simple);
    Result<ChartMapping> simplest() const;

    struct RulingPlace {
        std::size_t ruling = 0;
        bool upright = false;
        double u = 0.0, v = 0.0; // where the mapping puts it
        double off = 0.0;        // from its figure, scaled like u and v
        double pixels = 0.0;     // the same in pixels
    };
    void addRulings(const std::vector<KnownRuling>& rulings, double sigma_px);
    std::vector<RulingPlace> placesOf(const ChartMapping& mapping,
                                      const std::vector<KnownRuling>& rulings) const;
    void uncurl(ChartMapping& mapping, const std::vector<KnownRuling>& rulings) const;
    std::optional<Candidate> simplestWithRulings() const;
    double rulingSpread(const ChartMapping& mapping, const std::vector<KnownRuling>& rulings) const;

    const Reading& reading_;
    ChartMapping frame_; // scales and centre; every solution starts from it
    std::vector<ScaledPin> pins_;
    Box box_; // of pins and clicks
    int figures_ = 0;
    MappingParameters uprightStart_{};
};

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
        return Candidate{model, best->parameters, best->chiSquare, degreesOfFreedom, *covariance};
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
    for (const ScaledPin& pin : pins_) {
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

// Every place of a ruling is a pin without its other figure.
void MappingSolver::addRulings(const std::vector<KnownRuling>& rulings, double sigma_px) {
    const ValueAxis axis = frame_.hasAxis(ValueAxis::left) ? ValueAxis::left : ValueAxis::right;
    for (const KnownRuling& ruling : rulings) {
        for (const PixelPoint at : ruling.places) {
            ScaledPin scaled;
            scaled.x = (at.x_px - frame_.centre_.x_px) / frame_.halfExtent_;
            scaled.y = (at.y_px - frame_.centre_.y_px) / frame_.halfExtent_;
            // A ruling may be printed or rastered off its place as a whole: its places share that.
            scaled.sigma =
                sigma_px * std::sqrt(static_cast<double>(ruling.places.size())) / frame_.halfExtent_;
            if (ruling.upright)
                scaled.u = frame_.flow_.scaledFrom(ruling.figure);
            else
                scaled.v = frame_.valueAxis(axis).scaledFrom(ruling.figure);
            figures_ += 1;
            pins_.push_back(scaled);
        }
    }
}

std::vector<MappingSolver::RulingPlace>
MappingSolver::placesOf(const ChartMapping& mapping, const std::vector<KnownRuling>& rulings) const {
    const ValueAxis axis = frame_.hasAxis(ValueAxis::left) ? ValueAxis::left : ValueAxis::right;
    std::vector<RulingPlace> places;
    for (std::size_t k = 0; k < rulings.size(); ++k) {
        for (const PixelPoint at : rulings[k].places) {
            const ChartMapping::Place place = mapping.placeOf(at);
            RulingPlace p{k, rulings[k].upright, place.u, place.v, 0.0, 0.0};
            p.off = p.upright ? frame_.flow_.scaledFrom(rulings[k].figure) - place.flatU
                              : frame_.valueAxis(axis).scaledFrom(rulings[k].figure) - place.flatV;
            const Eigen::Matrix2d byPixel = mapping.pixelByPlace(place);
            p.pixels = p.off * frame_.halfExtent_ * byPixel.col(p.upright ? 0 : 1).norm();
            places.push_back(p);
        }
    }
    return places;
}

namespace {

// Normal-consistent spread, from the median.
double spreadOf(std::vector<double> off) {
    for (double& one : off)
        one = std::abs(one);
    const auto middle = off.begin() + static_cast<std::ptrdiff_t>(off.size() / 2);
    std::nth_element(off.begin(), middle, off.end());
    constexpr double kMedianToSigma = 1.4826;
    return kMedianToSigma * *middle;
}

} // namespace

// What the rulings leave, as smooth shifts of u and v. Each ruling counts as one place in the sense of the
// other direction: the degree there stays below the number of rulings.
void MappingSolver::uncurl(ChartMapping& mapping, const std::vector<KnownRuling>& rulings) const {
    const std::vector<RulingPlace> before = placesOf(mapping, rulings);
    SmoothWarp warp;
    warp.active = true;
    for (const bool upright : {false, true}) {
        const auto count = std::count_if(rulings.begin(), rulings.end(),
                                         [&](const KnownRuling& r) { return r.upright == upright; });
        if (count < 2) continue;
        const int across = count >= 6 ? 2 : 1;
        std::vector<int> used;
        int k = 0;
        for (int i = 0; i <= SmoothWarp::kDegree; ++i)
            for (int j = 0; i + j <= SmoothWarp::kDegree; ++j, ++k)
                if ((upright ? i : j) <= across) used.push_back(k);
        std::vector<RulingPlace> places;
        for (const RulingPlace& p : before)
            if (p.upright == upright) places.push_back(p);
        constexpr std::size_t kSpare = 4;
        if (places.size() < used.size() + kSpare) continue;
        const auto rows = static_cast<Eigen::Index>(places.size()),
                   columns = static_cast<Eigen::Index>(used.size());
        Eigen::MatrixXd a(rows, columns);
        Eigen::VectorXd b(rows), weight = Eigen::VectorXd::Ones(rows);
        for (Eigen::Index r = 0; r < rows; ++r) {
            const RulingPlace& p = places[static_cast<std::size_t>(r)];
            const SmoothWarp::Coefficients t = SmoothWarp::terms(p.u, p.v);
            for (Eigen::Index c = 0; c < columns; ++c)
                a(r, c) = t[used[static_cast<std::size_t>(c)]];
            b[r] = p.off;
        }
        Eigen::VectorXd x;
        constexpr int kRounds = 4; // Cauchy's weights
        for (int round = 0; round < kRounds; ++round) {
            const Eigen::VectorXd root = weight.cwiseSqrt();
            x = (root.asDiagonal() * a).colPivHouseholderQr().solve(root.asDiagonal() * b);
            const Eigen::VectorXd left = b - a * x;
            const double spread = std::max(spreadOf({left.begin(), left.end()}), 1e-6);
            weight = (1.0 + (left / (2.4 * spread)).array().square()).inverse().matrix();
        }
        for (Eigen::Index c = 0; c < columns; ++c)
            (upright ? warp.u : warp.v)[used[static_cast<std::size_t>(c)]] = x[c];
    }
    ChartMapping flat = mapping;
    flat.warp_ = warp;
    const std::vector<RulingPlace> after = placesOf(flat, rulings);
    const auto squares = [](const std::vector<RulingPlace>& places) {
        double sum = 0.0;
        for (const RulingPlace& p : places)
            sum += std::min(p.pixels * p.pixels, 25.0);
        return sum / static_cast<double>(places.size());
    };
    // Flat paper stays flat: what a warp takes from the rulings' own scatter is no curl.
    constexpr double kTakesAway = 0.4, kLeast_px = 0.3;
    if (squares(after) > kTakesAway * squares(before) || squares(before) < kLeast_px * kLeast_px) return;
    for (const RulingPlace& p : before) {
        const Eigen::Vector2d shift = warp.shift(p.u, p.v);
        flat.warp_px_ =
            std::max(flat.warp_px_, shift.norm() * frame_.halfExtent_ * std::abs(flat.parameters_[1]));
    }
    mapping = flat;
}

// The simplest model that is not much worse than the next; the rulings' scatter is their sigma already.
std::optional<MappingSolver::Candidate> MappingSolver::simplestWithRulings() const {
    std::vector<Candidate> candidates;
    for (const MappingModel model :
         {MappingModel::upright, MappingModel::affine, MappingModel::perspective}) {
        if (reading_.mapping && *reading_.mapping != model) continue;
        const auto next = candidate(model);
        if (next.ok() && !closeFigures(next->parameters)) candidates.push_back(*next);
    }
    for (auto simple = candidates.begin(); simple != candidates.end(); ++simple) {
        if (std::none_of(simple + 1, candidates.end(),
                         [&](const Candidate& richer) { return needed(richer, *simple); }))
            return *simple;
    }
    return std::nullopt;
}

// How far rulings as a whole lie off their figures, one sigma, for as many as there are parameters.
double MappingSolver::rulingSpread(const ChartMapping& mapping,
                                   const std::vector<KnownRuling>& rulings) const {
    std::vector<double> sums(rulings.size(), 0.0);
    std::vector<double> within;
    for (const RulingPlace& p : placesOf(mapping, rulings)) {
        sums[p.ruling] += p.pixels;
        within.push_back(p.pixels);
    }
    for (std::size_t k = 0; k < rulings.size(); ++k)
        sums[k] /= static_cast<double>(std::max<std::size_t>(rulings[k].places.size(), 1));
    constexpr double kOfMean = 0.35;
    // Each ruling tells a place and a direction.
    const double told = 2.0 * static_cast<double>(rulings.size());
    const double spare = std::max(told - static_cast<double>(mapping.free_.size()), 1.0);
    // The places of one ruling scatter on their own as well, to a part that their mean keeps.
    return std::max(spreadOf(sums) * std::sqrt(told / spare), kOfMean * spreadOf(within));
}

ChartMapping MappingSolver::refined(const ChartMapping& pinned, const std::vector<KnownRuling>& rulings) {
    if (rulings.empty()) return pinned;
    // Rulings are rastered to half a pixel by some programs, to a hundredth by others, and scanners bend the
    // page by some tenths: less than this no scatter among them proves.
    constexpr double kLeastSigma = 0.3, kMostSigma = 3.0;
    constexpr double kAgree = 4.0; // sigmas of a pin
    const std::size_t pins = pins_.size();
    const int figures = figures_;
    double sigma_px = 1.0;
    std::optional<ChartMapping> best;
    constexpr int kRounds = 3; // the first chooses the model by guess, the next two by the scatter it leaves
    for (int round = 0; round < kRounds; ++round) {
        pins_.resize(pins);
        figures_ = figures;
        addRulings(rulings, sigma_px);
        const auto chosen = simplestWithRulings();
        if (!chosen) return pinned;
        std::vector<ScaledPin> all = pins_;
        pins_.resize(pins);
        best = mappingOf(*chosen, 1.0);
        pins_ = std::move(all);
        uncurl(*best, rulings);
        const double spread = rulingSpread(*best, rulings);
        if (spread > kMostSigma) return pinned;
        sigma_px = std::max(spread, kLeastSigma);
    }
    for (std::size_t i = 0; i < reading_.pins.size(); ++i) {
        const double sigma = reading_.pins[i].sigma_px.value_or(reading_.sigmas.pin_px);
        const double curl = best->warp_.active ? best->warp_px_ : 0.0;
        if (best->pinResiduals_px_[i] > kAgree * std::max(sigma, kLeastSigma) + curl) return pinned;
    }
    best->rulings_ = rulings.size();
    return *best;
}

Result<ChartMapping> solveMapping(const Reading& reading) { return MappingSolver(reading).solve(); }

Result<ChartMapping> solveMapping(const Reading& reading, const std::vector<KnownRuling>& rulings) {
    MappingSolver solver(reading);
    auto pinned = solver.solve();
    if (!pinned || pinned->pinsDisagree()) return pinned;
    return solver.refined(*pinned, rulings);
}

} // namespace headmark
