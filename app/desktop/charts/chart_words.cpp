#include "app/desktop/charts/chart_words.h"

#include "app/desktop/frame/theme.h"
#include "app/words/error_words.h"

#include <QCoreApplication>
#include <QFileInfo>
#include <QLocale>

#include <algorithm>

namespace headmark {

namespace {

struct Words {
    Q_DECLARE_TR_FUNCTIONS(Charts)
};

} // namespace

QString quantityWords(LineQuantity quantity) {
    switch (quantity) {
    case LineQuantity::head:
        return Words::tr("Head");
    case LineQuantity::efficiency:
        return Words::tr("Efficiency");
    case LineQuantity::power:
        return Words::tr("Power");
    case LineQuantity::npshRequired:
        return Words::tr("NPSH required");
    case LineQuantity::isoEfficiency:
        break;
    }
    return Words::tr("Line of equal efficiency");
}

QColor quantityColour(LineQuantity quantity) {
    switch (quantity) {
    case LineQuantity::efficiency:
    case LineQuantity::isoEfficiency:
        return theme().efficiency;
    case LineQuantity::power:
        return theme().power;
    case LineQuantity::npshRequired:
        return theme().npsh;
    case LineQuantity::head:
        break;
    }
    return theme().pumpCurve;
}

QString symbolWords(const std::string& symbol) {
    QString words = QString::fromStdString(symbol);
    return words.replace(QStringLiteral("m3"), QStringLiteral("m³"));
}

const std::string& printedUnit(const PrintedUnits& units, LineQuantity quantity) {
    switch (quantity) {
    case LineQuantity::efficiency:
        return units.efficiency;
    case LineQuantity::power:
        return units.power;
    case LineQuantity::npshRequired:
        return units.npshRequired;
    case LineQuantity::head:
    case LineQuantity::isoEfficiency:
        break;
    }
    return units.head;
}

QString printedFigure(double figure) {
    QLocale locale;
    locale.setNumberOptions(QLocale::OmitGroupSeparator);
    constexpr int kDigits = 6; // as printed: no chart prints more
    return locale.toString(figure, 'g', kDigits);
}

QString axisUnit(const Reading& reading, ValueAxis axis) {
    const auto teller = std::find_if(reading.lines.begin(), reading.lines.end(),
                                     [&](const ChartLine& line) { return line.axis == axis; });
    if (teller == reading.lines.end()) return {};
    return symbolWords(printedUnit(reading.printedUnits, teller->quantity));
}

QString pinWords(const Pin& pin, const Reading& reading) {
    QStringList parts;
    if (pin.flow)
        parts << printedFigure(*pin.flow) + QLatin1Char(' ') + symbolWords(reading.printedUnits.flow);
    if (pin.value) {
        QString value =
            (printedFigure(*pin.value) + QLatin1Char(' ') + axisUnit(reading, pin.axis)).trimmed();
        if (pin.axis == ValueAxis::right) value = Words::tr("%1 right").arg(value);
        parts << value;
    }
    return parts.join(QStringLiteral(" · "));
}

QString pinName(std::size_t index, const Reading& reading) {
    const QString number = QString::number(index + 1);
    if (index >= reading.pins.size()) return Words::tr("pin %1").arg(number);
    return Words::tr("pin %1 (%2)").arg(number, pinWords(reading.pins[index], reading));
}

QString pageTitle(const Reading& reading, const std::string& sheetPath) {
    const std::string& from = reading.chart.path.empty() ? sheetPath : reading.chart.path;
    QString title = QFileInfo(QString::fromStdString(from)).fileName().section(QLatin1Char('.'), 0, 0);
    title.replace(QLatin1Char('_'), QLatin1Char(' '));
    return title.isEmpty() ? Words::tr("Pump") : title;
}

QString valueWords(LineQuantity quantity, double value_si, const DisplayUnits& units) {
    switch (quantity) {
    case LineQuantity::efficiency:
        return Words::tr("%1 %").arg(figureText(Efficiency::fromShare(value_si).inPercent(), 1));
    case LineQuantity::power:
        return Words::tr("%1 kW").arg(figureText(Power::fromWatts(value_si).inKilowatts()));
    case LineQuantity::head:
    case LineQuantity::npshRequired:
    case LineQuantity::isoEfficiency:
        break;
    }
    return units.text(Head::fromMetres(value_si));
}

QString readWords(const ReadLine& line, const DisplayUnits& units) {
    if (line.samples.empty()) return {};
    const auto [least, greatest] = std::minmax_element(
        line.samples.begin(), line.samples.end(),
        [](const LineSample& a, const LineSample& b) { return a.flow_m3_s < b.flow_m3_s; });
    const QString from = figureText(units.figure(Flow::fromCubicMetresPerSecond(least->flow_m3_s)));
    const QString to = units.text(Flow::fromCubicMetresPerSecond(greatest->flow_m3_s));
    return line.trust == Trust::sure ? Words::tr("read from %1 to %2, looks sure").arg(from, to)
                                     : Words::tr("read from %1 to %2, doubtful").arg(from, to);
}

QString plainSentence(const Error& error) {
    Error plain = error;
    plain.file.clear(); // the page is before the reader's eyes
    return sentence(plain);
}

} // namespace headmark
