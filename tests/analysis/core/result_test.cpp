#include "analysis/core/result.h"

#include <gtest/gtest.h>

#include <memory>

namespace headmark {
namespace {

TEST(Result, HoldsItsValue) {
    Result<int> result = 7;
    ASSERT_TRUE(result.ok());
    EXPECT_EQ(*result, 7);
    EXPECT_THROW(static_cast<void>(result.error()), InternalError);
}

TEST(Result, HoldsTheReasonOfFailure) {
    const Result<int> result = Error{"no-bore", "site.json", "site.suction[0]", {}};
    ASSERT_FALSE(result.ok());
    EXPECT_EQ(result.error().code, "no-bore");
    EXPECT_EQ(result.error().place, "site.suction[0]");
    EXPECT_THROW(static_cast<void>(result.value()), InternalError);
}

TEST(Result, HandsOverWhatCannotBeCopied) {
    Result<std::unique_ptr<int>> result = std::make_unique<int>(3);
    const std::unique_ptr<int> taken = std::move(result).value();
    EXPECT_EQ(*taken, 3);
}

TEST(Result, OfNothingStillTellsFailure) {
    EXPECT_TRUE(Result<void>().ok());
    const Result<void> failed = Error{"cannot-write", "", "", {}};
    ASSERT_FALSE(failed.ok());
    EXPECT_EQ(failed.error().code, "cannot-write");
    EXPECT_THROW(static_cast<void>(Result<void>().error()), InternalError);
}

TEST(Assertion, NamesConditionAndReason) {
    try {
        HEADMARK_ASSERT(1 > 2, "order of numbers");
        FAIL() << "the assertion let a false condition pass";
    } catch (const InternalError& error) {
        EXPECT_NE(std::string(error.what()).find("1 > 2"), std::string::npos);
        EXPECT_NE(std::string(error.what()).find("order of numbers"), std::string::npos);
    }
}

} // namespace
} // namespace headmark
