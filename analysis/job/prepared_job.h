#pragma once
// A job made ready once and asked many times: single cases, plots and the long section, without the intervals
// and zone sets of the whole answer. What a screen needs while a slider moves.

#include "analysis/core/result.h"
#include "analysis/duty/case_solver.h"
#include "analysis/duty/needs.h"
#include "analysis/job/chart_book.h"
#include "analysis/job/job.h"
#include "analysis/job/made_cases.h"

#include <memory>
#include <optional>
#include <vector>

namespace headmark {

// One curve over flow, in SI (m3/s; m, share, W), ready to draw.
struct CurvePlot {
    std::vector<double> flow_m3_s, value;
    std::vector<double> sigma; // one sigma of the reading; empty: exact
};

struct PumpPlot {
    CurvePlot head; // as printed, at the case's speed or the one at which a drive holds the set point
    double deliveredShare = 0.0;
    std::optional<CurvePlot> efficiency, shaftPower, npshRequired, npshAvailable;
    std::optional<CurvePlot> inputPower; // at the motor's input, where its efficiency or a curve tells
    std::optional<std::pair<double, double>> preferred_m3_s; // flows of the preferred region
};

// One item of the way the water takes, for the long section and the run's table.
struct LongSectionItem {
    std::string place;     // "suction[1]", "pump", "delivery[0]", "zones[2].branch[0]", "tank_return"
    double length_m = 0.0; // of pipe; 0 of anything else
    double flow_m3_s = 0.0;
    double velocity_m_s = 0.0; // 0: no bore known
    double loss_m = 0.0;       // negative: the pump's gain
    double energyBefore_m = 0.0, energyAfter_m = 0.0;
    double levelBefore_m = 0.0, levelAfter_m = 0.0;
};

class PreparedJob {
  public:
    // Errors as analyse(). A job without pumps is welcome: it knows its needs and its system curves.
    // `sameZones`: the site of a job whose zones and water are the same; no zone is worked out again.
    [[nodiscard]] static Result<PreparedJob> make(const Job& job, ChartBook& book,
                                                  const SiteModel* sameZones = nullptr);
    ~PreparedJob();
    PreparedJob(PreparedJob&&) noexcept;
    PreparedJob& operator=(PreparedJob&&) noexcept;

    // The same pumps and zones with another source, suction or delivery run, no chart read and no zone worked
    // out again: for trying a valve or a level. Errors: the site's.
    [[nodiscard]] Result<PreparedJob> withSite(const Site& site) const;

    [[nodiscard]] const Job& job() const;
    [[nodiscard]] std::size_t pumps() const;
    // The job's cases, or the ones made where it gives none (sets of zones at once come with the whole
    // answer).
    [[nodiscard]] const std::vector<MadeCase>& cases() const;
    [[nodiscard]] std::size_t droppedCases() const; // of the made ones, beyond kMostMadeCases

    // Flow and head that each case asks of any pump. The first pump sets the tank return's valve; without one
    // the return is taken to pass its set flow at that head.
    [[nodiscard]] std::vector<Need> needs() const;
    [[nodiscard]] std::optional<Need> need(const Case& setting, std::size_t pump = 0) const;
    // Without intervals; what is to be said of the pump's charts included.
    [[nodiscard]] CaseAnswer answer(std::size_t pump, const Case& setting,
                                    bool fillingEmptyMain = false) const;
    [[nodiscard]] PumpPlot plot(std::size_t pump, const Case& setting) const;
    // Head the site asks at each flow through the pump (duty/system_curve.h), from no flow to `greatest_m3_s`
    // or to a head above what any pump of the job reaches; kinks where a zone begins to flow, upright where
    // no more can flow whatever the head. The tank return's valve stands as `pump` sets it.
    [[nodiscard]] CurvePlot systemCurve(const Case& setting, double greatest_m3_s, std::size_t pump = 0,
                                        bool fillingEmptyMain = false) const;
    // At the duty point; empty where there is none, and for a known system curve.
    [[nodiscard]] std::vector<LongSectionItem> longSection(std::size_t pump, const Case& setting,
                                                           bool fillingEmptyMain = false) const;

    // The parts it is made of, for the whole answer.
    [[nodiscard]] const SiteModel& site() const;
    [[nodiscard]] const CaseSolver& solver(std::size_t pump) const;
    [[nodiscard]] const Cautions& chartCautions(std::size_t pump) const;

  private:
    struct State;
    explicit PreparedJob(std::unique_ptr<State> state);
    std::unique_ptr<State> state_;
};

} // namespace headmark
