#pragma once
// What guards the pump and its pipes beside the duty point, one study a topic: figures with their working,
// cautions with their remedies. Over the same solver and answers as the cases themselves.
//
//   suction        NPSH at every level, the greatest flow and the lowest water that still work, submergence,
//                  air pockets, what must be filled before the first start
//   shut-in        no valve open: heating without a return; what a return passes, warms and takes at each
//   duty filling        the empty main: volume and least time ratings        pressure at shut-off with high
//   water and the strongest pump delivered, against every rating filter         clean and at service, mesh
//   against the emitters surge          a zone valve shuts, the pump stops held-pressure  switch band, vessel
//   and starts; a set point held by speed motor          input over the flows, current, cost of a cubic metre
//   and of a night

#include "analysis/duty/case_solver.h"
#include "analysis/pipework/rules.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace headmark {

// What a site's description says beyond its hydraulics. Empty: not known; the studies then say what they
// took.
struct InstallationFacts {
    // Of the suction's open end.
    std::optional<Level> mouthLevel; // of the strainer's or mouth's upper edge; a floating inlet has none
    std::optional<Level> floorLevel; // of tank or bed below it
    std::optional<Duration> valveClosing; // of a zone valve
    // Of the pump.
    std::optional<Volume> casing; // water in it
    std::optional<Head> primesTo; // lift that it primes by itself
    // On the motor's plate.
    std::optional<Power> plateInput;
    std::optional<double> plateAmps, volts, powerFactor;
    std::optional<int> phases;
    // Energy price per kWh; empty: no cost is shown.
    std::optional<double> pricePerKilowattHour;
};

struct InstallationQuestion {
    const CaseSolver* solver = nullptr;
    std::span<const CaseAnswer> cases; // of this pump
    InstallationFacts facts;
    Temperature water; // as it comes

    [[nodiscard]] const Rules& rules() const { return solver->limits().rules; }
};

struct Study {
    std::string topic;
    Working figures;
    Cautions cautions;
};

// The topics that concern the site, in the order above. A known system curve has none of the pipework's.
[[nodiscard]] std::vector<Study> installationOf(const InstallationQuestion& question);

[[nodiscard]] Study suctionStudy(const InstallationQuestion& question);
[[nodiscard]] Study shutInStudy(const InstallationQuestion& question);
[[nodiscard]] Study fillingStudy(const InstallationQuestion& question);
[[nodiscard]] Study ratingsStudy(const InstallationQuestion& question);
[[nodiscard]] Study filterStudy(const InstallationQuestion& question);
[[nodiscard]] Study surgeStudy(const InstallationQuestion& question);
[[nodiscard]] Study heldPressureStudy(const InstallationQuestion& question);
[[nodiscard]] Study motorStudy(const InstallationQuestion& question);

} // namespace headmark
