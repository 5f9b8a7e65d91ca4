#include "analysis/pipework/element.h"

#include "analysis/core/assertion.h"
#include "analysis/pipework/catalogue.h"
#include "analysis/pipework/fitting_element.h"

#include <cmath>

namespace headmark {

namespace {

constexpr double kGravity_m_s2 = factor::kStandardGravity_m_s2;
constexpr double kStrainerReference_m_s = 1.0; // filters.csv: strainers without a flow are rated at 1 m/s

bool isHose(const PipeItem& pipe) {
    const PipeRow* row = findPipe(pipe.kind.code);
    return row != nullptr && row->material.find("hose") != std::string::npos;
}

Plastic plasticOf(const std::string& code) {
    const PipeRow* row = findPipe(code);
    if (!row) return Plastic::none;
    if (row->material.starts_with("PE") || row->material.starts_with("LDPE")) return Plastic::polyethylene;
    return row->material.starts_with("PVC-U") ? Plastic::pvcu : Plastic::none;
}

Neighbours neighboursOf(const Run& run, std::size_t index, std::optional<Length> boreBefore,
                        std::optional<Length> boreAfter) {
    Neighbours around;
    for (std::size_t i = 0; i < run.size(); ++i) {
        const auto* pipe = std::get_if<PipeItem>(&run[i]);
        if (pipe == nullptr) {
            continue;
        }
        if (i < index) {
            around.insideBefore_m = pipe->kind.bore.inMetres();
            around.hoseBefore = isHose(*pipe);
        } else if (i > index) {
            around.insideAfter_m = pipe->kind.bore.inMetres();
            around.hoseAfter = isHose(*pipe);
            break;
        }
    }
    around.before_m = around.insideBefore_m;
    around.after_m = around.insideAfter_m;
    if (!around.before_m && boreBefore) {
        around.before_m = boreBefore->inMetres();
    }
    if (!around.after_m && boreAfter) {
        around.after_m = boreAfter->inMetres();
    }
    return around;
}

// The elements of one run under one context.
struct Builder {
    const Run& run;
    const ElementContext& context;
    std::optional<Length> boreBefore, boreAfter;
    std::size_t index = 0;

    [[nodiscard]] double headOf(Pressure pressure) const {
        return pressure.inPascals() / (context.density.inKilogramsPerCubicMetre() * kGravity_m_s2);
    }

    [[nodiscard]] Neighbours around() const { return neighboursOf(run, index, boreBefore, boreAfter); }

    Result<Element> operator()(const PipeItem& pipe) const {
        Element element;
        element.kind = ElementKind::pipe;
        element.item = index;
        element.code = pipe.kind.code;
        element.bore_m = pipe.kind.bore.inMetres();
        element.length_m = pipe.length.inMetres();
        element.roughness_m = pipe.kind.roughness.inMetres();
        element.hazenWilliamsC = pipe.kind.hazenWilliamsC.value_or(0.0);
        element.riseTo = pipe.riseTo;
        element.rating = pipe.kind.rating;
        element.plastic = plasticOf(pipe.kind.code);
        element.mayBeSuction = pipe.kind.mayBeSuction;
        return element;
    }

    Result<Element> operator()(const FittingItem& fitting) const {
        return fittingElement(fitting, index, around(), context);
    }

    Result<Element> operator()(const FilterItem& filter) const {
        Element element;
        element.kind = ElementKind::filter;
        element.item = index;
        element.code = filter.code;
        element.greatestFlow = filter.greatestFlow;
        double at_m3_s = filter.at.inCubicMetresPerSecond();
        if (at_m3_s <= 0.0) {
            const std::optional<double> bore_m = around().usual_m();
            if (!bore_m) {
                return noBore(index, "filter", filter.code);
            }
            element.bore_m = *bore_m;
            at_m3_s = kStrainerReference_m_s * boreArea_m2(*bore_m);
        }
        element.filterExponent = filter.exponent;
        element.filterCoefficient = headOf(filter.loss) / std::pow(at_m3_s, filter.exponent);
        element.filterService_m = headOf(filter.service);
        return element;
    }

    Result<Element> operator()(const RegulatorItem& regulator) const {
        Element element;
        element.kind = ElementKind::regulator;
        element.item = index;
        element.code = regulator.code;
        element.set_m = headOf(regulator.set - GaugePressure{});
        element.leastLoss_m = headOf(regulator.leastLoss);
        return element;
    }

    Result<Element> operator()(const TakeoffItem& takeoff) const {
        Element element;
        element.kind = ElementKind::takeoff;
        element.item = index;
        element.takeoff = takeoff.name;
        return element;
    }
};

} // namespace

Result<std::vector<Element>> elementsOf(const Run& run, const ElementContext& context,
                                        std::optional<Length> boreBefore, std::optional<Length> boreAfter) {
    Builder builder{run, context, boreBefore, boreAfter};
    std::vector<Element> elements;
    elements.reserve(run.size());
    for (; builder.index < run.size(); ++builder.index) {
        Result<Element> element = std::visit(builder, run[builder.index]);
        if (!element) {
            return element.error();
        }
        elements.push_back(std::move(*element));
    }
    return elements;
}

std::string nominalSizeOfBore(Length bore) {
    HEADMARK_ASSERT(bore > Length{}, "a bore must be positive");
    std::string nearest;
    double smallest = 0.0;
    for (const ThreadRow& thread : threadRows()) {
        if (thread.steelTubeBore_mm <= 0.0) {
            continue;
        }
        const double distance = std::abs(std::log(bore.inMillimetres() / thread.steelTubeBore_mm));
        if (nearest.empty() || distance < smallest) {
            nearest = thread.designation;
            smallest = distance;
        }
    }
    return nearest;
}

} // namespace headmark
