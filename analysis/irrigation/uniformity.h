#pragma once
// Emission uniformity of a zone, as designed:
//   EU = (1 - 1.27 CV / sqrt(n)) q_min / q_mean        (share; ASABE EP405.1)
// CV: coefficient of variation of new emitters from the factory; n: emitters that water one plant;
// q_min, q_mean: flow at the lowest pressure and mean flow of the zone's emitters. 1.27 is the mean of the
// lowest quarter of a normal distribution in standard deviations. Range: 0 <= CV < sqrt(n)/1.27; a larger CV
// gives 0. No water gives 0.

namespace headmark {

struct UniformityInputs {
    double variationShare = 0.0; // CV
    int emittersPerPlant = 1;
    double lowestFlow_m3_s = 0.0;
    double meanFlow_m3_s = 0.0;
};

[[nodiscard]] double emissionUniformityShare(const UniformityInputs& inputs);

} // namespace headmark
