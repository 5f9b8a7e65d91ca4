#pragma once
// The way of a line along its ink, step by step from where it is known to one of its ends. See ink_path.h.

#include "analysis/chart/dash_pattern.h"
#include "analysis/chart/ink_path.h"
#include "analysis/chart/way_ahead.h"

#include <optional>
#include <utility>
#include <vector>

namespace headmark {

// The step of a path, px: fine against the line's width.
[[nodiscard]] double stepFor(const StrokeLook& look);

// The other way along, counted from its new start.
void turnRound(std::vector<PathPoint>& points);

class PathMarcher {
  public:
    // `history` holds the way so far, at least four places; it is gone on from its last one.
    PathMarcher(const InkField& field, const Rulings& rulings, const StrokeLook& look,
                std::vector<PathPoint> history, LineManner manner);

    // Over no gap but a small one while little of the line is known.
    void goWarily() { warily_ = true; }
    void run();
    // Until the way is so long.
    void runTo(double arc_px);

    [[nodiscard]] std::vector<PathPoint>& points() { return points_; }
    [[nodiscard]] const std::vector<PathGap>& gaps() const { return gaps_; }
    [[nodiscard]] PathEnd end() const { return end_; }
    [[nodiscard]] bool changesPen() const { return changesPen_; }
    [[nodiscard]] bool isDashed() const { return dashes_.isDashed(); }

  private:
    struct Look {
        std::optional<PathPoint> seen;
        double offset_px = 0.0, darkness = 0.0;
    };
    // A stretch taken up beyond what hid the line.
    struct Resume {
        std::size_t first = 0;
        double gap_px = 0.0, misfit = 0.0;
    };
    [[nodiscard]] Look lookAt(PagePoint at, PagePoint along) const;
    void learnSpread(double width_px, double darkness);
    void learnDashes();
    void accept(const PathPoint& p);
    [[nodiscard]] bool isBare(PagePoint from, PagePoint to) const;
    void march();
    bool bridge();
    bool bridgeFrom(double back_px, std::optional<double> width_px = {});
    bool bridgeInFarWidth();
    [[nodiscard]] std::optional<double> farWidth() const;
    bool goOnInOtherWidth();
    [[nodiscard]] bool isInThickStretch() const;
    void takeUp(const WayAhead& way);
    bool turnsAway(double offset_px);
    bool leavesDashes();
    void dropScraps();
    void goOnTogether();
    [[nodiscard]] double lastWidth() const;
    [[nodiscard]] double longestPaper() const;
    [[nodiscard]] double pageSide_px() const;

    const InkField& field_;
    const Rulings& rulings_;
    StrokeLook look_;
    std::vector<PathPoint> points_;
    std::vector<PathGap> gaps_;
    std::vector<Resume> resumes_;
    DashPattern dashes_;
    PathEnd end_ = PathEnd::paper;
    double step_ = 1.0, lookBack_ = 0.0, dashFrom_ = 0.0, goal_px_ = 1e9;
    double drift_ = 0.0, trustedTo_ = 0.0; // see turnsAway
    double widthSpread_ = 0.0, darkSpread_ = 0.0;
    int seen_ = 0, timesBack_ = 0;
    bool changesPen_ = false, warily_ = false, bends_ = false, together_ = false, bareAhead_ = false;
};

} // namespace headmark
