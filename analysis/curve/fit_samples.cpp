#include "analysis/curve/fit_samples.h"

#include "analysis/core/assertion.h"
#include "analysis/curve/sample_solver.h"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <numeric>

namespace headmark {
namespace {

using namespace sample_detail;

constexpr int kGreatestFitDegree = 10;
// Cauchy's loss at 2.385 sigmas loses 5 % of efficiency where there are no outliers. Source: Holland and
// Welsch, Communications in Statistics A6 (1977) 813.
constexpr double kRobustScale = 2.385;
// Up to so many samples (clicked spots) their own sigmas judge the degree, chi-square + 2 parameters, since
// scatter and correlation cannot be told from so few; up to a cubic.
constexpr int kFewSamples = 12;
constexpr int kGreatestDegreeOfFew = 3;
// However much neighbours share, AICc counts this many samples: below, its correction would leave a line.
constexpr double kLeastCountForChoice = 16.0;
constexpr double kGreatestCorrelation = 0.98;
// Standard errors at which a correlation is told from chance.
constexpr double kCorrelationSeen = 2.0;
// Residuals below this share of the spread make no degree better than another.
constexpr double kResidualFloor = 1e-9;
// The loss's mean curvature never counts for less.
constexpr double kLeastInfluenceSlope = 0.1;
// Bounds on the slope: in units of the spread over half the range. Tightened until the curve keeps its sense.
constexpr double kFirstMargin = 1e-4, kFirstWeight = 1e4, kTighter = 4.0;
constexpr int kMostTightenings = 6;

enum class Stage { warm, settled, bounded };

struct Attempt {
    SettledCurve curve;
    double criterion = 0.0;
    Stage stage = Stage::warm;
};

// Of the scatter under the loss: mean psi^2 and mean psi', psi = rho'/2.
struct Influence {
    double square = 0.0, slope = 1.0;
};

double lossOf(double z, double loss) {
    return loss > 0.0 ? loss * loss * std::log1p(z * z / (loss * loss)) : z * z;
}

class SampleFitter {
  public:
    SampleFitter(const std::vector<MeasuredSample>& samples, const SampleFitOptions& options,
                 const SharedError& shared);

    Result<SampleFit> fit();

  private:
    std::optional<Error> whyNot() const;
    void scale(int highest);
    int highestChosen() const;
    double chiSquareOf(const SettledCurve& curve) const;
    double criterionOf(const SettledCurve& curve) const;
    std::optional<SettledCurve> bounded(const SettledCurve& free) const;
    std::optional<SettledCurve> boundedAt(const SettledCurve& free, double peak) const;
    std::optional<SettledCurve> chosen() const;
    void judgeScatter(const SettledCurve& richest);
    bool keeps(const SettledCurve& curve) const;
    PolynomialCurve curveFrom(const Eigen::VectorXd& scaled, Eigen::MatrixXd covariance = {}) const;
    Eigen::MatrixXd covarianceOf(const SettledCurve& curve) const;
    double inflationOf(const SettledCurve& curve) const;
    void addLeftOut(Eigen::MatrixXd& covariance) const;
    Influence influenceOf(const SettledCurve& curve) const;
    SampleFit reportOf(const SettledCurve& curve) const;

    const SampleFitOptions& options_;
    std::vector<MeasuredSample> samples_;
    SharedError shared_; // rows in the order of samples_
    Eigen::Index count_ = 0;
    int distinct_ = 0;
    double least_ = 0.0, greatest_ = 1.0, spread_ = 1.0;
    ScaledSamples scaled_;
    double loss_ = 0.0, correlation_ = 0.0, effective_ = 0.0, scatter_ = 1.0;
};

SampleFitter::SampleFitter(const std::vector<MeasuredSample>& samples, const SampleFitOptions& options,
                           const SharedError& shared)
    : options_(options), count_(static_cast<Eigen::Index>(samples.size())) {
    const auto finite = [](const MeasuredSample& s) {
        return std::isfinite(s.flow_m3_s) && std::isfinite(s.value) && std::isfinite(s.varianceFlow) &&
               std::isfinite(s.varianceValue) && std::isfinite(s.covariance) && s.varianceFlow >= 0.0 &&
               s.varianceValue >= 0.0;
    };
    HEADMARK_ASSERT(std::all_of(samples.begin(), samples.end(), finite), "samples are finite numbers");
    const bool sharing = shared.covariance.size() > 0;
    HEADMARK_ASSERT(!sharing || (shared.flowBy.rows() == count_ && shared.valueBy.rows() == count_ &&
                                 shared.flowBy.cols() == shared.covariance.rows() &&
                                 shared.valueBy.cols() == shared.covariance.rows()),
                    "a shared error has a row for each sample");
    std::vector<Eigen::Index> order(samples.size());
    std::iota(order.begin(), order.end(), Eigen::Index{0});
    const auto sampleAt = [&](Eigen::Index i) -> const MeasuredSample& {
        return samples[static_cast<std::size_t>(i)];
    };
    std::stable_sort(order.begin(), order.end(), [&](Eigen::Index a, Eigen::Index b) {
        return std::pair(sampleAt(a).flow_m3_s, sampleAt(a).value) <
               std::pair(sampleAt(b).flow_m3_s, sampleAt(b).value);
    });
    if (sharing) {
        shared_ = shared;
        for (Eigen::Index row = 0; row < count_; ++row) {
            const Eigen::Index from = order[static_cast<std::size_t>(row)];
            shared_.flowBy.row(row) = shared.flowBy.row(from);
            shared_.valueBy.row(row) = shared.valueBy.row(from);
        }
    }
    for (const Eigen::Index i : order) {
        if (samples_.empty() || sampleAt(i).flow_m3_s > samples_.back().flow_m3_s) ++distinct_;
        samples_.push_back(sampleAt(i));
    }
}

std::optional<Error> SampleFitter::whyNot() const {
    const auto points = static_cast<std::int64_t>(count_);
    if (count_ < 2) return Error{"too-few-points", "", "", {{"points", points}}};
    const double size = std::max(std::abs(samples_.front().flow_m3_s), std::abs(samples_.back().flow_m3_s));
    const double width = samples_.back().flow_m3_s - samples_.front().flow_m3_s;
    if (distinct_ < 2 || !(width > 1e-12 * size) || !(width > 1e-100)) {
        return Error{"repeated-flow", "", "", {{"flow_m3_h", samples_.front().flow_m3_s * 3600.0}}};
    }
    if (options_.degree && (*options_.degree > kGreatestFitDegree || *options_.degree >= distinct_)) {
        return Error{"degree-too-high",
                     "",
                     "",
                     {{"degree", static_cast<std::int64_t>(*options_.degree)}, {"points", points}}};
    }
    return std::nullopt;
}

int SampleFitter::highestChosen() const {
    const int bound = count_ <= kFewSamples ? std::min(kGreatestDegreeOfFew, distinct_ - 1)
                                            : std::min(kGreatestFitDegree, distinct_ - 2);
    return std::max(1, std::min(options_.highestDegree, bound));
}

void SampleFitter::scale(int highest) {
    least_ = samples_.front().flow_m3_s;
    greatest_ = samples_.back().flow_m3_s;
    if (options_.range_m3_s) std::tie(least_, greatest_) = *options_.range_m3_s;
    HEADMARK_ASSERT(greatest_ > least_, "a curve needs a range of flows");
    const double centre = 0.5 * least_ + 0.5 * greatest_, halfRange = 0.5 * greatest_ - 0.5 * least_;
    double low = samples_.front().value, high = low;
    for (const MeasuredSample& sample : samples_) {
        low = std::min(low, sample.value);
        high = std::max(high, sample.value);
    }
    spread_ = std::max(high - low, 1e-9 * std::max(std::abs(low), std::abs(high)));
    if (!(spread_ > 1e-100)) spread_ = 1.0;
    scaled_.t.resize(count_);
    scaled_.y = scaled_.varianceT = scaled_.varianceY = scaled_.covariance = scaled_.t;
    for (Eigen::Index i = 0; i < count_; ++i) {
        const MeasuredSample& sample = samples_[static_cast<std::size_t>(i)];
        scaled_.t[i] = (sample.flow_m3_s - centre) / halfRange;
        scaled_.y[i] = sample.value / spread_;
        scaled_.varianceT[i] = sample.varianceFlow / halfRange / halfRange;
        scaled_.varianceY[i] = sample.varianceValue / spread_ / spread_;
        scaled_.covariance[i] = sample.covariance / halfRange / spread_;
    }
    legendre(scaled_.t, highest, scaled_.basis, scaled_.slopes);
}

PolynomialCurve SampleFitter::curveFrom(const Eigen::VectorXd& scaled, Eigen::MatrixXd covariance) const {
    return PolynomialCurve(least_, greatest_, scaled * spread_, std::move(covariance));
}

bool SampleFitter::keeps(const SettledCurve& curve) const {
    return keepsSense(curveFrom(curve.coefficients), options_.sense);
}

double SampleFitter::chiSquareOf(const SettledCurve& curve) const {
    double sum = 0.0;
    for (Eigen::Index i = 0; i < count_; ++i)
        sum += lossOf(curve.residuals[i] / curve.sigma[i], loss_);
    return sum;
}

Influence SampleFitter::influenceOf(const SettledCurve& curve) const {
    Influence sum{0.0, 0.0};
    for (Eigen::Index i = 0; i < count_; ++i) {
        const double z = curve.residuals[i] / curve.sigma[i];
        const double share = loss_ > 0.0 ? z * z / (loss_ * loss_) : 0.0;
        sum.square += z * z / ((1.0 + share) * (1.0 + share));
        sum.slope += (1.0 - share) / ((1.0 + share) * (1.0 + share));
    }
    const auto n = static_cast<double>(count_);
    return {sum.square / n, std::max(sum.slope / n, kLeastInfluenceSlope)};
}

// The loss in units of what one idle parameter takes from it, mean psi^2/mean psi' (Ronchetti, Statistics and
// Probability Letters 3 (1985) 21), with AICc's correction: outliers, alike in all curves, cancel out.
double SampleFitter::criterionOf(const SettledCurve& curve) const {
    const auto parameters = static_cast<double>(curve.coefficients.size());
    const double squares = chiSquareOf(curve);
    if (count_ <= kFewSamples) return squares + 2.0 * parameters;
    const double k = parameters + 1.0; // the scatter is one
    const auto all = static_cast<double>(count_);
    const double n = std::max(effective_, std::min(all, std::max(kLeastCountForChoice, k + 3.0)));
    return n / all * squares / scatter_ + 2.0 * k + 2.0 * k * (k + 1.0) / (n - k - 1.0);
}

// How much neighbours share, from the richest curve, since a poorer one leaves waves that are no scatter.
// Fitting p parameters lowers the lag-one correlation by (p(1 + r) + 2r)/n on average (p = 1: Kendall,
// Biometrika 41 (1954) 403); this is given back.
void SampleFitter::judgeScatter(const SettledCurve& richest) {
    const auto n = static_cast<double>(count_);
    const auto p = static_cast<double>(richest.coefficients.size());
    effective_ = n;
    const Influence influence = influenceOf(richest);
    const double meanSigma = richest.sigma.mean();
    scatter_ = std::max(influence.square / influence.slope * n / std::max(n - p, 1.0),
                        kResidualFloor * kResidualFloor / (meanSigma * meanSigma));
    if (count_ <= kFewSamples || n < 2.0 * p + 4.0) return;
    Eigen::VectorXd z = richest.residuals.cwiseQuotient(richest.sigma);
    const double reach = loss_ > 0.0 ? loss_ : std::numeric_limits<double>::infinity();
    z = z.cwiseMax(-reach).cwiseMin(reach);
    const double squares = z.squaredNorm();
    if (!(squares > 0.0)) return;
    const double lagged = z.head(count_ - 1).dot(z.tail(count_ - 1)) / squares;
    if (lagged < kCorrelationSeen / std::sqrt(n)) return;
    correlation_ = std::min((lagged + p / n) / (1.0 - (p + 2.0) / n), kGreatestCorrelation);
    effective_ = n * (1.0 - correlation_) / (1.0 + correlation_);
}

std::optional<SettledCurve> SampleFitter::boundedAt(const SettledCurve& free, double peak) const {
    TurningBound bound;
    bound.peak = peak;
    bound.upwards = options_.sense == CurveSense::oneMaximum ? 1.0 : -1.0;
    bound.margin = kFirstMargin;
    bound.weight = kFirstWeight;
    Eigen::VectorXd start = free.coefficients;
    for (int round = 0; round < kMostTightenings; ++round) {
        const auto curve = settleCurve(scaled_, start, loss_, bound);
        if (!curve) return std::nullopt;
        if (keeps(*curve)) return curve;
        start = curve->coefficients;
        bound.margin *= kTighter;
        bound.weight *= kTighter;
    }
    return std::nullopt;
}

// The same degree with the slope's sign bound on both sides of the one turning point: where the free curve
// has its extreme, or at an end.
std::optional<SettledCurve> SampleFitter::bounded(const SettledCurve& free) const {
    const double upwards = options_.sense == CurveSense::oneMaximum ? 1.0 : -1.0;
    const double extreme = curveFrom(upwards * free.coefficients).flowOfMaximum();
    const double peak = 2.0 * (extreme - least_) / (greatest_ - least_) - 1.0;
    std::optional<SettledCurve> best;
    for (const double at : {peak, -1.0, 1.0}) {
        if (at == peak && best) continue;
        // the far end only where the extreme lies near it
        if (at != peak && std::abs(at - peak) > 0.5) continue;
        const auto curve = boundedAt(free, at);
        if (curve && (!best || chiSquareOf(*curve) < chiSquareOf(*best))) best = curve;
    }
    return best;
}

// Closed-form curves of all degrees say which to settle first; settling hardly moves the criterion, and
// bounds only raise it.
std::optional<SettledCurve> SampleFitter::chosen() const {
    std::vector<Attempt> attempts;
    for (int degree = 1; degree <= highestChosen(); ++degree) {
        double ignored = 1.0;
        const SettledCurve curve = curveOf(scaled_, warmStart(scaled_, degree, loss_, ignored));
        attempts.push_back({curve, criterionOf(curve), Stage::warm});
    }
    while (!attempts.empty()) {
        const auto best =
            std::min_element(attempts.begin(), attempts.end(),
                             [](const Attempt& a, const Attempt& b) { return a.criterion < b.criterion; });
        if (best->stage != Stage::warm && keeps(best->curve)) return best->curve;
        const auto next = best->stage == Stage::warm ? settleCurve(scaled_, best->curve.coefficients, loss_)
                                                     : bounded(best->curve);
        if (next && best->stage != Stage::bounded) {
            const Stage stage = best->stage == Stage::warm ? Stage::settled : Stage::bounded;
            *best = {*next, criterionOf(*next), stage};
        } else {
            attempts.erase(best);
        }
    }
    return std::nullopt;
}

// By how much the scatter exceeds the samples' sigmas, and what the loss costs: mean psi^2/(mean psi')^2 with
// the parameters taken off the effective count (Huber, Robust Statistics, 1981, section 7.6); at least one.
double SampleFitter::inflationOf(const SettledCurve& curve) const {
    const Influence influence = influenceOf(curve);
    const double spare = effective_ - static_cast<double>(curve.coefficients.size());
    const double reduced = spare >= 1.0 ? influence.square * effective_ / spare : influence.square;
    return std::max(1.0, reduced / (influence.slope * influence.slope)) * (1.0 + correlation_) /
           (1.0 - correlation_);
}

// What the next two terms would add, by a fit that has them: as errors of the last two kept, which are as
// great at the ends and as small between them.
void SampleFitter::addLeftOut(Eigen::MatrixXd& covariance) const {
    constexpr Eigen::Index kMore = 2;
    const Eigen::Index size = covariance.rows();
    if (count_ <= kFewSamples || size < kMore || size + kMore > scaled_.basis.cols() ||
        size + kMore >= distinct_)
        return;
    double ignored = 1.0;
    const Eigen::VectorXd richer = warmStart(scaled_, static_cast<int>(size + kMore) - 1, loss_, ignored);
    for (Eigen::Index k = size - kMore; k < size; ++k)
        covariance(k, k) += richer[k + kMore] * richer[k + kMore];
}

// A at the adjusted flows, as in York 2004: Q_i + (P' s_Q^2 - s_Qy) (y_i - P)/s_i^2.
Eigen::MatrixXd SampleFitter::covarianceOf(const SettledCurve& curve) const {
    const Eigen::Index size = curve.coefficients.size();
    const Eigen::ArrayXd variance = curve.sigma.array().square();
    const Eigen::VectorXd adjusted =
        scaled_.t + ((curve.slope.array() * scaled_.varianceT.array() - scaled_.covariance.array()) *
                     curve.residuals.array() / variance)
                        .max(-1.0)
                        .min(1.0)
                        .matrix();
    Eigen::MatrixXd basis, slopes;
    legendre(adjusted, static_cast<int>(size) - 1, basis, slopes);
    const Eigen::MatrixXd rows = curve.sigma.cwiseInverse().asDiagonal() * basis;
    Eigen::MatrixXd covariance = (rows.transpose() * rows).completeOrthogonalDecomposition().pseudoInverse();
    if (options_.scaleByResiduals) covariance *= inflationOf(curve);
    if (options_.scaleByResiduals && !options_.degree) addLeftOut(covariance);
    if (shared_.covariance.size() > 0) {
        // outliers do not move the curve with the others
        const Eigen::ArrayXd z = curve.residuals.array() / curve.sigma.array();
        const Eigen::VectorXd weight =
            loss_ > 0.0 ? Eigen::VectorXd((1.0 + (z / loss_).square()).inverse() / variance)
                        : Eigen::VectorXd(variance.inverse());
        const Eigen::VectorXd slope = curve.slope * (spread_ / (0.5 * (greatest_ - least_)));
        const Eigen::MatrixXd moved = (shared_.valueBy - slope.asDiagonal() * shared_.flowBy) / spread_;
        const Eigen::MatrixXd normal = basis.transpose() * weight.asDiagonal() * basis;
        const Eigen::MatrixXd by =
            normal.completeOrthogonalDecomposition().solve(basis.transpose() * weight.asDiagonal() * moved);
        covariance += by * shared_.covariance * by.transpose();
    }
    covariance = 0.5 * (covariance + covariance.transpose()).eval();
    return covariance * spread_ * spread_;
}

SampleFit SampleFitter::reportOf(const SettledCurve& curve) const {
    SampleFit fit;
    fit.curve = curveFrom(curve.coefficients, covarianceOf(curve));
    fit.rms = curve.residuals.norm() / std::sqrt(static_cast<double>(count_)) * spread_;
    fit.greatestResidual = curve.residuals.cwiseAbs().maxCoeff() * spread_;
    fit.chiSquare = chiSquareOf(curve);
    fit.effectiveCount = effective_;
    fit.breaksSense = !keeps(curve);
    return fit;
}

Result<SampleFit> SampleFitter::fit() {
    if (auto error = whyNot()) return *error;
    const int highest = std::max(options_.degree.value_or(1), highestChosen());
    constexpr int kMore = 2; // terms that tell what was left out
    scale(highest + kMore);
    const auto notSettled = [&] {
        return Error{"curve-not-settled", "", "", {{"degree", static_cast<std::int64_t>(highest)}}};
    };
    double factor = 1.0;
    const int judging = options_.degree ? std::min(*options_.degree, highest) : highestChosen();
    const Eigen::VectorXd start = warmStart(scaled_, judging, options_.robust ? kRobustScale : 0.0, factor);
    if (options_.robust) loss_ = kRobustScale * factor;
    const auto richest = settleCurve(scaled_, start, loss_);
    if (!richest) return notSettled();
    judgeScatter(*richest);
    const auto curve = options_.degree ? richest : chosen();
    if (!curve) return notSettled();
    SampleFit report = reportOf(*curve);
    const bool finite = report.curve.coefficients().allFinite() && report.curve.covariance().allFinite() &&
                        std::isfinite(report.chiSquare);
    if (!finite) return notSettled();
    return report;
}

} // namespace

Result<SampleFit> fitSamples(const std::vector<MeasuredSample>& samples, const SampleFitOptions& options,
                             const SharedError& shared) {
    HEADMARK_ASSERT(!options.degree || *options.degree >= 0, "a degree is not negative");
    return SampleFitter(samples, options, shared).fit();
}

} // namespace headmark
