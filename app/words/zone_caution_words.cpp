// Cautions about watering: emitters, zone valves, zones at once and the shift plan.
#include "app/words/caution_words_parts.h"

#include <QCoreApplication>

namespace headmark {

namespace {

#define HM_WORDS(text) QT_TRANSLATE_NOOP("Cautions", text)

constexpr CautionEntry kCautions[] = {
    {"emitters-without-water", "", HM_WORDS("some emitters get no water"),
     HM_WORDS("Some emitters of zone \"{zone}\" get no water: the head at the worst of them is {short_of_m} "
              "short of reaching it.")},
    {"negative-pressure", "", HM_WORDS("pressure below that of the air"),
     HM_WORDS("The pressure in {where} falls to {pressure_kPa} against the air outside, so air comes out of "
              "the water there and is drawn in at joints and emitters, and the flow falters.")},
    {"zone-valve-slack", "several", HM_WORDS("zone valves take little pressure"),
     HM_WORDS("The valve of zone \"{zone}\" takes only {loss_kPa} at this flow, and those of {other_zones} "
              "take too little as well; each needs about {limit_kPa} to open and to shut reliably.")},
    {"zone-valve-slack", "", HM_WORDS("zone valve takes little pressure"),
     HM_WORDS("The valve of zone \"{zone}\" takes only {loss_kPa} at this flow; it needs about {limit_kPa} "
              "to open and to shut reliably.")},
    {"fewer-zones-fail", "", HM_WORDS("too much pressure with fewer zones open"),
     HM_WORDS("Zone \"{zone}\" works in company, up to {best_set} zones at once, but alone it sees "
              "{pressure_kPa}, above its upper limit of {limit_kPa}.")},
    {"valves-at-once", "", HM_WORDS("the controller opens no more valves"),
     HM_WORDS("The controller opens no more valves at once.")},
    // Shift plan
    {"zone-not-planned", "", HM_WORDS("cannot be watered"),
     HM_WORDS("Zone \"{zone}\" stands in no shift: no set of zones with it keeps every limit and the pairs "
              "that must or must not run together.")},
    {"zone-without-need", "", HM_WORDS("no need stated"),
     HM_WORDS("Zone \"{zone}\" states no need of water, so it stands in no shift.")},
    {"too-few-stations", "", HM_WORDS("too few stations"),
     HM_WORDS("There are {zones} zones, but the controller has {stations} stations.")},
    {"plan-not-proven", "", HM_WORDS("a better plan may exist"),
     HM_WORDS(
         "With so many zones not every division into shifts was tried; a better plan than this one saves "
         "{gap_share} at most.")},
    {"plan-without-energy", "", HM_WORDS("energy not known"),
     HM_WORDS("The energy of a shift is not known, so the plan takes the least time instead.")},
    {"more-than-needed", "", HM_WORDS("more water than needed"),
     HM_WORDS(
         "A shift lasts until its slowest zone has its need, so others get more: zone \"{zone}\" gets "
         "{given_m3} where it needs {need_m3}, and all zones together {all_given_m3} where {all_need_m3} "
         "are needed.")},
    {"beyond-window", "", HM_WORDS("does not fit the window"),
     HM_WORDS("The shifts take {needed_min} and do not fit the window of {window_min}: they end at {ends}.")},
    {"tank-runs-dry", "at", HM_WORDS("the source runs dry"),
     HM_WORDS("The source runs dry at {time}: {short_m3} are missing over the night.")},
    {"tank-runs-dry", "", HM_WORDS("the source runs dry"),
     HM_WORDS("The source runs dry {after_min} after the beginning: {short_m3} are missing over the night.")},
    {"tank-below-low", "", HM_WORDS("water falls below its low level"),
     HM_WORDS("Over the night the water falls to {level_m}, below the low level of {limit_m} at which the "
              "limits were judged.")},
};

constexpr RemedyEntry kRemedies[] = {
    {"lower-the-high-point",
     HM_WORDS("Lead the pipe lower there, or give it more pressure; an air valve alone lets the air in.")},
    {"smaller-zone-valve", HM_WORDS("Use a smaller valve, or one made for small flows.")},
    {"wider-main", HM_WORDS("A main one size wider allows {best_set} zones at once.")},
    {"cleaner-filter", HM_WORDS("A filter that never gets dirty allows {best_set} zones at once.")},
    {"higher-water",
     HM_WORDS("Water that never falls below its usual level allows {best_set} zones at once.")},
    {"more-valves", HM_WORDS("A controller that opens more valves allows {best_set} zones at once.")},
    {"see-zones-at-once-and-pairs", HM_WORDS("See what limits the zones at once, and the pairs.")},
    {"larger-controller", HM_WORDS("Use a controller with more stations, or join zones that run together.")},
    {"keep-unlike-zones-apart",
     HM_WORDS("Shut such a zone sooner by hand, or name it among those that must not run together with the "
              "slow ones.")},
    {"give-motor-and-power", HM_WORDS("Give the motor's efficiency and a curve of efficiency or power.")},
    {"longer-window-or-less-water",
     HM_WORDS(
         "Begin earlier, allow a longer window, more valves at once or a stronger pump, or water less.")},
    {"larger-tank-or-less-water",
     HM_WORDS("Use a larger tank or a stronger refill, or water less that night.")},
    {"lower-the-low-level", HM_WORDS("Give the low level as far down as the water will fall.")},
};

} // namespace

std::span<const CautionEntry> zoneCautionRows() { return kCautions; }
std::span<const RemedyEntry> zoneRemedyRows() { return kRemedies; }

} // namespace headmark
