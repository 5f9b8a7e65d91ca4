#include "app/words/error_words.h"

#include <QCoreApplication>
#include <QStringList>

#include <algorithm>
#include <array>

namespace headmark {

namespace {

// The translation context. In every sentence %1 is where it happened.
struct Errors {
    Q_DECLARE_TR_FUNCTIONS(Errors)
};

QString numberText(double value) { return QString::number(value, 'g', 12); }

QString factText(const Fact& fact) {
    if (const auto* number = std::get_if<double>(&fact.value)) return numberText(*number);
    if (const auto* whole = std::get_if<std::int64_t>(&fact.value)) return QString::number(*whole);
    if (const auto* text = std::get_if<std::string>(&fact.value)) return QString::fromStdString(*text);
    QStringList parts;
    for (const std::string& part : std::get<std::vector<std::string>>(fact.value)) {
        parts << QString::fromStdString(part);
    }
    return parts.join(QStringLiteral(", "));
}

QString factText(const Error& error, const char* key) {
    const Fact* fact = findFact(error.facts, key);
    return fact ? factText(*fact) : QString();
}

// "job.json, at site.zones[2].level_m"; what is not known is left out.
QString whereText(const Error& error) {
    const QString file = QString::fromStdString(error.file);
    const QString place = QString::fromStdString(error.place);
    if (file.isEmpty() && place.isEmpty()) return Errors::tr("The input");
    if (file.isEmpty()) return place;
    if (place.isEmpty()) return file;
    return Errors::tr("%1, at %2").arg(file, place);
}

QString kindText(const std::string& kind) {
    if (kind == "number") return Errors::tr("a number");
    if (kind == "whole number") return Errors::tr("a whole number");
    if (kind == "text") return Errors::tr("a text in quotation marks");
    if (kind == "true or false") return Errors::tr("true or false");
    if (kind == "object") return Errors::tr("an object in braces { }");
    if (kind == "list") return Errors::tr("a list in brackets [ ]");
    if (kind == "null") return Errors::tr("null");
    if (kind == "text or object") return Errors::tr("a text in quotation marks or an object in braces { }");
    return QString::fromStdString(kind);
}

QString kindOf(const Error& error, const char* key) { return kindText(factText(error, key).toStdString()); }

// Whether a list of near matches came along.
bool hasNear(const Error& error) { return !factText(error, "nearest").isEmpty(); }

using Maker = QString (*)(const Error&, const QString& where);

struct Entry {
    std::string_view code;
    Maker make;
};

QString wrongType(const Error& e, const QString& where) {
    const QString found = factText(e, "found");
    if (found.isEmpty())
        return Errors::tr("%1: here stands %2, but %3 is expected; correct the entry.")
            .arg(where, kindOf(e, "found_kind"), kindOf(e, "expected"));
    return Errors::tr("%1: here stands %2 (%3), but %4 is expected; correct the entry.")
        .arg(where, found, kindOf(e, "found_kind"), kindOf(e, "expected"));
}

QString brokenJson(const Error& e, const QString& where) {
    const QString line = factText(e, "line"), column = factText(e, "column"), found = factText(e, "found");
    if (found.isEmpty())
        return Errors::
            tr("%1: the JSON ends too early, in line %2, column %3; a closing bracket or quotation mark is "
               "missing, or the file is cut off.")
                .arg(where, line, column);
    return Errors::
        tr("%1: in line %2, column %3 the JSON is broken, at “%4”; look there for a missing comma, bracket "
           "or quotation mark.")
            .arg(where, line, column, found);
}

QString unknownKey(const Error& e, const QString& where) {
    if (hasNear(e))
        return Errors::tr("%1: this key is not known; did you mean %2? Keys of your own begin with x_.")
            .arg(where, factText(e, "nearest"));
    return Errors::tr("%1: this key is not known; here may stand %2. Keys of your own begin with x_.")
        .arg(where, factText(e, "known"));
}

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

QString tooFewPinned(const Error& e, const QString& where) {
    const QString what = factText(e, "what"), found = factText(e, "found");
    if (what == QLatin1String("flow"))
        return Errors::tr("%1: at least two different flows must be pinned, but there are %2; place a pin "
                          "with another flow.")
            .arg(where, found);
    if (what == QLatin1String("right"))
        return Errors::tr("%1: at least two different values must be pinned on the right axis, but there are "
                          "%2; place a pin "
                          "with another value there.")
            .arg(where, found);
    return Errors::tr("%1: at least two different values must be pinned, but there are %2; place a pin with "
                      "another value.")
        .arg(where, found);
}

constexpr std::array kFileEntries{
    Entry{"no-such-file",
          [](const Error&, const QString& w) {
              return Errors::tr("%1: there is no such file; check the name and the folder.").arg(w);
          }},
    Entry{"is-folder",
          [](const Error&, const QString& w) {
              return Errors::tr("%1: this is a folder; name a file inside it.").arg(w);
          }},
    Entry{"not-regular-file",
          [](const Error&, const QString& w) {
              return Errors::tr("%1: this is a pipe or a device, not a file; save the data as a file first.")
                  .arg(w);
          }},
    Entry{"cannot-read",
          [](const Error& e, const QString& w) {
              return Errors::tr(
                         "%1: the file cannot be read (%2); check that it is there and that you may read it.")
                  .arg(w, factText(e, "why"));
          }},
    Entry{"cannot-write",
          [](const Error& e, const QString& w) {
              return Errors::tr(
                         "%1: the file cannot be written (%2); choose another place or free some space.")
                  .arg(w, factText(e, "why"));
          }},
    Entry{"file-too-large",
          [](const Error& e, const QString& w) {
              return Errors::tr(
                         "%1: the file has %2 MB, and at most %3 MB are read; split it or leave parts out.")
                  .arg(w, QString::number(factText(e, "size_MB").toDouble(), 'f', 0),
                       factText(e, "limit_MB"));
          }},
    Entry{"empty-file",
          [](const Error&, const QString& w) {
              return Errors::tr("%1: the file is empty; a JSON document is expected.").arg(w);
          }},
    Entry{"invalid-utf8",
          [](const Error& e, const QString& w) {
              return Errors::tr(
                         "%1: in line %2, column %3 stands a byte that is no UTF-8; save the file as UTF-8.")
                  .arg(w, factText(e, "line"), factText(e, "column"));
          }},
    Entry{"broken-json", brokenJson},
    Entry{
        "number-too-large",
        [](const Error& e, const QString& w) {
            return Errors::tr(
                       "%1: in line %2, column %3 stands %4, a number too large to compute with; correct it.")
                .arg(w, factText(e, "line"), factText(e, "column"), factText(e, "found"));
        }},
    Entry{"too-deep",
          [](const Error& e, const QString& w) {
              return Errors::tr("%1: brackets are nested more than %2 deep here; such a file is not read.")
                  .arg(w, factText(e, "limit"));
          }},
    Entry{"duplicate-key",
          [](const Error&, const QString& w) {
              return Errors::tr("%1: this key stands here twice; keep one of the two.").arg(w);
          }},
    Entry{
        "wrong-format",
        [](const Error& e, const QString& w) {
            return Errors::
                tr("%1: the format is \"%2\", but \"%3\" is expected; this seems to be another kind of file.")
                    .arg(w, factText(e, "found"), factText(e, "expected"));
        }},
    Entry{"newer-version",
          [](const Error& e, const QString& w) {
              return Errors::
                  tr("%1: the file has version %2, and this program knows versions up to %3; open it with a "
                     "newer Headmark.")
                      .arg(w, factText(e, "found"), factText(e, "known"));
          }},
    Entry{"unknown-version",
          [](const Error& e, const QString& w) {
              return Errors::tr("%1: there has never been a version %2 of this format; write %3.")
                  .arg(w, factText(e, "found"), factText(e, "known"));
          }},
};

constexpr std::array kKeyEntries{
    Entry{"wrong-type", wrongType},
    Entry{
        "missing-key",
        [](const Error&, const QString& w) { return Errors::tr("%1: this key is missing; add it.").arg(w); }},
    Entry{"missing-beside",
          [](const Error& e, const QString& w) {
              return Errors::tr("%1: this key is missing, and %2 needs it; add it.")
                  .arg(w, factText(e, "beside"));
          }},
    Entry{"unknown-key", unknownKey},
    Entry{"out-of-range",
          [](const Error& e, const QString& w) {
              return Errors::tr("%1: here stands %2, but the value must lie between %3 and %4; check the "
                                "figure and its unit.")
                  .arg(w, factText(e, "found"), factText(e, "least"), factText(e, "greatest"));
          }},
    Entry{
        "share-not-percent",
        [](const Error& e, const QString& w) {
            return Errors::
                tr("%1: here stands %2, but a share between %3 and %4 is expected, not a percentage; did you "
                   "mean %5?")
                    .arg(w, factText(e, "found"), factText(e, "least"), factText(e, "greatest"),
                         factText(e, "suggested"));
        }},
    Entry{"unknown-choice",
          [](const Error& e, const QString& w) {
              return Errors::tr("%1: here stands \"%2\", but it must be one of %3.")
                  .arg(w, factText(e, "found"), factText(e, "allowed"));
          }},
    Entry{"empty-text",
          [](const Error&, const QString& w) {
              return Errors::tr("%1: the text is empty; write something.").arg(w);
          }},
    Entry{"text-too-long",
          [](const Error& e, const QString& w) {
              return Errors::tr("%1: the text has %2 bytes, and at most %3 are allowed; shorten it.")
                  .arg(w, factText(e, "length"), factText(e, "limit"));
          }},
    Entry{"empty-list",
          [](const Error&, const QString& w) {
              return Errors::tr("%1: the list is empty; at least one entry is needed.").arg(w);
          }},
    Entry{"wrong-length",
          [](const Error& e, const QString& w) {
              return Errors::tr("%1: the list has %2 entries, but it must have %3.")
                  .arg(w, factText(e, "found"), factText(e, "expected"));
          }},
    Entry{"bad-time",
          [](const Error& e, const QString& w) {
              return Errors::tr("%1: \"%2\" is no time of day; write it like 21:00.")
                  .arg(w, factText(e, "found"));
          }},
    Entry{"empty-window",
          [](const Error& e, const QString& w) {
              return Errors::tr("%1: the window begins and ends at %2; give two different times.")
                  .arg(w, factText(e, "found"));
          }},
    Entry{"one-of-needed",
          [](const Error& e, const QString& w) {
              return Errors::tr("%1: one of these keys is needed here: %2.").arg(w, factText(e, "keys"));
          }},
    Entry{"only-one-of",
          [](const Error& e, const QString& w) {
              return Errors::tr("%1: %2 stand here together, but they exclude each other; keep one of them.")
                  .arg(w, factText(e, "found"));
          }},
    Entry{"excluded-by",
          [](const Error& e, const QString& w) {
              return Errors::tr("%1: this key has no meaning together with %2; remove one of the two.")
                  .arg(w, factText(e, "by"));
          }},
    Entry{
        "not-ascending",
        [](const Error& e, const QString& w) {
            return Errors::tr(
                       "%1: %2 is %3 and %4 is %5, but the first must be the lower one; correct one of them.")
                .arg(w, factText(e, "lower"), factText(e, "lower_value"), factText(e, "upper"),
                     factText(e, "upper_value"));
        }},
};

constexpr std::array kMeaningEntries{
    Entry{"unknown-code", unknownCode},
    Entry{"no-such-size", noSuchSize},
    Entry{"no-bore",
          [](const Error&, const QString& w) {
              return Errors::
                  tr("%1: nothing tells the bore of this fitting; give it a size or a bore_mm, or put a pipe "
                     "beside it.")
                      .arg(w);
          }},
    Entry{
        "chart-not-read",
        [](const Error& e, const QString& w) {
            return Errors::
                tr("%1: the pump \"%2\" is given by a chart, and charts are not read yet; type its curve as "
                   "points under \"curves\" instead.")
                    .arg(w, factText(e, "pump"));
        }},
    Entry{"not-on-suction",
          [](const Error&, const QString& w) {
              return Errors::tr(
                         "%1: regulators and take-offs have no place on the suction side; move it to the "
                         "delivery run.")
                  .arg(w);
          }},
    Entry{"curve-not-positive",
          [](const Error&, const QString& w) {
              return Errors::tr(
                         "%1: the curve through these points falls to zero or below between them; check the "
                         "points, or give more of them.")
                  .arg(w);
          }},
    Entry{
        "system-not-rising",
        [](const Error&, const QString& w) {
            return Errors::tr(
                       "%1: a system curve needs more head for more flow; order the points by flow and check "
                       "the heads.")
                .arg(w);
        }},
    Entry{"unknown-fitting",
          [](const Error& e, const QString& w) {
              return Errors::tr("%1: the catalogue has no fitting \"%2\"; choose one of its codes or give k.")
                  .arg(w, factText(e, "code"));
          }},
    Entry{"outlets-on-lateral",
          [](const Error& e, const QString& w) {
              return Errors::tr("%1: the length and spacing make %2 outlets on one lateral, and 1 to %3 are "
                                "computed; check both figures.")
                  .arg(w, factText(e, "outlets"), factText(e, "most"));
          }},
    Entry{"duplicate-name",
          [](const Error& e, const QString& w) {
              return Errors::tr("%1: the name \"%2\" is taken already at %3; choose another one.")
                  .arg(w, factText(e, "name"), factText(e, "first"));
          }},
    Entry{"repeated-entry",
          [](const Error& e, const QString& w) {
              return Errors::tr("%1: \"%2\" is listed twice; keep it once.").arg(w, factText(e, "name"));
          }},
    Entry{"unknown-takeoff", unknownTakeoff},
    Entry{"unknown-zone", unknownZone},
    Entry{"unknown-pump", unknownPump},
    Entry{"takeoff-misplaced",
          [](const Error&, const QString& w) {
              return Errors::tr("%1: a take-off can only stand in the delivery run; move it there.").arg(w);
          }},
    Entry{"zones-open-without-zones",
          [](const Error& e, const QString& w) {
              return Errors::tr("%1: the site has no zones but %2; remove zones_open from the case.")
                  .arg(w, factText(e, "by"));
          }},
    Entry{"pump-without-head",
          [](const Error&, const QString& w) {
              return Errors::tr("%1: the pump has no head curve; give it curves.head with points, or a "
                                "reading of its chart.")
                  .arg(w);
          }},
    Entry{"quantity-given-twice",
          [](const Error& e, const QString& w) {
              return Errors::tr("%1: the quantity %2 is given here and at %3 as well; keep one of the two.")
                  .arg(w, factText(e, "quantity"), factText(e, "first"));
          }},
    Entry{"too-few-points",
          [](const Error& e, const QString& w) {
              const QString points = factText(e, "points");
              if (points.isEmpty())
                  return Errors::tr("%1: a curve needs at least two points; add some.").arg(w);
              return Errors::tr("%1: the curve has %2 points, and at least two are needed; add some.")
                  .arg(w, points);
          }},
    Entry{"repeated-flow",
          [](const Error& e, const QString& w) {
              return Errors::tr(
                         "%1: the flow %2 m³/h occurs twice in the curve; keep one point of each flow.")
                  .arg(w, factText(e, "flow_m3_h"));
          }},
    Entry{"degree-too-high",
          [](const Error& e, const QString& w) {
              return Errors::tr(
                         "%1: degree %2 cannot be fitted to %3 points; lower the degree or add points.")
                  .arg(w, factText(e, "degree"), factText(e, "points"));
          }},
    Entry{"spacing-beyond-length",
          [](const Error& e, const QString& w) {
              return Errors::tr("%1: a spacing of %2 m leaves no outlet on %3 m; correct one of them.")
                  .arg(w, factText(e, "spacing_m"), factText(e, "length_m"));
          }},
    Entry{"pressure-held-needs",
          [](const Error&, const QString& w) {
              return Errors::tr(
                         "%1: to hold the pressure a vessel or a set point is needed; add site.vessel or "
                         "site.hold_kPa.")
                  .arg(w);
          }},
};

constexpr std::array kDocumentEntries{
    Entry{
        "bad-base64",
        [](const Error& e, const QString& w) {
            return Errors::
                tr("%1: at character %2 the text is no base64; it may hold A to Z, a to z, 0 to 9, + and /, "
                   "and = at its end up to a length divisible by four, so embed the picture again.")
                    .arg(w, factText(e, "position"));
        }},
    Entry{
        "bad-colour",
        [](const Error& e, const QString& w) {
            return Errors::tr("%1: \"%2\" is no colour; write it like #1f77b4.").arg(w, factText(e, "found"));
        }},
    Entry{
        "not-on-log-scale",
        [](const Error& e, const QString& w) {
            return Errors::tr(
                       "%1: here stands %2, but a logarithmic scale has figures above zero only; correct the "
                       "figure, or the scale under scales.")
                .arg(w, factText(e, "found"));
        }},
    Entry{"too-few-pinned", tooFewPinned},
    Entry{"list-too-long",
          [](const Error& e, const QString& w) {
              return Errors::tr("%1: the list has %2 entries, and at most %3 are allowed; leave some out.")
                  .arg(w, factText(e, "found"), factText(e, "limit"));
          }},
};

template <class Visit>
void forEveryEntry(Visit visit) {
    for (const Entry& entry : kFileEntries) {
        visit(entry);
    }
    for (const Entry& entry : kKeyEntries) {
        visit(entry);
    }
    for (const Entry& entry : kMeaningEntries) {
        visit(entry);
    }
    for (const Entry& entry : kDocumentEntries) {
        visit(entry);
    }
}

QString genericSentence(const Error& error) {
    QStringList facts;
    for (const Fact& fact : error.facts) {
        facts << QString::fromStdString(fact.key) + QStringLiteral(" = ") + factText(fact);
    }
    const QString code = QString::fromStdString(error.code);
    if (facts.isEmpty()) return Errors::tr("%1: this did not work (%2).").arg(whereText(error), code);
    return Errors::tr("%1: this did not work (%2: %3).")
        .arg(whereText(error), code, facts.join(QStringLiteral("; ")));
}

} // namespace

QString sentence(const Error& error) {
    const Entry* found = nullptr;
    forEveryEntry([&](const Entry& entry) {
        if (entry.code == error.code) found = &entry;
    });
    return found ? found->make(error, whereText(error)) : genericSentence(error);
}

QString sentences(const std::vector<Error>& errors) {
    constexpr std::size_t kMostShown = 10;
    QStringList lines;
    for (std::size_t i = 0; i < std::min(errors.size(), kMostShown); ++i) {
        lines << sentence(errors[i]);
    }
    if (errors.size() > kMostShown) {
        lines << Errors::tr("… and %n more.", nullptr, static_cast<int>(errors.size() - kMostShown));
    }
    return lines.join(QLatin1Char('\n'));
}

std::vector<std::string_view> wordedErrorCodes() {
    std::vector<std::string_view> codes;
    forEveryEntry([&](const Entry& entry) { codes.push_back(entry.code); });
    return codes;
}

} // namespace headmark
