#include "app/words/phrasing.h"

#include "app/words/number_words.h"
#include "app/words/part_words.h"

#include <QCoreApplication>
#include <QRegularExpression>

namespace headmark {

namespace {

constexpr const char* kContext = "Places";

struct NamedPlace {
    std::string_view place;
    const char* words;
};
constexpr NamedPlace kNamedPlaces[] = {
    {"", QT_TRANSLATE_NOOP("Places", "the site")},
    {"site", QT_TRANSLATE_NOOP("Places", "the site")},
    {"pump", QT_TRANSLATE_NOOP("Places", "the pump")},
    {"source", QT_TRANSLATE_NOOP("Places", "the water source")},
    {"suction", QT_TRANSLATE_NOOP("Places", "the suction run")},
    {"delivery", QT_TRANSLATE_NOOP("Places", "the delivery run")},
    {"tank_return", QT_TRANSLATE_NOOP("Places", "the tank return")},
    {"end", QT_TRANSLATE_NOOP("Places", "the outlet")},
    {"system", QT_TRANSLATE_NOOP("Places", "the system curve")},
    {"cases", QT_TRANSLATE_NOOP("Places", "the list of cases")},
};

// What the user calls the item: its catalogue code, else its kind.
QString itemName(const Run& run, qsizetype index, const Phrasing& p) {
    if (index < 0 || static_cast<std::size_t>(index) >= run.size()) return {};
    const auto named = [&](const std::string& code, const char* kind) {
        return code.empty() ? p.text(kContext, kind) : QString::fromStdString(code);
    };
    const RunItem& item = run[static_cast<std::size_t>(index)];
    if (const auto* pipe = std::get_if<PipeItem>(&item)) {
        return named(pipe->kind.code, QT_TRANSLATE_NOOP("Places", "pipe"));
    }
    if (const auto* fitting = std::get_if<FittingItem>(&item)) {
        return named(fitting->code, QT_TRANSLATE_NOOP("Places", "fitting"));
    }
    if (const auto* filter = std::get_if<FilterItem>(&item)) {
        return named(filter->code, QT_TRANSLATE_NOOP("Places", "filter"));
    }
    if (const auto* regulator = std::get_if<RegulatorItem>(&item)) {
        return named(regulator->code, QT_TRANSLATE_NOOP("Places", "pressure regulator"));
    }
    return named(std::get<TakeoffItem>(item).name, QT_TRANSLATE_NOOP("Places", "take-off"));
}

QString withItem(QString words, const Run* run, qsizetype index, const Phrasing& p) {
    const QString name = run ? itemName(*run, index, p) : QString();
    return name.isEmpty() ? words : words + QStringLiteral(" (%1)").arg(name);
}

QString zoneWords(qsizetype index, const Phrasing& p) {
    if (p.site && static_cast<std::size_t>(index) < p.site->zones.size()) {
        return p.text(kContext, QT_TRANSLATE_NOOP("Places", "zone \"%1\""))
            .arg(QString::fromStdString(p.site->zones[static_cast<std::size_t>(index)].name));
    }
    return p.text(kContext, QT_TRANSLATE_NOOP("Places", "zone %1")).arg(index + 1);
}

// "lines[0]", "pins[3]", "pins" of a reading, and the same under a pump of a job; else the path itself.
QString chartPlaceWords(const QString& path, const Phrasing& p) {
    static const QRegularExpression pattern(
        QStringLiteral(R"(^(?:pumps\[(\d+)\]\.readings\[(\d+)\](?:\.|$))?(?:(lines|pins)(?:\[(\d+)\])?)?$)"));
    const auto m = pattern.match(path);
    if (!m.hasMatch()) return path;
    const auto number = [&](int group) { return QString::number(m.captured(group).toLongLong() + 1); };
    const QString reading = m.captured(1).isEmpty()
                                ? p.text(kContext, QT_TRANSLATE_NOOP("Places", "the reading"))
                                : p.text(kContext, QT_TRANSLATE_NOOP("Places", "reading %1 of pump %2"))
                                      .arg(number(2), number(1));
    if (m.captured(3).isEmpty()) return reading;
    const bool line = m.captured(3) == QLatin1String("lines");
    if (m.captured(4).isEmpty()) {
        return p
            .text(kContext, line ? QT_TRANSLATE_NOOP("Places", "one of the lines of %1")
                                 : QT_TRANSLATE_NOOP("Places", "one of the pins of %1"))
            .arg(reading);
    }
    return p
        .text(kContext, line ? QT_TRANSLATE_NOOP("Places", "line %1 of %2")
                             : QT_TRANSLATE_NOOP("Places", "pin %1 of %2"))
        .arg(number(4), reading);
}

} // namespace

QString Phrasing::text(const char* context, const char* source) const {
    return translated ? QCoreApplication::translate(context, source) : QString::fromUtf8(source);
}

Phrasing englishPhrasing(const Site* site) { return {QLocale::c(), false, site}; }

QString placeWords(std::string_view place, const Phrasing& p) {
    for (const NamedPlace& named : kNamedPlaces) {
        if (place == named.place) return p.text(kContext, named.words);
    }
    const QString path = QString::fromUtf8(place.data(), static_cast<qsizetype>(place.size()));
    static const QRegularExpression item(QStringLiteral(R"(^(suction|delivery)\[(\d+)\]$)"));
    static const QRegularExpression zone(QStringLiteral(R"(^zones\[(\d+)\](?:\.branch\[(\d+)\])?$)"));
    if (const auto m = item.match(path); m.hasMatch()) {
        const qsizetype index = m.captured(2).toLongLong();
        const bool suction = m.captured(1) == QLatin1String("suction");
        const char* words = suction ? QT_TRANSLATE_NOOP("Places", "item %1 of the suction run")
                                    : QT_TRANSLATE_NOOP("Places", "item %1 of the delivery run");
        const Run* run = p.site ? (suction ? &p.site->suction : &p.site->delivery) : nullptr;
        return withItem(p.text(kContext, words).arg(index + 1), run, index, p);
    }
    if (const auto m = zone.match(path); m.hasMatch()) {
        const qsizetype index = m.captured(1).toLongLong();
        if (m.captured(2).isEmpty()) return zoneWords(index, p);
        const qsizetype at = m.captured(2).toLongLong();
        const bool known = p.site && static_cast<std::size_t>(index) < p.site->zones.size();
        return withItem(p.text(kContext, QT_TRANSLATE_NOOP("Places", "item %1 of the branch of %2"))
                            .arg(QString::number(at + 1), zoneWords(index, p)),
                        known ? &p.site->zones[static_cast<std::size_t>(index)].branch : nullptr, at, p);
    }
    return chartPlaceWords(path, p);
}

QString listWords(const QStringList& parts, const Phrasing& p) {
    if (parts.size() < 2) return parts.join(QString());
    return p.text(kContext, QT_TRANSLATE_NOOP("Places", "%1 and %2"))
        .arg(parts.mid(0, parts.size() - 1).join(QStringLiteral(", ")), parts.back());
}

QString capitalised(QString text) {
    if (!text.isEmpty()) text[0] = text[0].toUpper();
    return text;
}

QString filledTemplate(const QString& pattern,
                       const std::function<QString(const QString& key, const QString& before)>& of) {
    QString made;
    for (qsizetype at = 0; at < pattern.size();) {
        const qsizetype open = pattern.indexOf(QLatin1Char('{'), at);
        const qsizetype close = open < 0 ? -1 : pattern.indexOf(QLatin1Char('}'), open);
        if (close < 0) return made + pattern.mid(at);
        made += pattern.mid(at, open - at);
        made += of(pattern.mid(open + 1, close - open - 1), made);
        at = close + 1;
    }
    return made;
}

QString factWords(const Fact* fact, const Phrasing& p, int moreDigits) {
    if (!fact) return notKnown(p);
    if (const auto* number = std::get_if<double>(&fact->value)) {
        return quantityWords(fact->key, *number, p, moreDigits);
    }
    if (const auto* whole = std::get_if<std::int64_t>(&fact->value)) return QString::number(*whole);
    if (const auto* text = std::get_if<std::string>(&fact->value)) {
        if (fact->key == "part") return partName(*text, p);
        if (fact->key == "device") return deviceWords(*text, p);
        return QString::fromStdString(*text);
    }
    QStringList parts;
    for (const std::string& part : std::get<std::vector<std::string>>(fact->value)) {
        parts << (fact->key == "devices" ? deviceWords(part, p) : QString::fromStdString(part));
    }
    return parts.join(QStringLiteral(", "));
}

} // namespace headmark
