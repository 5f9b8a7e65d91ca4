// Cautions about the reading of a chart: its pins, its lines and the curves through them.
#include "app/words/caution_words_parts.h"

#include <QCoreApplication>

namespace headmark {

namespace {

#define HM_WORDS(text) QT_TRANSLATE_NOOP("Cautions", text)

constexpr CautionEntry kCautions[] = {
    {"pins-disagree", "", HM_WORDS("pins disagree"),
     HM_WORDS(
         "The pins contradict each other: {where} lies {residual_px} px from where the others put it, "
         "with {sigma_px} px to be expected of a click, so every figure of this chart is less certain.")},
    {"pin-contradicts", "", HM_WORDS("one pin is wrong"),
     HM_WORDS(
         "All pins but {where} agree: there they put the {what} at {expected}, and the pin says {figure}, "
         "which is {off_px} px off.")},
    {"paper-curled", "", HM_WORDS("curled paper"),
     HM_WORDS("The paper is curled or its picture bent by up to {warp_px} px; this is taken out by {rulings} "
              "lines of the grid.")},
    {"line-bridged", "", HM_WORDS("ink missing"),
     HM_WORDS("{Where} has no ink for {length_px} px near pixel ({x_px}, {y_px}); the gap is bridged in the "
              "direction of the ink on both sides.")},
    {"line-lost", "", HM_WORDS("line lost"),
     HM_WORDS(
         "{Where} could not be followed to an end of its own: it is lost near pixel ({x_px}, {y_px}), so "
         "part of it may be missing.")},
    {"line-ambiguous", "", HM_WORDS("line forks"),
     HM_WORDS("{Where} goes on in two ways that look about equally likely near pixel ({x_px}, {y_px}), so "
              "beyond that place it may be another line.")},
    {"line-amid-ink", "", HM_WORDS("no line clear of other ink"),
     HM_WORDS("{Where} has nearly as much ink beside it as on it all along from pixel ({x_px}, {y_px}), as a "
              "pattern or a picture has, so it may be no line at all.")},
    {"line-runs-together", "", HM_WORDS("line among others"),
     HM_WORDS(
         "{Where} runs together with other lines over {together_share} of its length, from pixel ({x_px}, "
         "{y_px}) on; there it is known no better than that it lies in their ink.")},
    {"line-beyond-pins", "", HM_WORDS("line beyond the pins"),
     HM_WORDS("{beyond_share} of {where} lie outside the pinned part of the chart, where the scale is only "
              "continued and its error grows.")},
    {"scale-uncertain", "", HM_WORDS("scale uncertain"),
     HM_WORDS(
         "{Where}: the pins leave the scale uncertain by {uncertain_share} of the axis (95 %), more than "
         "a curve read with care: the chart is small on its page, or its pins are few or close.")},
    {"head-drooping", "", HM_WORDS("head curve droops"),
     HM_WORDS("{Where}: the head rises from {shutoff_head_m} at its left end to {head_m} at {flow_m3_h} and "
              "falls only beyond it, so there are two flows for one head.")},
    {"degree-breaks-sense", "", HM_WORDS("curve of the forced degree bends wrongly"),
     HM_WORDS("{Where}: a curve of the degree {degree} asked for turns where such a curve of a pump does "
              "not.")},
    {"fit-off-samples", "", HM_WORDS("curve off its samples"),
     HM_WORDS("{Where}: the curve stands off the samples by {rms_sigmas} times their error on average, so "
              "the samples are not of one smooth line, or the degree is too low.")},
    {"value-out-of-sense", "", HM_WORDS("values without sense"),
     HM_WORDS("{Where} is read from {least} to {greatest} {unit}, which its quantity cannot have, so pins "
              "or units are wrong.")},
    {"head-rises-again", "", HM_WORDS("head rises again"),
     HM_WORDS("{Where}: the head falls to {flow_m3_h} and then rises again by {rise_m}, which a pump's head "
              "does not do, so the line or its curve is read wrongly there.")},
    {"head-reaches-zero", "", HM_WORDS("head line ends at zero"),
     HM_WORDS("{Where} runs down to zero head at {flow_m3_h}, so nothing is known of flows beyond.")},
    {"line-not-read", "", HM_WORDS("line not read"),
     HM_WORDS("{Where} could not be read; no curve of this pump comes from it, so the answer stands without "
              "it.")},
    {"iso-lines-not-used", "", HM_WORDS("lines of equal efficiency not used"),
     HM_WORDS(
         "The pump's efficiency is read in {where} from lines of equal efficiency alone, {lines} in "
         "number; they meet its head curve in {crossings} places, too few to draw its efficiency (four or "
         "more, at two levels, are needed), so efficiency and power are not judged.")},
    {"efficiency-from-iso-lines", "", HM_WORDS("efficiency from lines of equal efficiency"),
     HM_WORDS(
         "The pump's efficiency comes from the {crossings} places in {where} where lines of equal efficiency "
         "meet its head curve; between them it is interpolated, and zero without flow.")},
};

constexpr RemedyEntry kRemedies[] = {
    {"place-the-pins-again",
     HM_WORDS("Look at each pin in large: whether it stands on the crossing of its grid lines, and bears the "
              "figures printed there.")},
    {"correct-that-pin",
     HM_WORDS(
         "Look at this pin in large, and correct its figure or its place; until then the others carry it.")},
    {"look-at-the-gap",
     HM_WORDS("See that the line goes on where it should beyond the gap, or click on both sides of it.")},
    {"click-further-on",
     HM_WORDS("Click once more on the line beyond that place, or read the rest from spots.")},
    {"click-beyond-the-fork", HM_WORDS("Click once more on the right line beyond that place.")},
    {"pin-the-corners",
     HM_WORDS("Place pins at the outer corners of the grid, so that the line lies between them.")},
    {"pin-more-crossings",
     HM_WORDS(
         "Pin more crossings of the grid, at its outer corners above all, or take a larger picture of the "
         "chart.")},
    {"leave-the-degree-out", HM_WORDS("Leave the degree out, so that one is chosen that keeps its sense.")},
    {"look-at-the-line",
     HM_WORDS("Look at the samples over the ink, and click more places on the line where they leave it.")},
    {"check-pins-and-units",
     HM_WORDS("Check the pins' values, their axis, and the printed unit of the quantity.")},
    {"mend-or-drop-the-line",
     HM_WORDS(
         "Have the chart read by itself (headmark-cli read) to be told why, then click that line anew or "
         "take it out of the reading.")},
    {"click-more-iso-lines",
     HM_WORDS(
         "Click more of the chart's lines of equal efficiency that meet this head curve, on both sides of "
         "its best flow, or type the efficiency at a few flows as points.")},
};

} // namespace

std::span<const CautionEntry> chartCautionRows() { return kCautions; }
std::span<const RemedyEntry> chartRemedyRows() { return kRemedies; }

} // namespace headmark
