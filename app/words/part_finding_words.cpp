// Findings and errors of the connection sheet.
#include "app/words/part_words.h"

namespace headmark {

namespace {

#define HM_WORDS(text) QT_TRANSLATE_NOOP("Cautions", text)

constexpr CautionEntry kCautions[] = {
    {"no-foot-valve", "", HM_WORDS("nothing holds the suction line full"),
     HM_WORDS("Nothing keeps {where} full when the pump stops: it starts on air and runs dry.")},
    {"no-strainer-at-inlet", "", HM_WORDS("no strainer at the inlet"),
     HM_WORDS("{Where} begins without a strainer, so what floats or lies in the water reaches the pump.")},
    {"no-suction-pipe", "", HM_WORDS("no suction pipe"),
     HM_WORDS("{Where} has no pipe from the water to the pump; the sheet puts a hose there whose length is "
              "to be measured.")},
    {"no-isolating-valve-on-suction", "", HM_WORDS("no valve before the pump"),
     HM_WORDS("{Where} has no isolating valve: to take the pump out, the source must be emptied or shut off "
              "elsewhere.")},
    {"no-backflow-preventer", "", HM_WORDS("nothing keeps water out of the mains"),
     HM_WORDS("{Where} draws from the mains without a double check valve, so water of the plant can flow "
              "back into drinking water.")},
    {"no-check-valve-where-water-falls-below", "", HM_WORDS("suction line empties at low water"),
     HM_WORDS("The low water stands below the pump and nothing holds {where} full when the pump stops.")},
    {"no-union-at-inlet", "", HM_WORDS("pump cannot be taken out"),
     HM_WORDS("{Where} has no union, nut or coupler, so the pump cannot be taken out without sawing.")},
    {"no-union-at-outlet", "", HM_WORDS("pump cannot be taken out"),
     HM_WORDS("{Where} has no union, nut or coupler before its first valve, so the pump cannot be taken out "
              "without sawing.")},
    {"no-check-valve", "", HM_WORDS("no check valve"),
     HM_WORDS("{Where} has no check valve near the pump: when it stops, the main flows back and turns it "
              "backwards.")},
    {"no-riser", "", HM_WORDS("no riser listed"),
     HM_WORDS(
         "{Where} lists no riser before its union, valve or filter: its length, its loss and the pressure "
         "up there are not known.")},
    {"no-isolating-valve-on-delivery", "", HM_WORDS("no valve behind the pump"),
     HM_WORDS("{Where} has no isolating valve near the pump: to work on it, the main must be emptied.")},
    {"source-kind-not-said", "", HM_WORDS("kind of source not said"),
     HM_WORDS("The kind of source is not said; the sheet goes by the suction run and the levels.")},
    {"surface-pump-beyond-lift", "", HM_WORDS("deeper than any pump can lift"),
     HM_WORDS("A well of this kind lies deeper than a pump above it can draw, whatever the pump.")},
    {"air-gap-at-break-tank", "", HM_WORDS("air gap between mains and tank"),
     HM_WORDS("The tank is filled from drinking water: only an air gap keeps the plant's water out of the "
              "mains; it is at least {gap_mm}, and at least twice the bore of the filling pipe.")},
    {"supplier-consent", "", HM_WORDS("pump on the mains needs consent"),
     HM_WORDS("The pump draws up to {flow_l_min} from the mains; in the United Kingdom more than "
              "{limit_l_min} needs the supplier's consent, and other places have rules of their own.")},
    {"abstraction-licence", "", HM_WORDS("drawing this much may need a licence"),
     HM_WORDS("The zones ask for {need_m3} a day; in England and Wales more than {limit_m3} a day needs a "
              "licence, and other places have rules of their own.")},
    {"return-into-the-mains", "", HM_WORDS("return into the mains"),
     HM_WORDS("The tank return leads back into a pipe of drinking water.")},
    {"dry-run-device-not-said", "", HM_WORDS("dry-run device not said"),
     HM_WORDS("What stops the pump before the source runs dry is not said; for this source it is usually: "
              "{devices}.")},
    {"dry-run-device-unsuitable", "", HM_WORDS("dry-run device does not suit the source"),
     HM_WORDS("The device given, a {device}, does not tell in time that this source runs dry.")},
    {"stop-level-not-said", "", HM_WORDS("stop level not said"),
     HM_WORDS("The level at which the switch stops the pump is not said, so nothing shows whether the mouth "
              "of the suction stays under water.")},
    {"pump-thread-not-said", "", HM_WORDS("pump's threads not said"),
     HM_WORDS("The pump's threads are not all said; the sheet takes {size} where one is missing.")},
    {"pump-thread-unreadable", "", HM_WORDS("pump's thread cannot be read"),
     HM_WORDS("\"{found}\" is no thread this program knows; the sheet takes the size of the run.")},
    {"suction-narrower-than-pump", "", HM_WORDS("suction narrower than the pump's inlet"),
     HM_WORDS("{Where} is of size {size}, narrower than the pump's inlet of {limit_size}: the pump is made "
              "for more water than reaches it.")},
    {"plain-hose-on-suction", "", HM_WORDS("hose collapses under suction"),
     HM_WORDS("{Where} is a plain hose and collapses under suction.")},
    {"reduced-bore-on-suction", "", HM_WORDS("valve throttles the suction"),
     HM_WORDS("{Where} is a valve of reduced bore and takes pressure from the inlet, where the pump has "
              "least to spare.")},
    {"throttling-on-suction", "", HM_WORDS("valve throttles the suction"),
     HM_WORDS("{Where} is a valve made for throttling; on suction it makes the pump cavitate.")},
    {"valve-on-suction-lift", "", HM_WORDS("valve in a suction lift"),
     HM_WORDS("{Where} is an isolating valve in a suction lift: nothing there needs it, and its gland may "
              "draw air.")},
    {"fine-filter-on-suction", "", HM_WORDS("fine filter before the pump"),
     HM_WORDS("{Where} is a fine filter before the pump: as it clogs, the pump is starved.")},
    {"rigid-pipe-on-plastic-tank", "", HM_WORDS("rigid pipe strains the tank"),
     HM_WORDS("{Where} joins a plastic tank to the pump rigidly: the tank's wall moves as it fills, and its "
              "connector tears or leaks.")},
    {"check-valve-twice", "", HM_WORDS("check valve twice"),
     HM_WORDS("{Where} is a second check valve on the same side: it takes pressure twice and traps water "
              "between the two.")},
    {"check-valve-on-flooded-suction", "", HM_WORDS("check valve on a flooded suction"),
     HM_WORDS("{Where} is a check valve before a pump to which the water flows by itself: it only takes "
              "pressure from the inlet.")},
    {"return-on-pressure-held", "", HM_WORDS("return defeats the pressure switch"),
     HM_WORDS("A pump held by pressure never comes to rest while the tank return flows.")},
    {"no-vessel", "", HM_WORDS("no pressure vessel"),
     HM_WORDS("A pump held by a pressure switch without a vessel starts for every cupful.")},
    {"worm-clamp-on-suction", "", HM_WORDS("worm-drive clamp on suction"),
     HM_WORDS("{Where} is held by worm-drive clamps: they press unevenly and work loose, and the joint draws "
              "air.")},
    {"worm-clamp-under-pressure", "", HM_WORDS("worm-drive clamp under pressure"),
     HM_WORDS("{Where} is held by worm-drive clamps: they press unevenly and work loose, and the hose slips "
              "off.")},
    {"hose-without-clamp", "", HM_WORDS("hose without clamp"),
     HM_WORDS("{Where} has no clamps and slips off.")},
    {"no-listed-adaptor", "", HM_WORDS("no adaptor found"),
     HM_WORDS("No adaptor of the catalogue leads to {where}; the sheet leaves a gap for one.")},
    {"part-not-in-size", "", HM_WORDS("part not made in that size"),
     HM_WORDS("{Where} ({fitting}) is not in the catalogue of parts in size {size}.")},
    {"part-rating-exceeded", "", HM_WORDS("part not rated for the pressure"),
     HM_WORDS("{part} ({count} on the sheet) is rated {limit_kPa}, but up to {pressure_kPa} stand there.")},
    {"choice-not-used", "", HM_WORDS("chosen part not used"),
     HM_WORDS("{part} was chosen for a place where it does not fit, or which the sheet does not have; the "
              "sheet takes its own.")},
    {"listed-part-without-place", "", HM_WORDS("listed more often than needed"),
     HM_WORDS("{Where} is listed more often than the sheet has a joint for it ({count} too many); its loss "
              "is still counted.")},
    {"losses-not-in-run", "", HM_WORDS("losses of small parts not counted"),
     HM_WORDS("{count} parts of the sheet have a loss that the runs do not count.")},
    {"losses-in-allowance", "", HM_WORDS("small parts in the allowance"),
     HM_WORDS("{count} parts of the sheet have a loss that the runs do not list; the allowance for fittings "
              "stands for them.")},
};

constexpr RemedyEntry kRemedies[] = {
    {"add-foot-valve", HM_WORDS("Fit a foot valve with strainer; the sheet shows it.")},
    {"add-floating-inlet",
     HM_WORDS("Fit a floating inlet with strainer and check valve; the sheet shows it.")},
    {"add-suction-hose",
     HM_WORDS("Add the suction pipe or a hose with a rigid helix, and its length, to the run.")},
    {"add-full-bore-valve", HM_WORDS("Fit a ball valve of full bore; the sheet shows it.")},
    {"add-double-check-valve",
     HM_WORDS(
         "Ask the water supplier before anything is ordered: for watering soil many codes ask for a break "
         "tank with an air gap. A double check valve, as the sheet shows it, is enough only where the "
         "supplier "
         "accepts it.")},
    {"add-check-valve-at-inlet", HM_WORDS("Fit a check valve before the pump; the sheet shows it.")},
    {"add-union", HM_WORDS("Fit a union, or a tail with loose nut and washer; the sheet shows it.")},
    {"add-check-valve", HM_WORDS("Fit a check valve behind the pump; the sheet shows it.")},
    {"list-the-riser",
     HM_WORDS("List the pump's check valve and riser first, with the level at which the riser ends.")},
    {"add-isolating-valve", HM_WORDS("Fit an isolating valve behind the check valve; the sheet shows it.")},
    {"keep-the-air-gap",
     HM_WORDS("Let the filling valve end above the overflow by the gap that local rules ask for (type AA or "
              "AB), and tell the water supplier.")},
    {"ask-the-supplier-first",
     HM_WORDS(
         "Ask the supplier in writing before the work starts, or draw from a break tank with an air gap.")},
    {"ask-for-the-licence", HM_WORDS("Ask the authority for the water there before the work starts.")},
    {"leave-return-out-at-mains",
     HM_WORDS(
         "Leave the return out, or let it end in a break tank with an air gap; ask the water supplier.")},
    {"say-dry-run-device", HM_WORDS("Say which device is fitted; without one the pump is lost the first time "
                                    "the water fails.")},
    {"fit-dry-run-device", HM_WORDS("Fit one of these: {devices}.")},
    {"say-stop-level", HM_WORDS("Give the source's stop level, above the suction's mouth.")},
    {"move-check-valve-gives-margin",
     HM_WORDS("Put it behind the pump instead: the NPSH margin rises from {was_m} to {becomes_m}.")},
    {"move-check-valve-gives-available",
     HM_WORDS("Put it behind the pump instead: the NPSH available rises from {was_m} to {becomes_m}.")},
    {"say-source-kind", HM_WORDS("Say what kind of source it is.")},
    {"use-submersible-pump", HM_WORDS("Use a submersible pump.")},
    {"give-pump-threads", HM_WORDS("Give the pump's threads as its sheet prints them, such as G 1-1/2.")},
    {"wider-suction", HM_WORDS("Use a suction line at least as wide as the pump's inlet.")},
    {"use-helix-hose", HM_WORDS("Use hose with a rigid helix, or pipe.")},
    {"use-full-bore-valve", HM_WORDS("Use a ball valve of full bore there.")},
    {"leave-valve-out", HM_WORDS("Leave it out, or use one of full bore that is tight against air.")},
    {"filter-after-pump", HM_WORDS("Put the filter behind the pump and a coarse strainer before it.")},
    {"add-flexible-connector",
     HM_WORDS("Put a flexible connector or a piece of rigid-helix hose between tank and pump.")},
    {"keep-one-check-valve", HM_WORDS("Keep one of them.")},
    {"move-check-valve-to-delivery", HM_WORDS("Put it behind the pump instead.")},
    {"leave-return-out",
     HM_WORDS("Leave the tank return out; the pressure switch stops the pump when no valve opens.")},
    {"add-vessel", HM_WORDS("Fit a pressure vessel, or a variable-speed drive with its sensor.")},
    {"use-heavy-band-clamp", HM_WORDS("Use a heavy-duty band clamp on every hose end.")},
    {"find-adaptor", HM_WORDS("Say which pipe it is, or find an adaptor for it at a supplier.")},
    {"check-size", HM_WORDS("Check its size, or choose another part.")},
    {"stronger-part", HM_WORDS("Choose a part of a higher rating, or bring the pressure down before it.")},
    {"choose-another-part", HM_WORDS("Choose another part there, or leave the choice out.")},
    {"check-the-run", HM_WORDS("Check the count in the run.")},
    {"add-sheet-parts-to-run",
     HM_WORDS("Add the sheet's parts to the runs, so that the duty point counts them.")},
};

// The part by its name; errors are made in the language of the screen.
QString partText(const Error& e, const char* key) {
    return partName(factText(e, key).toStdString(), Phrasing{QLocale(), true, nullptr});
}

constexpr ErrorEntry kErrors[] = {
    {"no-run-to-draw",
     [](const Error&, const QString& where) {
         return Errors::tr("%1: the site is given as a known system curve, so there is no run to draw; "
                           "describe suction and delivery instead.")
             .arg(where);
     }},
    {"thread-unreadable",
     [](const Error& e, const QString& where) {
         return Errors::tr("%1: \"%2\" is no thread; written are for example %3.")
             .arg(where, factText(e, "found"), factText(e, "allowed"));
     }},
    {"thread-size-unknown",
     [](const Error& e, const QString& where) {
         return Errors::tr("%1: \"%2\" is of no known size; sizes are %3.")
             .arg(where, factText(e, "found"), factText(e, "allowed"));
     }},
    {"thread-class-misplaced",
     [](const Error& e, const QString& where) {
         return Errors::tr("%1: \"%2\" has a class A or B, which only external G threads have.")
             .arg(where, factText(e, "found"));
     }},
    {"unknown-part",
     [](const Error& e, const QString& where) {
         return Errors::tr("%1: there is no part \"%2\" in the catalogue.").arg(where, factText(e, "part"));
     }},
    {"swap-of-another-kind",
     [](const Error& e, const QString& where) {
         return Errors::tr("%1: %2 does another work than %3 and cannot stand in its place.")
             .arg(where, partText(e, "part"), partText(e, "instead_of"));
     }},
    {"part-not-in-size",
     [](const Error& e, const QString& where) {
         return Errors::tr("%1: %2 is not made in size %3; its sizes are %4.")
             .arg(where, partText(e, "part"), factText(e, "size"), factText(e, "allowed"));
     }},
    {"part-not-on-suction",
     [](const Error& e, const QString& where) {
         return Errors::tr("%1: %2 must not stand on the suction side.").arg(where, partText(e, "part"));
     }},
    {"swap-does-not-join",
     [](const Error& e, const QString& where) {
         return Errors::tr("%1: no adaptor of the catalogue joins %2 to its neighbours.")
             .arg(where, partText(e, "part"));
     }},
    {"nothing-to-swap",
     [](const Error& e, const QString& where) {
         return Errors::tr("%1: %2 is changed in the job itself, not on the sheet.")
             .arg(where, partText(e, "part"));
     }},
};

} // namespace

std::span<const CautionEntry> partCautionRows() { return kCautions; }
std::span<const RemedyEntry> partRemedyRows() { return kRemedies; }
std::span<const ErrorEntry> partErrorEntries() { return kErrors; }

} // namespace headmark
