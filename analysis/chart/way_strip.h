#pragma once
// The page ahead of a line's last sight, laid out along the way foretold: what lies across it at every step.
// Offsets count from the foretold way, to its normal; pixels.

#include "analysis/chart/way_ahead.h"

#include <vector>

namespace headmark {

// A stroke like the line.
struct WaySight {
    double offset_px = 0.0, width_px = 0.0, darkness = 0.0;
    double like = 1.0;  // 1: just as the line
    double slope = 0.0; // of its stroke there, against the way foretold, and one sigma of it
    double sigmaSlope = 1.0;
    std::size_t chain = 0, inChain = 0;
};

struct WayStation {
    double ahead_px = 0.0;
    PagePoint at, along;
    std::vector<WaySight> sights;
    std::vector<float> worth; // of a way through each cell: 1 on a stroke alike, below 0 over paper
    std::vector<bool> inked;  // by cell, in any ink
    bool nearInk = false, onRuling = false;
};

// A way about the foretold one: n = b s + c s^2/2.
struct WayBend {
    double b = 0.0, c = 0.0;
    [[nodiscard]] double at(double s) const { return b * s + 0.5 * c * s * s; }
};

class WayStrip {
  public:
    WayStrip(const InkField& field, const Rulings& rulings, const WayAsked& asked);

    [[nodiscard]] const std::vector<WayStation>& stations() const { return stations_; }
    // One sigma of direction and bend of the way foretold.
    [[nodiscard]] double sigmaB() const { return sigmaB_; }
    [[nodiscard]] double sigmaC() const { return sigmaC_; }

    // The cell of an offset; -1 beyond the strip.
    [[nodiscard]] static int cellOf(double offset_px);
    // The stroke alike nearest to a way, running along it; null where there is none.
    [[nodiscard]] const WaySight* sightOn(const WayStation& station, const WayBend& bend) const;

    [[nodiscard]] bool inkGoesOn() const;
    [[nodiscard]] bool leavesPage() const;
    [[nodiscard]] bool nothingAhead() const;

  private:
    // Sights in a row from step to step: one stroke.
    struct Chain {
        std::vector<double> ahead_px, offset_px;
        std::size_t lastStation = 0;
        [[nodiscard]] double length() const { return ahead_px.back() - ahead_px.front(); }
    };
    void look();
    [[nodiscard]] WayStation stationAt(double ahead) const;
    void chainSights();
    void weigh(WayStation& station) const;
    void tellSlope(WaySight& s) const;
    [[nodiscard]] bool runsAsRuling(const WayStation& station, const WaySight& s) const;
    [[nodiscard]] bool runsAlong(const WaySight& s, double slope, double sigma) const;

    const InkField& field_;
    const Rulings& rulings_;
    const WayAsked& asked_;
    double sigmaB_ = 0.0, sigmaC_ = 0.0;
    std::vector<WayStation> stations_;
    std::vector<Chain> chains_;
    bool onlyPaper_ = false;
};

// How far a way may lie off the foretold one, in sigmas of its direction and bend.
inline constexpr double kWaySigmas = 3.0;

} // namespace headmark
