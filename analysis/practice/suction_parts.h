#pragma once
// Parts of the suction study that go by the mouth and the line rather than by NPSH.

#include "analysis/practice/study_parts.h"

namespace headmark {

// What the water enters by; each kind has its own rule of depth and of clearance.
//   wall       an outlet in a tank's wall: depth by ANSI/HI 9.8 alone, height over the floor for the sediment
//   hanging    a pipe's open end or a foot valve: the greater of HI and practice, clearance from the bed
//   strainer   the same, the velocity through the strainer's open area
//   floating   hangs below its float at a depth of its own; must not ground at the lowest water
//   submersed  the pump's own inlet: water over it that covers and cools
//   none       mains: no surface, no mouth
enum class MouthKind { none, wall, hanging, strainer, floating, submersed };

struct Mouth {
    MouthKind kind = MouthKind::none;
    std::string place;   // of the first item of the suction
    double bore_m = 0.0; // first bore the water meets; 0: none
};
[[nodiscard]] Mouth mouthOf(const InstallationQuestion& question);

// The lowest water at which the pump still runs: low water, or where its level switch stops it above that.
[[nodiscard]] double lowestRunning_m(const InstallationQuestion& question);

void addMouth(const InstallationQuestion& question, const Mouth& mouth, double flow_m3_s, Study& study);

// Air that gathers, too little rise, what must be filled in and whether the pump draws it up by itself. Not
// for pumps under water nor on mains.
void addSuctionLine(const InstallationQuestion& question, const Mouth& mouth, Study& study);

} // namespace headmark
