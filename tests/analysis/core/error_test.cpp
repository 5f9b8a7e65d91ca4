#include "analysis/core/error.h"

#include <gtest/gtest.h>

namespace headmark {
namespace {

TEST(Facts, AreFoundByTheirKey) {
    const Facts facts = {{"velocity_m_s", 1.1}, {"code", std::string("elbow")}};
    const Fact* found = findFact(facts, "code");
    ASSERT_NE(found, nullptr);
    EXPECT_EQ(std::get<std::string>(found->value), "elbow");
    EXPECT_EQ(findFact(facts, "velocity"), nullptr);
}

} // namespace
} // namespace headmark
