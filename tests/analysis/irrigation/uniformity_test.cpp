#include "analysis/irrigation/uniformity.h"

#include <gtest/gtest.h>

namespace headmark {
namespace {

// I-03 to I-05: formula of ASABE EP405.1, values recomputed outside this project; printed to four digits of a
// percent.
TEST(EmissionUniformity, FollowsTheFormulaOfTheStandard) {
    EXPECT_NEAR(emissionUniformityShare({0.05, 1, 0.95, 1.0}), 0.889675, 1e-6);
    EXPECT_NEAR(emissionUniformityShare({0.03, 4, 1.9, 2.0}), 0.931902, 1e-6);
    EXPECT_NEAR(emissionUniformityShare({0.07, 2, 0.9, 1.0}), 0.843424, 1e-6);
}

TEST(EmissionUniformity, IsWholeForEqualEmittersUnderEqualPressure) {
    EXPECT_EQ(emissionUniformityShare({0.0, 1, 3.0, 3.0}), 1.0);
}

TEST(EmissionUniformity, IsNothingWhereAnEmitterOrEveryEmitterIsDry) {
    EXPECT_EQ(emissionUniformityShare({0.05, 1, 0.0, 1.0}), 0.0);
    EXPECT_EQ(emissionUniformityShare({0.05, 1, 0.0, 0.0}), 0.0);
}

// 1.27 times 0.9 passes 1: the formula would turn negative.
TEST(EmissionUniformity, DoesNotFallBelowNothing) {
    EXPECT_EQ(emissionUniformityShare({0.9, 1, 1.0, 1.0}), 0.0);
}

// More emitters at a plant even each other out.
TEST(EmissionUniformity, RisesWithTheEmittersOfAPlant) {
    double before = 0.0;
    for (int n = 1; n <= 6; ++n) {
        const double share = emissionUniformityShare({0.08, n, 0.9, 1.0});
        EXPECT_GT(share, before);
        before = share;
    }
}

} // namespace
} // namespace headmark
