#pragma once
// What is known of a line's dashes as far as it was followed: their lengths and those of the bare gaps
// between them, along the line in pixels, and their width. Three gaps make a line a dashed one. Of a dashed
// line a stretch may be drawn thicker and without gaps: it is no dash.

#include <cstddef>
#include <vector>

namespace headmark {

class DashPattern {
  public:
    // A dash and the bare gap behind it.
    void add(double dash_px, double gap_px, double width_px) {
        dashes_.push_back({dash_px, width_px});
        gaps_.push_back(gap_px);
    }

    // Known to be dashed from its first gap on.
    void expect() { expected_ = true; }

    [[nodiscard]] std::size_t gaps() const { return gaps_.size(); }
    [[nodiscard]] bool isDashed() const { return gaps_.size() >= (expected_ ? 1 : kPattern); }
    // The medians; 0 where there is none yet.
    [[nodiscard]] double usualGap_px() const;
    [[nodiscard]] double usualWidth_px() const;
    // Longer than this without a gap is no dash of the line, nor three that a crossing joins. Asks for a gap.
    [[nodiscard]] double longestDash_px(double width_px) const;
    // Too wide for a dash of the line, and for two lines drawn over each other. Asks for a gap.
    [[nodiscard]] bool isThickStretch(double width_px) const;

    static constexpr std::size_t kPattern = 3;

  private:
    struct Dash {
        double length_px, width_px;
    };
    std::vector<Dash> dashes_;
    std::vector<double> gaps_;
    bool expected_ = false;
};

} // namespace headmark
