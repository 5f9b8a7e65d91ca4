// The truth lies on the ink: at 50 places of every line, away from other lines and from letters, the mean
// place of the darkness across the line is where the truth says. Styles drawn by gnuplot and poppler check
// the pixel convention from outside.

#include "pages/made_page.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <optional>

using namespace headmark;
using namespace headmark::pages;

namespace {

// A half pixel would show ten times over on a clean page; JPEG, noise and other ink limit the scans.
constexpr double kCleanOffset_px = 0.05, kScanOffset_px = 0.15;
constexpr int kPlaces = 50;

double darkness(const Page& page, double x, double y) {
    const int left = static_cast<int>(std::floor(x)), top = static_cast<int>(std::floor(y));
    if (left < 0 || top < 0 || left + 1 >= page.width || top + 1 >= page.height) return 0.0;
    const auto at = [&](int i, int j) {
        return 255.0 - page.grey[static_cast<std::size_t>(j) * static_cast<std::size_t>(page.width) +
                                 static_cast<std::size_t>(i)];
    };
    const double fx = x - left, fy = y - top;
    return (1 - fy) * ((1 - fx) * at(left, top) + fx * at(left + 1, top)) +
           fy * ((1 - fx) * at(left, top + 1) + fx * at(left + 1, top + 1));
}

bool nearOtherLine(const MadePage& page, std::size_t own, PixelPoint at, double reach_px) {
    for (std::size_t k = 0; k < page.lines.size(); ++k)
        for (const PixelPoint& other : page.lines[k].path)
            if (k != own && std::hypot(other.x_px - at.x_px, other.y_px - at.y_px) < reach_px) return true;
    return false;
}

// Signed distance from the truth to the ink along the normal (towards positive y for level lines); none where
// the paper beside the line is not bare: a grid line, a letter.
std::optional<PixelPoint> offsetAt(const MadePage& page, const MadeLine& line, std::size_t k) {
    const PixelPoint before = line.path[k - 6], after = line.path[k + 6], at = line.path[k];
    const double length = std::hypot(after.x_px - before.x_px, after.y_px - before.y_px);
    const double nx = -(after.y_px - before.y_px) / length, ny = (after.x_px - before.x_px) / length;
    const double blur_px = page.pageClass == "scan" ? 2.5 : 0.0;
    const double core = line.thickness_px / 2 + 2.0 + blur_px, rim = core + 3.0;
    const auto across = [&](double away) {
        return darkness(page.page, at.x_px + away * nx, at.y_px + away * ny);
    };
    double paper[2] = {0, 0}, least[2] = {255, 255}, greatest[2] = {0, 0};
    for (int side = 0; side < 2; ++side) {
        for (int i = 0; i <= 12; ++i) {
            const double value = across((side ? 1 : -1) * (core + (rim - core) * i / 12));
            paper[side] += value / 13;
            least[side] = std::min(least[side], value);
            greatest[side] = std::max(greatest[side], value);
        }
    }
    const double unevenness = page.pageClass == "scan" ? 45.0 : 3.0;
    if (std::max(greatest[0] - least[0], greatest[1] - least[1]) > unevenness ||
        std::abs(paper[0] - paper[1]) > unevenness / 3)
        return std::nullopt;
    double sum = 0.0, moment = 0.0;
    constexpr int kSteps = 400;
    for (int i = 0; i <= kSteps; ++i) {
        const double away = -core + 2 * core * i / kSteps;
        const double ground = 0.5 * (paper[0] + paper[1]) + 0.5 * (paper[1] - paper[0]) * away / core;
        const double ink = across(away) - ground;
        sum += ink;
        moment += ink * away;
    }
    const double offset = moment / sum;
    return PixelPoint{offset * nx, offset * ny};
}

struct MeanOffset {
    double x_px = 0.0, y_px = 0.0, along_normal_px = 0.0;
    int places = 0;
};

MeanOffset meanOffset(const MadePage& page, std::size_t index) {
    const MadeLine& line = page.lines[index];
    MeanOffset mean;
    const std::size_t count = line.path.size();
    // More places than needed are tried, spread over the line, since grid and letters take some.
    const std::size_t step = std::max<std::size_t>(1, (count - 40) / 600);
    for (std::size_t k = 20; k + 20 < count; k += step) {
        if (nearOtherLine(page, index, line.path[k], line.thickness_px + 14.0)) continue;
        if (const std::optional<PixelPoint> offset = offsetAt(page, line, k)) {
            mean.x_px += offset->x_px;
            mean.y_px += offset->y_px;
            mean.along_normal_px += offset->y_px > 0 ? std::hypot(offset->x_px, offset->y_px)
                                                     : -std::hypot(offset->x_px, offset->y_px);
            ++mean.places;
        }
    }
    if (mean.places > 0) {
        mean.x_px /= mean.places;
        mean.y_px /= mean.places;
        mean.along_normal_px /= mean.places;
    }
    return mean;
}

void expectOnThePaper(const MadePage& page) {
    const auto inside = [&](PixelPoint at) {
        return at.x_px > 0 && at.y_px > 0 && at.x_px < page.page.width - 1 && at.y_px < page.page.height - 1;
    };
    for (const MadePin& pin : page.pins)
        EXPECT_TRUE(inside(pin.at)) << pin.flow << ", " << pin.value;
    for (const MadeLine& line : page.lines)
        EXPECT_TRUE(std::all_of(line.path.begin(), line.path.end(), inside)) << line.name;
}

class MadePages : public testing::TestWithParam<std::string> {};

} // namespace

TEST_P(MadePages, TruthLiesOnTheInk) {
    const MadePage page = makePage(GetParam());
    const double allowed_px = page.pageClass == "scan" ? kScanOffset_px : kCleanOffset_px;
    ASSERT_FALSE(page.lines.empty());
    expectOnThePaper(page);
    for (std::size_t k = 0; k < page.lines.size(); ++k) {
        const MeanOffset mean = meanOffset(page, k);
        EXPECT_GE(mean.places, kPlaces) << page.lines[k].name;
        EXPECT_LE(std::abs(mean.along_normal_px), allowed_px) << page.lines[k].name;
        EXPECT_LE(std::abs(mean.x_px), allowed_px) << page.lines[k].name;
        EXPECT_LE(std::abs(mean.y_px), allowed_px) << page.lines[k].name;
    }
}

INSTANTIATE_TEST_SUITE_P(All, MadePages, testing::ValuesIn(madePageNames()), [](const auto& page) {
    std::string name = page.param;
    std::replace(name.begin(), name.end(), '-', '_');
    return name;
});

TEST(MadePage, IsTheSameEachTime) {
    const MadePage first = makePage("plain-1-scan"), second = makePage("plain-1-scan");
    EXPECT_EQ(first.page.grey, second.page.grey);
    EXPECT_EQ(first.lines[0].path, second.lines[0].path);
}

TEST(MadePage, HasThreeOrMoreLinesOnHalfOfThePages) {
    int many = 0, all = 0;
    for (const std::string& name : madePageNames()) {
        ++all;
        many += makePage(name).lines.size() >= 3 ? 1 : 0;
    }
    EXPECT_GE(2 * many, all);
}
