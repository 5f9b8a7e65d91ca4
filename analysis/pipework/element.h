#pragma once
// An item of a run made ready for computing: its loss as terms of the flow.
//   fitting:  h = quadratic q^2 + linear q + crack   (h in m, q in m3/s; crack only while water flows)
//   pipe:     friction over `length` in `bore` (see friction.h)
//   filter:   clean h = filterCoefficient q^filterExponent; at service filterService at any flow;
//             filterService 0: its loss does not rise with dirt, the clean law holds at service too
//   regulator: pressure after it at most `set`, at least `leastLoss` below the pressure before it
// K on velocity: h = K v^2/(2g), v = q/A, so quadratic = K/(2 g A^2). Darby K1/Re gives the linear term.
// Kv: h = 1e5 (3600 q/Kv)^2 / (1000 g), whatever the density (IEC 60534 definition of Kv).

#include "analysis/core/result.h"
#include "analysis/pipework/run.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace headmark {

enum class ElementKind { pipe, fitting, filter, regulator, takeoff };

// Of a catalogue pipe whose rating falls with the water's temperature (see warm_rating.h).
enum class Plastic { none, polyethylene, pvcu };

struct Element {
    ElementKind kind = ElementKind::fitting;
    std::size_t item = 0;        // index in the run it came from
    std::string code;            // catalogue code or empty
    std::string takeoff;         // name, for a take-off
    double bore_m = 0.0;         // bore the velocity belongs to; 0 where it plays no part (Kv without bore)
    double length_m = 0.0;       // pipe
    double roughness_m = 0.0;    // pipe
    double hazenWilliamsC = 0.0; // pipe; 0: not given
    double quadratic_s2_m5 = 0.0;
    double linear_s_m2 = 0.0;
    double crack_m = 0.0;
    double filterCoefficient = 0.0; // h[m] = coefficient * q[m3/s]^exponent
    double filterExponent = 2.0;
    double filterService_m = 0.0;
    double set_m = 0.0;       // regulator: set pressure as head of this water
    double leastLoss_m = 0.0; // regulator
    std::optional<Level> riseTo;
    std::optional<Pressure> rating; // nominal
    Plastic plastic = Plastic::none;
    std::optional<Flow> greatestFlow; // filter
    bool mayBeSuction = true;
    std::string nominalSize; // size used for tables, "1-1/2"; empty where none was needed
};

// What the losses depend on besides the run itself.
struct ElementContext {
    Density density;
    KinematicViscosity viscosity;
    FrictionMethod friction = FrictionMethod::darcy;
};

// The elements of a run. Bore of a fitting: its own `bore`; else the medium steel tube bore (EN 10255,
// threads.csv) of its `size`; else the bore of the next pipe after it, or the last before it at the run's
// end; `boreBefore`/`boreAfter` are the neighbours outside the run (empty: none). "Smaller bore" fittings and
// the two-bore formulas take both neighbours; the bores' difference 0 means no loss. Errors (place is
// "[index].fitting"): "no-bore" nothing tells the bore; "no-such-size" the table has no row for the size
// (facts: code, size, sizes known).
[[nodiscard]] Result<std::vector<Element>> elementsOf(const Run& run, const ElementContext& context,
                                                      std::optional<Length> boreBefore = {},
                                                      std::optional<Length> boreAfter = {});

// Nominal size of a bore: the thread size of threads.csv whose steel tube bore is nearest by ratio.
// 55.2 mm gives "2", 20.15 mm gives "3/4".
[[nodiscard]] std::string nominalSizeOfBore(Length bore);

} // namespace headmark
