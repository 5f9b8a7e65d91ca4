#pragma once
// What the plot of the duty place shows, as plain data in SI, and what it reads at a flow.
// Made off the screen's thread: system curves take some milliseconds each.

#include "app/document/answer_service.h"
#include "app/document/what_if.h"

#include <optional>
#include <string>
#include <vector>

namespace headmark {

struct SystemLine {
    std::string name;
    MadeCase made; // it is of
    CurvePlot curve;
    bool shown = false;            // of the case all places show
    bool asItIs = false;           // that case before what is being tried
    std::optional<DutyPoint> duty; // without intervals
};

struct OtherPump {
    std::string name;
    CurvePlot head;
};

struct DutyPicture {
    std::string pump; // empty: none yet
    std::optional<PumpPlot> plot;
    std::vector<OtherPump> others;
    std::vector<SystemLine> systems;
    std::optional<CaseAnswer> answer; // of the shown case
    std::vector<Need> needs;          // of the cases drawn, where there is no pump
    double greatest_m3_s = 0.0;       // how far system curves reach
    std::string siteText;             // what the system curves rest on, besides the pump
};

struct PictureQuestion {
    std::shared_ptr<const Answer> answer; // with a prepared job
    std::vector<MadeCase> cases;          // to draw, the shown one first
    std::size_t pump = 0;
    // The picture before: while the answer is stale, a pump's chart dragged on the same site keeps its system
    // curves, which take most of the time; they hardly move, by the tank return's valve. May be null.
    std::shared_ptr<const DutyPicture> before;
};

[[nodiscard]] DutyPicture pictureOf(const PictureQuestion& question);

// The same with the shown case as tried; the case as it is stays as a faint line. `system`: the tried system
// curve, the newest there is.
[[nodiscard]] DutyPicture triedPicture(DutyPicture asItIs, const WhatIfAnswer& tried,
                                       const CurvePlot& system);

} // namespace headmark
