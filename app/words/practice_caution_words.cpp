// Cautions about the installation: suction side, shut valves, ratings, filter, surge, control, motor.
#include "app/words/caution_words_parts.h"

#include <QCoreApplication>

namespace headmark {

namespace {

#define HM_WORDS(text) QT_TRANSLATE_NOOP("Cautions", text)

constexpr CautionEntry kCautions[] = {
    // Suction
    {"npsh-by-rule", "", HM_WORDS("NPSH required taken from a rule"),
     HM_WORDS("No chart shows the NPSH this pump requires; it was taken from a suction specific speed of "
              "{suction_specific_speed} at {speed_rpm}, which some pumps need more than.")},
    {"npsh-margin-at-level", "rule", HM_WORDS("NPSH margin too small by the rule"),
     HM_WORDS("With the water at {source_level_m} and {flow_m3_h} through the pump the margin of NPSH is "
              "{margin_m} by the rule, below the {limit_m} asked for: the pump may cavitate.")},
    {"npsh-margin-at-level", "danger", HM_WORDS("too little NPSH"),
     HM_WORDS("With the water at {source_level_m} and {flow_m3_h} through the pump the margin of NPSH is "
              "{margin_m} where {limit_m} are asked for: the pump cavitates, loses flow and is damaged.")},
    {"npsh-margin-at-level", "", HM_WORDS("NPSH margin too small"),
     HM_WORDS("With the water at {source_level_m} and {flow_m3_h} through the pump the margin of NPSH is "
              "{margin_m}, below the {limit_m} asked for, so warm water or a dirty strainer is enough to "
              "make it cavitate.")},
    {"mouth-too-shallow", "submersed", HM_WORDS("submersed pump too near the surface"),
     HM_WORDS("With the water at {level_m} the pump's inlet lies {depth_m} below the surface; it needs "
              "{limit_m} to stay covered and cool.")},
    {"mouth-too-shallow", "", HM_WORDS("suction mouth too near the surface"),
     HM_WORDS("At low water the suction's mouth lies {depth_m} below the surface; below {limit_m} a vortex "
              "can draw air into the pump.")},
    {"stops-too-late", "submersed", HM_WORDS("pump stops too late"),
     HM_WORDS("The pump stops at {level_m}, when its inlet lies {depth_m} below the surface; it needs "
              "{limit_m} to stay covered and cool.")},
    {"stops-too-late", "", HM_WORDS("pump stops too late"),
     HM_WORDS("The pump stops at {level_m}, when the suction's mouth lies {depth_m} below the surface; below "
              "{limit_m} a vortex can draw air into the pump.")},
    {"mouth-near-the-floor", "submersed", HM_WORDS("submersed pump too near the bed"),
     HM_WORDS("The pump's inlet hangs {clearance_m} above the floor or bed, where mud is drawn in; {limit_m} "
              "keeps it clear.")},
    {"floating-inlet-grounds", "", HM_WORDS("the floating inlet comes down on the bed"),
     HM_WORDS("With the water at {source_level_m} the floating inlet, {depth_mm} below the surface, hangs "
              "{clearance_m} above the bed; {limit_m} keeps it clear of mud.")},
    {"mouth-near-the-floor", "", HM_WORDS("suction mouth too near the floor"),
     HM_WORDS("The suction's mouth stands {clearance_m} above the floor, where mud is drawn in; {limit_m} "
              "keeps it clear.")},
    {"air-pocket", "", HM_WORDS("the suction can trap air"),
     HM_WORDS("The suction climbs to {level_m} at {where} and falls to {falls_to_m} again before the pump: "
              "air gathers at the high point and breaks the suction.")},
    {"suction-rises-too-little", "", HM_WORDS("the suction rises too little"),
     HM_WORDS("On its way to the pump the suction rises {rise_mm} over {length_m} up to the end of {where}, "
              "less than the {limit_mm} on which air runs up and out: it gathers on the way.")},
    {"lift-beyond-priming", "", HM_WORDS("lift beyond what the pump primes"),
     HM_WORDS("At low water the pump stands {lift_m} above the surface, but primes by itself only to "
              "{limit_m}.")},
    {"source-alone-enough", "", HM_WORDS("the source alone is enough"),
     HM_WORDS("The water comes to the pump's place with {spare_m} of head more than this case asks for: it "
              "needs no pump.")},
    // Shut valves
    {"no-tank-return", "", HM_WORDS("no way out while every valve is shut"),
     HM_WORDS("Nothing carries the heat away while every valve is shut: the water in the pump reaches "
              "{limit_C} after {minutes}.")},
    {"must-stop-when-shut", "", HM_WORDS("the pump must stop when every valve is shut"),
     HM_WORDS("If the pump ran on while every valve is shut, the water in it would reach {limit_C} after "
              "{minutes}.")},
    {"no-flow-must-stop", "switch", HM_WORDS("every valve shut: the switch stops the pump"),
     HM_WORDS("With every valve shut the pump fills the vessel up to the cut-out and is switched off; should "
              "the switch fail, the water in it heats up until the seal fails.")},
    {"no-flow-must-stop", "", HM_WORDS("every valve shut: the drive must stop the pump"),
     HM_WORDS(
         "With every valve shut the drive slows the pump down until it holds {head_m} and moves nothing; "
         "unless the drive then stops it, the water in it heats up until the seal fails.")},
    {"return-too-small", "", HM_WORDS("the return passes too little"),
     HM_WORDS("While every valve is shut, the water warms by {rise_K} on its way through the return, more "
              "than {limit_K}.")},
    {"return-under-water", "", HM_WORDS("the return ends under water"),
     HM_WORDS("The return ends at {outlet_m}, under the high water of {high_water_m}: water can be siphoned "
              "back through it, and nobody sees whether it runs.")},
    {"shut-in-power-unknown", "", HM_WORDS("heating cannot be judged"),
     HM_WORDS("The pump's power near no flow is not known, so how fast it heats its water cannot be said.")},
    // Ratings
    {"shut-off-above-rating", "", HM_WORDS("pressure at shut-off above a rating"),
     HM_WORDS("With every valve shut, high water and the strongest pump delivered, {pressure_kPa} stand in "
              "{where}, which bears {limit_kPa}.")},
    {"shut-off-above-rating", "warm", HM_WORDS("pressure at shut-off above a rating"),
     HM_WORDS("With every valve shut, high water and the strongest pump delivered, {pressure_kPa} stand in "
              "{where}; rated {nominal_kPa} in cold water, it bears {limit_kPa} at {water_C}.")},
    {"source-above-rating", "", HM_WORDS("pressure of the source above a rating"),
     HM_WORDS("The source alone puts {pressure_kPa} on {where}, which bears {limit_kPa}.")},
    {"source-above-rating", "warm", HM_WORDS("pressure of the source above a rating"),
     HM_WORDS("The source alone puts {pressure_kPa} on {where}; rated {nominal_kPa} in cold water, it bears "
              "{limit_kPa} at {water_C}.")},
    {"pipe-rating", "warm", HM_WORDS("pipe overloaded"),
     HM_WORDS(
         "{pressure_kPa} stand in {where}; rated {nominal_kPa} in cold water, the pipe bears {limit_kPa} "
         "at {water_C}.")},
    {"no-spare-for-60-hz", "", HM_WORDS("no spare for a supply of 60 Hz"),
     HM_WORDS("On a supply of 60 Hz (a generator that runs fast, say) the pump would put {pressure_kPa} on "
              "{where}, which bears {limit_kPa}.")},
    // Filter
    {"filter-small", "", HM_WORDS("filter too small for this flow"),
     HM_WORDS(
         "The filter {where} takes {clean_kPa} when clean, no less than the {service_kPa} at which it is "
         "to be cleaned: it would never read clean.")},
    {"filter-too-coarse", "", HM_WORDS("filter too coarse for the emitters"),
     HM_WORDS("The filter {where} lets through grains of {filter_micron}; the emitters ({emitter}) ask for "
              "{limit_micron} or finer.")},
    {"no-filter", "", HM_WORDS("no filter before the emitters"),
     HM_WORDS("No filter stands in the delivery run, but the emitters ({emitter}) ask for {limit_micron} or "
              "finer.")},
    // Surge
    {"surge-above-rating", "", HM_WORDS("pressure surge above a rating"),
     HM_WORDS(
         "When the valve of zone \"{zone}\" shuts, the pressure jumps to {pressure_kPa} at {where}, which "
         "bears {limit_kPa}.")},
    {"surge-above-rating", "warm", HM_WORDS("pressure surge above a rating"),
     HM_WORDS("When the valve of zone \"{zone}\" shuts, the pressure jumps to {pressure_kPa} at {where}; "
              "rated {nominal_kPa} in cold water, it bears {limit_kPa} at {water_C}.")},
    {"column-parts", "", HM_WORDS("the water column parts when the pump stops"),
     HM_WORDS(
         "When the pump stops suddenly the water that runs on would pull the pressure behind it to {left_m} "
         "of head; at {limit_m} water turns to vapour: the column parts and slams back.")},
    {"wall-not-known", "", HM_WORDS("pipe wall not known"),
     HM_WORDS("A pipe on the way to the zone is not from the catalogue, so its wall counts as unyielding and "
              "the surge as the greatest it can be.")},
    // Held pressure
    {"cut-out-never-reached", "", HM_WORDS("the pump never switches off"),
     HM_WORDS("The cut-out of {cut_out_kPa} is not reached: against shut valves the weakest pump delivered "
              "gives {limit_kPa}, so it runs on without end.")},
    {"too-many-starts", "", HM_WORDS("too many starts an hour"),
     HM_WORDS(
         "At the worst draw the pump starts {starts_h}, more than the {limit_h} that its motor stands.")},
    {"precharge-above-cut-in", "", HM_WORDS("pre-charge above the cut-in"),
     HM_WORDS("The vessel is charged to {precharge_kPa}, above the cut-in of {limit_kPa}: it is empty before "
              "the pump starts, and the pressure drops to the zones' need or below at a blow.")},
    {"cut-in-below-need", "", HM_WORDS("cut-in below what the zones need"),
     HM_WORDS("In the case \"{case}\" the zones need {limit_kPa} at the pump, but it starts only when the "
              "pressure has fallen to {cut_in_kPa}: until then they get too little.")},
    {"cuts-out-while-watering", "", HM_WORDS("the pump cuts out while zones water"),
     HM_WORDS(
         "In the case \"{case}\" the pump would put {pressure_kPa} on the switch, above the cut-out of "
         "{cut_out_kPa}: it stops and starts while the zones water, and their pressure swings with it.")},
    {"runs-too-short", "", HM_WORDS("the pump runs too briefly"),
     HM_WORDS("While only zone \"{zone}\" draws, each run fills the vessel in {seconds}, less than the "
              "{limit_s} that a start should be followed by.")},
    {"pressure-held-not-judged", "", HM_WORDS("the switch is judged apart"),
     HM_WORDS(
         "The pump is switched by pressure; this case is answered as it runs between its switchings, with "
         "its zones open.")},
    {"held-at-set-point", "", HM_WORDS("answered at the set point"),
     HM_WORDS(
         "The drive holds {hold_kPa} at the pump's outlet at {speed_share} of its full speed; this case is "
         "answered at that speed.")},
    {"answered-at-full-speed", "", HM_WORDS("answered at full speed"),
     HM_WORDS("The drive does not hold its {hold_kPa} here: this case is answered at full speed, with "
              "{outlet_kPa} at the pump's outlet.")},
    {"zone-short-at-set-point", "", HM_WORDS("zone short at the set point"),
     HM_WORDS("In the case \"{case}\", with {hold_kPa} held at the pump, zone \"{zone}\" gets {pressure_kPa} "
              "at its worst emitter, less than its {limit_kPa}.")},
    {"set-point-below-source", "", HM_WORDS("the source alone passes the set point"),
     HM_WORDS(
         "In the case \"{case}\" the source alone brings {source_kPa} to the pump's place, more than the "
         "{hold_kPa} to be held: the drive has nothing to do.")},
    {"set-point-not-held", "", HM_WORDS("the set point is not held"),
     HM_WORDS(
         "In the case \"{case}\" the pump cannot hold {hold_kPa} at its full speed: the zones would draw "
         "{flow_m3_h}.")},
    // Motor
    {"overload-at-run-out", "", HM_WORDS("motor overloaded at run-out"),
     HM_WORDS("At {flow_m3_h}, where the chart ends, the pump takes {shaft_kW} at its shaft, more than the "
              "motor's {limit_kW}: a burst pipe or an open hydrant overloads it.")},
    {"input-above-plate", "", HM_WORDS("input above the motor's plate"),
     HM_WORDS("In the case \"{case}\" the motor draws {input_kW}, more than the {limit_kW} on its plate.")},
    {"current-above-plate", "", HM_WORDS("current above the motor's plate"),
     HM_WORDS("In the case \"{case}\" the motor draws {current_A}, more than the {limit_A} on its plate.")},
};

constexpr RemedyEntry kRemedies[] = {
    {"pump-lower-or-stop-at-or-less-flow",
     HM_WORDS("Set the pump {lower_m} lower, let the level switch stop it at {level_m}, or hold its flow to "
              "{flow_m3_h} with a valve; wider suction helps too.")},
    {"pump-lower-or-stop-at",
     HM_WORDS("Set the pump {lower_m} lower, or let the level switch stop it at {level_m}; wider suction "
              "helps too.")},
    {"pump-lower-or-less-flow",
     HM_WORDS("Set the pump {lower_m} lower, or hold its flow to {flow_m3_h} with a valve; wider suction "
              "helps too.")},
    {"pump-lower", HM_WORDS("Set the pump {lower_m} lower; wider suction helps too.")},
    {"lower-the-mouth-or-stop-earlier",
     HM_WORDS("Lower the mouth by {lower_m}, or let the level switch stop the pump at {level_m}.")},
    {"stop-at-level",
     HM_WORDS("Set the level switch to stop the pump at {level_m}, or lower the mouth by {lower_m}.")},
    {"hang-it-lower-or-stop-at",
     HM_WORDS("Hang the pump {lower_m} lower, or let the level switch stop it at {level_m}.")},
    {"let-it-stop-at", HM_WORDS("Let the level switch stop the pump at {level_m}.")},
    {"raise-the-pump", HM_WORDS("Hang the pump {raise_mm} higher.")},
    {"give-the-suction-rise",
     HM_WORDS("Lay the suction so that its near end lies {more_mm} lower or its far end as much higher.")},
    {"try-without-pump",
     HM_WORDS("Check the source's pressure while the water flows, and leave the pump out if it holds.")},
    {"raise-the-mouth", HM_WORDS("Raise the mouth by {raise_mm}, or hang it on a float.")},
    {"let-the-suction-rise", HM_WORDS("Lay the suction so that it rises all the way to the pump.")},
    {"foot-valve-and-filling",
     HM_WORDS("Fit a foot valve with strainer and a filling plug, or set the pump {lower_m} lower.")},
    {"fit-a-return-of",
     HM_WORDS(
         "Lead {flow_m3_h} or more back to the source, from a tee between the pump and its check valve.")},
    {"fit-a-stop",
     HM_WORDS("See that switch or drive stops the pump when nothing is drawn, and fit a flow switch or a "
              "temperature stop behind it.")},
    {"stop-without-return",
     HM_WORDS("Let a pressure switch or a flow switch stop the pump; lead no water back into the mains.")},
    {"see-the-held-pressure",
     HM_WORDS("The switch's band, vessel, starts and runs are judged under the installation.")},
    {"raise-the-set-point", HM_WORDS("Set the drive to hold {hold_kPa}; so tried, the zone has enough.")},
    {"set-point-gives-pressure",
     HM_WORDS("With {hold_kPa} held at the pump the lowest pressure there becomes {becomes_kPa}.")},
    {"set-point-above-source", HM_WORDS("Set it above what the source brings, or leave the pump out.")},
    {"lower-the-precharge", HM_WORDS("Charge the vessel to {precharge_kPa}, with no water in it.")},
    {"raise-the-cut-in",
     HM_WORDS("Set the cut-in to {cut_in_kPa} or more, and the cut-out and the vessel's charge after it.")},
    {"raise-the-cut-out", HM_WORDS("Set the cut-out to {cut_out_kPa} or more.")},
    {"start-with-the-zones",
     HM_WORDS("Let the zone valves start the pump instead (with a relay), or hold the pressure by speed.")},
    {"raise-the-return", HM_WORDS("End it in the air above high water, away from the suction's mouth.")},
    {"ask-maker-for-power", HM_WORDS("Ask the maker for the power or efficiency curve down to no flow.")},
    {"part-of-rating",
     HM_WORDS("Use parts that bear {rating_kPa} or more, or a pump with a lower shut-off.")},
    {"keep-to-50-hz", HM_WORDS("Do not run it faster than its plate says, or use parts of a higher rating.")},
    {"finer-filter", HM_WORDS("Fit a filter of {micron} or finer.")},
    {"slower-valve", HM_WORDS("Use a valve that takes at least {seconds} for the last of its closing.")},
    {"slower-stop-or-air-valve",
     HM_WORDS("Stop the pump slowly (soft stop), or fit an air valve at the high point.")},
    {"name-the-pipe", HM_WORDS("Choose the pipe from the catalogue.")},
    {"lower-the-cut-out", HM_WORDS("Set the cut-out to {cut_out_kPa} or lower.")},
    {"larger-vessel", HM_WORDS("Fit a vessel of {volume_l} or more, with the same settings.")},
    {"lower-the-set-point", HM_WORDS("Set it to {hold_kPa} or lower, or use a stronger pump.")},
    {"throttle-or-larger-motor",
     HM_WORDS(
         "Limit the flow with a valve, or use a motor of {rated_kW} or more; set the overload relay to the "
         "motor's plate.")},
};

} // namespace

std::span<const CautionEntry> practiceCautionRows() { return kCautions; }
std::span<const RemedyEntry> practiceRemedyRows() { return kRemedies; }

} // namespace headmark
