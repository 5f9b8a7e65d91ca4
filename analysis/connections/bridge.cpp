#include "analysis/connections/bridge.h"

#include "analysis/core/assertion.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <queue>
#include <tuple>

namespace headmark {

namespace {

// Above this many adapters in a row nobody builds; the three hardest in the catalogue are hose to flange.
constexpr std::size_t kMostAdapters = 4;
constexpr double kOtherExposure = 0.6; // dearer than one adapter less is cheap: material never adds a part
constexpr double kPreferred = 0.05, kNotPreferred = 3.0;
constexpr double kTooWeak = 6.0; // dearer than another material and a part or two more
constexpr double kToSuit = 20.0;

std::vector<Adapter> readAdapters() {
    std::vector<Adapter> adapters;
    for (const PartRow& part : partRows()) {
        if (!part.adapterCost) continue;
        for (const PartSize& size : part.sizes) {
            const std::vector<End> ends = endsOf(part, size);
            HEADMARK_ASSERT(ends.size() == 2, "an adapter in parts.csv without two ends");
            adapters.push_back({&part, size, false, ends[0], ends[1]});
            if (!(ends[0] == ends[1])) adapters.push_back({&part, size, true, ends[1], ends[0]});
        }
    }
    return adapters;
}

const std::vector<Adapter>& everyAdapter() {
    static const std::vector<Adapter> adapters = readAdapters();
    return adapters;
}

// Ends can only meet where one's key is the other's partner: sex, size and diameter of each.
using Key = std::tuple<int, bool, std::string, long>;

Key keyOf(const End& end, EndKind kind, bool male) {
    return {static_cast<int>(kind), male, end.size, std::lround(end.diameter_mm)};
}

EndKind partnerKind(EndKind kind) {
    switch (kind) {
    case EndKind::tail:
        return EndKind::hose;
    case EndKind::hose:
        return EndKind::tail;
    case EndKind::peSocket:
        return EndKind::pePipe;
    case EndKind::pePipe:
        return EndKind::peSocket;
    case EndKind::pvcSocket:
        return EndKind::pvcPipe;
    case EndKind::pvcPipe:
        return EndKind::pvcSocket;
    case EndKind::tubeSocket:
        return EndKind::tube;
    case EndKind::tube:
        return EndKind::tubeSocket;
    default:
        return kind;
    }
}

using Index = std::map<Key, std::vector<std::size_t>>;

// Adapters by the key of the end that the water enters.
const Index& adaptersByKey() {
    static const Index index = [] {
        Index made;
        const auto& adapters = everyAdapter();
        for (std::size_t i = 0; i < adapters.size(); ++i)
            made[keyOf(adapters[i].in, adapters[i].in.kind, adapters[i].in.male)].push_back(i);
        return made;
    }();
    return index;
}

const std::vector<std::size_t>& meeting(const End& end) {
    static const std::vector<std::size_t> none;
    const bool thread = end.kind == EndKind::thread;
    const auto found = adaptersByKey().find(keyOf(end, partnerKind(end.kind), thread && !end.male));
    return found == adaptersByKey().end() ? none : found->second;
}

struct Reached {
    double cost = 0.0;
    std::size_t adapter = 0;
    std::optional<std::size_t> before; // index into the list of reached states
    std::size_t depth = 0;
};

double costOf(const Adapter& adapter, const BridgeUse& use) {
    const double cost = *adapter.part->adapterCost + exposureCost(*adapter.part, use.exposure) +
                        weaknessCost(*adapter.part, use.pressure);
    const auto chosen = use.preferred.find(adapter.part->group);
    if (chosen == use.preferred.end()) return cost;
    return chosen->second == adapter.part->code ? kPreferred : cost + kNotPreferred;
}

Bridge chainTo(const std::vector<Reached>& reached, std::size_t last) {
    Bridge bridge;
    bridge.cost = reached[last].cost;
    for (std::optional<std::size_t> at = last; at; at = reached[*at].before)
        bridge.adapters.push_back(everyAdapter()[reached[*at].adapter]);
    std::reverse(bridge.adapters.begin(), bridge.adapters.end());
    return bridge;
}

Bridge standIn(const End& from, const End& to) {
    const PartRow* part = findPart("adaptor_to_suit");
    HEADMARK_ASSERT(part, "no adaptor_to_suit in parts.csv");
    Bridge bridge;
    bridge.found = false;
    bridge.cost = kToSuit;
    End in, out;
    in.size = from.size;
    out.size = to.size;
    bridge.adapters.push_back({part, {}, false, in, out});
    return bridge;
}

class Search {
  public:
    Search(const End& from, const End& to, const BridgeUse& use)
        : from_(from), to_(to), use_(use), best_(everyAdapter().size(), 1e9) {}

    Bridge run() {
        spread(from_, std::nullopt, 0.0, 0);
        while (!queue_.empty()) {
            const auto [negative, at] = queue_.top();
            queue_.pop();
            const Reached state = reached_[at];
            if (state.cost > best_[state.adapter]) continue;
            const Adapter& adapter = everyAdapter()[state.adapter];
            if (joins(adapter.out, to_, use_.joint)) return chainTo(reached_, at);
            if (state.depth < kMostAdapters) spread(adapter.out, at, state.cost, state.depth);
        }
        return standIn(from_, to_);
    }

  private:
    void spread(const End& end, std::optional<std::size_t> before, double cost, std::size_t depth) {
        const auto& adapters = everyAdapter();
        for (std::size_t i : meeting(end)) {
            if (!allowedThere(*adapters[i].part, use_)) continue;
            const double reach = cost + costOf(adapters[i], use_);
            if (reach >= best_[i] || !joins(end, adapters[i].in, use_.joint)) continue;
            best_[i] = reach;
            reached_.push_back({reach, i, before, depth + 1});
            queue_.push({-reach, reached_.size() - 1});
        }
    }

    const End& from_;
    const End& to_;
    const BridgeUse& use_;
    std::vector<double> best_;
    std::vector<Reached> reached_;
    std::priority_queue<std::pair<double, std::size_t>> queue_;
};

} // namespace

bool allowedThere(const PartRow& part, const BridgeUse& use) {
    if (!use.joint.suction || part.suction == SuctionUse::yes) return true;
    return part.suction == SuctionUse::floodedOnly && !use.lift;
}

double exposureCost(const PartRow& part, Exposure exposure) {
    if (part.exposure == "any") return 0.0;
    return (part.exposure == "open") == (exposure == Exposure::open) ? 0.0 : kOtherExposure;
}

double weaknessCost(const PartRow& part, const std::optional<GaugePressure>& pressure) {
    const bool weak = pressure && part.rating && pressure->inPascals() > part.rating->inPascals();
    return weak ? kTooWeak : 0.0;
}

Bridge bridgeBetween(const End& from, const End& to, const BridgeUse& use) {
    if (joins(from, to, use.joint)) return {};
    return Search(from, to, use).run();
}

} // namespace headmark
