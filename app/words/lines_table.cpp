#include "app/words/lines_table.h"

#include "analysis/units/unit_factors.h"
#include "app/words/caution_words.h"
#include "app/words/number_words.h"
#include "app/words/text_page.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

constexpr const char* kContext = "Lines";
constexpr int kColumns = 100;
constexpr int kFlowsShown = 11;
constexpr double kNormal95 = 1.959963984540054; // two-sided 95 % of the normal distribution

#define HM_WORDS(text) QT_TRANSLATE_NOOP("Lines", text)

double inCubicMetresPerHour(double flow_m3_s) { return flow_m3_s / factor::kCubicMetrePerHour_m3_s; }

// How a quantity is called and shown: its unit, and that unit per SI unit.
struct Shown {
    const char* name;
    const char* unit;
    double fromSi;
};

Shown shown(LineQuantity quantity) {
    switch (quantity) {
    case LineQuantity::head:
        return {HM_WORDS("head"), "m", 1.0};
    case LineQuantity::efficiency:
        return {HM_WORDS("efficiency"), "%", 100.0};
    case LineQuantity::power:
        return {HM_WORDS("power"), "kW", 1e-3};
    case LineQuantity::npshRequired:
        return {HM_WORDS("NPSH required"), "m", 1.0};
    case LineQuantity::isoEfficiency:
        break;
    }
    return {HM_WORDS("line of equal efficiency"), "m", 1.0};
}

QString modelWords(MappingModel model, const Phrasing& p) {
    switch (model) {
    case MappingModel::upright:
        return p.text(kContext, HM_WORDS("upright: two scales, two offsets"));
    case MappingModel::affine:
        return p.text(kContext, HM_WORDS("affine: the page lies turned or sheared"));
    case MappingModel::perspective:
        break;
    }
    return p.text(kContext, HM_WORDS("perspective: the page was taken at an angle"));
}

void writeCautionList(TextPage& page, const Cautions& cautions, const Phrasing& p) {
    for (const Caution& c : cautions) {
        page.item(severityWords(c.severity, p) + QStringLiteral(": ") + cautionSentence(c, p));
        const QString remedy = remedySentence(c, p);
        if (!remedy.isEmpty()) page.paragraph(p.text(kContext, HM_WORDS("What to do: %1")).arg(remedy), 4);
    }
}

void writeMapping(TextPage& page, const ChartLines& lines, const Reading& reading, const Phrasing& p) {
    page.paragraph(p.text(kContext, HM_WORDS("Mapping %1.")).arg(modelWords(lines.mapping.model(), p)));
    const auto& residuals = lines.mapping.pinResiduals_px();
    const auto worst = std::max_element(residuals.begin(), residuals.end());
    if (worst != residuals.end()) {
        const auto index = worst - residuals.begin();
        QString at;
        if (static_cast<std::size_t>(index) < reading.pins.size()) {
            const PixelPoint pixel = reading.pins[static_cast<std::size_t>(index)].at;
            at = QStringLiteral(" (%1, %2)")
                     .arg(figure(pixel.x_px, 6, 1, p.locale), figure(pixel.y_px, 6, 1, p.locale));
        }
        page.paragraph(p.text(kContext, HM_WORDS("Worst of %1 pins: pin %2 at pixel%3, %4 px off; all pins "
                                                 "%5 px in the root mean square."))
                           .arg(QString::number(residuals.size()), QString::number(index + 1), at,
                                figure(*worst, 3, 2, p.locale),
                                figure(lines.mapping.rms_px(), 3, 2, p.locale)));
    }
    writeCautionList(page, lines.mappingCautions, p);
}

QString trustWords(Trust trust, const Phrasing& p) {
    return trust == Trust::sure ? p.text(kContext, HM_WORDS("sure"))
                                : p.text(kContext, HM_WORDS("doubtful, see the cautions below"));
}

QString rangeWords(double least_m3_s, double greatest_m3_s, const Phrasing& p) {
    return p.text(kContext, HM_WORDS("%1 to %2"))
        .arg(quantityNumber("flow_m3_h", inCubicMetresPerHour(least_m3_s), p),
             quantityWords("flow_m3_h", inCubicMetresPerHour(greatest_m3_s), p));
}

void writeCurve(TextPage& page, const SampleFit& fit, const Shown& as, const Phrasing& p) {
    const PolynomialCurve& curve = fit.curve;
    const QString unit = QString::fromUtf8(as.unit);
    constexpr int kDigits = 4;
    page.item(
        p.text(kContext, HM_WORDS("curve of degree %1 from %2; off the samples by %3 %5 in the root mean "
                                  "square, %4 %5 at most"))
            .arg(QString::number(curve.degree()), rangeWords(curve.least_m3_s(), curve.greatest_m3_s(), p),
                 figure(as.fromSi * fit.rms, 2, kDigits, p.locale),
                 figure(as.fromSi * fit.greatestResidual, 2, kDigits, p.locale), unit));
    QStringList coefficients;
    constexpr int kCoefficientDigits = 7;
    const Eigen::VectorXd powers = as.fromSi * curve.monomial(factor::kCubicMetrePerHour_m3_s);
    for (const double c : powers)
        coefficients << p.locale.toString(c, 'g', kCoefficientDigits);
    page.item(p.text(kContext, HM_WORDS("coefficients of 1, Q, Q², … with Q in m³/h, for %1: %2"))
                  .arg(unit, coefficients.join(QStringLiteral("; "))));
    std::vector<QStringList> rows;
    for (const double flow_m3_h : roundFlows(inCubicMetresPerHour(curve.least_m3_s()),
                                             inCubicMetresPerHour(curve.greatest_m3_s()), kFlowsShown)) {
        const double flow_m3_s = flow_m3_h * factor::kCubicMetrePerHour_m3_s;
        rows.push_back({quantityNumber("flow_m3_h", flow_m3_h, p),
                        figure(as.fromSi * curve.at(flow_m3_s), 4, 2, p.locale),
                        figure(kNormal95 * as.fromSi * curve.sigmaAt(flow_m3_s), 2, 3, p.locale)});
    }
    page.blank();
    page.table({{{p.text(kContext, HM_WORDS("flow")), QStringLiteral("m³/h")}, 10},
                {{p.text(kContext, as.name), unit}, 14},
                {{QStringLiteral("± 95 %"), unit}, 10}},
               rows);
}

// A line of equal efficiency has no curve: a few of its samples in order.
void writeSamples(TextPage& page, const ReadLine& line, const Phrasing& p) {
    std::vector<QStringList> rows;
    const std::size_t count = line.samples.size();
    const std::size_t most = std::min<std::size_t>(count, kFlowsShown);
    for (std::size_t i = 0; i < most; ++i) {
        const LineSample& s = line.samples[most > 1 ? i * (count - 1) / (most - 1) : 0];
        rows.push_back({quantityNumber("flow_m3_h", inCubicMetresPerHour(s.flow_m3_s), p),
                        figure(s.value, 4, 2, p.locale), figure(kNormal95 * s.sigma, 2, 3, p.locale)});
    }
    page.blank();
    page.table({{{p.text(kContext, HM_WORDS("flow")), QStringLiteral("m³/h")}, 10},
                {{p.text(kContext, HM_WORDS("head")), QStringLiteral("m")}, 14},
                {{QStringLiteral("± 95 %"), QStringLiteral("m")}, 10}},
               rows);
}

void writeLine(TextPage& page, const ReadLine& line, const Phrasing& p) {
    const Shown as = shown(line.quantity);
    QString quantity = p.text(kContext, as.name);
    if (line.levelShare) quantity += QStringLiteral(" %1").arg(quantityWords("share", *line.levelShare, p));
    if (line.powerAtMotorInput) quantity = p.text(kContext, HM_WORDS("power at the motor's input"));
    page.blank();
    page.title(QStringLiteral("%1: %2").arg(QString::fromStdString(line.name), quantity), QLatin1Char('-'));
    page.item(p.text(kContext, HM_WORDS("trust: %1")).arg(trustWords(line.trust, p)));
    if (!line.samples.empty()) {
        const auto [least, greatest] = std::minmax_element(
            line.samples.begin(), line.samples.end(),
            [](const LineSample& a, const LineSample& b) { return a.flow_m3_s < b.flow_m3_s; });
        page.item(p.text(kContext, HM_WORDS("%1 samples, %2"))
                      .arg(QString::number(line.samples.size()),
                           rangeWords(least->flow_m3_s, greatest->flow_m3_s, p)));
    }
    if (line.fit) {
        writeCurve(page, *line.fit, as, p);
    } else {
        writeSamples(page, line, p);
    }
    if (line.cautions.empty()) return;
    page.blank();
    writeCautionList(page, line.cautions, p);
}

} // namespace

QString linesTable(const ChartLines& lines, const Reading& reading, const QString& title,
                   const Phrasing& phrasing) {
    TextPage page(kColumns);
    page.title(title, QLatin1Char('='));
    writeMapping(page, lines, reading, phrasing);
    for (const ReadLine& line : lines.lines)
        writeLine(page, line, phrasing);
    return page.text();
}

std::vector<double> roundFlows(double least, double greatest, int count) {
    std::vector<double> flows{least};
    const double wished = (greatest - least) / std::max(1, count - 1);
    if (!(wished > 0.0)) return flows;
    const double decade = std::pow(10.0, std::floor(std::log10(wished)));
    double step = 10.0 * decade;
    for (const double round : {1.0, 2.0, 5.0, 10.0}) {
        // The nearest in ratio: 2 and 5 part at their geometric mean.
        if (round * decade * std::sqrt(2.0) >= wished) {
            step = round * decade;
            break;
        }
    }
    // A round flow that nearly is an end gives way to it.
    const double near = 0.25 * step;
    for (double k = std::ceil(least / step); k * step < greatest - near; k += 1.0) {
        if (k * step > least + near) flows.push_back(k * step);
    }
    flows.push_back(greatest);
    return flows;
}

} // namespace headmark
