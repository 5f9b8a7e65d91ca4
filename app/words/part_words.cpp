#include "app/words/part_words.h"

#include "analysis/pipework/catalogue.h"
#include "app/words/number_words.h"

#include <QStringList>

#include <algorithm>

namespace headmark {

namespace {

constexpr const char* kContext = "Parts";
#define HM_WORDS(text) QT_TRANSLATE_NOOP("Parts", text)

struct Row {
    std::string_view code;
    const char* words;
};

constexpr Row kPurposes[] = {
    {"foot-valve", HM_WORDS("Keeps the suction line full when the pump stands still, and coarse dirt out.")},
    {"floating-inlet", HM_WORDS("Draws clear water just below the surface, whatever the level.")},
    {"suction-strainer", HM_WORDS("Keeps out what would block the pump.")},
    {"tank-connector", HM_WORDS("Takes the water through the tank's wall without a leak.")},
    {"isolating-valve-suction",
     HM_WORDS(
         "Shuts the source off so that the pump can be taken out; full bore, and fully open when it runs.")},
    {"backflow-preventer", HM_WORDS("Keeps water of the plant from flowing back into the mains.")},
    {"check-valve-suction", HM_WORDS("Keeps the suction line full when the water stands below the pump.")},
    {"hose", HM_WORDS("Leads the water and takes up shaking and small movements.")},
    {"pipe", HM_WORDS("Leads the water.")},
    {"suction-hose",
     HM_WORDS("Leads the water to the pump, rising all the way; with a rigid helix it cannot collapse.")},
    {"elbow", HM_WORDS("Turns the line.")},
    {"tee-turn", HM_WORDS("Turns the line and leaves an opening for later.")},
    {"union", HM_WORDS("Opens the line so that what stands here can be taken out.")},
    {"union-inlet", HM_WORDS("Opens the suction line so that the pump can be taken out.")},
    {"union-outlet", HM_WORDS("Opens the delivery line so that the pump can be taken out.")},
    {"coupler", HM_WORDS("Opens and closes by hand.")},
    {"coupler-outlet", HM_WORDS("Joins the set to the main by hand and lets it be carried away.")},
    {"flexible", HM_WORDS("Keeps the pump's shaking and the pipe's weight off what it is joined to.")},
    {"nut-adaptor", HM_WORDS("Closes on the port's face with a washer and opens like a union.")},
    {"filling-plug", HM_WORDS("Lets pump and suction line be filled before the first start.")},
    {"gauge-inlet", HM_WORDS("Shows what is left at the pump's inlet: a falling reading tells of a blocked "
                             "strainer or low water.")},
    {"gauge-outlet",
     HM_WORDS("Shows the pump's pressure: with the inlet gauge, or the depth of the water over a pump that "
              "hangs in it, it gives the head and tells wear.")},
    {"gauge-held", HM_WORDS("Shows the pressure that the switch or the drive holds.")},
    {"gauge-before-filter", HM_WORDS("With the gauge behind the filter it shows when to clean.")},
    {"gauge-after-filter", HM_WORDS("With the gauge before the filter it shows when to clean.")},
    {"tee-for-filling-plug", HM_WORDS("Holds the filling plug at the highest place of the suction line.")},
    {"tee-for-gauge-inlet", HM_WORDS("Holds the inlet gauge close to the pump.")},
    {"tee-for-gauge-outlet", HM_WORDS("Holds the outlet gauge before any valve.")},
    {"tee-for-gauge-held", HM_WORDS("Holds the gauge beside the switch or the sensor.")},
    {"tee-for-gauge-before-filter", HM_WORDS("Holds the gauge before the filter.")},
    {"tee-for-gauge-after-filter", HM_WORDS("Holds the gauge behind the filter.")},
    {"tee-for-air-vent", HM_WORDS("Holds the air vent upright at the top of the line.")},
    {"tee-for-drain", HM_WORDS("Holds the drain cock at the bottom of the line.")},
    {"tee-for-flow-switch", HM_WORDS("Holds the flow switch in the stream.")},
    {"tee-for-pressure-switch",
     HM_WORDS("Holds the pressure switch, with no valve between it and the vessel.")},
    {"tee-for-pressure-switch-low", HM_WORDS("Holds the low-pressure switch before the pump.")},
    {"tee-for-pressure-sensor",
     HM_WORDS("Holds the pressure sensor, with no valve between it and the vessel.")},
    {"tee-for-vessel", HM_WORDS("Joins the pressure vessel to the line.")},
    {"tee-for-tank-return", HM_WORDS("Branches the tank return off before any valve that may shut, so that "
                                     "it flows with every valve shut.")},
    {"tee", HM_WORDS("Branches the line.")},
    {"spare-branch", HM_WORDS("Closes a branch that is not used.")},
    {"air-vent", HM_WORDS("Lets air out of the line by itself.")},
    {"drain", HM_WORDS("Empties the line before frost and takes the pressure off the filter.")},
    {"flow-switch", HM_WORDS("Stops the pump when no water flows.")},
    {"pressure-switch", HM_WORDS("Starts and stops the pump by the pressure in the line.")},
    {"pressure-switch-low", HM_WORDS("Stops the pump when the mains pressure falls too low.")},
    {"pressure-sensor", HM_WORDS("Tells the drive the pressure it has to hold.")},
    {"vessel", HM_WORDS("Holds water under pressure, so that the pump does not start for every cupful.")},
    {"vessel-valve",
     HM_WORDS("Shuts the vessel off and empties it to check its pre-charge; locked open otherwise.")},
    {"relief-valve",
     HM_WORDS("Lets water off to a drain where switch or drive fail to stop the pump; no valve before it.")},
    {"tee-for-relief-valve", HM_WORDS("Holds the relief valve, with no valve between it and the vessel.")},
    {"return-valve",
     HM_WORDS("Sets the flow of the tank return; locked, so that nobody shuts it by mistake.")},
    {"return-check",
     HM_WORDS(
         "Keeps air from coming in through the return while the pump stands still; it must open easily.")},
    {"return-pipe",
     HM_WORDS("Leads the return to the tank, ending above high water and away from the inlet.")},
    {"check-valve",
     HM_WORDS("Keeps the main from flowing back through the pump and from turning it backwards.")},
    {"isolating-valve", HM_WORDS("Shuts the line so that pump or filter can be worked on.")},
    {"throttling-valve", HM_WORDS("Holds the flow down.")},
    {"filter", HM_WORDS("Keeps dirt out of the emitters.")},
    {"strainer", HM_WORDS("Keeps coarse dirt out of what follows.")},
    {"meter", HM_WORDS("Measures the water used.")},
    {"regulator", HM_WORDS("Keeps the pressure behind it from rising above its setting.")},
    {"zone-valve", HM_WORDS("Opens and shuts a zone.")},
    {"hydrant", HM_WORDS("Gives water where a key is put in.")},
    {"saddle", HM_WORDS("Takes a branch off the main.")},
    {"to-suit", HM_WORDS("Stands for a part that has yet to be chosen.")},
    {"nipple", HM_WORDS("Joins two female threads.")},
    {"socket", HM_WORDS("Joins two male ends.")},
    {"reducer", HM_WORDS("Leads from one size to another.")},
    {"tail", HM_WORDS("Joins the hose to a thread, held by a clamp.")},
    {"pe-adaptor", HM_WORDS("Joins the PE pipe to a thread.")},
    {"pe-coupling", HM_WORDS("Joins two lengths of PE pipe.")},
    {"pvc-adaptor", HM_WORDS("Joins the PVC pipe to a thread.")},
    {"tube-adaptor", HM_WORDS("Joins the copper tube to a thread.")},
    {"pipe-piece", HM_WORDS("Joins two sockets.")},
    {"flange", HM_WORDS("Joins with bolts and a gasket.")},
    {"pump", HM_WORDS("The pump.")},
    {"dry-run", HM_WORDS("Stops the pump before it runs dry.")},
    {"lifting-rope", HM_WORDS("Carries the pump when it is lowered and lifted; the cable must not.")},
    {"submersible-cable", HM_WORDS("Feeds the motor under water, clipped to the riser without pull.")},
    {"start-relay-zones", HM_WORDS("Starts the pump when the controller opens a zone.")},
    {"start-relay-fill", HM_WORDS("Starts the pump when the tank to be filled calls.")},
    {"start-relay-hand", HM_WORDS("Starts and stops the pump, and trips on overload.")},
    {"fill-level", HM_WORDS("Stands in the tank to be filled: calls for water and stops the pump when it is "
                            "full.")},
    {"start-relay-pressure",
     HM_WORDS("Starts the pump when the pressure switch calls, and trips on overload.")},
    {"variable-speed-drive", HM_WORDS("Turns the pump as fast as the pressure to be held asks for.")},
};

constexpr Row kJoints[] = {
    {"taper-in-parallel", HM_WORDS("Taper male in parallel female, with tape.")},
    {"taper-in-taper", HM_WORDS("Taper male in taper female, with tape.")},
    {"taper-in-fastening", HM_WORDS("Taper male in the port's parallel thread, with tape.")},
    {"parallel-with-washer", HM_WORDS("Parallel threads, closed by a face washer.")},
    {"tail-in-hose", HM_WORDS("Tail pushed fully into the hose, with a heavy-duty band clamp.")},
    {"pipe-in-compression", HM_WORDS("Pipe pushed home in its compression socket, nut tightened.")},
    {"pipe-in-solvent-socket", HM_WORDS("Pipe cleaned and cemented into its socket.")},
    {"tube-in-compression", HM_WORDS("Tube with its olive in a compression socket.")},
    {"flanges", HM_WORDS("Flanges bolted on a gasket.")},
    {"to-suit", HM_WORDS("Joint as the part in question asks for.")},
    {"taper-without-tape", HM_WORDS("A taper thread without tape weeps.")},
    {"parallel-male-in-taper-female",
     HM_WORDS("A parallel male jams in a taper female on a turn or two of thread and does not seal.")},
    {"parallel-without-washer",
     HM_WORDS("Parallel threads do not seal by themselves; without a face washer this joint leaks.")},
    {"taper-male-in-nut", HM_WORDS("A loose nut presses its washer on a flat face; a taper male has none.")},
    {"metal-taper-in-plain-plastic",
     HM_WORDS("A metal taper wedges a plain plastic female open until it splits.")},
    {"two-males", HM_WORDS("Two male threads do not meet.")},
    {"two-females", HM_WORDS("Two female threads do not meet.")},
    {"sizes-differ", HM_WORDS("The two ends differ in size.")},
    {"ends-of-different-kind", HM_WORDS("The two ends are of different kinds.")},
    {"hose-without-tail", HM_WORDS("A hose does not hold on a thread.")},
    {"hose-without-clamp", HM_WORDS("A hose without a clamp slips off.")},
    {"worm-clamp-on-suction",
     HM_WORDS("A worm-drive clamp presses unevenly and works loose; on suction the joint then draws air.")},
    {"worm-clamp-under-pressure",
     HM_WORDS(
         "A worm-drive clamp presses unevenly and works loose; under pressure the hose then slips off.")},
};

constexpr Row kJointRemedies[] = {
    {"wind-tape", HM_WORDS("Wind tape on the male thread, in the direction of screwing.")},
    {"use-taper-male", HM_WORDS("Use a male part with a taper thread.")},
    {"fit-face-washer", HM_WORDS("Use a nut or collar with a face washer, or a taper male with tape.")},
    {"use-flat-faced-nipple", HM_WORDS("Put a nipple with a flat-faced parallel end between them.")},
    {"use-plastic-male-or-ringed-female", HM_WORDS("Use a plastic male, or a female with a steel ring.")},
    {"use-socket", HM_WORDS("Put a socket between them.")},
    {"use-nipple", HM_WORDS("Put a nipple between them.")},
    {"use-reducer", HM_WORDS("Put a reducing bush or nipple between them.")},
    {"use-adaptor", HM_WORDS("Put an adaptor from one kind to the other between them.")},
    {"use-hose-tail", HM_WORDS("Use a hose tail of the hose's bore.")},
    {"use-heavy-band-clamp", HM_WORDS("Use a heavy-duty band clamp on every hose end.")},
};

constexpr Row kSteps[] = {
    {"check-parts",
     HM_WORDS(
         "Lay out all parts in the order of the drawing and compare sizes, threads and arrows of flow.")},
    {"set-source-end", HM_WORDS("Join the parts {parts} from the source on, without strain on a tank's wall; "
                                "leave the valve shut.")},
    {"set-source-end-lift", HM_WORDS("Join the parts {parts} and set them in the water, clear of the bed, "
                                     "the line rising all the way to the pump.")},
    {"set-source-end-submersed", HM_WORDS("Screw the parts {parts} onto the pump's intake.")},
    {"lower-pump",
     HM_WORDS(
         "Join riser, cable and rope to the pump (parts {parts}) and lower it by the rope, never by the "
         "cable, until the least water that cools its motor covers it; the parts from the union on stand "
         "where they can be reached, above the water.")},
    {"place-pump",
     HM_WORDS("Set the pump (part {parts}) level on a firm base above flood water and bolt it down.")},
    {"make-up-on-inlet",
     HM_WORDS("Screw the parts {parts} onto the pump's inlet while it can still be turned into place.")},
    {"make-up-on-outlet",
     HM_WORDS("Screw the parts {parts} onto the pump's outlet while it can still be turned into place.")},
    {"join-suction", HM_WORDS("Close the suction line at part {parts}; it must meet without being pulled.")},
    {"build-outlet", HM_WORDS("Build the delivery line from parts {parts}, arrows with the flow, carried by "
                              "brackets and not by the pump.")},
    {"lead-return",
     HM_WORDS("Lead the tank return with parts {parts}; it ends above high water, away from the inlet.")},
    {"fit-accessories",
     HM_WORDS("Fit parts {parts}: gauges where they can be read, vent upright, drain at the bottom.")},
    {"lay-main", HM_WORDS("Lay the main with parts {parts}, and flush it before emitters are joined.")},
    {"wire-control", HM_WORDS("Have parts {parts} wired by a qualified electrician, with residual-current "
                              "protection and to local rules.")},
    {"tighten-and-clamp",
     HM_WORDS("Go over every joint: threads tight, unions closed, clamps tightened evenly.")},
    {"fill-and-test", HM_WORDS("Open the suction valve, let the air out at the pump, and look for drips "
                               "before the first start; then follow the commissioning sheet.")},
    {"fill-and-test-lift",
     HM_WORDS(
         "With the valve of a tank return shut, fill suction line and pump through the filling plug until "
         "it stays full, and close it; then follow the commissioning sheet.")},
    {"fill-and-test-submersed",
     HM_WORDS(
         "See that nobody is in the water and the pump is covered; then follow the commissioning sheet.")},
};

struct CommissioningText {
    std::string_view code;
    const char* what;
    const char* expected; // braces name facts; shown only where all of them are known
};
constexpr CommissioningText kRows[] = {
    {"fill-through-plug",
     HM_WORDS("Fill suction line and pump through the plug, the valve of a tank return shut."),
     HM_WORDS("primes in about {priming_min}")},
    {"open-suction-valve", HM_WORDS("Open the suction valve fully."), ""},
    {"vent", HM_WORDS("Let the air out of the pump at its own plug, then out of the line."), ""},
    {"vent-line", HM_WORDS("Let the air out of the line."), ""},
    {"inlet-standing", HM_WORDS("Inlet gauge with the pump standing."), HM_WORDS("about {pressure_kPa}")},
    {"prime-holds", HM_WORDS("How long the line stays full with the pump standing."), ""},
    {"vessel-precharge", HM_WORDS("Pre-charge of the vessel, its water side empty."),
     HM_WORDS("{pressure_kPa}")},
    {"direction-of-rotation", HM_WORDS("Start for a moment: the shaft turns as the arrow on the pump shows."),
     ""},
    {"direction-submersed",
     HM_WORDS(
         "Direction: start against a nearly shut valve for a moment; with three phases exchange two and keep "
         "the order that gives more pressure."),
     ""},
    {"fill-slowly", HM_WORDS("Fill the main slowly, the valve a little open, until the air is out."),
     HM_WORDS("about {filling_min}")},
    {"flush-main", HM_WORDS("Flush the main with its ends open before emitters get water."), ""},
    {"leaks-submersed", HM_WORDS("Walk along every joint under pressure: dry outside."), ""},
    {"shut-off", HM_WORDS("Outlet gauge with every valve shut, for less than a minute."),
     HM_WORDS("about {pressure_kPa}")},
    {"shut-off-with-return", HM_WORDS("Outlet gauge with every zone valve shut, the return running."),
     HM_WORDS("about {pressure_kPa}")},
    {"fill-level",
     HM_WORDS(
         "Lift the level switch of the tank to be filled by hand: the pump stops; let it fall: it starts."),
     ""},
    {"amps-one-phase", HM_WORDS("Current with the pump at work."), HM_WORDS("about {current_A}")},
    {"voltage", HM_WORDS("Voltage at the motor with the pump at work, between each two phases."),
     HM_WORDS("{volts}, within 5 %")},
    {"voltage-one-phase", HM_WORDS("Voltage at the motor with the pump at work."),
     HM_WORDS("{volts}, within 5 %")},
    {"check-valve-holds",
     HM_WORDS("Stop: the pressure behind the check valve stays, nothing runs back through the pump."), ""},
    {"dry-run-device", HM_WORDS("Trip the dry-run device by hand: the pump stops."), ""},
    {"return-setting",
     HM_WORDS("Set the tank return with every zone valve shut: time to fill a bucket; then lock the valve."),
     HM_WORDS("{bucket_l} in {time_s}")},
    {"start-order",
     HM_WORDS("The controller's pump output starts the pump after a zone's valve has opened, and stops it "
              "before the last one shuts."),
     ""},
    {"switch-cut-in", HM_WORDS("Pressure at which the switch starts the pump."), HM_WORDS("{pressure_kPa}")},
    {"switch-cut-out", HM_WORDS("Pressure at which the switch stops the pump."), HM_WORDS("{pressure_kPa}")},
    {"relief-set", HM_WORDS("Opening pressure of the relief valve; turn it by hand, it must seal again."),
     HM_WORDS("above {pressure_kPa}, below {limit_kPa}")},
    {"low-switch-set",
     HM_WORDS("Inlet pressure at which the low-pressure switch stops the pump: what the water supplier asks "
              "for."),
     ""},
    {"overload-set", HM_WORDS("Overload release of the start relay, set to the amps on the motor's plate."),
     HM_WORDS("{limit_A}")},
    {"frost",
     HM_WORDS("Before frost: supply off; drain cock, the drain plug of a pump in the open and every low "
              "place opened."),
     ""},
    {"held-pressure", HM_WORDS("Pressure the drive holds."), HM_WORDS("{pressure_kPa}")},
    {"inlet-running", HM_WORDS("Inlet gauge with the pump at work."), HM_WORDS("about {pressure_kPa}")},
    {"outlet-running", HM_WORDS("Outlet gauge with the pump at work."), HM_WORDS("about {pressure_kPa}")},
    {"amps", HM_WORDS("Current with the pump at work, each phase."), HM_WORDS("about {current_A}")},
    {"filter-difference", HM_WORDS("Difference of the two gauges at the clean filter."),
     HM_WORDS("about {difference_kPa}")},
    {"leaks",
     HM_WORDS("Walk along every joint under pressure, suction side first: dry outside, no air drawn in."),
     ""},
};

// Why a row has no figure.
constexpr Row kReasons[] = {
    {"levels-not-given", HM_WORDS("not known: give the source's levels")},
    {"curve-not-to-no-flow", HM_WORDS("not known: the head curve is not read down to no flow")},
    {"no-case-may-run", HM_WORDS("none: no case may run as described; see what is wrong first")},
    {"motor-not-known", HM_WORDS("not known: give motor and supply, and a power or efficiency curve")},
};

constexpr Row kMaterials[] = {
    {"brass", HM_WORDS("brass")},
    {"bronze", HM_WORDS("bronze")},
    {"malleable_iron", HM_WORDS("galvanised malleable iron")},
    {"cast_iron", HM_WORDS("cast iron")},
    {"steel", HM_WORDS("steel")},
    {"stainless", HM_WORDS("stainless steel")},
    {"aluminium", HM_WORDS("aluminium")},
    {"plastic", HM_WORDS("plastic")},
    {"plastic_ringed", HM_WORDS("plastic with steel rings")},
    {"rubber", HM_WORDS("rubber")},
};

constexpr Row kDevices[] = {
    {"float", HM_WORDS("float switch")},
    {"electrode", HM_WORDS("level electrodes")},
    {"flow-switch", HM_WORDS("flow switch")},
    {"pressure-switch", HM_WORDS("low-pressure switch")},
    {"under-current", HM_WORDS("under-current relay")},
};

constexpr Row kCaptions[] = {
    {"inlet", HM_WORDS("Inlet: source to pump")}, {"in-the-water", HM_WORDS("Pump in the water")},
    {"outlet", HM_WORDS("Outlet: pump to main")}, {"to-main", HM_WORDS("to the main")},
    {"to-tank", HM_WORDS("to the tank")},
};

QString textOf(std::span<const Row> rows, std::string_view code, const Phrasing& p) {
    const auto row = std::find_if(rows.begin(), rows.end(), [&](const Row& r) { return r.code == code; });
    if (row != rows.end()) return p.text(kContext, row->words);
    return QString::fromUtf8(code.data(), static_cast<qsizetype>(code.size()));
}

std::vector<std::string_view> codesOf(std::span<const Row> rows) {
    std::vector<std::string_view> codes;
    for (const Row& row : rows)
        codes.push_back(row.code);
    return codes;
}

// "7 to 9, 11 and 15".
QString numbersWords(const std::vector<std::size_t>& parts, const Phrasing& p) {
    QStringList pieces;
    for (std::size_t i = 0; i < parts.size();) {
        std::size_t last = i;
        while (last + 1 < parts.size() && parts[last + 1] == parts[last] + 1)
            ++last;
        const QString first = QString::number(parts[i] + 1), end = QString::number(parts[last] + 1);
        if (last - i >= 2)
            pieces << p.text(kContext, HM_WORDS("%1 to %2")).arg(first, end);
        else
            for (std::size_t k = i; k <= last; ++k)
                pieces << QString::number(parts[k] + 1);
        i = last + 1;
    }
    return listWords(pieces, p);
}

QString endSizeWords(const End& end, const Phrasing& p) {
    if (end.kind == EndKind::thread || end.kind == EndKind::flange) return QString::fromStdString(end.size);
    if (end.diameter_mm <= 0.0) return {};
    const QString size = quantityWords("mm", end.diameter_mm, p);
    const bool hose = end.kind == EndKind::tail || end.kind == EndKind::hose;
    return hose ? p.text(kContext, HM_WORDS("hose of %1")).arg(size) : size;
}

// A catalogue pipe as its row describes it: "PE100 OD 63 SDR17"; anything else by its code. A filter's name
// says it already.
QString itemWords(const std::string& item) {
    if (findFilter(item)) return {};
    const PipeRow* pipe = findPipe(item);
    return QString::fromStdString(pipe ? pipe->material + ' ' + pipe->designation : item);
}

} // namespace

QString partName(std::string_view part, const Phrasing& p) {
    for (const PartNameRow& row : partNameRows()) {
        if (row.code == part) return p.text(kContext, row.name);
    }
    return QString::fromUtf8(part.data(), static_cast<qsizetype>(part.size()));
}

QString partSizeWords(const PlacedPart& part, const Phrasing& p) {
    QStringList sizes;
    for (const End& end : part.ends) {
        const QString size = endSizeWords(end, p);
        if (!size.isEmpty() && !sizes.contains(size)) sizes << size;
    }
    return sizes.join(QStringLiteral(" × "));
}

QString placedPartWords(const PlacedPart& part, const Phrasing& p) {
    QStringList pieces{partName(part.part, p)};
    const bool described = part.length || part.row().group == "filter";
    const QString item = described ? itemWords(part.item) : QString();
    if (!item.isEmpty()) pieces << item;
    const QString size = partSizeWords(part, p);
    if (!size.isEmpty() && item.isEmpty()) pieces << size;
    if (part.length) pieces << quantityWords("length_m", part.length->inMetres(), p);
    if (part.count > 1) pieces << p.text(kContext, HM_WORDS("%1 pieces")).arg(part.count);
    return pieces.join(QStringLiteral(", "));
}

QString billRowWords(const BillRow& row, const Phrasing& p) {
    QStringList pieces{partName(row.part, p)};
    const QString item = itemWords(row.item);
    if (!item.isEmpty()) pieces << item;
    if (!row.size.a.empty()) {
        const QString a = QString::fromStdString(row.size.a), b = QString::fromStdString(row.size.b);
        pieces << (b.isEmpty() ? a : a + QStringLiteral(" × ") + b);
    }
    if (row.length) pieces << quantityWords("length_m", row.length->inMetres(), p);
    return pieces.join(QStringLiteral(", "));
}

QString partPurpose(std::string_view purpose, const Phrasing& p) { return textOf(kPurposes, purpose, p); }

QString materialWords(std::string_view material, const Phrasing& p) {
    return material == "any" ? QString() : textOf(kMaterials, material, p);
}

QString jointSentence(const JointVerdict& verdict, const Phrasing& p) {
    return textOf(kJoints, verdict.code, p);
}

QString jointRemedy(const JointVerdict& verdict, const Phrasing& p) {
    return verdict.remedy.empty() ? QString() : textOf(kJointRemedies, verdict.remedy, p);
}

QString assemblySentence(const AssemblyStep& step, const Phrasing& p) {
    return filledTemplate(textOf(kSteps, step.code, p),
                          [&](const QString&, const QString&) { return numbersWords(step.parts, p); });
}

CommissioningWords commissioningWords(const CommissioningRow& row, const Phrasing& p) {
    CommissioningWords words;
    words.unit = unitOfKey(row.unitKey, p);
    const auto known = std::find_if(std::begin(kRows), std::end(kRows),
                                    [&](const CommissioningText& t) { return t.code == row.code; });
    if (known == std::end(kRows)) {
        words.what = QString::fromStdString(row.code);
        return words;
    }
    words.what = p.text(kContext, known->what);
    bool complete = *known->expected != '\0';
    const QString expected = complete ? p.text(kContext, known->expected) : QString();
    const QString filled = filledTemplate(expected, [&](const QString& key, const QString&) {
        const Fact* fact = findFact(row.expected, key.toStdString());
        complete = complete && fact;
        return fact ? factWords(fact, p) : QString();
    });
    if (!complete) {
        if (!row.why.empty()) words.expected = textOf(kReasons, row.why, p);
        return words;
    }
    words.expected = filled;
    if (const Fact* plate = findFact(row.expected, "limit_A"); plate && filled != factWords(plate, p))
        words.expected += p.text(kContext, HM_WORDS(", the plate says %1")).arg(factWords(plate, p));
    if (const Fact* zones = findFact(row.expected, "zones"))
        words.expected += p.text(kContext, HM_WORDS(", %1 open")).arg(factWords(zones, p));
    return words;
}

QString deviceWords(std::string_view device, const Phrasing& p) { return textOf(kDevices, device, p); }

QString captionWords(std::string_view caption, const Phrasing& p) { return textOf(kCaptions, caption, p); }

std::vector<std::string_view> wordedParts() {
    std::vector<std::string_view> codes;
    for (const PartNameRow& row : partNameRows())
        codes.push_back(row.code);
    return codes;
}
std::vector<std::string_view> wordedPurposes() { return codesOf(kPurposes); }
std::vector<std::string_view> wordedJoints() { return codesOf(kJoints); }
std::vector<std::string_view> wordedJointRemedies() { return codesOf(kJointRemedies); }
std::vector<std::string_view> wordedSteps() { return codesOf(kSteps); }
std::vector<std::string_view> wordedCommissioningRows() {
    std::vector<std::string_view> codes;
    for (const CommissioningText& row : kRows)
        codes.push_back(row.code);
    return codes;
}

} // namespace headmark
