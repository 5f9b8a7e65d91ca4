#include "app/words/error_words.h"

#include "app/words/error_words_parts.h"
#include "app/words/part_words.h"

#include <QStringList>

#include <algorithm>

namespace headmark {

namespace {

QString numberText(double value) { return QString::number(value, 'g', 12); }

// "job.json, at site.zones[2].level_m"; what is not known is left out.
QString fileAndPlace(const Error& error) {
    const QString file = QString::fromStdString(error.file);
    const QString place = QString::fromStdString(error.place);
    if (file.isEmpty() && place.isEmpty()) return Errors::tr("The input");
    if (file.isEmpty()) return place;
    if (place.isEmpty()) return file;
    return Errors::tr("%1, at %2").arg(file, place);
}

// With the picture that a reading names, and where a job names the reading.
QString whereText(const Error& error) {
    const QString where = fileAndPlace(error);
    const QString picture = factText(error, "picture"), namedAt = factText(error, "named_at");
    if (picture.isEmpty() && namedAt.isEmpty()) return where;
    if (namedAt.isEmpty()) return Errors::tr("%1 (picture %2)").arg(where, picture);
    if (picture.isEmpty()) return Errors::tr("%1 (named by the job at %2)").arg(where, namedAt);
    return Errors::tr("%1 (picture %2; named by the job at %3)").arg(where, picture, namedAt);
}

template <class Visit>
void forEveryEntry(Visit visit) {
    for (const auto entries : {fileErrorEntries(), jobErrorEntries(), readingErrorEntries(),
                               pictureErrorEntries(), lineErrorEntries(), partErrorEntries()}) {
        for (const ErrorEntry& entry : entries)
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

bool hasNear(const Error& error) { return !factText(error, "nearest").isEmpty(); }

QString sentence(const Error& error) {
    const ErrorEntry* found = nullptr;
    forEveryEntry([&](const ErrorEntry& entry) {
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
    forEveryEntry([&](const ErrorEntry& entry) { codes.push_back(entry.code); });
    return codes;
}

} // namespace headmark
