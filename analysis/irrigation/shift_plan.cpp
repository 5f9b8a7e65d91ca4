#include "analysis/irrigation/shift_plan.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>
#include <tuple>
#include <unordered_map>

namespace headmark {

namespace {

constexpr double kMinute_s = 60.0;

ZoneMask bitOf(int zone) { return ZoneMask{1} << static_cast<unsigned>(zone); }

// What a plan costs; compared in the objective's order. Energy not known counts as none.
struct Cost {
    double minutes = 0.0, energy_J = 0.0;
    int shifts = 0;

    [[nodiscard]] Cost plus(const Cost& o) const {
        return {minutes + o.minutes, energy_J + o.energy_J, shifts + o.shifts};
    }
    [[nodiscard]] bool below(const Cost& o, ShiftObjective objective) const {
        // Sums of the same energies in another order are the same energy.
        const double hair = 1e-9 * std::max(energy_J, o.energy_J);
        const bool equalEnergy = std::abs(energy_J - o.energy_J) <= hair;
        const double mine = equalEnergy ? 0.0 : energy_J, others = equalEnergy ? 0.0 : o.energy_J;
        switch (objective) {
        case ShiftObjective::energy:
            return std::tuple(mine, minutes, shifts) < std::tuple(others, o.minutes, o.shifts);
        case ShiftObjective::shifts:
            return std::tuple(shifts, minutes, mine) < std::tuple(o.shifts, o.minutes, others);
        case ShiftObjective::time:
            break;
        }
        return std::tuple(minutes, mine, shifts) < std::tuple(o.minutes, others, o.shifts);
    }
};

class Planner {
  public:
    explicit Planner(const ShiftPlanQuestion& q) : q_(q) {
        for (std::size_t z = 0; z < q.need_m3.size(); ++z) {
            if (q.need_m3[z] > 0.0) wanted_ |= bitOf(static_cast<int>(z));
        }
    }

    ShiftPlan plan() {
        if (std::popcount(wanted_) <= kExactPlanZones) return exact();
        return improved();
    }

  private:
    // The shift of that set, or null where it does not work; asked once.
    const Shift* shiftOf(ZoneMask set) {
        const auto known = shifts_.find(set);
        if (known != shifts_.end()) return known->second ? &*known->second : nullptr;
        auto& slot = shifts_[set];
        if (std::popcount(set) > q_.mostOpen || !keepsPairs(set)) return nullptr;
        auto run = q_.run(set);
        if (!run) return nullptr;
        const auto minutes = minutesOf(q_, set, *run);
        if (!minutes) return nullptr;
        slot = Shift{set, *minutes, std::move(*run)};
        return &*slot;
    }

    [[nodiscard]] bool keepsPairs(ZoneMask set) const {
        const auto has = [&](int zone) { return (set & bitOf(zone)) != 0; };
        return std::all_of(q_.together.begin(), q_.together.end(),
                           [&](const auto& p) {
                               // A partner that needs no water today is not missed.
                               const ZoneMask both = bitOf(p.first) | bitOf(p.second);
                               return (wanted_ & both) != both || has(p.first) == has(p.second);
                           }) &&
               std::none_of(q_.apart.begin(), q_.apart.end(),
                            [&](const auto& p) { return has(p.first) && has(p.second); });
    }

    [[nodiscard]] Cost costOf(const Shift& s) const {
        return {static_cast<double>(s.minutes + q_.delay_min), s.energy_J().value_or(0.0), 1};
    }

    // Subsets of the zones, smallest first: the shift that holds the first zone left, with any of the others.
    ShiftPlan exact() {
        std::vector<int> zones;
        for (ZoneMask rest = wanted_; rest != 0; rest &= rest - 1)
            zones.push_back(std::countr_zero(rest));
        const auto spread = [&](unsigned small) {
            ZoneMask set = 0;
            for (std::size_t i = 0; i < zones.size(); ++i) {
                if ((small >> i) & 1U) set |= bitOf(zones[i]);
            }
            return set;
        };
        const unsigned all = (1U << zones.size()) - 1U;
        std::vector<const Shift*> shift(all + 1U, nullptr);
        ZoneMask possible = 0;
        unsigned reached = 0;
        for (unsigned s = 1; s <= all; ++s) {
            shift[s] = shiftOf(spread(s));
            if (shift[s]) possible |= spread(s), reached |= s;
        }
        ShiftPlan plan;
        plan.impossible = wanted_ & ~possible;
        struct Best {
            std::optional<Cost> cost;
            unsigned last = 0;
        };
        std::vector<Best> best(all + 1U);
        best[0].cost = Cost{};
        for (unsigned mask = 1; mask <= all; ++mask) {
            if ((mask & ~reached) != 0) continue;
            const unsigned first = mask & (~mask + 1U), others = mask & ~first;
            for (unsigned sub = others;; sub = (sub - 1U) & others) {
                const unsigned set = sub | first;
                const auto& rest = best[mask & ~set].cost;
                if (shift[set] && rest) {
                    const Cost cost = rest->plus(costOf(*shift[set]));
                    if (!best[mask].cost || cost.below(*best[mask].cost, q_.objective))
                        best[mask] = {cost, set};
                }
                if (sub == 0) break;
            }
        }
        // With pairs a part may be reachable only in sets that clash: then as many zones as can be.
        unsigned target = reached;
        if (!best[target].cost) {
            for (unsigned mask = 0; mask <= all; ++mask) {
                if (best[mask].cost && (!best[target].cost || std::popcount(mask) > std::popcount(target)))
                    target = mask;
            }
            plan.impossible = wanted_ & ~spread(target);
        }
        for (unsigned mask = target; mask != 0; mask &= ~best[mask].last)
            plan.shifts.push_back(*shift[best[mask].last]);
        finish(plan);
        return plan;
    }

    // Groups that must run together are put down as one.
    [[nodiscard]] std::vector<ZoneMask> groups() const {
        std::vector<ZoneMask> groups;
        for (ZoneMask rest = wanted_; rest != 0; rest &= rest - 1)
            groups.push_back(rest & (~rest + 1U));
        for (const auto& [a, b] : q_.together) {
            if (!(wanted_ & bitOf(a)) || !(wanted_ & bitOf(b))) continue;
            const auto holder = [&](int zone) {
                return std::find_if(groups.begin(), groups.end(),
                                    [&](ZoneMask g) { return (g & bitOf(zone)) != 0; });
            };
            const auto first = holder(a), second = holder(b);
            if (first == second) continue;
            *first |= *second;
            groups.erase(second);
        }
        return groups;
    }

    ShiftPlan improved() {
        ShiftPlan plan;
        std::vector<ZoneMask> left;
        for (ZoneMask group : groups()) {
            if (shiftOf(group) != nullptr) {
                left.push_back(group);
            } else {
                plan.impossible |= group; // works only in company, if at all; not looked for
            }
        }
        // The longest first, so that the short ones find room beside them.
        std::stable_sort(left.begin(), left.end(),
                         [&](ZoneMask a, ZoneMask b) { return shiftOf(a)->minutes > shiftOf(b)->minutes; });
        std::vector<ZoneMask> sets;
        for (ZoneMask group : left)
            placeBest(sets, group);
        improve(sets, left);
        for (ZoneMask set : sets)
            plan.shifts.push_back(*shiftOf(set));
        finish(plan);
        plan.proven = false;
        plan.gapShare = gapOf(plan);
        return plan;
    }

    void placeBest(std::vector<ZoneMask>& sets, ZoneMask group) {
        std::optional<Cost> best = costOf(*shiftOf(group));
        std::size_t at = sets.size();
        for (std::size_t i = 0; i < sets.size(); ++i) {
            const Shift* joined = shiftOf(sets[i] | group);
            if (joined == nullptr) continue;
            Cost more = costOf(*joined);
            const Cost before = costOf(*shiftOf(sets[i]));
            more = {more.minutes - before.minutes, more.energy_J - before.energy_J, 0};
            if (more.below(*best, q_.objective)) best = more, at = i;
        }
        if (at == sets.size()) sets.push_back(0);
        sets[at] |= group;
    }

    [[nodiscard]] std::optional<Cost> costOf(const std::vector<ZoneMask>& sets) {
        Cost sum;
        for (ZoneMask set : sets) {
            if (set == 0) continue;
            const Shift* shift = shiftOf(set);
            if (shift == nullptr) return std::nullopt;
            sum = sum.plus(costOf(*shift));
        }
        return sum;
    }

    // Moves of one group to another shift and exchanges of two, while any helps.
    void improve(std::vector<ZoneMask>& sets, const std::vector<ZoneMask>& groups) {
        constexpr int kMostRounds = 50;
        bool better = true;
        for (int round = 0; round < kMostRounds && better; ++round) {
            better = false;
            for (ZoneMask a : groups) {
                better = tryMoves(sets, a) || better;
                for (ZoneMask b : groups)
                    better = (b > a && tryExchange(sets, a, b)) || better;
            }
        }
        std::erase(sets, ZoneMask{0});
    }

    static std::size_t holder(const std::vector<ZoneMask>& sets, ZoneMask group) {
        return static_cast<std::size_t>(
            std::find_if(sets.begin(), sets.end(), [&](ZoneMask s) { return (s & group) == group; }) -
            sets.begin());
    }

    bool takeIfBetter(std::vector<ZoneMask>& sets, std::size_t i, ZoneMask a, std::size_t j, ZoneMask b) {
        const auto before = costOf(std::vector{sets[i], sets[j]});
        const auto after = costOf(std::vector{a, b});
        if (!after || !after->below(*before, q_.objective)) return false;
        sets[i] = a;
        sets[j] = b;
        return true;
    }

    bool tryMoves(std::vector<ZoneMask>& sets, ZoneMask group) {
        bool moved = false;
        for (std::size_t j = 0; j < sets.size(); ++j) {
            const std::size_t i = holder(sets, group);
            if (i != j) moved = takeIfBetter(sets, i, sets[i] & ~group, j, sets[j] | group) || moved;
        }
        return moved;
    }

    bool tryExchange(std::vector<ZoneMask>& sets, ZoneMask a, ZoneMask b) {
        const std::size_t i = holder(sets, a), j = holder(sets, b);
        return i != j && takeIfBetter(sets, i, (sets[i] & ~a) | b, j, (sets[j] & ~b) | a);
    }

    // How far the plan may lie from the least there can be.
    double gapOf(const ShiftPlan& plan) {
        double needs_m3 = 0.0, energy_J = 0.0, longest_min = 0.0;
        for (const Shift& s : plan.shifts) {
            energy_J += s.energy_J().value_or(0.0);
            for (ZoneMask rest = s.zones; rest != 0; rest &= rest - 1)
                needs_m3 += q_.need_m3[static_cast<std::size_t>(std::countr_zero(rest))];
        }
        const int planned = std::popcount(wanted_ & ~plan.impossible);
        const int most = std::max(1, std::min(q_.mostOpen, q_.largestSet));
        const int leastShifts = (planned + most - 1) / most;
        const auto share = [](double found, double bound) {
            return found > 0.0 ? std::clamp((found - bound) / found, 0.0, 1.0) : 0.0;
        };
        switch (q_.objective) {
        case ShiftObjective::energy:
            return share(energy_J, needs_m3 * q_.leastEnergy_J_m3.value_or(0.0));
        case ShiftObjective::shifts:
            return share(static_cast<double>(plan.shifts.size()), leastShifts);
        case ShiftObjective::time:
            break;
        }
        if (q_.mostDelivered_m3_s && *q_.mostDelivered_m3_s > 0.0)
            longest_min = needs_m3 / *q_.mostDelivered_m3_s / kMinute_s;
        longest_min += q_.delay_min * (leastShifts - 1);
        return share(plan.total_min, longest_min);
    }

    void finish(ShiftPlan& plan) const {
        std::sort(plan.shifts.begin(), plan.shifts.end(), [](const Shift& a, const Shift& b) {
            return std::countr_zero(a.zones) < std::countr_zero(b.zones);
        });
        for (const Shift& s : plan.shifts)
            plan.total_min += s.minutes;
        if (plan.shifts.size() > 1)
            plan.total_min += q_.delay_min * (static_cast<int>(plan.shifts.size()) - 1);
    }

    const ShiftPlanQuestion& q_;
    ZoneMask wanted_ = 0;
    std::unordered_map<ZoneMask, std::optional<Shift>> shifts_;
};

} // namespace

std::optional<double> Shift::energy_J() const {
    if (!run.input_W) return std::nullopt;
    return *run.input_W * minutes * kMinute_s;
}

std::optional<int> minutesOf(const ShiftPlanQuestion& question, ZoneMask set, const SetRun& run) {
    int minutes = 0;
    for (ZoneMask rest = set; rest != 0; rest &= rest - 1) {
        const auto z = static_cast<std::size_t>(std::countr_zero(rest));
        if (question.need_m3[z] <= 0.0) continue;
        if (run.flow_m3_s[z] <= 0.0) return std::nullopt;
        constexpr double kHair = 1e-9; // 60 minutes that come out a hair above are 60
        const double exact = question.need_m3[z] / run.flow_m3_s[z] / kMinute_s;
        constexpr double kMost = 1e6;
        if (!(exact < kMost)) return std::nullopt;
        minutes = std::max(minutes, static_cast<int>(std::ceil(exact * (1.0 - kHair))));
    }
    return minutes;
}

ShiftPlan planShifts(const ShiftPlanQuestion& question) { return Planner(question).plan(); }

TankNight tankNight(const std::vector<Shift>& shifts, const TankQuestion& tank) {
    TankNight night;
    double minute = 0.0, left = std::min(tank.start_m3, tank.usable_m3);
    night.points.push_back({minute, left});
    const auto pass = [&](double minutes, double drawn_m3_s) {
        const double net_m3_min = (tank.refill_m3_s - drawn_m3_s) * kMinute_s;
        const double after = left + net_m3_min * minutes;
        if (after < 0.0) {
            const double until = minute + left / -net_m3_min;
            if (!night.dry_min) night.dry_min = until;
            if (left > 0.0) night.points.push_back({until, 0.0});
            night.short_m3 -= after;
        }
        minute += minutes;
        left = std::clamp(after, 0.0, tank.usable_m3);
        night.points.push_back({minute, left});
    };
    for (std::size_t i = 0; i < shifts.size(); ++i) {
        if (i > 0 && tank.delay_min > 0) pass(tank.delay_min, 0.0);
        pass(shifts[i].minutes, shifts[i].run.drawn_m3_s);
    }
    return night;
}

} // namespace headmark
