#pragma once
// Where do the straight rulings of a chart run: its grid, finer grid and frame?
//   The chart's four corners (from the pins) span a frame with p along the flow and q along the value, 0
//   to 1. Across each direction the page is seen at stations; bumps of ink that stand in a row from station
//   to station, turning slowly, over most of the frame, are a ruling. Paper may be curled: a ruling is kept
//   by its place at every station, not as a straight line, but it must bend as its neighbours do. A pump's
//   line does not: it would have to stand still over four fifths of the chart.
// Page pixels; places good to some tenths of a pixel. For telling a line's ink from the grid's, and for the
// mapping, which rulings refine.

#include "analysis/chart/stroke.h"

#include <array>
#include <optional>
#include <vector>

namespace headmark {

// The chart's corners on the page: least flow and value, greatest flow, greatest value, both greatest.
using ChartCorners = std::array<PagePoint, 4>;

struct Ruling {
    bool upright = false;                  // at one flow; else at one value
    std::vector<PagePoint> places;         // its middle at every station of the frame
    std::vector<bool> seen;                // at that station; else between its neighbours
    double width_px = 0.0, darkness = 0.0; // darkness as a mean along it
    double inkedMost = 0.0;                // where its dash is, if it is dashed
    double at = 0.0;                       // mean q of a level one, p of an upright one

    [[nodiscard]] std::size_t seenCount() const;
};

// A ruling as met on the way along a line.
struct RulingBeside {
    double offset_px = 0.0; // along the way's normal
    double width_px = 0.0, darkness = 0.0, inkedMost = 0.0;
};

class Rulings {
  public:
    Rulings() = default;
    [[nodiscard]] static Rulings find(const InkField& field, const ChartCorners& corners);

    // Those that run along `along`, to within `kSameWay`, and cross its normal through `at` within
    // `reach_px`.
    [[nodiscard]] std::vector<RulingBeside> beside(PagePoint at, PagePoint along, double reach_px) const;
    // Whether a way runs as a ruling would there, found or not: to within a sine.
    [[nodiscard]] bool runsLikeOne(PagePoint at, PagePoint along, double sine) const;
    // Whether a ruling's ink lies there.
    [[nodiscard]] bool covers(PagePoint at) const;
    // Whether a place lies within the frame, or no frame is known.
    [[nodiscard]] bool enclose(PagePoint at) const;
    // Whether more than half of the frame's span is passed at one and the same level or upright place: so
    // runs a ruling, found or not, and no pump's line.
    [[nodiscard]] bool runsAsRuling(const std::vector<PagePoint>& way) const;
    [[nodiscard]] const std::vector<Ruling>& all() const { return all_; }
    // Of the frame, along its foot; zero where the pins span none.
    [[nodiscard]] double width_px() const { return length(frame_.corners[1] - frame_.corners[0]); }
    [[nodiscard]] bool empty() const { return all_.empty(); }

  private:
    // Carries the unit square to the corners, and back.
    struct Frame {
        std::array<double, 8> to{};
        ChartCorners corners{};
        [[nodiscard]] PagePoint at(double p, double q) const;
        [[nodiscard]] std::array<double, 2> from(PagePoint at) const;
        // Level and upright about a place, for kDirectionShare of the frame.
        [[nodiscard]] std::array<PagePoint, 2> waysAt(double p, double q) const;
    };
    static Frame frameOf(const ChartCorners& corners);
    [[nodiscard]] std::vector<Ruling> findWay(const InkField& field, bool upright, bool faint) const;

    Frame frame_;
    std::vector<Ruling> all_; // level ones by rising q, then upright ones by rising p
    std::size_t levels_ = 0;
};

} // namespace headmark
