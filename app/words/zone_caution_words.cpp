// Cautions about watering: emitters, zone valves, zones at once and the shift plan.
#include "app/words/caution_words_parts.h"

#include <QCoreApplication>

namespace headmark {

namespace {

#define HM_WORDS(text) QT_TRANSLATE_NOOP("Cautions", text)

constexpr CautionRow kCautions[] = {
    {"emitters-without-water", "", HM_WORDS("some emitters get no water"),
     HM_WORDS("Some emitters of zone \"{zone}\" get no water: the head at the worst of them is {short_of_m} "
              "short of reaching it.")},
    {"negative-pressure", "", HM_WORDS("pressure below that of the air"),
     HM_WORDS("The pressure in {where} falls to {pressure_kPa} against the air outside, so air comes out of "
              "the water there and is drawn in at joints and emitters, and the flow falters.")},
    {"zone-valve-slack", "", HM_WORDS("zone valve takes little pressure"),
     HM_WORDS("The valve of zone \"{zone}\" takes only {loss_kPa} at this flow; it needs about {limit_kPa} "
              "to open and to shut reliably.")},
};

constexpr RemedyRow kRemedies[] = {
    {"lower-the-high-point",
     HM_WORDS("Lead the pipe lower there, or give it more pressure; an air valve alone lets the air in.")},
    {"smaller-zone-valve", HM_WORDS("Use a smaller valve, or one made for small flows.")},
};

} // namespace

std::span<const CautionRow> zoneCautionRows() { return kCautions; }
std::span<const RemedyRow> zoneRemedyRows() { return kRemedies; }

} // namespace headmark
