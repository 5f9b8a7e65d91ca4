#pragma once
// Flows and heads of a pipe tree behind a pump, by Newton's method on the whole tree at once.
//
// Unknown: the outflows x_i >= 0. With a tree every edge carries the sum of the outflows behind it, so mass
// is conserved by construction; what is solved are the energy equations
//   R_i = source level + H_pump(Q) - losses on the way to i (regulators cut off at their set level)
//         - level_i - h_i(x_i) = 0,   Q = sum x_i
// with x_i = 0 where R_i <= 0 (outflow above the energy line) and x_i = cap where R_i >= 0 (compensating
// emitters). The Newton matrix is that of the global gradient method (Todini and Pilati 1988); on a tree it
// is eliminated from the leaves to the root without fill-in, in time proportional to the edges. A step is
// shortened where it overshoots along its own direction.
//
// Needs a head source that does not rise with flow: then there is one solution. A drooping pump curve is
// split at its turning points by the caller (duty/crossings.h).

#include "analysis/pipework/tree.h"

#include <vector>

namespace headmark {

struct TreeSolution {
    enum class State { notRun, converged, stalled };
    State state = State::notRun;
    int iterations = 0;
    double flow_m3_s = 0.0;  // through the pump
    double pumpHead_m = 0.0; // head the source adds at that flow
    double rootHead_m = 0.0; // energy level at the pump's outlet
    std::vector<double> outflow_m3_s;
    std::vector<double> outflowHead_m; // energy level where each outflow sits, before its law
    std::vector<double> edgeFlow_m3_s;
    std::vector<double> edgeEndHead_m;    // energy level at each edge's end, after its regulator
    std::vector<bool> regulating;         // the edge's regulator is holding back
    double energyResidual_m = 0.0;        // greatest over the outflows that run freely
    double continuityResidual_m3_s = 0.0; // root edge flow against the sum of outflows
};

class TreeSolver {
  public:
    explicit TreeSolver(const PipeTree& tree);

    // Starts from the last solution where there is one (warm), else from the outflows' usual flows.
    const TreeSolution& solve(const HeadSource& pump);
    // The same with a constant head at the pump: the system's demand at that head.
    const TreeSolution& demandAtHead(double pumpHead_m);
    void startFrom(const std::vector<double>& outflow_m3_s);
    void startCold() { warm_ = false; }
    [[nodiscard]] const TreeSolution& solution() const { return solution_; }
    [[nodiscard]] const PipeTree& tree() const { return *tree_; }

  private:
    void evaluate(const HeadSource& pump);
    void eliminate();
    [[nodiscard]] bool settled() const;
    void ensureStart();

    const PipeTree* tree_;
    TreeSolution solution_;
    bool warm_ = false;
    std::vector<double> cap_, edgeSlope_, residual_, lawSlope_, step_, trial_, previous_;
    std::vector<double> edgeGain_, edgeShift_, edgeHeadStep_; // elimination: dQ = shift + gain dH
    std::vector<char> free_;
    double rootSlope_ = 0.0;
};

} // namespace headmark
