#pragma once
// How mapping.h's solveMapping finds its answer: from pins alone (mapping_solver.cpp), then by the rulings as
// well (mapping_by_rulings.cpp). Private to this folder.

#include "analysis/chart/mapping.h"
#include "analysis/chart/pin_residuals.h"
#include "analysis/chart/ruling_scatter.h"

#include <Eigen/Core>

#include <algorithm>
#include <optional>
#include <vector>

namespace headmark {

using namespace mapping_detail;

struct Box {
    PixelPoint least, greatest;

    void take(PixelPoint at) {
        least = {std::min(least.x_px, at.x_px), std::min(least.y_px, at.y_px)};
        greatest = {std::max(greatest.x_px, at.x_px), std::max(greatest.y_px, at.y_px)};
    }
};

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
        Eigen::MatrixXd covariance, jacobian; // of the residuals in their sigmas
        [[nodiscard]] double chance() const;
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
    // Its residuals are those of the reading's own pins.
    ChartMapping mappingOf(const Candidate& chosen, double inflation) const;
    Result<ChartMapping> finished(const Candidate& chosen, bool disagree) const;
    Result<ChartMapping> forced(MappingModel model) const;
    static bool needed(const Candidate& richer, const Candidate& simple);
    Result<ChartMapping> simplest() const;

    // See mapping_by_rulings.cpp.
    struct Scatters {
        RulingScatter level, upright;
    };
    struct Refined {
        ChartMapping mapping;
        Scatters scatters;
    };
    Eigen::MatrixXd covarianceBy(const Candidate& chosen, const std::vector<KnownRuling>& rulings,
                                 const Scatters& scatters) const;
    std::optional<Refined> refinedBy(const std::vector<KnownRuling>& rulings);
    std::optional<std::size_t> suspect(const ChartMapping& mapping, const std::vector<KnownRuling>& rulings,
                                       const Scatters& scatters) const;
    void addRulings(const std::vector<KnownRuling>& rulings, const Scatters& scatters);
    std::vector<RulingPlace> placesOf(const ChartMapping& mapping,
                                      const std::vector<KnownRuling>& rulings) const;
    void settleRightAxis(ChartMapping& mapping, const std::vector<KnownRuling>& rulings) const;
    void uncurl(ChartMapping& mapping, const std::vector<KnownRuling>& rulings) const;
    std::optional<Candidate> richestWithRulings() const;
    std::optional<Candidate> simplestWithRulings() const;
    Scatters scattersOf(const ChartMapping& mapping, const std::vector<KnownRuling>& rulings) const;
    [[nodiscard]] double unseenWave_px(MappingModel model) const;
    void tellDrift(ChartMapping& mapping, const Scatters& scatters) const;
    bool pinsLieWithin(const ChartMapping& mapping) const;

    const Reading& reading_;
    ChartMapping frame_; // scales and centre; every solution starts from it
    std::vector<ScaledPin> pins_;
    Box box_; // of pins and clicks
    int figures_ = 0;
    MappingParameters uprightStart_{};
};

} // namespace headmark
