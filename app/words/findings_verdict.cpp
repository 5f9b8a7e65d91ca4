// The verdict on a pump in words: cases served, what stops it in the others, zones at once.
#include "app/words/caution_words.h"
#include "app/words/findings_parts.h"
#include "app/words/number_words.h"

#include <QCoreApplication>

#include <algorithm>

namespace headmark {

namespace {

constexpr const char* kContext = "Findings";

#define HM_WORDS(text) QT_TRANSLATE_NOOP("Findings", text)

QString zoneOf(const Caution& caution) {
    const Fact* zone = findFact(caution.values, "zone");
    const auto* name = zone ? std::get_if<std::string>(&zone->value) : nullptr;
    return name ? QString::fromStdString(*name) : QString();
}

QString labelWithZone(std::string_view code, const QString& zone, const Phrasing& p) {
    const QString label = cautionLabel(code, p);
    return zone.isEmpty() ? label : p.text(kContext, HM_WORDS("%1 in \"%2\"")).arg(label, zone);
}

// Whether the case asks for water at all: shut valves and the filling of the main are states, not tasks.
bool watering(const CaseAnswer& answer, const Job& job) {
    return !answer.fillingEmptyMain && (job.site.zones.empty() || !answer.setting.zonesOpen.empty());
}

void writeUnserved(TextPage& page, const CaseAnswer& answer, const Phrasing& p) {
    QStringList reasons = stoppingLabels(answer, p);
    if (reasons.isEmpty()) reasons << p.text(kContext, HM_WORDS("see its cautions"));
    page.item(QStringLiteral("%1: %2").arg(QString::fromStdString(answer.name),
                                           reasons.join(QStringLiteral("; "))));
}

QString quotedNames(const std::vector<std::string>& names, const Phrasing& p) {
    QStringList parts;
    for (const std::string& name : names)
        parts << QStringLiteral("\"%1\"").arg(QString::fromStdString(name));
    return listWords(parts, p);
}

// Every limit once, with the zones that break it.
QStringList limitLabels(const ZonesAtOnceFinding& z, const Phrasing& p) {
    std::vector<std::pair<std::string, std::vector<std::string>>> byCode;
    for (const auto& limit : z.limits) {
        auto known =
            std::find_if(byCode.begin(), byCode.end(), [&](const auto& l) { return l.first == limit.code; });
        if (known == byCode.end()) known = byCode.insert(byCode.end(), {limit.code, {}});
        if (!limit.zone.empty()) known->second.push_back(limit.zone);
    }
    QStringList labels;
    for (const auto& [code, zones] : byCode) {
        const QString label = cautionLabel(code, p);
        labels << (zones.empty() ? label
                                 : p.text(kContext, HM_WORDS("%1 in %2")).arg(label, quotedNames(zones, p)));
    }
    labels.removeDuplicates();
    return labels;
}

// "2", or "between 2 and 4" where the search stopped at a bracket.
QString countWords(int atLeast, int atMost, bool proven, const Phrasing& p) {
    if (proven || atLeast == atMost) return QString::number(atLeast);
    return p.text(kContext, HM_WORDS("between %1 and %2")).arg(atLeast).arg(atMost);
}

QString zonesAtOnceWords(const ZonesAtOnceFinding& z, const Phrasing& p) {
    const QString any = countWords(z.anySet, z.anySetAtMost, z.proven, p);
    const QString best = countWords(z.bestSet, z.bestSetAtMost, z.proven, p);
    if (z.proven && z.bestSet == 0) {
        return p.text(kContext, HM_WORDS("Zones at once: none works, neither alone nor with others."));
    }
    if (z.proven && z.anySet == 0) {
        return p
            .text(kContext,
                  HM_WORDS("Zones at once: no number of them works whichever they are; at best %1, if "
                           "chosen well."))
            .arg(best);
    }
    return p
        .text(kContext, HM_WORDS("Zones at once: any %1, whichever they are; at best %2, if chosen well."))
        .arg(any, best);
}

void writeBestSets(TextPage& page, const ZonesAtOnceFinding& z, const Phrasing& p) {
    // Where any choice does, a list of some says nothing.
    if (z.proven && z.anySet == z.bestSet && z.bestSetsCount > 1) return;
    for (const auto& set : z.bestSets)
        page.item(p.text(kContext, HM_WORDS("Work together: %1")).arg(quotedNames(set, p)));
    if (!z.bestSetsCounted && !z.bestSets.empty()) {
        page.item(
            p.text(kContext, HM_WORDS("There are more such choices: too many to count, at least %1 in all."))
                .arg(z.bestSetsCount));
    } else if (z.bestSetsCount > static_cast<long>(z.bestSets.size())) {
        page.item(p.text(kContext, HM_WORDS("These are the first %1 of %2 such choices."))
                      .arg(z.bestSets.size())
                      .arg(z.bestSetsCount));
    }
}

void writeZonesAtOnce(TextPage& page, const ZonesAtOnceFinding& z, const Phrasing& p) {
    page.paragraph(zonesAtOnceWords(z, p));
    if (!z.everyChoiceWorksFor.empty() && z.everyChoiceWorksFor.front() != 1) {
        page.item(p.text(kContext,
                         HM_WORDS("Mind that fewer are not always safe: every choice works only for certain "
                                  "numbers of zones, the smallest being %1."))
                      .arg(z.everyChoiceWorksFor.front()));
    }
    writeBestSets(page, z, p);
    for (const Caution& caution : z.cautions) {
        page.item(cautionSentence(caution, p) + QLatin1Char(' ') + remedySentence(caution, p));
    }
    for (const auto& change : z.oneMore) {
        const Facts facts{{"best_set", static_cast<std::int64_t>(change.bestSet)}};
        page.item(remedySentence({"", Severity::note, "", {}, change.change, facts, ""}, p));
    }
    const QStringList limits = limitLabels(z, p);
    if (limits.isEmpty()) return;
    page.item(
        p.text(kContext, HM_WORDS("What limits a larger choice: %1")).arg(limits.join(QStringLiteral("; "))));
}

} // namespace

QStringList stoppingLabels(const CaseAnswer& answer, const Phrasing& p) {
    QStringList labels;
    if (answer.serves) return labels;
    for (const Caution& c : answer.cautions) {
        if (c.stops) labels << labelWithZone(c.code, zoneOf(c), p);
    }
    labels.removeDuplicates();
    return labels;
}

void writeVerdict(TextPage& page, const PumpFindings& pump, const Job& job, const Phrasing& p) {
    std::vector<const CaseAnswer*> unserved, unservedStates;
    int tasks = 0;
    for (const CaseAnswer& answer : pump.cases) {
        const bool task = watering(answer, job);
        tasks += task ? 1 : 0;
        if (!answer.serves) (task ? unserved : unservedStates).push_back(&answer);
    }
    const int served = tasks - static_cast<int>(unserved.size());
    if (tasks > 0 && unserved.empty()) {
        page.paragraph(p.text(kContext, HM_WORDS("Verdict: serves every case of water use (%1 of %2)."))
                           .arg(served)
                           .arg(tasks));
    } else if (tasks == 1) {
        page.paragraph(
            p.text(kContext, HM_WORDS("Verdict: does not serve the one case of water use. What stops it:")));
    } else if (tasks > 0 && served == 0) {
        page.paragraph(
            p.text(kContext, HM_WORDS("Verdict: serves none of the %1 cases of water use. What stops it:"))
                .arg(tasks));
    } else if (tasks > 0) {
        page.paragraph(
            p.text(kContext,
                   HM_WORDS("Verdict: serves %1 of %2 cases of water use. What stops it in the others:"))
                .arg(served)
                .arg(tasks));
    }
    for (const CaseAnswer* answer : unserved)
        writeUnserved(page, *answer, p);
    if (!unservedStates.empty()) {
        page.paragraph(p.text(kContext, HM_WORDS("States it must not be left in without care:")));
        for (const CaseAnswer* answer : unservedStates)
            writeUnserved(page, *answer, p);
    }
    if (pump.zonesAtOnce) writeZonesAtOnce(page, *pump.zonesAtOnce, p);
}

} // namespace headmark
