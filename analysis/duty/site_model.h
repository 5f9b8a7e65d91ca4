#pragma once
// A site made ready for computing: every run as elements, and the pipe tree of any case.
// What is not known exactly about the site is a list of parameters, each with one sigma; a tree can be built
// for any draw of them. One error each: the source's level, every outlet's level, every pipe's length, every
// kind of pipe's roughness, every kind of fitting's loss (a catalogue row is wrong everywhere alike), every
// zone's emitters.

#include "analysis/core/result.h"
#include "analysis/duty/site.h"
#include "analysis/pipework/element.h"
#include "analysis/pipework/tree.h"
#include "analysis/water/water.h"

#include <map>
#include <string>
#include <vector>

namespace headmark {

// Which elements an edge of the tree is made of.
struct EdgeElement {
    enum class Run { delivery, branch, tankReturn };
    Run run = Run::delivery;
    std::size_t zone = 0;    // for a branch
    std::size_t element = 0; // index in that run's elements
};

// What an outflow of the tree is.
struct OutflowOf {
    enum class Kind { zone, end, tankReturn, known };
    Kind kind = Kind::zone;
    std::size_t zone = 0;
};

struct SiteTree {
    PipeTree tree;
    std::vector<std::vector<EdgeElement>> edgeElements; // per edge
    std::vector<OutflowOf> outflows;                    // per outflow of the tree
};

struct SiteParameter {
    enum class Kind { sourceLevel, outletLevel, length, roughness, loss, emitter };
    Kind kind = Kind::sourceLevel;
    std::string of;     // item, kind or zone concerned
    double sigma = 0.0; // m for levels, share for the others
};

// Standard deviations away from the described site, one per parameter; empty: as described.
using SiteDraw = std::vector<double>;

struct CaseSetting {
    std::vector<bool> open; // per zone
    WaterLevel level = WaterLevel::usual;
    FilterState filter = FilterState::clean;
    bool fillingEmptyMain =
        false; // the water has only just passed what stands before the first delivery pipe
};

class SiteModel {
  public:
    // Errors: those of elementsOf, with the place inside the site ("site.delivery[2].fitting").
    // `sameZones`: a model whose zones and water are the same; the zones' laws, the costly part, are its own.
    [[nodiscard]] static Result<SiteModel> make(const Site& site, const WaterConditions& water,
                                                const Uncertainty& uncertainty,
                                                const SiteModel* sameZones = nullptr);

    [[nodiscard]] SiteTree tree(const CaseSetting& setting, std::optional<double> returnKv_m3_h = {},
                                const SiteDraw& draw = {}) const;

    [[nodiscard]] const Site& site() const { return site_; }
    [[nodiscard]] const WaterProperties& water() const { return water_; }
    [[nodiscard]] AbsolutePressure air() const { return air_; }
    [[nodiscard]] Temperature temperature() const { return temperature_; } // of the water
    [[nodiscard]] Length altitude() const { return altitude_; }
    [[nodiscard]] const ElementContext& context() const { return context_; }
    [[nodiscard]] const std::vector<SiteParameter>& parameters() const { return parameters_; }
    [[nodiscard]] const std::vector<Element>& suction() const { return suction_; }
    [[nodiscard]] const std::vector<Element>& delivery() const { return delivery_; }
    [[nodiscard]] const std::vector<Element>& branch(std::size_t zone) const { return branches_[zone]; }
    [[nodiscard]] const Element& element(const EdgeElement& which) const;
    [[nodiscard]] const Element* returnPipe() const { return returnPipe_ ? &*returnPipe_ : nullptr; }
    [[nodiscard]] double sourceLevel_m(WaterLevel level, const SiteDraw& draw = {}) const;
    [[nodiscard]] double
    returnLossAt_m(double flow_m3_s) const; // pipe and outlet of the return, without its valve
    [[nodiscard]] double returnOutletLevel_m(WaterLevel level) const;
    // Height of the velocity head lost at the return's or the end's outlet, per flow squared.
    [[nodiscard]] double endVelocityCoefficient() const { return endVelocity_s2_m5_; }

  private:
    SiteModel() = default;
    void listParameters(const Uncertainty& uncertainty);
    [[nodiscard]] double factor(SiteParameter::Kind kind, const std::string& of, const SiteDraw& draw) const;
    [[nodiscard]] double shift_m(SiteParameter::Kind kind, const std::string& of, const SiteDraw& draw) const;
    [[nodiscard]] ElementFactors factorsOf(const Element& element, const std::string& run,
                                           const SiteDraw& draw) const;
    class Builder;

    Site site_;
    WaterProperties water_;
    AbsolutePressure air_;
    Temperature temperature_;
    Length altitude_;
    ElementContext context_;
    std::vector<Element> suction_, delivery_;
    std::vector<std::vector<Element>> branches_;
    std::optional<Element> returnPipe_;
    std::vector<OutflowLaw> zoneLaws_;
    double endVelocity_s2_m5_ = 0.0, returnVelocity_s2_m5_ = 0.0;
    std::vector<SiteParameter> parameters_;
    std::map<std::pair<SiteParameter::Kind, std::string>, std::size_t> parameterIndex_;
};

// Key under which an element's roughness or loss error is shared: its catalogue code, else its bore and wall.
[[nodiscard]] std::string sharedKind(const Element& element, const std::string& run);

} // namespace headmark
