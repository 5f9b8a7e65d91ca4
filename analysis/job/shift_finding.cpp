#include "analysis/job/shift_finding.h"

#include "analysis/core/assertion.h"
#include "analysis/job/zones_finding.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <limits>

namespace headmark {

std::vector<double> dailyNeeds_m3(const Site& site) {
    std::vector<double> needs;
    for (const Zone& z : site.zones) {
        double need = z.needPerDay ? z.needPerDay->inCubicMetres() : 0.0;
        if (z.area && z.needDepthPerDay) need = z.area->inSquareMetres() * z.needDepthPerDay->inMetres();
        needs.push_back(need);
    }
    return needs;
}

namespace {

constexpr int kDay_min = 24 * 60;

// Lists of zone names as pairs of zones.
std::vector<std::pair<int, int>> pairsOf(const std::vector<std::vector<std::string>>& lists,
                                         const Site& site) {
    const auto zoneOf = [&](const std::string& name) {
        const auto at =
            std::find_if(site.zones.begin(), site.zones.end(), [&](const Zone& z) { return z.name == name; });
        return static_cast<int>(at - site.zones.begin());
    };
    std::vector<std::pair<int, int>> pairs;
    for (const auto& list : lists) {
        for (std::size_t i = 0; i < list.size(); ++i) {
            for (std::size_t j = i + 1; j < list.size(); ++j)
                pairs.emplace_back(zoneOf(list[i]), zoneOf(list[j]));
        }
    }
    return pairs;
}

// Least energy of a cubic metre through the pump, over its chart.
std::optional<double> leastEnergy_J_m3(const CaseSolver& solver) {
    constexpr int kLooks = 200;
    constexpr double kBetweenLooks = 0.99; // the curve is smooth: no dip between two looks reaches lower
    const PumpModel pump = solver.pump().atSpeed(1.0);
    // Slowed down to a held pressure it gives no less head than that from the highest water.
    double held_m = std::numeric_limits<double>::infinity();
    if (const auto outlet_m = solver.heldOutlet_m())
        held_m = std::max(0.0, *outlet_m - solver.model().sourceLevel_m(WaterLevel::high));
    std::optional<double> least;
    for (int i = 1; i <= kLooks; ++i) {
        const double q = pump.head.greatest_m3_s() * i / kLooks;
        if (!pump.head.contains(q)) continue;
        const auto input = pump.inputAt_W(q, pump.head.at(q), solver.model().water().density);
        if (!input) return std::nullopt;
        const double slowed = std::min(1.0, held_m / std::max(1e-9, pump.head.at(q)));
        const double energy = *input / q * slowed;
        least = std::min(least.value_or(energy), energy);
    }
    if (least) *least *= kBetweenLooks;
    return least;
}

class Finder {
  public:
    Finder(const Job& job, const CaseSolver& solver, const ZoneSets& sets, const std::atomic<bool>* stop)
        : job_(job), site_(job.site), solver_(solver), sets_(sets), stop_(stop) {}

    std::optional<ShiftPlanFinding> find() {
        q_.need_m3 = dailyNeeds_m3(site_);
        const auto needed = [](double need) { return need > 0.0; };
        if (std::none_of(q_.need_m3.begin(), q_.need_m3.end(), needed)) return std::nullopt;
        if (site_.zones.size() > kMostMaskedZones) return std::nullopt;
        ask();
        plan_ = planShifts(q_);
        fillShifts();
        sayWhatIsLeftOut();
        sayWhatIsTooMuch();
        checkWindow();
        checkSource();
        return std::move(f_);
    }

  private:
    void ask() {
        const Controller controller = site_.controller.value_or(Controller{});
        q_.run = [this](ZoneMask set) -> std::optional<SetRun> {
            if ((stop_ && stop_->load()) || !sets_.verdict(set).works()) return std::nullopt;
            return solver_.run(openZones(set, site_.zones.size()));
        };
        q_.together = pairsOf(controller.together, site_);
        q_.apart = pairsOf(controller.apart, site_);
        if (controller.valvesAtOnce) q_.mostOpen = std::min(*controller.valvesAtOnce, kMostMaskedZones);
        if (controller.startDelay)
            q_.delay_min = static_cast<int>(std::ceil(controller.startDelay->inMinutes() - 1e-9));
        q_.mostDelivered_m3_s = solver_.pump().atSpeed(1.0).head.greatest_m3_s();
        q_.leastEnergy_J_m3 = leastEnergy_J_m3(solver_);
        q_.largestSet = sets_.mostThatCanWork();
        q_.objective = controller.objective;
        if (q_.objective == ShiftObjective::energy && !q_.leastEnergy_J_m3) {
            q_.objective = ShiftObjective::time;
            f_.cautions.push_back({"plan-without-energy",
                                   Severity::note,
                                   "site.controller",
                                   {},
                                   "give-motor-and-power",
                                   {},
                                   ""});
        }
        if (controller.window) {
            begin_ = minutesOfTime(controller.window->first);
            const int end = minutesOfTime(controller.window->second);
            window_ = (end - *begin_ + kDay_min) % kDay_min;
            if (*window_ == 0) window_ = kDay_min;
        }
    }

    void fillShifts() {
        f_.objective = q_.objective;
        f_.proven = plan_.proven;
        f_.gapShare = plan_.gapShare;
        f_.total = Duration::fromMinutes(plan_.total_min);
        int at = 0;
        for (const Shift& s : plan_.shifts) {
            ShiftPlanFinding::Shift shift;
            shift.zones = zoneNames(s.zones, site_);
            shift.beginMinute = at;
            if (begin_) shift.start = timeOfMinutes(*begin_ + at);
            shift.minutes = s.minutes;
            double sum_m3_s = 0.0;
            for (std::size_t z = 0; z < site_.zones.size(); ++z) {
                if (!((s.zones >> z) & 1U)) continue;
                sum_m3_s += s.run.flow_m3_s[z];
                shift.stations.push_back(
                    {static_cast<int>(z) + 1, Flow::fromCubicMetresPerSecond(s.run.flow_m3_s[z])});
            }
            shift.flow = Flow::fromCubicMetresPerSecond(sum_m3_s);
            if (const auto energy = s.energy_J()) {
                shift.energy_kWh = *energy / factor::kKilowattHour_J;
                f_.totalEnergy_kWh = f_.totalEnergy_kWh.value_or(0.0) + *shift.energy_kWh;
            }
            at += s.minutes + q_.delay_min;
            f_.shifts.push_back(std::move(shift));
        }
        if (f_.totalEnergy_kWh && job_.energy.pricePerKilowattHour)
            f_.cost = *f_.totalEnergy_kWh * *job_.energy.pricePerKilowattHour;
    }

    void sayWhatIsLeftOut() {
        for (std::size_t z = 0; z < site_.zones.size(); ++z) {
            const std::string place = "zones[" + std::to_string(z) + "]";
            if ((plan_.impossible >> z) & 1U) {
                f_.cautions.push_back({"zone-not-planned",
                                       Severity::danger,
                                       place,
                                       {{"zone", site_.zones[z].name}},
                                       "see-zones-at-once-and-pairs",
                                       {},
                                       "zones at once"});
            } else if (q_.need_m3[z] <= 0.0) {
                f_.cautions.push_back({"zone-without-need",
                                       Severity::note,
                                       place,
                                       {{"zone", site_.zones[z].name}},
                                       "",
                                       {},
                                       ""});
            }
        }
        const auto stations = site_.controller ? site_.controller->stations : std::nullopt;
        if (stations && *stations < static_cast<int>(site_.zones.size())) {
            f_.cautions.push_back({"too-few-stations",
                                   Severity::warning,
                                   "site.controller",
                                   {{"zones", static_cast<std::int64_t>(site_.zones.size())},
                                    {"stations", static_cast<std::int64_t>(*stations)}},
                                   "larger-controller",
                                   {},
                                   "stations of the controller"});
        }
        if (!plan_.proven) {
            f_.cautions.push_back(
                {"plan-not-proven", Severity::note, "", {{"gap_share", plan_.gapShare}}, "", {}, ""});
        }
    }

    // A shift lasts until its slowest zone has its need, so the others get more.
    void sayWhatIsTooMuch() {
        constexpr double kMuch = 1.25; // common practice, no source
        std::size_t worst = 0;
        double worstShare = 0.0, worst_m3 = 0.0, given_m3 = 0.0, needed_m3 = 0.0;
        for (const Shift& s : plan_.shifts) {
            for (std::size_t z = 0; z < site_.zones.size(); ++z) {
                if (!((s.zones >> z) & 1U)) continue;
                const double zone_m3 = s.run.flow_m3_s[z] * s.minutes * 60.0;
                given_m3 += zone_m3;
                needed_m3 += q_.need_m3[z];
                if (zone_m3 <= worstShare * q_.need_m3[z]) continue;
                worst = z;
                worstShare = zone_m3 / q_.need_m3[z];
                worst_m3 = zone_m3;
            }
        }
        if (worstShare <= kMuch) return;
        f_.cautions.push_back({"more-than-needed",
                               Severity::note,
                               "zones[" + std::to_string(worst) + "]",
                               {{"zone", site_.zones[worst].name},
                                {"given_m3", worst_m3},
                                {"need_m3", q_.need_m3[worst]},
                                {"all_given_m3", given_m3},
                                {"all_need_m3", needed_m3}},
                               "keep-unlike-zones-apart",
                               {},
                               "common practice, no source"});
    }

    void checkWindow() {
        if (!window_ || plan_.total_min <= *window_) return;
        f_.fitsWindow = false;
        f_.cautions.push_back({"beyond-window",
                               Severity::warning,
                               "site.controller",
                               {{"needed_min", static_cast<double>(plan_.total_min)},
                                {"window_min", static_cast<double>(*window_)},
                                {"ends", timeOfMinutes(*begin_ + plan_.total_min)}},
                               "longer-window-or-less-water",
                               {},
                               "window of the controller"});
    }

    void checkSource() {
        if (!site_.source || !site_.source->volume || f_.shifts.empty()) return;
        const WaterSource& source = *site_.source;
        const double high_m = source.high.inMetres();
        const double stop_m = source.stopLevel.value_or(source.low).inMetres();
        const double depth_m = std::max(0.0, high_m - stop_m);
        TankQuestion tank;
        tank.usable_m3 = source.volume->inCubicMetres();
        const double share = depth_m > 0.0 ? (source.usual.inMetres() - stop_m) / depth_m : 1.0;
        tank.start_m3 = tank.usable_m3 * std::clamp(share, 0.0, 1.0);
        tank.refill_m3_s = source.refill.value_or(Flow{}).inCubicMetresPerSecond();
        tank.delay_min = q_.delay_min;
        const TankNight night = tankNight(plan_.shifts, tank);
        double lowest_m = high_m;
        for (const TankPoint& p : night.points) {
            const double level_m = stop_m + depth_m * p.left_m3 / tank.usable_m3;
            lowest_m = std::min(lowest_m, level_m);
            f_.tank.push_back({p.minute, Volume::fromCubicMetres(p.left_m3), Level::fromMetres(level_m),
                               begin_ ? timeOfMinutes(*begin_ + p.minute) : ""});
        }
        if (night.dry_min) {
            const std::string when = begin_ ? timeOfMinutes(*begin_ + *night.dry_min) : "";
            f_.cautions.push_back({"tank-runs-dry",
                                   Severity::danger,
                                   "source",
                                   {{"side", std::string(begin_ ? "at" : "after")},
                                    {"time", when},
                                    {"after_min", *night.dry_min},
                                    {"short_m3", night.short_m3}},
                                   "larger-tank-or-less-water",
                                   {},
                                   "volume and refill of the source"});
        } else if (lowest_m < source.low.inMetres() - 1e-6) {
            f_.cautions.push_back({"tank-below-low",
                                   Severity::note,
                                   "source",
                                   {{"level_m", lowest_m}, {"limit_m", source.low.inMetres()}},
                                   "lower-the-low-level",
                                   {},
                                   "levels of the source"});
        }
    }

    const Job& job_;
    const Site& site_;
    const CaseSolver& solver_;
    const ZoneSets& sets_;
    const std::atomic<bool>* stop_;
    ShiftPlanQuestion q_;
    ShiftPlan plan_;
    ShiftPlanFinding f_;
    std::optional<int> begin_, window_; // minutes of the day, minutes
};

std::string quoted(const std::string& text) {
    if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
    std::string out = "\"";
    for (char c : text) {
        if (c == '"') out += '"';
        out += c;
    }
    return out + '"';
}

} // namespace

std::optional<ShiftPlanFinding> shiftFinding(const Job& job, const CaseSolver& solver, const ZoneSets& sets,
                                             const std::atomic<bool>* stop) {
    return Finder(job, solver, sets, stop).find();
}

int minutesOfTime(const std::string& time) {
    HEADMARK_ASSERT(time.size() == 5, "a time is HH:MM");
    return std::stoi(time.substr(0, 2)) * 60 + std::stoi(time.substr(3, 2));
}

std::string timeOfMinutes(double minutes) {
    const int whole = static_cast<int>(std::floor(minutes + 1e-9)) % kDay_min;
    char text[8];
    std::snprintf(text, sizeof text, "%02d:%02d", whole / 60, whole % 60);
    return text;
}

std::string shiftsCsv(const Findings& findings) {
    std::string csv = "pump,shift,start,station,zone,minutes,flow_m3_h\r\n"; // RFC 4180 lines
    for (const PumpFindings& pump : findings.pumps) {
        if (!pump.shiftPlan) continue;
        int number = 0;
        for (const ShiftPlanFinding::Shift& s : pump.shiftPlan->shifts) {
            ++number;
            for (std::size_t i = 0; i < s.stations.size(); ++i) {
                char flow[32];
                std::snprintf(flow, sizeof flow, "%.3f", s.stations[i].flow.inCubicMetresPerHour());
                csv += quoted(pump.name) + ',' + std::to_string(number) + ',' +
                       (s.start.empty() ? std::to_string(s.beginMinute) : s.start) + ',' +
                       std::to_string(s.stations[i].station) + ',' + quoted(s.zones[i]) + ',' +
                       std::to_string(s.minutes) + ',' + flow + "\r\n";
            }
        }
    }
    return csv;
}

} // namespace headmark
