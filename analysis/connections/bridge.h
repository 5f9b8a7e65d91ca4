#pragma once
// Which adapters lead from one end to another? The cheapest chain of catalogue adapters (nipples, bushes,
// sockets, tails, pipe adaptors, flanges) in which every joint is right, by Dijkstra over the ends.
// Cost: the adapter's own cost, more for one that is not the first choice for the exposure; next to nothing
// for the one the user prefers and much more for others of its group. No chain within kMostAdapters:
// "adaptor_to_suit" alone.

#include "analysis/connections/part_catalogue.h"

#include <map>
#include <string>
#include <vector>

namespace headmark {

enum class Exposure { sheltered, open }; // plastic; galvanised iron and brass

struct Adapter {
    const PartRow* part = nullptr;
    PartSize size;
    bool flipped = false; // its ends in the other order
    End in, out;          // as the water meets them
};

struct BridgeUse {
    JointUse joint;
    bool lift = false; // suction below the air's pressure
    Exposure exposure = Exposure::sheltered;
    std::map<std::string, std::string> preferred; // of a group of adapters the code to take
    std::optional<GaugePressure> pressure;        // that stands there; what bears less is dear
};

struct Bridge {
    std::vector<Adapter> adapters;
    double cost = 0.0;
    bool found = true; // false: adaptor_to_suit stands in
};

// Empty where the ends join as they are.
[[nodiscard]] Bridge bridgeBetween(const End& from, const End& to, const BridgeUse& use);

// Whether a part may stand in that line: at suction, under lift.
[[nodiscard]] bool allowedThere(const PartRow& part, const BridgeUse& use);
// 0 for the first choice of the exposure, a surcharge else.
[[nodiscard]] double exposureCost(const PartRow& part, Exposure exposure);
// 0 for what bears the pressure, a surcharge else.
[[nodiscard]] double weaknessCost(const PartRow& part, const std::optional<GaugePressure>& pressure);

} // namespace headmark
