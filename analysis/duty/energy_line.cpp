#include "analysis/duty/energy_line.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace headmark {

double EnergyLineItem::velocity_m_s() const {
    if (!element || element->bore_m <= 0.0) return 0.0;
    return flow_m3_s / (std::numbers::pi / 4.0 * element->bore_m * element->bore_m);
}

namespace {

class Walk {
  public:
    Walk(const SiteModel& model, FilterState filter) : model_(model), filter_(filter) {}

    void suction(double level_m, double flow_m3_s) {
        energy_ = level_m;
        level_ = std::min(level_m, model_.site().pumpLevel.inMetres());
        for (const Element& e : model_.suction())
            add("suction[" + std::to_string(e.item) + "]", e, flow_m3_s);
    }

    void pump(double flow_m3_s, double head_m) {
        const double level_m = model_.site().pumpLevel.inMetres();
        items.push_back({"pump", nullptr, flow_m3_s, head_m, energy_, energy_ + head_m, level_m, level_m});
        energy_ += head_m;
        level_ = level_m;
    }

    void edge(const SiteTree& tree, const TreeSolution& solution, std::size_t e, double energy_m,
              double level_m) {
        energy_ = energy_m;
        level_ = level_m;
        for (const EdgeElement& which : tree.edgeElements[e]) {
            const Element& element = model_.element(which);
            if (which.run == EdgeElement::Run::branch && which.element == 0)
                zone_m_ = zoneLevel_m(which.zone);
            add(place(which, element), element, solution.edgeFlow_m3_s[e]);
        }
        zone_m_.reset();
        // A regulator's end is where the solver put it; rounding of the walk ends here too.
        if (!tree.edgeElements[e].empty()) items.back().energyAfter_m = solution.edgeEndHead_m[e];
    }

    // The main behind shut valves: no flow, the pressure stands in all of it.
    void standingMain(double energy_m) {
        energy_ = energy_m;
        level_ = model_.site().pumpLevel.inMetres();
        for (const Element& e : model_.delivery()) {
            if (e.kind != ElementKind::takeoff) add("delivery[" + std::to_string(e.item) + "]", e, 0.0);
        }
    }

    [[nodiscard]] double level() const { return level_; }
    [[nodiscard]] double zoneLevel_m(std::size_t zone) const {
        return model_.site().zones[zone].level.inMetres();
    }
    std::vector<EnergyLineItem> items;

  private:
    static std::string place(const EdgeElement& which, const Element& element) {
        const std::string item = "[" + std::to_string(element.item) + "]";
        switch (which.run) {
        case EdgeElement::Run::delivery:
            return "delivery" + item;
        case EdgeElement::Run::branch:
            return "zones[" + std::to_string(which.zone) + "].branch" + item;
        case EdgeElement::Run::tankReturn:
            break;
        }
        return "tank_return";
    }

    void add(const std::string& where, const Element& e, double flow_m3_s) {
        const double allowance = model_.site().fittingsAllowanceShare;
        double loss_m = elementLoss_m(e, model_.context(), filter_, allowance, flow_m3_s);
        double levelAfter = e.riseTo ? e.riseTo->inMetres() : level_;
        if (zone_m_ && (e.kind == ElementKind::pipe || e.kind == ElementKind::regulator)) {
            if (!e.riseTo) levelAfter = *zone_m_;
            if (e.kind == ElementKind::regulator) level_ = levelAfter;
            zone_m_.reset();
        }
        if (e.kind == ElementKind::regulator) {
            const double after = std::min(energy_ - e.leastLoss_m, level_ + e.set_m);
            loss_m = energy_ - after;
        }
        items.push_back({where, &e, flow_m3_s, loss_m, energy_, energy_ - loss_m, level_, levelAfter});
        energy_ -= loss_m;
        level_ = levelAfter;
    }

    const SiteModel& model_;
    FilterState filter_;
    double energy_ = 0.0, level_ = 0.0;
    std::optional<double> zone_m_; // of the branch that has begun, until it climbs there
};

} // namespace

std::vector<EnergyLineItem> energyLine(const SiteModel& model, const SiteTree& tree,
                                       const TreeSolution& solution, FilterState filter) {
    Walk walk(model, filter);
    if (model.site().system) return {};
    walk.suction(tree.tree.sourceLevel_m, solution.flow_m3_s);
    walk.pump(solution.flow_m3_s, solution.pumpHead_m);
    const double pumpLevel_m = model.site().pumpLevel.inMetres();
    std::vector<double> endLevel(tree.tree.edges.size(), pumpLevel_m);
    std::vector<bool> told(tree.tree.edges.size(), false); // a pipe of the main up to there says its level
    for (std::size_t e = 0; e < tree.tree.edges.size(); ++e) {
        const int parent = tree.tree.edges[e].parent;
        const double energy_m =
            parent < 0 ? solution.rootHead_m : solution.edgeEndHead_m[static_cast<std::size_t>(parent)];
        double level_m = parent < 0 ? pumpLevel_m : endLevel[static_cast<std::size_t>(parent)];
        const auto& elements = tree.edgeElements[e];
        const bool branchBegins = !elements.empty() && elements.front().run == EdgeElement::Run::branch &&
                                  elements.front().element == 0;
        const bool toldBefore = parent >= 0 && told[static_cast<std::size_t>(parent)];
        if (branchBegins && !toldBefore) level_m = walk.zoneLevel_m(elements.front().zone);
        walk.edge(tree, solution, e, energy_m, level_m);
        endLevel[e] = walk.level();
        told[e] = toldBefore || std::any_of(elements.begin(), elements.end(), [&](const EdgeElement& which) {
                      return model.element(which).riseTo.has_value();
                  });
    }
    const bool drawn = std::any_of(tree.outflows.begin(), tree.outflows.end(),
                                   [](const OutflowOf& o) { return o.kind != OutflowOf::Kind::tankReturn; });
    if (!drawn) walk.standingMain(solution.rootHead_m);
    return std::move(walk.items);
}

} // namespace headmark
