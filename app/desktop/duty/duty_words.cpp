#include "app/desktop/duty/duty_words.h"

#include "app/words/caution_words.h"
#include "app/words/findings_parts.h"

#include <QCoreApplication>

#include <algorithm>

namespace headmark {

namespace {

struct Words {
    Q_DECLARE_TR_FUNCTIONS(DutyPlace)
};

QString quoted(const std::vector<std::string>& names, const Phrasing& p) {
    QStringList parts;
    for (const std::string& name : names)
        parts << Words::tr("“%1”").arg(QString::fromStdString(name));
    return listWords(parts, p);
}

} // namespace

QString verdictLine(const CaseAnswer& answer, const DisplayUnits& units, const Phrasing& phrasing) {
    QStringList parts;
    if (answer.duty)
        parts << Words::tr("%1 at %2").arg(units.text(answer.duty->flow), units.text(answer.duty->head));
    if (answer.serves) {
        const bool idle = answer.setting.zonesOpen.empty() && phrasing.site && !phrasing.site->zones.empty();
        parts << (answer.fillingEmptyMain || idle ? Words::tr("does no harm") : Words::tr("serves"));
    } else {
        QStringList why = stoppingLabels(answer, phrasing);
        if (why.isEmpty()) why << Words::tr("does not serve");
        parts << why.join(QStringLiteral("; "));
    }
    return parts.join(QStringLiteral(" · "));
}

Sign verdictSign(const CaseAnswer& answer) {
    if (answer.serves) return Sign::good;
    const bool danger = std::any_of(answer.cautions.begin(), answer.cautions.end(), [](const Caution& c) {
        return c.stops && c.severity == Severity::danger;
    });
    return danger ? Sign::danger : Sign::warning;
}

QString waterWords(WaterLevel level) {
    switch (level) {
    case WaterLevel::low:
        return Words::tr("low water");
    case WaterLevel::usual:
        return Words::tr("usual water");
    case WaterLevel::high:
        break;
    }
    return Words::tr("high water");
}

QString filterWords(FilterState state) {
    return state == FilterState::clean ? Words::tr("clean filter") : Words::tr("filter due for cleaning");
}

QString caseWords(const MadeCase& made, const Site& site) {
    const Case& c = made.setting;
    QStringList parts;
    if (made.fillingEmptyMain)
        parts << Words::tr("the main fills");
    else if (!site.zones.empty())
        parts << (c.zonesOpen.empty() ? Words::tr("no zone open")
                                      : quoted(c.zonesOpen, screenPhrasing(site)));
    if (site.source) parts << waterWords(c.level);
    parts << filterWords(c.filter);
    if (c.speedShare != 1.0) parts << Words::tr("%1 of the running speed").arg(percentText(c.speedShare));
    return parts.join(QStringLiteral(", "));
}

QString zonesAtOnceWords(const ZonesAtOnceFinding& z, const Phrasing& p) {
    QStringList lines;
    if (z.bestSetAtMost == 0 && z.bestSet == 0)
        lines << Words::tr("No zone works, neither alone nor with others.");
    else if (z.anySet > 0)
        lines << Words::tr("Any %1 zones may run together; %2 if they are well chosen.")
                     .arg(z.anySet)
                     .arg(z.bestSet);
    else
        lines << Words::tr("No number of zones works whichever they are; up to %1 if they are well chosen.")
                     .arg(z.bestSet);
    if (!z.proven)
        lines << Words::tr("There are too many sets to look at each: at most %1 can be possible.")
                     .arg(z.bestSetAtMost);
    constexpr std::size_t kMostSets = 6;
    for (std::size_t i = 0; i < std::min(kMostSets, z.bestSets.size()); ++i)
        lines << Words::tr("Works: %1").arg(quoted(z.bestSets[i], p));
    if (!z.bestSetsCounted && !z.bestSets.empty())
        lines << Words::tr("These are some of the sets of %1: too many to count, at least %2 in all.")
                     .arg(z.bestSet)
                     .arg(z.bestSetsCount);
    else if (z.bestSetsCount > static_cast<long>(kMostSets))
        lines << Words::tr("These are some of %1 such sets.").arg(z.bestSetsCount);
    QStringList limits;
    for (const auto& limit : z.limits) {
        const QString label = cautionLabel(limit.code, p);
        limits << (limit.zone.empty()
                       ? label
                       : Words::tr("%1 in “%2”").arg(label, QString::fromStdString(limit.zone)));
    }
    limits.removeDuplicates();
    if (!limits.isEmpty())
        lines << Words::tr("What stops a larger set: %1.").arg(limits.join(QStringLiteral("; ")));
    return lines.join(QLatin1Char('\n'));
}

QString percentText(double share) { return Words::tr("%1 %").arg(figureText(100.0 * share, 0)); }

QString rangeText(double low, double high, const QString& symbol) {
    return Words::tr("%1 to %2 %3").arg(figureText(low), figureText(high), symbol);
}

} // namespace headmark
