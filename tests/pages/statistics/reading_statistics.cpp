#include "tests/pages/statistics/reading_statistics.h"

#include "analysis/duty/case_solver.h"
#include "analysis/duty/intervals.h"
#include "analysis/units/unit_table.h"
#include "tests/pages/dice.h"

#include <algorithm>
#include <cmath>
#include <iomanip>
#include <random>

namespace headmark::pages {

namespace {

double factorOf(Dimension dimension, const std::string& symbol) { return findUnit(dimension, symbol)->inSi; }

// The true duty point and the system curve that has it.
class TrueDuty {
  public:
    TrueDuty(const MadePage& page, const MadeLine& line) {
        constexpr double kAt = 0.6, kStaticShare = 0.5;
        const double flow = line.flowFrom + kAt * (line.flowTo - line.flowFrom);
        flow_m3_s_ = flow * factorOf(Dimension::flow, page.units.flow);
        head_m_ = line.truth(flow) * factorOf(Dimension::head, page.units.head);
        const double flow_m3_h = 3600.0 * flow_m3_s_;
        site_.system = KnownSystem{Head::fromMetres(kStaticShare * head_m_),
                                   (1.0 - kStaticShare) * head_m_ / (flow_m3_h * flow_m3_h),
                                   {}};
    }

    void judge(const PolynomialCurve& curve, LineStatistics& statistics) const {
        const auto model = SiteModel::make(site_, WaterConditions{}, Uncertainty{});
        PumpModel pump;
        pump.head = PumpCurve(curve);
        const CaseSolver solver(model.value(), pump, Limits{});
        Case setting;
        setting.name = "case";
        const DutyIntervals intervals = linearIntervals(solver, setting);
        if (!intervals.ok) {
            ++statistics.dutyLost;
            return;
        }
        const Flow flow = Flow::fromCubicMetresPerHour(3600.0 * flow_m3_s_);
        const Head head = Head::fromMetres(head_m_);
        statistics.dutyFlowHeld.count(intervals.flow.low <= flow && flow <= intervals.flow.high);
        statistics.dutyHeadHeld.count(intervals.head.low <= head && head <= intervals.head.high);
    }

  private:
    Site site_;
    double flow_m3_s_ = 0.0, head_m_ = 0.0;
};

void take(const Comparison& c, LineStatistics& statistics) {
    statistics.doubtful += c.trust == Trust::doubtful ? 1 : 0;
    statistics.sureButWrong += c.trust == Trust::sure && c.rms > kWrong ? 1 : 0;
    statistics.rms.push_back(c.rms);
    statistics.floors.push_back(c.floor);
    statistics.covered.push_back(c.covered);
    statistics.degrees.push_back(c.degree);
    statistics.sigmas.insert(statistics.sigmas.end(), c.sigmas.begin(), c.sigmas.end());
    statistics.errors.insert(statistics.errors.end(), c.errors.begin(), c.errors.end());
    for (const bool held : c.held)
        statistics.held.count(held);
}

} // namespace

void Counted::count(bool is) {
    yes += is ? 1 : 0;
    ++all;
}

void Counted::add(const Counted& other) {
    yes += other.yes;
    all += other.all;
}

double Counted::share() const { return all == 0 ? 0.0 : static_cast<double>(yes) / static_cast<double>(all); }

double medianOf(std::vector<double> values) {
    if (values.empty()) return 0.0;
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

double rmsOf(const std::vector<double>& values) {
    double sum = 0.0;
    for (const double v : values)
        sum += v * v;
    return values.empty() ? 0.0 : std::sqrt(sum / static_cast<double>(values.size()));
}

double LineStatistics::medianRatio() const {
    std::vector<double> ratios;
    for (std::size_t i = 0; i < rms.size(); ++i)
        ratios.push_back(rms[i] / floors[i]);
    return medianOf(ratios);
}

double LineStatistics::sigmaToError() const {
    return errors.empty() ? 0.0 : medianOf(sigmas) / rmsOf(errors);
}

LineStatistics redrawLine(const MadePage& page, const MadeLine& line, int draws) {
    LineStatistics statistics;
    statistics.page = page.name;
    statistics.pageClass = page.pageClass;
    statistics.line = line.name;
    // By its names, so that no two lines share their misplaced pins.
    Dice dice(page.name + "/" + line.name);
    std::mt19937 random(static_cast<std::mt19937::result_type>(dice.next()));
    const bool head = line.quantity == LineQuantity::head;
    const std::optional<TrueDuty> duty =
        head ? std::optional<TrueDuty>(std::in_place, page, line) : std::nullopt;
    for (int k = 0; k < draws; ++k) {
        ++statistics.draws;
        const Comparison c = compare(page, line, readingOf(page, line, RedrawOptions{}, random));
        if (!c.read) {
            ++statistics.refused;
            statistics.refusal = c.refusal;
            continue;
        }
        take(c, statistics);
        if (duty) duty->judge(c.fit->curve, statistics);
    }
    return statistics;
}

std::vector<LineStatistics> redrawPages(const std::vector<std::string>& names, int draws) {
    std::vector<LineStatistics> lines;
    for (const std::string& name : names) {
        const MadePage page = makePage(name);
        for (const MadeLine& line : page.lines)
            if (line.quantity != LineQuantity::isoEfficiency) lines.push_back(redrawLine(page, line, draws));
    }
    return lines;
}

Summary summaryOf(const std::vector<LineStatistics>& lines) {
    Summary s;
    std::vector<double> ratios, sigmaToErrors, sigmas, errors;
    for (const LineStatistics& line : lines) {
        for (std::size_t i = 0; i < line.rms.size(); ++i)
            ratios.push_back(line.rms[i] / line.floors[i]);
        sigmaToErrors.push_back(line.sigmaToError());
        sigmas.insert(sigmas.end(), line.sigmas.begin(), line.sigmas.end());
        errors.insert(errors.end(), line.errors.begin(), line.errors.end());
        s.held.add(line.held);
        s.dutyFlowHeld.add(line.dutyFlowHeld);
        s.dutyHeadHeld.add(line.dutyHeadHeld);
        s.found.add({line.draws - line.refused, line.draws});
        for (const double covered : line.covered)
            s.wholly.count(covered >= kWhole);
        s.sureButWrong += line.sureButWrong;
        s.dutyLost += line.dutyLost;
    }
    s.medianRatio = medianOf(ratios);
    s.sigmaToError = medianOf(sigmaToErrors);
    s.pooledSigmaToError = errors.empty() ? 0.0 : medianOf(sigmas) / rmsOf(errors);
    return s;
}

void printTable(const std::vector<LineStatistics>& lines, std::ostream& out) {
    const auto flags = out.flags();
    const auto precision = out.precision();
    out << "medians over the draws; rms, floor, sigma: permille of the axis span; held, covered: percent\n"
        << std::left << std::setw(22) << "page" << std::setw(14) << "line" << std::right << std::setw(8)
        << "rms" << std::setw(8) << "floor" << std::setw(7) << "ratio" << std::setw(8) << "sigma"
        << std::setw(7) << "s/err" << std::setw(6) << "held" << std::setw(8) << "duty Q" << std::setw(8)
        << "duty H" << std::setw(9) << "covered" << std::setw(8) << "least" << std::setw(5) << "deg"
        << "  refused doubtful wrong\n";
    out << std::fixed;
    for (const LineStatistics& l : lines) {
        const std::vector<double> degrees(l.degrees.begin(), l.degrees.end());
        const double least = l.covered.empty() ? 0.0 : *std::min_element(l.covered.begin(), l.covered.end());
        out << std::left << std::setw(22) << l.page << std::setw(14) << l.line << std::right
            << std::setprecision(2) << std::setw(8) << 1e3 * medianOf(l.rms) << std::setw(8)
            << 1e3 * medianOf(l.floors) << std::setw(7) << l.medianRatio() << std::setw(8)
            << 1e3 * medianOf(l.sigmas) << std::setw(7) << l.sigmaToError() << std::setprecision(0)
            << std::setw(6) << 1e2 * l.held.share() << std::setw(8) << 1e2 * l.dutyFlowHeld.share()
            << std::setw(8) << 1e2 * l.dutyHeadHeld.share() << std::setprecision(1) << std::setw(9)
            << 1e2 * medianOf(l.covered) << std::setw(8) << 1e2 * least << std::setprecision(0)
            << std::setw(5) << medianOf(degrees) << std::setw(9) << l.refused << std::setw(9) << l.doubtful
            << std::setw(6) << l.sureButWrong << "  " << l.refusal << '\n';
    }
    const Summary s = summaryOf(lines);
    out << std::setprecision(3) << "rms/floor " << s.medianRatio << "; sigma/error " << s.sigmaToError
        << " (median over the lines), " << s.pooledSigmaToError << " (all together); held: curve "
        << s.held.share() << ", duty flow " << s.dutyFlowHeld.share() << ", duty head "
        << s.dutyHeadHeld.share() << " of " << s.dutyHeadHeld.all << ", duty lost " << s.dutyLost
        << "; found " << s.found.share() << ", covered whole " << s.wholly.share() << " of " << s.found.all
        << "; sure but wrong " << s.sureButWrong << '\n';
    out.flags(flags);
    out.precision(precision);
}

} // namespace headmark::pages
