#pragma once
// The loss of elements in series that carry one flow, condensed for repeated evaluation:
//   h(q) = crack + linear q + quadratic q^2 + sum coefficient q^exponent + pipe friction
// q >= 0 in m3/s, h in m; rises with q. `crack` (spring loads, filters at service) counts in full also at
// q = 0: it is the head that must be there before water flows.

#include "analysis/pipework/element.h"
#include "analysis/pipework/friction.h"

#include <span>
#include <vector>

namespace headmark {

// How the assumed site differs from the one described, for draws and sensitivities. All are factors, 1 as
// described; one entry per element of the run.
struct ElementFactors {
    double length = 1.0;
    double roughness = 1.0;
    double loss = 1.0; // fittings' and clean filters' terms
};

class Chain {
  public:
    void addPipe(double bore_m, double length_m, double roughness_m, KinematicViscosity viscosity);
    void addPower(double coefficient, double exponent);
    void addQuadratic(double coefficient_s2_m5) { quadratic_ += coefficient_s2_m5; }
    void addLinear(double coefficient_s_m2) { linear_ += coefficient_s_m2; }
    void addCrack(double head_m) { crack_m_ += head_m; }

    // Adds an element other than a regulator or take-off. `allowanceShare` lengthens pipes for what is not
    // listed.
    void add(const Element& element, const ElementContext& context, FilterState filter, double allowanceShare,
             const ElementFactors& factors = {});

    [[nodiscard]] LossAt at(double flow_m3_s) const;
    [[nodiscard]] double crack_m() const { return crack_m_; }

  private:
    struct PowerTerm {
        double coefficient, exponent;
    };
    std::vector<PipeFriction> pipes_; // pipes of equal bore and wall are one
    std::vector<PowerTerm> powers_;
    double quadratic_ = 0.0, linear_ = 0.0, crack_m_ = 0.0;
};

// Loss of one element alone at a flow, for workings and the energy line.
[[nodiscard]] double elementLoss_m(const Element& element, const ElementContext& context, FilterState filter,
                                   double allowanceShare, double flow_m3_s);

} // namespace headmark
