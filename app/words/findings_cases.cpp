// The figures of a pump's cases: the table, the pressures at the emitters, the intervals.
#include "app/words/findings_parts.h"
#include "app/words/number_words.h"

#include <QCoreApplication>

#include <algorithm>

namespace headmark {

namespace {

constexpr const char* kContext = "Findings";
constexpr QLatin1String kDash("-");

#define HM_WORDS(text) QT_TRANSLATE_NOOP("Findings", text)

QString flowNumber(Flow flow, const Phrasing& p) {
    return quantityNumber("flow_m3_h", flow.inCubicMetresPerHour(), p);
}
QString headNumber(Head head, const Phrasing& p) { return quantityNumber("head_m", head.inMetres(), p); }
// One digit more than a single figure, or narrow intervals would show no width.
QString shareNumber(Efficiency share, const Phrasing& p) {
    return p.locale.toString(share.inPercent(), 'f', 1);
}
QString powerNumber(Power power, const Phrasing& p) {
    return quantityNumber("shaft_kW", power.inKilowatts(), p);
}

QString rangeWords(const QString& low, const QString& high, const Phrasing& p) {
    return p.text(kContext, HM_WORDS("%1 to %2")).arg(low, high);
}

QString bandWords(Band band, const Phrasing& p) {
    switch (band) {
    case Band::preferred:
        return p.text(kContext, HM_WORDS("preferred"));
    case Band::allowable:
        return p.text(kContext, HM_WORDS("allowable"));
    case Band::outside:
        return p.text(kContext, HM_WORDS("outside"));
    case Band::unknown:
        break;
    }
    return kDash;
}

QString deliveredWords(const CaseAnswer& a, const Phrasing& p) {
    if (!a.deliveredLow && !a.deliveredHigh) return kDash;
    return rangeWords(a.deliveredLow ? flowNumber(a.deliveredLow->flow, p) : kDash,
                      a.deliveredHigh ? flowNumber(a.deliveredHigh->flow, p) : kDash, p);
}

QStringList caseCells(const CaseAnswer& a, const Phrasing& p) {
    const bool efficiency = a.efficiency && a.efficiency->atDuty;
    const bool input = a.power && a.power->input;
    const bool perVolume = a.power && a.power->kilowattHoursPerCubicMetre;
    return {QString::fromStdString(a.name),
            a.serves ? p.text(kContext, HM_WORDS("yes")) : p.text(kContext, HM_WORDS("no")),
            a.duty ? flowNumber(a.duty->flow, p) : kDash,
            a.duty ? headNumber(a.duty->head, p) : kDash,
            deliveredWords(a, p),
            efficiency ? quantityNumber("share", a.efficiency->atDuty->inShare(), p) : kDash,
            a.efficiency ? bandWords(a.efficiency->band, p) : kDash,
            a.npsh && a.npsh->margin ? headNumber(*a.npsh->margin, p) : kDash,
            input ? quantityNumber("input_kW", a.power->input->inKilowatts(), p) : kDash,
            perVolume ? quantityNumber("kWh_per_m3", *a.power->kilowattHoursPerCubicMetre, p) : kDash};
}

std::vector<TextColumn> caseColumns(const Phrasing& p) {
    const auto words = [&](const char* source) { return p.text(kContext, source); };
    const QString none, flow = QStringLiteral("m³/h"), metre = QStringLiteral("m");
    return {{{words(HM_WORDS("Case"))}, 24, false},
            {{words(HM_WORDS("Serves"))}, 6, false},
            {{words(HM_WORDS("Flow")), none, flow}, 5},
            {{words(HM_WORDS("Head")), none, metre}, 5},
            {{words(HM_WORDS("As delivered")), none, flow}, 12},
            {{words(HM_WORDS("Eff.")), none, QStringLiteral("%")}, 4},
            {{words(HM_WORDS("Band"))}, 9, false},
            {{words(HM_WORDS("NPSH")), words(HM_WORDS("margin")), metre}, 6},
            {{words(HM_WORDS("Input")), words(HM_WORDS("power")), QStringLiteral("kW")}, 5},
            {{words(HM_WORDS("Energy")), none, QStringLiteral("kWh/m³")}, 6}};
}

// Why a figure of the case is a dash.
QStringList missingReasons(const CaseAnswer& a, const Job& job, const Phrasing& p) {
    const auto words = [&](const char* source) { return p.text(kContext, source); };
    if (!a.duty) {
        const QStringList why = stoppingLabels(a, p);
        return {why.isEmpty() ? words(HM_WORDS("no duty point"))
                              : words(HM_WORDS("no duty point: %1")).arg(why.join(QStringLiteral("; ")))};
    }
    QStringList reasons;
    if (!a.deliveredLow || !a.deliveredHigh) {
        reasons << words(HM_WORDS(
            "as delivered: at one end of the maker's tolerance there is no duty point on the chart"));
    }
    if (!a.efficiency) {
        reasons << words(HM_WORDS("efficiency: the pump has no curve of efficiency or power"));
    } else if (!a.efficiency->atDuty) {
        reasons << words(HM_WORDS("efficiency: its curve does not reach the duty flow"));
    }
    if (!a.npsh) {
        reasons << (job.site.system
                        ? words(HM_WORDS("NPSH: a known system curve says nothing of the suction side"))
                        : words(HM_WORDS("NPSH: the pump has no curve of NPSH required")));
    } else if (!a.npsh->margin) {
        reasons << words(HM_WORDS("NPSH: no curve of NPSH required reaches the duty flow"));
    }
    if (!a.power || !a.power->input) {
        reasons << words(
            HM_WORDS("input power: needs the pump's efficiency or power, and the motor's efficiency"));
    } else if (!a.power->kilowattHoursPerCubicMetre) {
        reasons << words(HM_WORDS("energy per cubic metre: no water is delivered"));
    }
    return reasons;
}

const Zone* zoneNamed(const Job& job, const std::string& name) {
    const auto zone = std::find_if(job.site.zones.begin(), job.site.zones.end(),
                                   [&](const Zone& z) { return z.name == name; });
    return zone == job.site.zones.end() ? nullptr : &*zone;
}

QString brokenLimits(const Zone* zone, const Phrasing& p) {
    const auto words = [&](const GaugePressure& limit) {
        return quantityWords("limit_kPa", limit.inKilopascals(), p);
    };
    if (zone && zone->emitters.least && zone->emitters.greatest) {
        return p.text(kContext, HM_WORDS("BROKEN: its limits are %1"))
            .arg(rangeWords(words(*zone->emitters.least), words(*zone->emitters.greatest), p));
    }
    if (zone && zone->emitters.least) {
        return p.text(kContext, HM_WORDS("BROKEN: it needs at least %1")).arg(words(*zone->emitters.least));
    }
    if (zone && zone->emitters.greatest) {
        return p.text(kContext, HM_WORDS("BROKEN: it bears at most %1")).arg(words(*zone->emitters.greatest));
    }
    return p.text(kContext, HM_WORDS("BROKEN: no water"));
}

QString zoneLine(const ZoneAnswer& zone, const Job& job, const Phrasing& p) {
    const QString pressures = p.text(kContext, HM_WORDS("%1 to %2"))
                                  .arg(quantityNumber("kPa", zone.lowest.inKilopascals(), p),
                                       quantityWords("kPa", zone.highest.inKilopascals(), p));
    const Zone* described = zoneNamed(job, zone.name);
    const bool limited = described && (described->emitters.least || described->emitters.greatest);
    const QString state = !zone.withinLimits ? brokenLimits(described, p)
                          : limited          ? p.text(kContext, HM_WORDS("within limits"))
                                             : p.text(kContext, HM_WORDS("no limits known"));
    return QStringLiteral("%1: %2, %3, %4")
        .arg(QString::fromStdString(zone.name),
             quantityWords("flow_m3_h", zone.flow.inCubicMetresPerHour(), p), pressures, state);
}

} // namespace

void writeCases(TextPage& page, const PumpFindings& pump, const Job& job, const Phrasing& p) {
    if (pump.cases.empty()) return;
    std::vector<QStringList> rows;
    std::vector<std::pair<QString, QStringList>> reasons; // and the cases each holds for
    for (const CaseAnswer& a : pump.cases) {
        rows.push_back(caseCells(a, p));
        for (const QString& reason : missingReasons(a, job, p)) {
            auto known = std::find_if(reasons.begin(), reasons.end(),
                                      [&](const auto& r) { return r.first == reason; });
            if (known == reasons.end()) known = reasons.insert(reasons.end(), {reason, {}});
            known->second << QString::fromStdString(a.name);
        }
    }
    page.blank();
    page.table(caseColumns(p), rows);
    if (reasons.empty()) return;
    page.paragraph(p.text(kContext, HM_WORDS("A dash is a figure that is not known:")));
    for (const auto& [reason, cases] : reasons) {
        const bool all = cases.size() == static_cast<qsizetype>(pump.cases.size());
        page.item(all ? reason : QStringLiteral("%1 (%2)").arg(reason, cases.join(QStringLiteral("; "))));
    }
}

void writeZonePressures(TextPage& page, const PumpFindings& pump, const Job& job, const Phrasing& p) {
    const bool any =
        std::any_of(pump.cases.begin(), pump.cases.end(), [](const auto& a) { return !a.zones.empty(); });
    if (!any) return;
    page.blank();
    page.title(p.text(kContext,
                      HM_WORDS("Zones: flow, lowest and highest pressure at the emitters (pump as printed)")),
               QLatin1Char('-'));
    for (const CaseAnswer& a : pump.cases) {
        if (a.zones.empty()) continue;
        page.paragraph(QString::fromStdString(a.name));
        for (const ZoneAnswer& zone : a.zones)
            page.item(zoneLine(zone, job, p), 2);
    }
}

void writeIntervals(TextPage& page, const PumpFindings& pump, const Phrasing& p) {
    const bool any = std::any_of(pump.cases.begin(), pump.cases.end(), [](const CaseAnswer& a) {
        return a.duty && a.duty->flow95 && a.duty->head95;
    });
    if (!any) return;
    page.blank();
    page.title(p.text(kContext, HM_WORDS("How well the duty points are known")), QLatin1Char('-'));
    page.paragraph(p.text(
        kContext, HM_WORDS("Reading of the chart and description of the site, 95 %; what the maker may "
                           "deliver comes on top and stands in the table above.")));
    for (const CaseAnswer& a : pump.cases) {
        if (!a.duty || !a.duty->flow95 || !a.duty->head95) continue;
        const QString flow =
            rangeWords(flowNumber(a.duty->flow95->low, p), flowNumber(a.duty->flow95->high, p), p);
        const QString head =
            rangeWords(headNumber(a.duty->head95->low, p), headNumber(a.duty->head95->high, p), p);
        QStringList figures{p.text(kContext, HM_WORDS("%1 m³/h at %2 m")).arg(flow, head)};
        if (a.efficiency && a.efficiency->atDuty95) {
            figures << p.text(kContext, HM_WORDS("efficiency %1 %"))
                           .arg(rangeWords(shareNumber(a.efficiency->atDuty95->low, p),
                                           shareNumber(a.efficiency->atDuty95->high, p), p));
        }
        if (a.power && a.power->shaft95) {
            figures << p.text(kContext, HM_WORDS("shaft power %1 kW"))
                           .arg(rangeWords(powerNumber(a.power->shaft95->low, p),
                                           powerNumber(a.power->shaft95->high, p), p));
        }
        page.item(QString::fromStdString(a.name) + QStringLiteral(": ") + figures.join(QStringLiteral(", ")));
    }
}

} // namespace headmark
