#include "analysis/job/remedies.h"

#include "analysis/duty/suction_lift.h"
#include "analysis/pipework/next_size.h"
#include "analysis/practice/set_point.h"
#include "analysis/practice/study_parts.h"

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

constexpr double kWider = 1.02; // less is the same size of another wall
constexpr int kMostSizes = 3;   // tried for the suction before another cure is looked for

std::string named(const PipeRow& row) { return row.material + ' ' + row.designation; }

double factOf(const Caution& caution, std::string_view key) {
    const Fact* fact = findFact(caution.values, key);
    const double* value = fact ? std::get_if<double>(&fact->value) : nullptr;
    return value ? *value : 0.0;
}

// The run and index that a place names ("delivery[3]", "zones[1].branch[0]"); null where it names no item.
struct SpotInRun {
    Run* run = nullptr;
    std::size_t index = 0;
    bool suction = false;
};

std::optional<std::size_t> indexAfter(std::string_view place, std::string_view name) {
    const std::size_t at = place.rfind(name);
    if (at == std::string_view::npos) return std::nullopt;
    std::size_t index = 0;
    bool any = false;
    for (std::size_t i = at + name.size(); i < place.size() && place[i] >= '0' && place[i] <= '9'; ++i) {
        index = 10 * index + static_cast<std::size_t>(place[i] - '0');
        any = true;
    }
    return any ? std::optional<std::size_t>(index) : std::nullopt;
}

SpotInRun spotIn(Site& site, std::string_view place) {
    SpotInRun spot;
    std::optional<std::size_t> index;
    if (place.starts_with("suction[")) {
        index = indexAfter(place, "suction[");
        spot.run = &site.suction;
        spot.suction = true;
    } else if (place.starts_with("delivery[")) {
        index = indexAfter(place, "delivery[");
        spot.run = &site.delivery;
    } else if (place.starts_with("zones[")) {
        const auto zone = indexAfter(place, "zones[");
        index = indexAfter(place, "branch[");
        if (zone && *zone < site.zones.size()) spot.run = &site.zones[*zone].branch;
    }
    if (!spot.run || !index || *index >= spot.run->size()) return {};
    spot.index = *index;
    return spot;
}

bool warns(const CaseAnswer& answer, std::string_view code, std::string_view place) {
    return std::any_of(answer.cautions.begin(), answer.cautions.end(),
                       [&](const Caution& c) { return c.code == code && c.place == place; });
}

// One case of one pump, run again on changed sites.
class Rerun {
  public:
    Rerun(const PreparedJob& prepared, std::size_t pump, const CaseAnswer& before, int& left,
          const std::atomic<bool>* stop)
        : prepared_(prepared), pump_(pump), before_(before), left_(left), stop_(stop) {}

    void addTo(Caution& caution) {
        static const std::pair<std::string_view, void (Rerun::*)(Caution&)> kCures[] = {
            {"suction-velocity", &Rerun::widerThere},
            {"main-velocity", &Rerun::widerThere},
            {"npsh-margin", &Rerun::moreNpsh},
            {"pressure-low", &Rerun::morePressure},
            {"pressure-high", &Rerun::regulated},
            {"filter-flow", &Rerun::otherFilter},
            {"pipe-rating", &Rerun::strongerThere},
            {"check-valve-on-flooded-suction", &Rerun::checkValveMoved},
        };
        for (const auto& [code, cure] : kCures) {
            if (caution.code == code) (this->*cure)(caution);
        }
    }

  private:
    struct Result {
        PreparedJob job;
        CaseAnswer answer;
    };

    [[nodiscard]] bool mayTry() const { return left_ > 0 && !(stop_ && stop_->load()); }

    std::optional<Result> run(const Site& site, const Case& setting) {
        if (!mayTry()) return std::nullopt;
        --left_;
        auto changed = prepared_.withSite(site);
        if (!changed) return std::nullopt;
        CaseAnswer answer = changed->answer(pump_, setting, before_.fillingEmptyMain);
        if (!answer.duty) return std::nullopt;
        return Result{std::move(*changed), std::move(answer)};
    }

    std::optional<double> velocityAt(const Result& result, std::string_view place) const {
        for (const LongSectionItem& item :
             result.job.longSection(pump_, before_.setting, before_.fillingEmptyMain)) {
            if (item.place == place) return item.velocity_m_s;
        }
        return std::nullopt;
    }

    static void settle(Caution& caution, const char* remedy, Facts values) {
        caution.remedy = remedy;
        caution.remedyValues = std::move(values);
    }

    void widerThere(Caution& caution) {
        Site site = prepared_.job().site;
        const SpotInRun spot = spotIn(site, caution.place);
        auto* pipe = spot.run ? std::get_if<PipeItem>(&(*spot.run)[spot.index]) : nullptr;
        if (!pipe) return;
        const double limit = factOf(caution, "limit_m_s"), now = factOf(caution, "velocity_m_s");
        if (limit <= 0.0 || now <= limit) return;
        const PipeRow* row = widerPipe(pipe->kind, pipe->kind.bore * std::sqrt(now / limit), spot.suction);
        if (!row) return;
        pipe->kind = row->kind;
        const auto result = run(site, before_.setting);
        if (!result || warns(result->answer, caution.code, caution.place)) return;
        const auto velocity = velocityAt(*result, caution.place);
        if (!velocity) return;
        Facts values{{"with", named(*row)}, {"becomes_m_s", *velocity}};
        if (!spot.suction) {
            values.push_back({"becomes_m3_h", result->answer.duty->flow.inCubicMetresPerHour()});
            return settle(caution, "wider-main-gives", std::move(values));
        }
        if (!result->answer.npsh || !result->answer.npsh->margin || drawsFromMains(prepared_.job().site))
            return settle(caution, "wider-suction-gives-velocity", std::move(values));
        values.push_back({"becomes_m", result->answer.npsh->margin->inMetres()});
        settle(caution, "wider-suction-gives-both", std::move(values));
    }

    void moreNpsh(Caution& caution) {
        Site site = prepared_.job().site;
        for (int size = 0; size < kMostSizes; ++size) {
            const PipeRow* row = nullptr;
            for (RunItem& item : site.suction) {
                auto* pipe = std::get_if<PipeItem>(&item);
                const PipeRow* wider = pipe ? widerPipe(pipe->kind, pipe->kind.bore * kWider, true) : nullptr;
                if (!wider) continue;
                pipe->kind = wider->kind;
                row = wider;
            }
            if (!row) break;
            const auto result = run(site, before_.setting);
            if (!result || warns(result->answer, caution.code, caution.place)) continue;
            if (!result->answer.npsh || !result->answer.npsh->margin) return;
            return settle(caution, "wider-suction-gives-margin",
                          {{"with", named(*row)}, {"becomes_m", result->answer.npsh->margin->inMetres()}});
        }
        lowerPump(caution);
    }

    // At a given flow NPSH goes with the level, metre for metre; the duty moves a little, hence the rerun.
    void lowerPump(Caution& caution) {
        Site site = prepared_.job().site;
        double lower_m = factOf(caution, "limit_m") - factOf(caution, "margin_m");
        for (int i = 0; i < kMostSizes; ++i) {
            constexpr double kStep_m = 0.1; // as levels are measured
            lower_m = std::ceil(lower_m / kStep_m) * kStep_m;
            site.pumpLevel = Level::fromMetres(prepared_.job().site.pumpLevel.inMetres() - lower_m);
            const auto result = run(site, before_.setting);
            if (!result || !result->answer.npsh || !result->answer.npsh->margin) return;
            if (!warns(result->answer, caution.code, caution.place))
                return settle(caution, "lower-pump-gives-margin",
                              {{"lower_m", lower_m}, {"becomes_m", result->answer.npsh->margin->inMetres()}});
            lower_m += kStep_m;
        }
    }

    // Pressure of the caution's zone; empty where it is not open.
    std::optional<double> pressure_kPa(const CaseAnswer& answer, const Caution& caution, bool lowest) const {
        const auto zone = indexAfter(caution.place, "zones[");
        if (!zone || *zone >= prepared_.job().site.zones.size()) return std::nullopt;
        for (const ZoneAnswer& z : answer.zones) {
            if (z.name == prepared_.job().site.zones[*zone].name)
                return (lowest ? z.lowest : z.highest).inKilopascals();
        }
        return std::nullopt;
    }

    // Where a drive holds the pressure: the set point that gives the zone its least, tried.
    bool higherSetPoint(Caution& caution) {
        const auto zone = indexAfter(caution.place, "zones[");
        if (!before_.heldSpeedShare || !zone || *zone >= prepared_.job().site.zones.size()) return false;
        const auto enough = setPointFor(prepared_.solver(pump_), before_.setting, *zone);
        if (!enough) return false;
        Site site = prepared_.job().site;
        site.hold = *enough;
        const auto result = run(site, before_.setting);
        if (!result || warns(result->answer, caution.code, caution.place)) return false;
        const auto becomes = pressure_kPa(result->answer, caution, true);
        if (!becomes) return false;
        settle(caution, "set-point-gives-pressure",
               {{"hold_kPa", enough->inKilopascals()}, {"becomes_kPa", *becomes}});
        return true;
    }

    void morePressure(Caution& caution) {
        if (caution.remedy != "fewer-zones-or-wider-pipe" || higherSetPoint(caution)) return;
        Site site = prepared_.job().site;
        const PipeRow* widest = nullptr;
        for (RunItem& item : site.delivery) {
            auto* pipe = std::get_if<PipeItem>(&item);
            const PipeRow* wider = pipe ? widerPipe(pipe->kind, pipe->kind.bore * kWider, false) : nullptr;
            if (!wider) continue;
            pipe->kind = wider->kind;
            if (!widest || wider->kind.bore > widest->kind.bore) widest = wider;
        }
        if (widest) {
            const auto result = run(site, before_.setting);
            if (result && !warns(result->answer, caution.code, caution.place)) {
                if (const auto becomes = pressure_kPa(result->answer, caution, true))
                    return settle(caution, "wider-main-gives-pressure",
                                  {{"with", named(*widest)}, {"becomes_kPa", *becomes}});
            }
        }
        oneZoneLess(caution);
    }

    // Among the zones whose closing cures it, the one that gives up least water.
    void oneZoneLess(Caution& caution) {
        const auto& zones = prepared_.job().site.zones;
        const auto own = indexAfter(caution.place, "zones[");
        if (!own || *own >= zones.size() || before_.setting.zonesOpen.size() < 2) return;
        std::optional<double> becomes;
        std::string shut;
        double least_m3_s = 0.0;
        for (const ZoneAnswer& z : before_.zones) {
            if (z.name == zones[*own].name || (becomes && z.flow.inCubicMetresPerSecond() >= least_m3_s))
                continue;
            Case setting = before_.setting;
            std::erase(setting.zonesOpen, z.name);
            if (setting.zonesOpen.size() == before_.setting.zonesOpen.size()) continue;
            const auto result = run(prepared_.job().site, setting);
            if (!result || warns(result->answer, caution.code, caution.place)) continue;
            const auto pressure = pressure_kPa(result->answer, caution, true);
            if (!pressure) continue;
            becomes = pressure;
            shut = z.name;
            least_m3_s = z.flow.inCubicMetresPerSecond();
        }
        if (becomes) settle(caution, "zone-shut-gives-pressure", {{"shut", shut}, {"becomes_kPa", *becomes}});
    }

    void regulated(Caution& caution) {
        Site site = prepared_.job().site;
        const auto zone = indexAfter(caution.place, "zones[");
        if (!zone || *zone >= site.zones.size()) return;
        const double set_kPa = factOf(caution, "limit_kPa");
        RegulatorItem regulator;
        regulator.set = GaugePressure::fromKilopascals(set_kPa);
        site.zones[*zone].branch.emplace_back(regulator);
        const auto result = run(site, before_.setting);
        if (!result || warns(result->answer, caution.code, caution.place)) return;
        if (const auto becomes = pressure_kPa(result->answer, caution, false))
            settle(caution, "regulator-gives-pressure", {{"set_kPa", set_kPa}, {"becomes_kPa", *becomes}});
    }

    void otherFilter(Caution& caution) {
        Site site = prepared_.job().site;
        const SpotInRun spot = spotIn(site, caution.place);
        auto* filter = spot.run ? std::get_if<FilterItem>(&(*spot.run)[spot.index]) : nullptr;
        const FilterRow* row =
            filter ? largerFilter(*filter, Flow::fromCubicMetresPerHour(factOf(caution, "flow_m3_h")))
                   : nullptr;
        if (!row) return;
        *filter = row->item;
        const auto result = run(site, before_.setting);
        if (!result || warns(result->answer, caution.code, caution.place)) return;
        settle(caution, "larger-filter-gives",
               {{"size", row->size}, {"becomes_m3_h", result->answer.duty->flow.inCubicMetresPerHour()}});
    }

    void strongerThere(Caution& caution) {
        Site site = prepared_.job().site;
        const SpotInRun spot = spotIn(site, caution.place);
        auto* pipe = spot.run ? std::get_if<PipeItem>(&(*spot.run)[spot.index]) : nullptr;
        // In warm water the same make must be rated for so much more.
        const double nominal_kPa = factOf(caution, "nominal_kPa");
        const double warm = nominal_kPa > 0.0 ? factOf(caution, "limit_kPa") / nominal_kPa : 1.0;
        const auto needed = GaugePressure::fromKilopascals(factOf(caution, "pressure_kPa") / warm);
        const PipeRow* row = pipe ? strongerPipe(pipe->kind, needed) : nullptr;
        if (!row) return;
        pipe->kind = row->kind;
        const auto result = run(site, before_.setting);
        if (!result || warns(result->answer, caution.code, caution.place)) return;
        Facts values{{"with", named(*row)}, {"rating_kPa", row->kind.rating->inKilopascals()}};
        const Flow flow = result->answer.duty->flow;
        if (flow.inCubicMetresPerSecond() <= 0.0)
            return settle(caution, "stronger-pipe-holds", std::move(values));
        values.push_back({"becomes_m3_h", flow.inCubicMetresPerHour()});
        settle(caution, "stronger-pipe-gives", std::move(values));
    }

    // What the valve costs where it stands is what is gained by moving it.
    void checkValveMoved(Caution& caution) {
        Site site = prepared_.job().site;
        const SpotInRun spot = spotIn(site, caution.place);
        if (!spot.run || !spot.suction || !before_.npsh) return;
        const RunItem valve = site.suction[spot.index];
        site.suction.erase(site.suction.begin() + static_cast<std::ptrdiff_t>(spot.index));
        site.delivery.insert(site.delivery.begin(), valve);
        const auto result = run(site, before_.setting);
        if (!result || !result->answer.npsh) return;
        if (before_.npsh->margin && result->answer.npsh->margin)
            return settle(caution, "move-check-valve-gives-margin",
                          {{"was_m", before_.npsh->margin->inMetres()},
                           {"becomes_m", result->answer.npsh->margin->inMetres()}});
        settle(caution, "move-check-valve-gives-available",
               {{"was_m", before_.npsh->available.inMetres()},
                {"becomes_m", result->answer.npsh->available.inMetres()}});
    }

    const PreparedJob& prepared_;
    std::size_t pump_;
    const CaseAnswer& before_;
    int& left_;
    const std::atomic<bool>* stop_;
};

} // namespace

void addRerunRemedies(const PreparedJob& prepared, std::size_t pump, PumpFindings& findings,
                      const std::atomic<bool>* stop) {
    int left = kMostReruns;
    for (CaseAnswer& answer : findings.cases) {
        const CaseAnswer before = answer;
        for (Caution& caution : answer.cautions)
            Rerun(prepared, pump, before, left, stop).addTo(caution);
    }
    if (!findings.connections) return;
    const CaseAnswer* most = nullptr;
    for (const CaseAnswer& answer : findings.cases) {
        const bool drawn = answer.duty && answer.npsh && !answer.fillingEmptyMain;
        if (drawn && (!most || answer.duty->flow > most->duty->flow)) most = &answer;
    }
    if (!most) return;
    for (Caution& caution : findings.connections->sheet.findings)
        Rerun(prepared, pump, *most, left, stop).addTo(caution);
}

} // namespace headmark
