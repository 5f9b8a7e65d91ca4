#pragma once
// What is known of a line's dashes as far as it was followed: their lengths and those of the bare gaps
// between them, along the line in pixels. Three gaps make a line a dashed one.

#include <cstddef>
#include <vector>

namespace headmark {

class DashPattern {
  public:
    // A dash and the bare gap behind it.
    void add(double dash_px, double gap_px) {
        dashes_.push_back(dash_px);
        gaps_.push_back(gap_px);
    }

    // Known to be dashed from its first gap on.
    void expect() { expected_ = true; }

    [[nodiscard]] std::size_t gaps() const { return gaps_.size(); }
    [[nodiscard]] bool isDashed() const { return gaps_.size() >= (expected_ ? 1 : kPattern); }
    // The median; 0 where there is none yet.
    [[nodiscard]] double usualGap_px() const;
    // Longer than this without a gap is no dash of the line, nor three that a crossing joins. Asks for a gap.
    [[nodiscard]] double longestDash_px(double width_px) const;

    static constexpr std::size_t kPattern = 3;

  private:
    std::vector<double> dashes_, gaps_;
    bool expected_ = false;
};

} // namespace headmark
