// Errors of files as a whole and of single keys in them.
#include "app/words/error_words_parts.h"

#include <array>

namespace headmark {

namespace {

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

// Whether the file is a picture that a reading names.
bool ofPicture(const Error& error) {
    return !factText(error, "picture").isEmpty() || error.place.starts_with("chart");
}

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

constexpr std::array kFileEntries{
    ErrorEntry{"no-such-file",
               [](const Error&, const QString& w) {
                   return Errors::tr("%1: there is no such file; check the name and the folder.").arg(w);
               }},
    ErrorEntry{"is-folder",
               [](const Error&, const QString& w) {
                   return Errors::tr("%1: this is a folder; name a file inside it.").arg(w);
               }},
    ErrorEntry{"not-regular-file",
               [](const Error&, const QString& w) {
                   return Errors::tr(
                              "%1: this is a pipe or a device, not a file; save the data as a file first.")
                       .arg(w);
               }},
    ErrorEntry{
        "cannot-read",
        [](const Error& e, const QString& w) {
            return Errors::tr(
                       "%1: the file cannot be read (%2); check that it is there and that you may read it.")
                .arg(w, factText(e, "why"));
        }},
    ErrorEntry{"cannot-write",
               [](const Error& e, const QString& w) {
                   return Errors::tr(
                              "%1: the file cannot be written (%2); choose another place or free some space.")
                       .arg(w, factText(e, "why"));
               }},
    ErrorEntry{"changed-on-disk",
               [](const Error&, const QString& w) {
                   return Errors::tr(
                              "%1: another program changed this file since it was opened here; nothing was "
                              "saved. Save under another name, or save over it.")
                       .arg(w);
               }},
    ErrorEntry{"cannot-compute",
               [](const Error& e, const QString& w) {
                   return Errors::tr("%1: the computation broke off (%2); what is open can still be saved.")
                       .arg(w, factText(e, "why"));
               }},
    ErrorEntry{
        "file-too-large",
        [](const Error& e, const QString& w) {
            const QString size = QString::number(factText(e, "size_MB").toDouble(), 'f', 0);
            const QString limit = factText(e, "limit_MB");
            if (ofPicture(e))
                return Errors::tr(
                           "%1: the picture has %2 MB, and at most %3 MB are read; scan it coarser or cut "
                           "it to the chart.")
                    .arg(w, size, limit);
            return Errors::tr(
                       "%1: the file has %2 MB, and at most %3 MB are read; split it or leave parts out.")
                .arg(w, size, limit);
        }},
    ErrorEntry{"empty-file",
               [](const Error& e, const QString& w) {
                   if (ofPicture(e))
                       return Errors::tr("%1: the picture is empty; save or scan it again.").arg(w);
                   return Errors::tr("%1: the file is empty; a JSON document is expected.").arg(w);
               }},
    ErrorEntry{
        "invalid-utf8",
        [](const Error& e, const QString& w) {
            return Errors::tr(
                       "%1: in line %2, column %3 stands a byte that is no UTF-8; save the file as UTF-8.")
                .arg(w, factText(e, "line"), factText(e, "column"));
        }},
    ErrorEntry{"broken-json", brokenJson},
    ErrorEntry{
        "number-too-large",
        [](const Error& e, const QString& w) {
            return Errors::tr(
                       "%1: in line %2, column %3 stands %4, a number too large to compute with; correct it.")
                .arg(w, factText(e, "line"), factText(e, "column"), factText(e, "found"));
        }},
    ErrorEntry{"too-deep",
               [](const Error& e, const QString& w) {
                   return Errors::tr(
                              "%1: brackets are nested more than %2 deep here; such a file is not read.")
                       .arg(w, factText(e, "limit"));
               }},
    ErrorEntry{"duplicate-key",
               [](const Error&, const QString& w) {
                   return Errors::tr("%1: this key stands here twice; keep one of the two.").arg(w);
               }},
    ErrorEntry{
        "wrong-format",
        [](const Error& e, const QString& w) {
            return Errors::
                tr("%1: the format is \"%2\", but \"%3\" is expected; this seems to be another kind of file.")
                    .arg(w, factText(e, "found"), factText(e, "expected"));
        }},
    ErrorEntry{
        "newer-version",
        [](const Error& e, const QString& w) {
            return Errors::
                tr("%1: the file has version %2, and this program knows versions up to %3; open it with a "
                   "newer Headmark.")
                    .arg(w, factText(e, "found"), factText(e, "known"));
        }},
    ErrorEntry{"unknown-version",
               [](const Error& e, const QString& w) {
                   return Errors::tr("%1: there has never been a version %2 of this format; write %3.")
                       .arg(w, factText(e, "found"), factText(e, "known"));
               }},
    ErrorEntry{"wrong-type", wrongType},
    ErrorEntry{
        "missing-key",
        [](const Error&, const QString& w) { return Errors::tr("%1: this key is missing; add it.").arg(w); }},
    ErrorEntry{"missing-beside",
               [](const Error& e, const QString& w) {
                   return Errors::tr("%1: this key is missing, and %2 needs it; add it.")
                       .arg(w, factText(e, "beside"));
               }},
    ErrorEntry{"unknown-key", unknownKey},
    ErrorEntry{"out-of-range",
               [](const Error& e, const QString& w) {
                   return Errors::tr(
                              "%1: here stands %2, but the value must lie between %3 and %4; check the "
                              "figure and its unit.")
                       .arg(w, factText(e, "found"), factText(e, "least"), factText(e, "greatest"));
               }},
    ErrorEntry{
        "share-not-percent",
        [](const Error& e, const QString& w) {
            return Errors::
                tr("%1: here stands %2, but a share between %3 and %4 is expected, not a percentage; did you "
                   "mean %5?")
                    .arg(w, factText(e, "found"), factText(e, "least"), factText(e, "greatest"),
                         factText(e, "suggested"));
        }},
    ErrorEntry{"unknown-choice",
               [](const Error& e, const QString& w) {
                   return Errors::tr("%1: here stands \"%2\", but it must be one of %3.")
                       .arg(w, factText(e, "found"), factText(e, "allowed"));
               }},
    ErrorEntry{"empty-text",
               [](const Error&, const QString& w) {
                   return Errors::tr("%1: the text is empty; write something.").arg(w);
               }},
    ErrorEntry{"text-too-long",
               [](const Error& e, const QString& w) {
                   return Errors::tr("%1: the text has %2 bytes, and at most %3 are allowed; shorten it.")
                       .arg(w, factText(e, "length"), factText(e, "limit"));
               }},
    ErrorEntry{"empty-list",
               [](const Error&, const QString& w) {
                   return Errors::tr("%1: the list is empty; at least one entry is needed.").arg(w);
               }},
    ErrorEntry{"wrong-length",
               [](const Error& e, const QString& w) {
                   return Errors::tr("%1: the list has %2 entries, but it must have %3.")
                       .arg(w, factText(e, "found"), factText(e, "expected"));
               }},
    ErrorEntry{"bad-time",
               [](const Error& e, const QString& w) {
                   return Errors::tr("%1: \"%2\" is no time of day; write it like 21:00.")
                       .arg(w, factText(e, "found"));
               }},
    ErrorEntry{"empty-window",
               [](const Error& e, const QString& w) {
                   return Errors::tr("%1: the window begins and ends at %2; give two different times.")
                       .arg(w, factText(e, "found"));
               }},
    ErrorEntry{"one-of-needed",
               [](const Error& e, const QString& w) {
                   return Errors::tr("%1: one of these keys is needed here: %2.").arg(w, factText(e, "keys"));
               }},
    ErrorEntry{"only-one-of",
               [](const Error& e, const QString& w) {
                   return Errors::tr(
                              "%1: %2 stand here together, but they exclude each other; keep one of them.")
                       .arg(w, factText(e, "found"));
               }},
    ErrorEntry{"excluded-by",
               [](const Error& e, const QString& w) {
                   return Errors::tr("%1: this key has no meaning together with %2; remove one of the two.")
                       .arg(w, factText(e, "by"));
               }},
    ErrorEntry{
        "not-ascending",
        [](const Error& e, const QString& w) {
            return Errors::tr(
                       "%1: %2 is %3 and %4 is %5, but the first must be the lower one; correct one of them.")
                .arg(w, factText(e, "lower"), factText(e, "lower_value"), factText(e, "upper"),
                     factText(e, "upper_value"));
        }},
};

} // namespace

std::span<const ErrorEntry> fileErrorEntries() { return kFileEntries; }

} // namespace headmark
