#include "analysis/duty/site_model.h"

#include "analysis/irrigation/leaf_law.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace headmark {

namespace {

using Kind = SiteParameter::Kind;

double velocityCoefficient(double bore_m) {
    if (bore_m <= 0.0) return 0.0;
    const double area_m2 = std::numbers::pi / 4.0 * bore_m * bore_m;
    return 1.0 / (2.0 * factor::kStandardGravity_m_s2 * area_m2 * area_m2);
}

// Bore of the last element before `end` that has one.
double lastBore_m(const std::vector<Element>& elements, std::size_t end) {
    for (std::size_t i = end; i-- > 0;) {
        if (elements[i].bore_m > 0.0) return elements[i].bore_m;
    }
    return 0.0;
}

std::size_t takeoffIndex(const std::vector<Element>& elements, const std::string& name) {
    for (std::size_t i = 0; i < elements.size(); ++i) {
        if (elements[i].kind == ElementKind::takeoff && elements[i].takeoff == name) return i;
    }
    return elements.size();
}

Error placed(Error error, const std::string& run) {
    error.place = run + error.place;
    return error;
}

// An outflow law that takes `coefficient` q^2 of head (a free outlet's lost velocity head, or nothing).
OutflowLaw quadraticLaw(double coefficient_s2_m5) {
    OutflowLaw law;
    law.flowAt_m3_s = 1e-3;
    law.headAt_m = coefficient_s2_m5 * law.flowAt_m3_s * law.flowAt_m3_s;
    return law;
}

OutflowLaw knownLaw(const KnownSystem& system) {
    if (system.points.empty()) {
        const double perFlow2 = system.resistance_m_per_m3_h_2.value_or(0.0) * 3600.0 * 3600.0;
        return quadraticLaw(perFlow2);
    }
    std::vector<double> flows, heads;
    for (const auto& p : system.points) {
        flows.push_back(p.flow.inCubicMetresPerSecond());
        heads.push_back((p.head - system.points.front().head).inMetres());
    }
    if (flows.front() > 0.0) { // down to zero flow along the first chord; a duty there is said to be outside
        const double chord = (heads[1] - heads[0]) / (flows[1] - flows[0]);
        const double drop = chord * flows.front();
        for (double& h : heads)
            h += drop;
        flows.insert(flows.begin(), 0.0);
        heads.insert(heads.begin(), 0.0);
    }
    OutflowLaw law;
    law.kind = OutflowLaw::Kind::table;
    law.table = std::make_shared<OutflowTable>(std::move(flows), std::move(heads), false);
    law.flowAt_m3_s = 1.0;
    return law;
}

double knownStatic_m(const KnownSystem& system) {
    if (system.points.empty()) return system.staticHead.value_or(Head{}).inMetres();
    const auto& p = system.points;
    const double q0 = p[0].flow.inCubicMetresPerSecond();
    if (q0 <= 0.0) return p[0].head.inMetres();
    const double chord = (p[1].head - p[0].head).inMetres() / (p[1].flow.inCubicMetresPerSecond() - q0);
    return p[0].head.inMetres() - chord * q0;
}

} // namespace

std::string sharedKind(const Element& element, const std::string& run) {
    if (!element.code.empty()) return element.code;
    if (element.kind == ElementKind::pipe) {
        return "pipe " + std::to_string(element.bore_m) + " " + std::to_string(element.roughness_m);
    }
    return run + "[" + std::to_string(element.item) + "]";
}

Result<SiteModel> SiteModel::make(const Site& site, const WaterConditions& water,
                                  const Uncertainty& uncertainty, const SiteModel* sameZones) {
    HEADMARK_ASSERT(!sameZones || sameZones->zoneLaws_.size() == site.zones.size(), "the same zones");
    SiteModel m;
    m.site_ = site;
    m.water_ = waterAt(water.temperature);
    m.air_ = airPressureAt(water.altitude);
    m.temperature_ = water.temperature;
    m.altitude_ = water.altitude;
    m.context_ = {m.water_.density, m.water_.viscosity, site.friction};

    auto suction = elementsOf(site.suction, m.context_);
    if (!suction) return placed(suction.error(), "site.suction");
    m.suction_ = std::move(*suction);
    for (const Element& e : m.suction_) {
        if (e.kind == ElementKind::regulator || e.kind == ElementKind::takeoff) {
            return Error{"not-on-suction", "", "site.suction[" + std::to_string(e.item) + "]", {}};
        }
    }
    auto delivery = elementsOf(site.delivery, m.context_);
    if (!delivery) return placed(delivery.error(), "site.delivery");
    m.delivery_ = std::move(*delivery);

    for (std::size_t z = 0; z < site.zones.size(); ++z) {
        const Zone& zone = site.zones[z];
        const std::size_t at =
            zone.takeoff.empty() ? m.delivery_.size() : takeoffIndex(m.delivery_, zone.takeoff);
        const double before_m = lastBore_m(m.delivery_, at);
        auto branch = elementsOf(zone.branch, m.context_,
                                 before_m > 0.0 ? std::optional(Length::fromMetres(before_m)) : std::nullopt);
        if (!branch) return placed(branch.error(), "site.zones[" + std::to_string(z) + "].branch");
        m.branches_.push_back(std::move(*branch));
        if (zone.laterals) {
            // Far beyond any real lateral; the condensed table would take minutes.
            constexpr int kMostOutlets = 3000;
            const double outlets = zone.laterals->length / zone.laterals->spacing;
            if (outlets < 1.0 - 1e-9 || outlets > kMostOutlets) {
                return Error{
                    "outlets-on-lateral",
                    "",
                    "site.zones[" + std::to_string(z) + "].laterals",
                    {{"outlets", std::floor(outlets)}, {"most", static_cast<std::int64_t>(kMostOutlets)}}};
            }
        }
        m.zoneLaws_.push_back(sameZones ? sameZones->zoneLaws_[z] : zoneLaw(zone, m.context_));
    }
    if (site.tankReturn) {
        auto pipe = elementsOf({site.tankReturn->pipe}, m.context_);
        if (!pipe) return placed(pipe.error(), "site.tank_return");
        m.returnPipe_ = pipe->front();
        m.returnVelocity_s2_m5_ = velocityCoefficient(m.returnPipe_->bore_m);
    }
    m.endVelocity_s2_m5_ = velocityCoefficient(lastBore_m(m.delivery_, m.delivery_.size()));
    m.listParameters(uncertainty);
    return m;
}

void SiteModel::listParameters(const Uncertainty& u) {
    const auto addOnce = [&](Kind kind, const std::string& of, double sigma) {
        if (sigma <= 0.0) return;
        if (parameterIndex_.emplace(std::pair{kind, of}, parameters_.size()).second) {
            parameters_.push_back({kind, of, sigma});
        }
    };
    if (site_.system) return; // a known system curve is taken as known
    addOnce(Kind::sourceLevel, "", u.level.inMetres());
    if (site_.end) addOnce(Kind::outletLevel, "end", u.level.inMetres());
    const auto addRun = [&](const std::vector<Element>& elements, const std::string& run) {
        for (const Element& e : elements) {
            if (e.kind == ElementKind::pipe) {
                addOnce(Kind::length, run + "[" + std::to_string(e.item) + "]", u.lengthShare);
                if (context_.friction == FrictionMethod::darcy) {
                    addOnce(Kind::roughness, sharedKind(e, run), u.roughnessShare);
                }
            } else if (e.kind == ElementKind::fitting || e.kind == ElementKind::filter) {
                addOnce(Kind::loss, sharedKind(e, run), u.kShare);
            }
        }
    };
    addRun(suction_, "suction");
    addRun(delivery_, "delivery");
    if (returnPipe_) addRun({*returnPipe_}, "tank_return");
    for (std::size_t z = 0; z < site_.zones.size(); ++z) {
        addOnce(Kind::outletLevel, site_.zones[z].name, u.level.inMetres());
        addOnce(Kind::emitter, site_.zones[z].name, u.emitterShare);
        addRun(branches_[z], "zones[" + std::to_string(z) + "].branch");
    }
}

double SiteModel::shift_m(Kind kind, const std::string& of, const SiteDraw& draw) const {
    if (draw.empty()) return 0.0;
    const auto found = parameterIndex_.find({kind, of});
    return found == parameterIndex_.end() ? 0.0 : parameters_[found->second].sigma * draw[found->second];
}

double SiteModel::factor(Kind kind, const std::string& of, const SiteDraw& draw) const {
    constexpr double kLeastFactor = 0.05; // a draw far out must not turn a length or wall negative
    return std::max(kLeastFactor, 1.0 + shift_m(kind, of, draw));
}

ElementFactors SiteModel::factorsOf(const Element& element, const std::string& run,
                                    const SiteDraw& draw) const {
    ElementFactors f;
    if (draw.empty()) return f;
    if (element.kind == ElementKind::pipe) {
        f.length = factor(Kind::length, run + "[" + std::to_string(element.item) + "]", draw);
        f.roughness = factor(Kind::roughness, sharedKind(element, run), draw);
    } else {
        f.loss = factor(Kind::loss, sharedKind(element, run), draw);
    }
    return f;
}

const Element& SiteModel::element(const EdgeElement& which) const {
    switch (which.run) {
    case EdgeElement::Run::delivery:
        return delivery_[which.element];
    case EdgeElement::Run::branch:
        return branches_[which.zone][which.element];
    case EdgeElement::Run::tankReturn:
        break;
    }
    return *returnPipe_;
}

double SiteModel::sourceLevel_m(WaterLevel level, const SiteDraw& draw) const {
    if (!site_.source) return 0.0;
    const WaterSource& s = *site_.source;
    const Level at = level == WaterLevel::low ? s.low : level == WaterLevel::high ? s.high : s.usual;
    return at.inMetres() + shift_m(Kind::sourceLevel, "", draw);
}

double SiteModel::returnOutletLevel_m(WaterLevel level) const {
    return site_.tankReturn && site_.tankReturn->outletLevel ? site_.tankReturn->outletLevel->inMetres()
                                                             : sourceLevel_m(level);
}

double SiteModel::returnLossAt_m(double flow_m3_s) const {
    if (!returnPipe_) return 0.0;
    Chain chain;
    chain.add(*returnPipe_, context_, FilterState::clean, 0.0);
    return chain.at(flow_m3_s).loss_m + returnVelocity_s2_m5_ * flow_m3_s * flow_m3_s;
}

// Walks the runs once and grows the tree.
class SiteModel::Builder {
  public:
    Builder(const SiteModel& model, const CaseSetting& setting, const SiteDraw& draw)
        : m_(model), setting_(setting), draw_(draw), allowance_(model.site_.fittingsAllowanceShare) {}

    SiteTree build(std::optional<double> returnKv_m3_h) {
        out_.tree.sourceLevel_m = m_.sourceLevel_m(setting_.level, draw_);
        for (const Element& e : m_.suction_) {
            out_.tree.suction.add(e, m_.context_, setting_.filter, allowance_,
                                  m_.factorsOf(e, "suction", draw_));
        }
        if (m_.site_.tankReturn && !setting_.fillingEmptyMain) addReturn(returnKv_m3_h);
        if (setting_.fillingEmptyMain) {
            addFilling();
        } else {
            addDelivery();
        }
        return std::move(out_);
    }

  private:
    int newEdge(int parent) {
        out_.tree.edges.push_back({});
        out_.tree.edges.back().parent = parent;
        out_.edgeElements.emplace_back();
        return static_cast<int>(out_.tree.edges.size()) - 1;
    }

    // Adds one element to the edge; a regulator ends it and a new one is returned.
    int append(int edge, const Element& e, const EdgeElement& which, const std::string& run,
               double& level_m) {
        TreeEdge& tip = out_.tree.edges[static_cast<std::size_t>(edge)];
        out_.edgeElements[static_cast<std::size_t>(edge)].push_back(which);
        if (e.riseTo) level_m = e.riseTo->inMetres();
        if (e.kind == ElementKind::regulator) {
            tip.regulator = Regulator{level_m + e.set_m, e.leastLoss_m};
            return newEdge(edge);
        }
        tip.chain.add(e, m_.context_, setting_.filter, allowance_, m_.factorsOf(e, run, draw_));
        return edge;
    }

    void addOutflow(int edge, double level_m, OutflowLaw law, OutflowOf of) {
        out_.tree.outflows.push_back({edge, level_m, std::move(law)});
        out_.outflows.push_back(of);
    }

    void addReturn(std::optional<double> kv_m3_h) {
        const int edge = newEdge(-1);
        double level_m = 0.0;
        append(edge, *m_.returnPipe_, {EdgeElement::Run::tankReturn, 0, 0}, "tank_return", level_m);
        if (kv_m3_h) {
            // h = 1e5 (3600 q/Kv)^2/(1000 g), the definition of Kv
            const double perKv = 3600.0 / *kv_m3_h;
            out_.tree.edges.back().chain.addQuadratic(factor::kBar_Pa / factor::kMetreOfWater_Pa * perKv *
                                                      perKv);
        }
        addOutflow(edge, m_.returnOutletLevel_m(setting_.level), quadraticLaw(m_.returnVelocity_s2_m5_),
                   {OutflowOf::Kind::tankReturn, 0});
    }

    // Only what stands before the first pipe of the main; free discharge at the pump's level.
    void addFilling() {
        int edge = newEdge(-1);
        double level_m = m_.site_.pumpLevel.inMetres();
        double bore_m = 0.0;
        for (std::size_t i = 0; i < m_.delivery_.size(); ++i) {
            const Element& e = m_.delivery_[i];
            if (e.bore_m > 0.0) bore_m = e.bore_m;
            if (e.kind == ElementKind::pipe) break;
            if (e.kind != ElementKind::takeoff) {
                edge = append(edge, e, {EdgeElement::Run::delivery, 0, i}, "delivery", level_m);
            }
        }
        addOutflow(edge, level_m, quadraticLaw(velocityCoefficient(bore_m)), {OutflowOf::Kind::end, 0});
    }

    [[nodiscard]] bool zonesAt(const std::string& takeoff) const {
        for (std::size_t z = 0; z < m_.site_.zones.size(); ++z) {
            if (setting_.open[z] && m_.site_.zones[z].takeoff == takeoff) return true;
        }
        return false;
    }

    void addDelivery() {
        if (m_.site_.system) {
            addOutflow(-1, out_.tree.sourceLevel_m + knownStatic_m(*m_.site_.system),
                       knownLaw(*m_.site_.system), {OutflowOf::Kind::known, 0});
            return;
        }
        if (!m_.site_.end &&
            std::none_of(setting_.open.begin(), setting_.open.end(), [](bool o) { return o; })) {
            return; // no valve open: nothing flows in the main
        }
        int edge = newEdge(-1);
        double level_m = m_.site_.pumpLevel.inMetres();
        for (std::size_t i = 0; i < m_.delivery_.size(); ++i) {
            const Element& e = m_.delivery_[i];
            if (e.kind == ElementKind::takeoff) {
                if (zonesAt(e.takeoff)) {
                    addZones(edge, e.takeoff);
                    edge = newEdge(edge);
                }
                continue;
            }
            edge = append(edge, e, {EdgeElement::Run::delivery, 0, i}, "delivery", level_m);
        }
        if (m_.site_.end) {
            const double pressure_m = headOf_m(m_.site_.end->pressure - GaugePressure{}, m_.context_.density);
            addOutflow(edge,
                       m_.site_.end->level.inMetres() + pressure_m +
                           m_.shift_m(Kind::outletLevel, "end", draw_),
                       quadraticLaw(m_.endVelocity_s2_m5_), {OutflowOf::Kind::end, 0});
        } else {
            addZones(edge, "");
        }
    }

    void addZones(int at, const std::string& takeoff) {
        for (std::size_t z = 0; z < m_.site_.zones.size(); ++z) {
            const Zone& zone = m_.site_.zones[z];
            if (!setting_.open[z] || zone.takeoff != takeoff) continue;
            int edge = newEdge(at);
            double level_m = zone.level.inMetres();
            const std::string run = "zones[" + std::to_string(z) + "].branch";
            for (std::size_t i = 0; i < m_.branches_[z].size(); ++i) {
                const Element& e = m_.branches_[z][i];
                if (e.kind == ElementKind::takeoff) continue;
                edge = append(edge, e, {EdgeElement::Run::branch, z, i}, run, level_m);
            }
            addOutflow(edge, zone.level.inMetres() + m_.shift_m(Kind::outletLevel, zone.name, draw_),
                       m_.zoneLaws_[z].timesFlow(m_.factor(Kind::emitter, zone.name, draw_)),
                       {OutflowOf::Kind::zone, z});
        }
    }

    const SiteModel& m_;
    const CaseSetting& setting_;
    const SiteDraw& draw_;
    double allowance_;
    SiteTree out_;
};

SiteTree SiteModel::tree(const CaseSetting& setting, std::optional<double> returnKv_m3_h,
                         const SiteDraw& draw) const {
    HEADMARK_ASSERT(setting.open.size() == site_.zones.size(), "one open mark per zone");
    HEADMARK_ASSERT(draw.empty() || draw.size() == parameters_.size(), "one draw per parameter");
    return Builder(*this, setting, draw).build(returnKv_m3_h);
}

} // namespace headmark
