// Efficiencies of a family run together towards zero flow: each is followed on in their common ink, and what
// is not known of its place there is said.

#include "analysis/chart/ink_path.h"
#include "analysis/chart/line_tracing.h"
#include "analysis/chart/path_marcher.h"

#include "drawn_page.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace headmark {
namespace {

using testing::DrawnPage;
using testing::Pen;

constexpr int kWidth = 520, kHeight = 460;
constexpr double kStart = 60.0, kEnd = 460.0;

// Of the impeller k = 0, 1, 2; they leave the origin in one direction and part with the square of the flow.
double efficiency(int k, double x) {
    const double t = x - kStart;
    return 430.0 - 1.7 * t + (0.0018 + 0.0006 * k) * t * t;
}

// Dashes of each at its own places; solid where `gap` is 0.
DrawnPage family(double dash, double gap) {
    DrawnPage drawn(kWidth, kHeight);
    const Pen pen{2.4, 0.6, 0.9};
    for (int k = 0; k < 3; ++k)
        for (double x = kStart + 3.0 * k; x < kEnd; x += dash + gap)
            drawn.curve([k](double at) { return efficiency(k, at); }, x, std::min(x + dash, kEnd), pen);
    return drawn;
}

InkPath follow(const Page& page, int k, LineManner manner) {
    const InkField field(page, {0, 0, page.width, page.height});
    const auto start = strokeUnder(field, {404.0, efficiency(k, 404.0)}, 4.0, std::nullopt);
    if (!start) {
        ADD_FAILURE() << "no stroke under the click";
        return {};
    }
    return followInk(field, *start, {}, manner);
}

TEST(RunTogether, EachOfAFamilyIsFollowedToZeroFlow) {
    for (const double gap : {0.0, 4.0}) {
        const Page page = family(gap > 0.0 ? 6.0 : 500.0, gap).page(false, 2.0);
        for (int k = 0; k < 3; ++k) {
            SCOPED_TRACE(::testing::Message() << "impeller " << k << ", gap " << gap);
            const InkPath path = follow(page, k, {.together = true});
            ASSERT_FALSE(path.points.empty());
            EXPECT_NEAR(path.points.front().at.x, kStart, 12.0);
            EXPECT_NEAR(path.points.back().at.x, kEnd, 12.0);
            for (const PathPoint& p : path.points) {
                // Across the line, which is steep where they run together.
                const double slope = efficiency(k, p.at.x + 0.5) - efficiency(k, p.at.x - 0.5);
                const double off = std::abs(p.at.y - efficiency(k, p.at.x)) / std::hypot(1.0, slope);
                // Just where it parts from a neighbour, by no more than their width.
                EXPECT_LT(off, p.spare_px + 2.8) << "at " << p.at.x;
            }
        }
    }
}

TEST(RunTogether, OnlyWhatMayRunTogetherIsFollowedSo) {
    const Page page = family(6.0, 4.0).page(false, 2.0);
    const InkPath path = follow(page, 1, {});
    const auto amid = [](const PathPoint& p) { return p.spare_px > 0.0; };
    EXPECT_TRUE(std::none_of(path.points.begin(), path.points.end(), amid));
}

TEST(RunTogether, ALineOfItsOwnHasNoSuchStretch) {
    DrawnPage drawn(kWidth, kHeight);
    drawn.curve([](double x) { return efficiency(1, x); }, kStart, kEnd, {2.4, 0.6, 0.9});
    drawn.straight({kStart, 40.0}, {kStart, 430.0}).straight({kStart, 430.0}, {500.0, 430.0});
    const InkPath path = follow(drawn.page(false, 2.0), 1, {.together = true});
    ASSERT_FALSE(path.points.empty());
    for (const PathPoint& p : path.points)
        EXPECT_EQ(p.spare_px, 0.0) << "at " << p.at.x;
}

// A path that is gone on from keeps what is not known of its places.
TEST(RunTogether, IsRememberedBeyondTheNextMarch) {
    const Page page = DrawnPage(kWidth, kHeight).page();
    const InkField field(page, {0, 0, page.width, page.height});
    std::vector<PathPoint> history;
    for (int i = 0; i < 30; ++i)
        history.push_back({{100.0 + 2.0 * i, 200.0}, {1.0, 0.0}, 2.0 * i, 3.0, i < 10 ? 1.5 : 0.0});
    const Rulings rulings;
    StrokeLook look;
    look.width_px = 3.0;
    look.darkness = 0.9;
    PathMarcher marcher(field, rulings, look, history, {});
    marcher.run();
    ASSERT_EQ(marcher.points().size(), 30U);
    EXPECT_EQ(marcher.points()[5].spare_px, 1.5);
    EXPECT_EQ(marcher.points()[20].spare_px, 0.0);
}

// A stretch of some length is a note, most of the line a doubt; both name the share.
TEST(RunTogether, IsSaidWithItsShare) {
    const Page page = family(6.0, 4.0).page(false, 2.0);
    const InkField field(page, {0, 0, page.width, page.height});
    ChartLine line;
    line.name = "efficiency";
    line.quantity = LineQuantity::efficiency;
    line.followFrom = {{404.0, efficiency(1, 404.0)}};
    const auto traced = traceLine(line, field, page, PixelSigmas{}, "lines[0]");
    ASSERT_TRUE(traced);
    const auto said = std::find_if(traced->cautions.begin(), traced->cautions.end(),
                                   [](const Caution& c) { return c.code == "line-runs-together"; });
    ASSERT_NE(said, traced->cautions.end());
    const auto* share = findFact(said->values, "together_share");
    ASSERT_TRUE(share);
    EXPECT_EQ(std::get<double>(share->value) > 0.5, traced->doubtful);
    double widest = 0.0, alone = 1e9;
    for (const TracedPoint& p : traced->points) {
        widest = std::max(widest, p.sigma_px);
        alone = std::min(alone, p.sigma_px);
    }
    EXPECT_GT(widest, 2.0 * alone);
}

} // namespace
} // namespace headmark
