#include "app/words/working_words.h"

#include "app/words/number_words.h"
#include "app/words/working_words_parts.h"

#include <QCoreApplication>

#include <algorithm>

namespace headmark {

namespace {

constexpr const char* kContext = "Workings";

#define HM_WORDS(text) QT_TRANSLATE_NOOP("Workings", text)

constexpr const char* kDefinition = HM_WORDS("definition");
constexpr const char* kEnergy = HM_WORDS("energy balance along the pipe");
constexpr const char* kTolerance = HM_WORDS("the maker's tolerance; ISO 9906 grades where none is given");

constexpr WorkingRow kWorkings[] = {
    {"affinity", HM_WORDS("Head at the running speed against the chart's"),
     "H_run / H_chart = (n_run / n_chart)²", "({speed_share})²", HM_WORDS("affinity laws")},
    {"duty-on-curve", HM_WORDS("Head of the pump at the duty flow"), "H = H_pump(Q)", "H_pump({flow_m3_h})",
     HM_WORDS("the pump's head curve as read or typed")},
    {"pressure-at-zone", HM_WORDS("Pressure at the inlet of {where}"),
     "p = ρ · g · (z_source + H - h_suction - h_delivery - z_zone)",
     "{density_kg_m3} · 9.80665 m/s² · ({source_level_m} + {pump_head_m} - {suction_loss_m} - "
     "{delivery_loss_m} - "
     "{zone_level_m})",
     kEnergy},
    {"system-head", HM_WORDS("Head the system asks for at the duty flow"),
     "H = z_end - z_source + h_suction + h_delivery + h_exit",
     "{end_level_m} - {source_level_m} + {suction_loss_m} + {delivery_loss_m} + {exit_loss_m}", kEnergy},
    {"known-system", HM_WORDS("Head of the known system curve at the duty flow"), "H = H_static + h(Q)",
     "{static_head_m} + h({flow_m3_h})", HM_WORDS("the system curve given in the job")},
    {"delivered-low", HM_WORDS("Duty point of a pump at the low end of the maker's tolerance"),
     "H = factor · H_pump(Q)", "{factor} · H_pump({flow_m3_h})", kTolerance},
    {"delivered-high", HM_WORDS("Duty point of a pump at the high end of the maker's tolerance"),
     "H = factor · H_pump(Q)", "{factor} · H_pump({flow_m3_h})", kTolerance},
    {"return-valve", HM_WORDS("Valve of the tank return, from its set flow"),
     "Kv = Q / √(h_valve / 10.197 m)", "{flow_m3_h} / √({valve_head_m} / 10.197 m)",
     HM_WORDS("definition of Kv")},
    {"share-of-best-flow", HM_WORDS("Duty flow against the pump's best flow"), "share = Q / Q_best",
     "{flow_m3_h} / {best_flow_m3_h}", kDefinition},
    {"hydraulic-power", HM_WORDS("Power the water takes up"), "P_hydraulic = ρ · g · Q · H",
     "{density_kg_m3} · {gravity_m_s2} · {flow_m3_s} · {head_m}", kDefinition},
    {"shaft-power", HM_WORDS("Power at the pump's shaft"), "P_shaft = P_hydraulic / η_pump",
     "{hydraulic_kW} / {efficiency_share}", HM_WORDS("definition of efficiency")},
    {"input-power", HM_WORDS("Power drawn from the supply"), "P_input = P_shaft / η_motor",
     "{shaft_kW} / {motor_efficiency_share}", HM_WORDS("definition of efficiency")},
    {"energy-per-volume", HM_WORDS("Energy per cubic metre delivered"), "e = P_input / (Q - Q_return)",
     "{input_kW} / ({flow_m3_h} - {return_m3_h})", kDefinition},
    {"npsh-available", HM_WORDS("NPSH available at the pump's inlet"),
     "NPSH_available = (p_air - p_vapour) / (ρ · g) + z_source - z_pump - h_suction",
     "({air_kPa} - {vapour_kPa}) / ({density_kg_m3} · 9.80665 m/s²) + {source_level_m} - {pump_level_m} - "
     "{suction_loss_m}",
     HM_WORDS("definition; air pressure from ISO 2533, vapour pressure from IAPWS-IF97")},
    {"npsh-margin", HM_WORDS("Margin of NPSH"), "margin = NPSH_available - NPSH_required",
     "{available_m} - {required_m}", kDefinition},
    {"velocity", HM_WORDS("Velocity in {where}"), "v = Q / A", "{flow_m3_s} / {area_m2}",
     HM_WORDS("continuity")},
    {"reynolds", HM_WORDS("Reynolds number in {where}"), "Re = v · D / ν",
     "{velocity_m_s} · {bore_m} / {viscosity_m2_s}", HM_WORDS("definition; viscosity from IAPWS SR6-08")},
    {"friction", HM_WORDS("Friction loss in {where}"), "h = f · L / D · v² / (2 · g)",
     "{friction_factor} · {length_m} / {bore_m} · ({velocity_m_s})² / (2 · 9.80665 m/s²)",
     HM_WORDS("Darcy-Weisbach; f from Colebrook-White, 64/Re below Re 2000; with the allowance for fittings "
              "where one "
              "is given")},
    {"friction-hazen-williams", HM_WORDS("Friction loss in {where}"),
     "h = 10.67 · L · Q^1.852 / (C^1.852 · D^4.8704)",
     "10.67 · {length_m} · ({flow_m3_s})^1.852 / ({c}^1.852 · ({bore_m})^4.8704)",
     HM_WORDS("Hazen-Williams formula; with the allowance for fittings where one is given")},
    {"fitting-loss", HM_WORDS("Loss in {where}"), "h = K · v² / (2 · g) + h_crack",
     "{k} · ({velocity_m_s})² / (2 · 9.80665 m/s²) + {crack_m}",
     HM_WORDS("the fitting's loss figure, from the catalogue or the job")},
    {"fitting-loss-kv", HM_WORDS("Loss in {where}"), "h = 10.197 m · (Q / Kv)² + h_crack",
     "10.197 m · ({flow_m3_h} / {kv_m3_h})² + {crack_m}", HM_WORDS("definition of Kv")},
    {"filter-loss", HM_WORDS("Loss in {where}, clean"), "h = c · Q^n",
     "{coefficient} · ({flow_m3_h})^{exponent}",
     HM_WORDS("the filter's loss figures, from the catalogue or the job")},
    {"filter-loss-service", HM_WORDS("Loss in {where}, due for cleaning"), "h = Δp_service / (ρ · g)",
     "{service_kPa} / ({density_kg_m3} · {gravity_m_s2})",
     HM_WORDS("the gauge difference at which the filter is cleaned, at any flow")},
};

const WorkingRow* rowOf(std::string_view code) {
    for (const auto rows : {std::span<const WorkingRow>(kWorkings), practiceWorkingRows()}) {
        const auto row =
            std::find_if(rows.begin(), rows.end(), [&](const WorkingRow& r) { return r.code == code; });
        if (row != rows.end()) return &*row;
    }
    return nullptr;
}

// A negative figure after an operator goes into brackets: "38.2 m - (-1.8 m)".
QString figureInFormula(const Fact* fact, const QString& before, const Phrasing& p) {
    if (!fact) return notKnown(p);
    const auto* number = std::get_if<double>(&fact->value);
    if (!number) return factWords(fact, p);
    const QString words = workingNumberWords(fact->key, *number, p);
    static const QString operators = QStringLiteral("+-·/");
    const QString trimmed = before.trimmed();
    const bool follows = !trimmed.isEmpty() && operators.contains(trimmed.back());
    return *number < 0.0 && follows ? QStringLiteral("(%1)").arg(words) : words;
}

QString resultWords(const Fact& result, const Phrasing& p) {
    const auto* number = std::get_if<double>(&result.value);
    if (!number) return factWords(&result, p);
    // Heads of a few centimetres are common among losses: a tenth of a metre would hide them.
    const bool share = unitOfKey(result.key, p) == QLatin1String("%");
    return share ? quantityWords(result.key, *number, p) : workingNumberWords(result.key, *number, p);
}

} // namespace

WorkingWords workingWords(const WorkingStep& step, const Phrasing& p) {
    WorkingWords words;
    words.result = resultWords(step.result, p);
    const WorkingRow* row = rowOf(step.code);
    if (!row) {
        words.title =
            QStringLiteral("%1 (%2)").arg(QString::fromStdString(step.code), placeWords(step.place, p));
        QStringList parts;
        for (const Fact& fact : step.with) {
            parts << QString::fromStdString(fact.key) + QStringLiteral(" = ") + figureInFormula(&fact, {}, p);
        }
        words.with = parts.join(QStringLiteral(", "));
        return words;
    }
    words.title = filledTemplate(p.text(kContext, row->title),
                                 [&](const QString&, const QString&) { return placeWords(step.place, p); });
    words.formula = QString::fromUtf8(row->formula);
    words.with = filledTemplate(QString::fromUtf8(row->with), [&](const QString& key, const QString& before) {
        return figureInFormula(findFact(step.with, key.toStdString()), before, p);
    });
    words.source = p.text(kContext, row->source);
    return words;
}

QString topicTitle(std::string_view topic, const Phrasing& p) {
    for (const TopicRow& row : topicRows()) {
        if (row.topic == topic) return p.text(kContext, row.title);
    }
    return QString::fromUtf8(topic.data(), static_cast<qsizetype>(topic.size()));
}

std::vector<std::string_view> wordedTopics() {
    std::vector<std::string_view> topics;
    for (const TopicRow& row : topicRows())
        topics.push_back(row.topic);
    return topics;
}

std::vector<std::string_view> wordedWorkingCodes() {
    std::vector<std::string_view> codes;
    for (const auto rows : {std::span<const WorkingRow>(kWorkings), practiceWorkingRows()}) {
        for (const WorkingRow& row : rows)
            codes.push_back(row.code);
    }
    return codes;
}

} // namespace headmark
