#pragma once
// Invented networks in both forms: raw figures for the reference solver, and the pipe tree of analysis/.

#include "analysis/pipework/tree.h"
#include "support/gsl_tree.h"

#include <random>

namespace headmark::testing {

inline constexpr double kNetworkDensity_kg_m3 = 1000.0;

// The same network through items of a run, elements and chains.
[[nodiscard]] PipeTree pipeTreeOf(const reference::Network& network);

// The network's pump as the tree solver wants it.
class PolynomialHead final : public HeadSource {
  public:
    // `together` equal pumps side by side.
    explicit PolynomialHead(std::vector<double> coefficients, double together = 1.0)
        : coefficients_(std::move(coefficients)), together_(together) {}
    [[nodiscard]] LossAt at(double flow_m3_s) const override;

  private:
    std::vector<double> coefficients_;
    double together_;
};

// 1 to 30 zones with sub-mains, check valves with springs, regulators, every kind of emitter, some zones out
// of the pump's reach, sometimes a tank return.
[[nodiscard]] reference::Network randomNetwork(std::mt19937_64& random, int leastZones = 1,
                                               int mostZones = 30);

// `zones` ordinary zones along one main, of `partsPerWay` parts in the main and each branch, for timings.
[[nodiscard]] reference::Network plainNetwork(int zones, int partsPerWay);

} // namespace headmark::testing
