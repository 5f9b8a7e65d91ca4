#pragma once
// Do two ends make a tight joint, with what, and if not, why and what instead?
//   right   taper male (R) in a parallel or taper female with tape; parallel male (G) on a parallel female
//           with a face washer; tail in a hose with a heavy-duty clamp; pipe in its socket; flanges
//   wrong   see data/joint_rules.csv: every verdict with its seal, remedy, confidence and source
// The order of the two ends plays no part, but for the words.

#include "analysis/connections/thread.h"

#include <span>
#include <string>
#include <string_view>

namespace headmark {

enum class EndKind {
    thread,
    tail, // pushed into a hose of that bore
    hose, // end of a hose of that bore
    peSocket,
    pePipe,
    pvcSocket,
    pvcPipe,
    tubeSocket,
    tube, // copper
    flange,
    plain, // pipe known by its bore only
    wall,  // hole in a tank
    water, // open in the water or to the air
    any    // whatever suits
};

enum class Face { none, flat, washer };
enum class Body { metal, plastic, ringedPlastic };

struct End {
    EndKind kind = EndKind::any;
    bool male = false;                        // thread
    ThreadForm form = ThreadForm::parallelRp; // thread
    std::string size;                         // thread and flange: "1-1/2"
    double diameter_mm = 0.0;                 // tail and hose: bore; pipes and sockets: outside diameter
    Face face = Face::none;
    Body body = Body::metal;

    bool operator==(const End&) const = default;
};

enum class Clamp { none, heavyBand, wormDrive };

// How the fitter means to close it.
struct JointUse {
    bool suction = false;
    Clamp clamp = Clamp::heavyBand;
    bool tape = true;
};

struct JointVerdict {
    bool right = false;
    std::string code; // row of joint_rules.csv
    std::string
        seal; // "tape", "face-washer", "clamp", "o-ring", "cement", "olive", "gasket", "to-suit", "none"
    std::string remedy; // empty when right
    std::string source;
};

[[nodiscard]] JointVerdict judgedJoint(const End& a, const End& b, const JointUse& use = {});
// Only whether it is right; for searches.
[[nodiscard]] bool joins(const End& a, const End& b, const JointUse& use = {});

struct JointRule {
    std::string code, seal, remedy, confidence, source;
    bool right = false;
};
[[nodiscard]] std::span<const JointRule> jointRules();

// "G 1-1/2 male", "hose 51 mm": for errors and logs, no sentence.
[[nodiscard]] std::string endText(const End& end);

} // namespace headmark
