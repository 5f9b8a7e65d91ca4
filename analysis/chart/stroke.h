#pragma once
// A drawn stroke seen across: where its centre lies, how wide and how dark it is. And the start of every
// line: the stroke under a click.

#include "analysis/chart/ink_field.h"

#include <optional>
#include <vector>

namespace headmark {

class Rulings;

struct PagePoint {
    double x = 0.0, y = 0.0;
};
[[nodiscard]] inline PagePoint operator+(PagePoint a, PagePoint b) { return {a.x + b.x, a.y + b.y}; }
[[nodiscard]] inline PagePoint operator-(PagePoint a, PagePoint b) { return {a.x - b.x, a.y - b.y}; }
[[nodiscard]] inline PagePoint operator*(double k, PagePoint p) { return {k * p.x, k * p.y}; }
[[nodiscard]] inline double dot(PagePoint a, PagePoint b) { return a.x * b.x + a.y * b.y; }
[[nodiscard]] double length(PagePoint p);

// What a line looks like across itself.
struct StrokeLook {
    double width_px = 0.0; // full width at half of its darkness
    double darkness = 0.0; // at the centre, above what lies beside it
    InkDensity colour{};   // at the centre
    bool byColour = false; // coloured enough to be told by it
    // How much both vary along the line, as mean deviations; where they are not known as yet, nothing.
    std::optional<double> widthSpread_px, darknessSpread;
};

// Ink across a direction, at kProfileStep_px steps from -reach to +reach, averaged over a short way along.
struct Profile {
    double reach_px = 0.0;
    std::vector<double> ink;

    [[nodiscard]] double offsetOf(std::size_t i) const;
};
inline constexpr double kProfileStep_px = 0.5;

// `along` is a unit vector; offsets count to its left as seen on the page (x right, y down: normal (-y, x)).
// With `look` by colour, only its ink counts.
[[nodiscard]] Profile profileAcross(const InkField& field, PagePoint at, PagePoint along, double reach_px,
                                    double average_px, const StrokeLook* look = nullptr);

// One bump of a profile.
struct StrokeSight {
    double offset_px = 0.0; // of its centre
    double width_px = 0.0;  // full width at half of its height
    double darkness = 0.0;  // peak above the base beside it
    double base = 0.0;      // ink beside it
};
// Every bump that stands out by at least `least`, by offset.
[[nodiscard]] std::vector<StrokeSight> strokesIn(const Profile& profile, double least);

// A bump fainter than this share of a line's darkness is none of it.
inline constexpr double kLeastOfLine = 0.3;
// Squared sigmas of a stroke's width and darkness against the line's; below kAlike it may be the line.
inline constexpr double kAlike = 9.0;
[[nodiscard]] double unlikeness(const StrokeLook& look, const StrokeSight& s);

// Ink that is told from bare paper about a click: the paper's own noise, and no less than a trace.
[[nodiscard]] double leastInkAbout(const InkField& field, PagePoint click);

// The stroke under a click.
struct StrokeStart {
    PagePoint at;
    PagePoint along; // unit vector, x component not negative
    StrokeLook look;
    // Another stroke in another direction lies under the click as well, nearly as dark: a crossing of lines.
    bool atCrossing = false;
};
// Empty: no ink within `reach_px`. `wanted` looks for one colour only. What lies along one of the rulings is
// taken only where nothing else is near.
[[nodiscard]] std::optional<StrokeStart> strokeUnder(const InkField& field, PagePoint click, double reach_px,
                                                     const std::optional<InkDensity>& wanted);
[[nodiscard]] std::optional<StrokeStart> strokeUnder(const InkField& field, PagePoint click, double reach_px,
                                                     const std::optional<InkDensity>& wanted,
                                                     const Rulings& rulings);

} // namespace headmark
