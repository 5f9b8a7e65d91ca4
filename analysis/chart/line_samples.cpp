#include "analysis/chart/line_samples.h"

#include "analysis/chart/median.h"
#include "analysis/units/unit_table.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace headmark {

namespace {

double factorOf(Dimension dimension, const std::string& symbol) {
    const Unit* unit = findUnit(dimension, symbol);
    HEADMARK_ASSERT(unit != nullptr, "a reading's units are checked when it is read");
    return unit->inSi;
}

CurveSense senseOf(LineQuantity quantity) {
    switch (quantity) {
    case LineQuantity::head:
    case LineQuantity::efficiency:
        return CurveSense::oneMaximum;
    case LineQuantity::npshRequired:
        return CurveSense::oneMinimum;
    case LineQuantity::power:
    case LineQuantity::isoEfficiency:
        break;
    }
    return CurveSense::any;
}

// One place of the line with everything its error needs.
struct Raw {
    PixelPoint at;
    MeasuredSample sample;
    Eigen::Matrix2Xd byParameters; // SI
};

class LineBuilder {
  public:
    LineBuilder(const Reading& reading, std::size_t index, const ChartMapping& mapping, const Page& page,
                const TracedLine& traced)
        : reading_(reading), line_(reading.lines[index]), place_("lines[" + std::to_string(index) + "]"),
          mapping_(mapping), page_(page), traced_(traced), factors_(printedFactors(reading, line_.quantity)) {
    }

    Result<ReadLine> run();

  private:
    [[nodiscard]] Raw rawOf(const TracedPoint& point) const;
    [[nodiscard]] bool inRange(const Raw& raw) const;
    void keepSingleValued();
    [[nodiscard]] Result<void> checkItRunsAlongTheFlow() const;
    [[nodiscard]] std::pair<double, double> rangeOfFit() const;
    [[nodiscard]] Result<void> fit();
    [[nodiscard]] double slopeAbout(std::size_t i) const;
    void fillSamples();
    void judge();
    void judgePlace();
    void judgeScale();
    void judgeValues();
    void judgeDroop();
    Caution& caution(const char* code, Severity severity, Facts values);

    const Reading& reading_;
    const ChartLine& line_;
    std::string place_;
    const ChartMapping& mapping_;
    const Page& page_;
    const TracedLine& traced_;
    PrintedFactors factors_;
    std::vector<Raw> raw_;
    std::vector<double> scaleSigmas_; // of the value at each sample, by the pins alone
    double scatter_ = 1.0;            // of the samples about the curve, in their own sigmas
    ReadLine out_;
};

Raw LineBuilder::rawOf(const TracedPoint& point) const {
    Raw raw;
    raw.at = pixelPointOf(point.at, page_);
    const AxisPoint axis = mapping_.axisFromPixel(raw.at, line_.axis);
    raw.sample.flow_m3_s = axis.flow * factors_.flow;
    raw.sample.value = axis.value * factors_.value;
    const Eigen::DiagonalMatrix<double, 2> toSi(factors_.flow, factors_.value);
    const Eigen::Matrix2d byPixel = toSi * mapping_.axisByPixel(raw.at, line_.axis);
    const double sigma = point.sigma_px / page_.scale;
    Eigen::Matrix2d own;
    if (point.clicked) {
        own = sigma * sigma * byPixel * byPixel.transpose();
    } else {
        // Across the line only: along itself a line has no place.
        const Eigen::Vector2d across = byPixel * Eigen::Vector2d(-point.along.y, point.along.x);
        own = sigma * sigma * across * across.transpose();
    }
    raw.sample.varianceFlow = own(0, 0);
    raw.sample.varianceValue = own(1, 1);
    raw.sample.covariance = own(0, 1);
    raw.byParameters = toSi * mapping_.axisByParameters(raw.at, line_.axis, sigma);
    return raw;
}

bool LineBuilder::inRange(const Raw& raw) const {
    const double flow = raw.sample.flow_m3_s / factors_.flow;
    // No pump curve goes on to the left of no flow: that is a tick or a figure of the axis. A pixel or two
    // are the pins' error.
    constexpr double kPinError_px = 2.0;
    const double flowPerPixel = mapping_.axisByPixel(raw.at, line_.axis).row(0).norm();
    if (reading_.flowScale == AxisScale::linear && flow < -kPinError_px * flowPerPixel) return false;
    if (!line_.betweenFlows) return true;
    return flow >= line_.betweenFlows->first && flow <= line_.betweenFlows->second;
}

// A curve lies over a range of flows; a frame or an upright ruling stands at one.
Result<void> LineBuilder::checkItRunsAlongTheFlow() const {
    constexpr double kLeastRun_px =
        12.0; // more than a ruling of a page turned by 1.5 degrees leans in 400 px
    double least = 1e300, greatest = -1e300;
    for (const Raw& r : raw_) {
        least = std::min(least, r.sample.flow_m3_s);
        greatest = std::max(greatest, r.sample.flow_m3_s);
    }
    const double flowPerPixel =
        factors_.flow * mapping_.axisByPixel(raw_[raw_.size() / 2].at, line_.axis).row(0).norm();
    const double run_px = (greatest - least) / flowPerPixel;
    if (run_px >= kLeastRun_px || line_.betweenFlows) return {};
    return Error{"line-too-short", "", place_, {{"length_px", run_px}}};
}

// A curve has one value at a flow. Where the traced way turns back in flow, the longer part is kept.
void LineBuilder::keepSingleValued() {
    const auto flowOf = [&](std::size_t i) { return raw_[i].sample.flow_m3_s; };
    std::size_t bestFirst = 0, bestLast = 0, first = 0;
    double span = 0.0;
    for (const Raw& r : raw_)
        span = std::max(span, std::abs(r.sample.flow_m3_s - raw_.front().sample.flow_m3_s));
    const double back = 0.004 * span; // noise of the centres on a steep stretch
    double highest = raw_.empty() ? 0.0 : flowOf(0);
    for (std::size_t i = 1; i <= raw_.size(); ++i) {
        const bool turns = i == raw_.size() || flowOf(i) < highest - back;
        if (turns) {
            if (i - 1 - first > bestLast - bestFirst) {
                bestFirst = first;
                bestLast = i - 1;
            }
            first = i;
            if (i < raw_.size()) highest = flowOf(i);
        } else {
            highest = std::max(highest, flowOf(i));
        }
    }
    if (raw_.size() > bestLast - bestFirst + 1) {
        raw_ = std::vector<Raw>(raw_.begin() + static_cast<std::ptrdiff_t>(bestFirst),
                                raw_.begin() + static_cast<std::ptrdiff_t>(bestLast + 1));
    }
}

// The curve's range: its samples', and on to the axis at no flow where the line reaches it but for the width
// of the axis itself.
std::pair<double, double> LineBuilder::rangeOfFit() const {
    double least = raw_.front().sample.flow_m3_s, greatest = least;
    for (const Raw& r : raw_) {
        least = std::min(least, r.sample.flow_m3_s);
        greatest = std::max(greatest, r.sample.flow_m3_s);
    }
    const auto first = std::min_element(raw_.begin(), raw_.end(), [](const Raw& a, const Raw& b) {
        return a.sample.flow_m3_s < b.sample.flow_m3_s;
    });
    const double flowPerPixel = factors_.flow * mapping_.axisByPixel(first->at, line_.axis).row(0).norm();
    // Pins and axis are each good to a pixel or two; the axis' own width hides as much of the line.
    const double width = traced_.look ? traced_.look->width_px / page_.scale : 0.0;
    const double reach_px = 6.0 + 2.0 * width;
    const bool open = !line_.betweenFlows || line_.betweenFlows->first <= 0.0;
    if (open && reading_.flowScale == AxisScale::linear && least <= reach_px * flowPerPixel) least = 0.0;
    return {least, greatest};
}

Result<void> LineBuilder::fit() {
    SampleFitOptions options;
    options.sense = senseOf(line_.quantity);
    options.degree = line_.degree;
    const bool followed = std::any_of(traced_.points.begin(), traced_.points.end(),
                                      [](const TracedPoint& p) { return !p.clicked; });
    // Clicked spots come with the sigma the user gave; following tells its own from the scatter.
    options.scaleByResiduals = followed;
    options.robust = followed;
    options.range_m3_s = rangeOfFit();
    std::vector<MeasuredSample> samples;
    SharedError shared;
    const auto parameters = mapping_.covariance().cols();
    shared.flowBy.resize(static_cast<Eigen::Index>(raw_.size()), parameters);
    shared.valueBy.resize(static_cast<Eigen::Index>(raw_.size()), parameters);
    shared.covariance = mapping_.covariance();
    for (std::size_t i = 0; i < raw_.size(); ++i) {
        samples.push_back(raw_[i].sample);
        shared.flowBy.row(static_cast<Eigen::Index>(i)) = raw_[i].byParameters.row(0);
        shared.valueBy.row(static_cast<Eigen::Index>(i)) = raw_[i].byParameters.row(1);
    }
    auto fitted = fitSamples(samples, options, shared);
    if (!fitted) {
        Error e = fitted.error();
        e.place = place_;
        return e;
    }
    out_.fit = std::move(*fitted);
    return {};
}

// Of the curve; of a line that has none, from the samples to both sides, and never quite upright.
double LineBuilder::slopeAbout(std::size_t i) const {
    if (out_.fit) return out_.fit->curve.slopeAt(raw_[i].sample.flow_m3_s);
    constexpr std::size_t kReach = 4;
    const MeasuredSample &a = raw_[i > kReach ? i - kReach : 0].sample,
                         &b = raw_[std::min(i + kReach, raw_.size() - 1)].sample;
    const double run = b.flow_m3_s - a.flow_m3_s, rise = b.value - a.value;
    constexpr double kUpright = 1e-9; // m3/s
    return std::abs(run) + std::abs(rise) > 0.0 ? rise / std::copysign(std::max(std::abs(run), kUpright), run)
                                                : 0.0;
}

// One sigma of the value at its flow: the flow's error enters by the slope of the line there. Places scatter
// about their neighbours less than about the curve where the centre wanders over a stretch (a raster, another
// line's ink): the greater of the two is their error.
void LineBuilder::fillSamples() {
    std::vector<double> own, off;
    for (std::size_t i = 0; i < raw_.size(); ++i) {
        const Raw& raw = raw_[i];
        const double flow = raw.sample.flow_m3_s, slope = slopeAbout(i);
        own.push_back(std::max(raw.sample.varianceValue + slope * slope * raw.sample.varianceFlow -
                                   2.0 * slope * raw.sample.covariance,
                               0.0));
        if (out_.fit && own.back() > 0.0)
            off.push_back((raw.sample.value - out_.fit->curve.at(flow)) / std::sqrt(own.back()));
    }
    const bool followed = std::none_of(traced_.points.begin(), traced_.points.end(),
                                       [](const TracedPoint& p) { return p.clicked; });
    scatter_ = followed ? std::max(normalSpreadOf(off), 1.0) : 1.0;
    for (std::size_t i = 0; i < raw_.size(); ++i) {
        const Raw& raw = raw_[i];
        LineSample s;
        s.at = raw.at;
        s.flow_m3_s = raw.sample.flow_m3_s;
        s.value = raw.sample.value;
        const double slope = slopeAbout(i);
        const Eigen::RowVectorXd g = raw.byParameters.row(1) - slope * raw.byParameters.row(0);
        const double pins = (g * mapping_.covariance() * g.transpose()).value();
        scaleSigmas_.push_back(std::sqrt(std::max(pins, 0.0)));
        s.sigma = std::sqrt(scatter_ * scatter_ * own[i] + std::max(pins, 0.0));
        out_.samples.push_back(s);
    }
}

Caution& LineBuilder::caution(const char* code, Severity severity, Facts values) {
    Caution c;
    c.code = code;
    c.severity = severity;
    c.place = place_;
    c.values = std::move(values);
    out_.cautions.push_back(std::move(c));
    return out_.cautions.back();
}

// Beyond the pins the scale is extrapolated.
void LineBuilder::judgePlace() {
    double flows[2] = {1e300, -1e300}, values[2] = {1e300, -1e300};
    for (const Pin& pin : reading_.pins) {
        const AxisPoint a = mapping_.axisFromPixel(pin.at, line_.axis);
        flows[0] = std::min(flows[0], a.flow);
        flows[1] = std::max(flows[1], a.flow);
        values[0] = std::min(values[0], a.value);
        values[1] = std::max(values[1], a.value);
    }
    const double spareFlow = 0.05 * (flows[1] - flows[0]), spareValue = 0.05 * (values[1] - values[0]);
    const auto beyond = std::count_if(raw_.begin(), raw_.end(), [&](const Raw& r) {
        const double flow = r.sample.flow_m3_s / factors_.flow, value = r.sample.value / factors_.value;
        return flow < flows[0] - spareFlow || flow > flows[1] + spareFlow || value < values[0] - spareValue ||
               value > values[1] + spareValue;
    });
    if (beyond == 0) return;
    const double share = static_cast<double>(beyond) / static_cast<double>(raw_.size());
    caution("line-beyond-pins", share > 0.15 ? Severity::warning : Severity::note, {{"beyond_share", share}});
}

// The pins' own error as a share of the axis: no reading is surer than its scale.
void LineBuilder::judgeScale() {
    if (reading_.valueScale != AxisScale::linear || line_.quantity == LineQuantity::isoEfficiency) return;
    double least = 1e300, greatest = -1e300;
    for (const Pin& pin : reading_.pins) {
        if (!pin.value || pin.axis != line_.axis) continue;
        least = std::min(least, *pin.value * factors_.value);
        greatest = std::max(greatest, *pin.value * factors_.value);
    }
    if (!(greatest > least)) return;
    std::vector<double> shares;
    for (const double sigma : scaleSigmas_)
        shares.push_back(2.0 * sigma / (greatest - least));
    constexpr double kMost = 0.01;
    const double usual = medianOf(shares);
    if (usual <= kMost) return;
    caution("scale-uncertain", Severity::warning, {{"uncertain_share", usual}});
    out_.trust = Trust::doubtful;
}

void LineBuilder::judgeValues() {
    double least = out_.samples.front().value, greatest = least;
    double tolerance = 0.0;
    for (const LineSample& s : out_.samples) {
        least = std::min(least, s.value);
        greatest = std::max(greatest, s.value);
        tolerance = std::max(tolerance, 3.0 * s.sigma);
    }
    tolerance += 0.01 * std::max(std::abs(least), std::abs(greatest));
    const bool efficiency = line_.quantity == LineQuantity::efficiency;
    if (least >= -tolerance && (!efficiency || greatest <= 1.0)) return;
    const char* unit = efficiency ? "%" : line_.quantity == LineQuantity::power ? "kW" : "m";
    const double shown = efficiency ? 100.0 : line_.quantity == LineQuantity::power ? 1e-3 : 1.0;
    caution("value-out-of-sense", Severity::warning,
            {{"least", least * shown}, {"greatest", greatest * shown}, {"unit", std::string(unit)}});
}

// A head curve that rises from shut-off to its maximum by more than its own error.
void LineBuilder::judgeDroop() {
    if (line_.quantity != LineQuantity::head || !out_.fit) return;
    const PolynomialCurve& curve = out_.fit->curve;
    const double top = curve.flowOfMaximum(), start = curve.least_m3_s();
    const double rise = curve.at(top) - curve.at(start);
    constexpr double kM3PerHour = 3600.0;
    const double own = std::max(out_.fit->rms, 0.002 * curve.at(top));
    if (rise <= own) return;
    caution(
        "head-drooping", Severity::warning,
        {{"flow_m3_h", top * kM3PerHour}, {"head_m", curve.at(top)}, {"shutoff_head_m", curve.at(start)}});
}

void LineBuilder::judge() {
    judgePlace();
    if (out_.samples.empty()) return;
    judgeScale();
    judgeValues();
    if (!out_.fit) return;
    judgeDroop();
    if (out_.fit->breaksSense)
        caution("degree-breaks-sense", Severity::warning,
                {{"degree", static_cast<std::int64_t>(out_.fit->curve.degree())}});
    // The curve misses its own samples by far more than they scatter by themselves, and by what can be seen.
    constexpr double kSeen_px = 0.25;
    std::vector<double> off;
    for (std::size_t i = 0; i < raw_.size(); ++i) {
        const LineSample& s = out_.samples[i];
        const double seen =
            kSeen_px * factors_.value * mapping_.axisByPixel(raw_[i].at, line_.axis).row(1).norm();
        off.push_back((s.value - out_.fit->curve.at(s.flow_m3_s)) / std::max(s.sigma / scatter_, seen));
    }
    const double rms = std::sqrt(std::inner_product(off.begin(), off.end(), off.begin(), 0.0) /
                                 static_cast<double>(off.size()));
    constexpr double kMostSigmas = 3.0;
    if (rms > kMostSigmas) {
        caution("fit-off-samples", Severity::warning, {{"rms_sigmas", rms}});
        out_.trust = Trust::doubtful;
    }
}

Result<ReadLine> LineBuilder::run() {
    out_.name = line_.name;
    out_.quantity = line_.quantity;
    out_.axis = line_.axis;
    out_.powerAtMotorInput = line_.powerAtMotorInput;
    out_.levelShare = line_.levelShare;
    out_.trust = traced_.doubtful ? Trust::doubtful : Trust::sure;
    out_.cautions = traced_.cautions;
    for (const TracedPoint& p : traced_.points) {
        Raw raw = rawOf(p);
        if (inRange(raw)) raw_.push_back(std::move(raw));
    }
    if (raw_.empty()) {
        const auto range = line_.betweenFlows.value_or(std::pair(0.0, 0.0));
        return Error{"nothing-between", "", place_, {{"least", range.first}, {"greatest", range.second}}};
    }
    if (line_.quantity != LineQuantity::isoEfficiency) {
        const bool followedOnly = std::none_of(traced_.points.begin(), traced_.points.end(),
                                               [](const TracedPoint& p) { return p.clicked; });
        if (followedOnly) {
            if (auto runs = checkItRunsAlongTheFlow(); !runs) return runs.error();
            keepSingleValued();
        }
        std::stable_sort(raw_.begin(), raw_.end(),
                         [](const Raw& a, const Raw& b) { return a.sample.flow_m3_s < b.sample.flow_m3_s; });
        if (auto fitted = fit(); !fitted) return fitted.error();
    }
    fillSamples();
    judge();
    return std::move(out_);
}

} // namespace

PrintedFactors printedFactors(const Reading& reading, LineQuantity quantity) {
    const PrintedUnits& u = reading.printedUnits;
    PrintedFactors f;
    f.flow = factorOf(Dimension::flow, u.flow);
    switch (quantity) {
    case LineQuantity::head:
    case LineQuantity::isoEfficiency:
        f.value = factorOf(Dimension::head, u.head);
        break;
    case LineQuantity::efficiency:
        f.value = factorOf(Dimension::efficiency, u.efficiency);
        break;
    case LineQuantity::power:
        f.value = factorOf(Dimension::power, u.power);
        break;
    case LineQuantity::npshRequired:
        f.value = factorOf(Dimension::head, u.npshRequired);
        break;
    }
    return f;
}

Result<ReadLine> lineFromTrace(const Reading& reading, std::size_t index, const ChartMapping& mapping,
                               const Page& page, const TracedLine& traced) {
    return LineBuilder(reading, index, mapping, page, traced).run();
}

} // namespace headmark
