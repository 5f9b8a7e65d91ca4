// Errors of what a job's values mean.
#include "app/words/error_words_parts.h"

#include <array>

namespace headmark {

namespace {

QString unknownCode(const Error& e, const QString& where) {
    const std::string kind = factText(e, "kind").toStdString();
    const QString found = factText(e, "found");
    QString known;
    if (kind == "pipe")
        known = Errors::tr("%1: the catalogue has no pipe %2").arg(where, found);
    else if (kind == "fitting")
        known = Errors::tr("%1: the catalogue has no fitting %2").arg(where, found);
    else if (kind == "filter")
        known = Errors::tr("%1: the catalogue has no filter %2").arg(where, found);
    else if (kind == "emitter")
        known = Errors::tr("%1: the catalogue has no emitter %2").arg(where, found);
    else if (kind == "source")
        known = Errors::tr("%1: there is no kind of source called %2").arg(where, found);
    else
        known = Errors::tr("%1: the catalogue has no %2").arg(where, found);
    if (hasNear(e)) return Errors::tr("%1; nearest are %2.").arg(known, factText(e, "nearest"));
    return Errors::
        tr("%1; nothing similar is known either, so choose a code of the catalogue or write the figures out.")
            .arg(known);
}

QString unknownTakeoff(const Error& e, const QString& where) {
    const QString name = factText(e, "name"), known = factText(e, "known");
    if (known.isEmpty())
        return Errors::tr(
                   "%1: the delivery run has no take-off \"%2\", nor any other; add it there or leave this "
                   "key out.")
            .arg(where, name);
    return Errors::tr("%1: the delivery run has no take-off \"%2\"; it has %3.").arg(where, name, known);
}

QString unknownZone(const Error& e, const QString& where) {
    const QString name = factText(e, "name"), known = factText(e, "known");
    if (known.isEmpty()) return Errors::tr("%1: there is no zone \"%2\", nor any other.").arg(where, name);
    return Errors::tr("%1: there is no zone \"%2\"; the zones are %3.").arg(where, name, known);
}

QString unknownPump(const Error& e, const QString& where) {
    const QString name = factText(e, "name"), known = factText(e, "known");
    if (known.isEmpty()) return Errors::tr("%1: there is no pump \"%2\", nor any other.").arg(where, name);
    return Errors::tr("%1: there is no pump \"%2\"; the pumps are %3.").arg(where, name, known);
}

QString noSuchSize(const Error& e, const QString& where) {
    const QString code = factText(e, "code");
    if (code.isEmpty())
        return Errors::tr("%1: there is no size %2; known sizes are %3.")
            .arg(where, factText(e, "size"), factText(e, "sizes"));
    return Errors::tr("%1: %2 is not known in size %3; its sizes are %4.")
        .arg(where, code, factText(e, "size"), factText(e, "sizes"));
}

QString unknownLine(const Error& e, const QString& where) {
    const QString known = factText(e, "known");
    if (known.isEmpty())
        return Errors::tr(
                   "%1: the reading %2 has no line \"%3\" of the quantity %4, nor any other of it; add "
                   "the line there or leave this key out.")
            .arg(where, factText(e, "reading"), factText(e, "name"), factText(e, "quantity"));
    return Errors::tr("%1: the reading %2 has no line \"%3\" of the quantity %4; it has %5.")
        .arg(where, factText(e, "reading"), factText(e, "name"), factText(e, "quantity"), known);
}

QString quantityTwice(const Error& e, const QString& where) {
    const QString quantity = factText(e, "quantity"), first = factText(e, "first");
    const QString line = factText(e, "line"), firstLine = factText(e, "first_line");
    if (line.isEmpty())
        return Errors::tr("%1: the quantity %2 is given here and at %3 as well; keep one of the two.")
            .arg(where, quantity, first);
    if (firstLine.isEmpty())
        return Errors::tr("%1: the quantity %2 is given here by the line \"%3\" and at %4 as well; keep one "
                          "of the two.")
            .arg(where, quantity, line, first);
    return Errors::tr("%1: the quantity %2 is given here by the line \"%3\" and at %4 by the line \"%5\"; "
                      "keep one of the two.")
        .arg(where, quantity, line, first, firstLine);
}

constexpr std::array kJobEntries{
    ErrorEntry{"unknown-code", unknownCode},
    ErrorEntry{"no-such-size", noSuchSize},
    ErrorEntry{
        "no-bore",
        [](const Error&, const QString& w) {
            return Errors::
                tr("%1: nothing tells the bore of this fitting; give it a size or a bore_mm, or put a pipe "
                   "beside it.")
                    .arg(w);
        }},
    ErrorEntry{
        "not-on-suction",
        [](const Error&, const QString& w) {
            return Errors::tr(
                       "%1: regulators and take-offs have no place on the suction side; move it to the "
                       "delivery run.")
                .arg(w);
        }},
    ErrorEntry{
        "curve-not-positive",
        [](const Error&, const QString& w) {
            return Errors::tr(
                       "%1: the curve through these points falls to zero or below between them; check the "
                       "points, or give more of them.")
                .arg(w);
        }},
    ErrorEntry{"stopped",
               [](const Error&, const QString&) {
                   return Errors::tr("The computation was stopped before it was done; start it again for an "
                                     "answer.");
               }},
    ErrorEntry{
        "system-not-rising",
        [](const Error&, const QString& w) {
            return Errors::tr(
                       "%1: a system curve needs more head for more flow; order the points by flow and check "
                       "the heads.")
                .arg(w);
        }},
    ErrorEntry{"unknown-fitting",
               [](const Error& e, const QString& w) {
                   return Errors::tr(
                              "%1: the catalogue has no fitting \"%2\"; choose one of its codes or give k.")
                       .arg(w, factText(e, "code"));
               }},
    ErrorEntry{"outlets-on-lateral",
               [](const Error& e, const QString& w) {
                   return Errors::tr(
                              "%1: the length and spacing make %2 outlets on one lateral, and 1 to %3 are "
                              "computed; check both figures.")
                       .arg(w, factText(e, "outlets"), factText(e, "most"));
               }},
    ErrorEntry{"duplicate-name",
               [](const Error& e, const QString& w) {
                   return Errors::tr("%1: the name \"%2\" is taken already at %3; choose another one.")
                       .arg(w, factText(e, "name"), factText(e, "first"));
               }},
    ErrorEntry{"repeated-entry",
               [](const Error& e, const QString& w) {
                   return Errors::tr("%1: \"%2\" is listed twice; keep it once.").arg(w, factText(e, "name"));
               }},
    ErrorEntry{"unknown-takeoff", unknownTakeoff},
    ErrorEntry{"unknown-zone", unknownZone},
    ErrorEntry{"unknown-pump", unknownPump},
    ErrorEntry{
        "takeoff-misplaced",
        [](const Error&, const QString& w) {
            return Errors::tr("%1: a take-off can only stand in the delivery run; move it there.").arg(w);
        }},
    ErrorEntry{"zones-open-without-zones",
               [](const Error& e, const QString& w) {
                   return Errors::tr("%1: the site has no zones but %2; remove zones_open from the case.")
                       .arg(w, factText(e, "by"));
               }},
    ErrorEntry{"pump-without-head",
               [](const Error&, const QString& w) {
                   return Errors::tr("%1: the pump has no head curve; give it curves.head with points, or a "
                                     "reading of its chart.")
                       .arg(w);
               }},
    ErrorEntry{"quantity-given-twice", quantityTwice},
    ErrorEntry{"unknown-line", unknownLine},
    ErrorEntry{"line-choice-needed",
               [](const Error& e, const QString& w) {
                   return Errors::tr(
                              "%1: the reading %2 has several lines of the quantity %3 (%4); name the one "
                              "that belongs to this pump.")
                       .arg(w, factText(e, "reading"), factText(e, "quantity"), factText(e, "lines"));
               }},
    ErrorEntry{"too-few-points",
               [](const Error& e, const QString& w) {
                   const QString points = factText(e, "points");
                   if (points.isEmpty())
                       return Errors::tr("%1: a curve needs at least two points; add some.").arg(w);
                   return Errors::tr("%1: the curve has %2 points, and at least two are needed; add some.")
                       .arg(w, points);
               }},
    ErrorEntry{"repeated-flow",
               [](const Error& e, const QString& w) {
                   return Errors::tr(
                              "%1: the flow %2 m³/h occurs twice in the curve; keep one point of each flow.")
                       .arg(w, factText(e, "flow_m3_h"));
               }},
    ErrorEntry{"degree-too-high",
               [](const Error& e, const QString& w) {
                   return Errors::tr(
                              "%1: degree %2 cannot be fitted to %3 points; lower the degree or add points.")
                       .arg(w, factText(e, "degree"), factText(e, "points"));
               }},
    ErrorEntry{"spacing-beyond-length",
               [](const Error& e, const QString& w) {
                   return Errors::tr("%1: a spacing of %2 m leaves no outlet on %3 m; correct one of them.")
                       .arg(w, factText(e, "spacing_m"), factText(e, "length_m"));
               }},
    ErrorEntry{
        "pressure-held-needs",
        [](const Error&, const QString& w) {
            return Errors::tr(
                       "%1: to hold the pressure a vessel or a set point is needed; add site.vessel or "
                       "site.hold_kPa.")
                .arg(w);
        }},
};

} // namespace

std::span<const ErrorEntry> jobErrorEntries() { return kJobEntries; }

} // namespace headmark
