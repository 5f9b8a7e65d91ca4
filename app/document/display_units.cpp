#include "app/document/display_units.h"

#include "app/words/number_words.h"

#include <QLocale>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <string>

namespace headmark {

namespace {

constexpr int kSignificant = 3; // a chart is read to about one part in a hundred
constexpr int kMostDecimals = 2;

QString withUnit(const QString& figure, const QString& symbol) { return figure + QLatin1Char(' ') + symbol; }

// Figures that people typed (lengths, levels) are shown as they typed them: "60 m", not "60.0 m".
QString withoutTrailingZeros(QString text) {
    const QLocale locale;
    const QString point = locale.decimalPoint();
    if (!text.contains(point)) return text;
    while (text.endsWith(locale.zeroDigit()))
        text.chop(locale.zeroDigit().size());
    if (text.endsWith(point)) text.chop(point.size());
    return text;
}

double fromPressure(double pascals, PressureUnit unit) {
    const GaugePressure pressure = GaugePressure::fromPascals(pascals);
    switch (unit) {
    case PressureUnit::kilopascals:
        return pressure.inKilopascals();
    case PressureUnit::bar:
        return pressure.inBars();
    case PressureUnit::psi:
        return pressure.inPsi();
    case PressureUnit::metres:
        return pascals / factor::kMetreOfWater_Pa;
    }
    return pressure.inKilopascals();
}

bool isMinus(QChar c) { return c == QLatin1Char('-') || c == QChar(0x2212); } // some locales' own minus

bool isPoint(QChar c) {
    return c == QLatin1Char('.') || c == QLatin1Char(',') || c == QChar(0x066B); // the Arabic separator
}

// The spaces between groups of three, as in "12 500": at most one between digits, and three digits after it.
bool removeGroupSpaces(QString& text) {
    for (qsizetype at = text.indexOf(QLatin1Char(' ')); at >= 0; at = text.indexOf(QLatin1Char(' '))) {
        qsizetype after = at + 1;
        while (after < text.size() && text[after].isDigit())
            ++after;
        const bool groupOfThree = after - at == 4;
        if (at == 0 || !text[at - 1].isDigit() || !groupOfThree) return false;
        const bool insideDecimals = std::any_of(text.cbegin(), text.cbegin() + at, isPoint);
        if (insideDecimals) return false;
        text.remove(at, 1);
    }
    return true;
}

} // namespace

double DisplayUnits::figure(Flow amount) const {
    switch (flow) {
    case FlowUnit::cubicMetresPerHour:
        return amount.inCubicMetresPerHour();
    case FlowUnit::litresPerSecond:
        return amount.inLitresPerSecond();
    case FlowUnit::litresPerMinute:
        return amount.inLitresPerMinute();
    case FlowUnit::usGallonsPerMinute:
        return amount.inUsGallonsPerMinute();
    case FlowUnit::imperialGallonsPerMinute:
        return amount.inImperialGallonsPerMinute();
    }
    return amount.inCubicMetresPerHour();
}

double DisplayUnits::figure(Head amount) const {
    return head == HeadUnit::feet ? amount.inFeet() : amount.inMetres();
}

double DisplayUnits::figure(Level level) const {
    return length == LengthUnit::feet ? level.inMetres() / factor::kFoot_m : level.inMetres();
}

double DisplayUnits::figure(GaugePressure amount) const { return fromPressure(amount.inPascals(), pressure); }

double DisplayUnits::figure(Length amount) const {
    return length == LengthUnit::feet ? amount.inFeet() : amount.inMetres();
}

Flow DisplayUnits::flowFrom(double figure) const {
    switch (flow) {
    case FlowUnit::cubicMetresPerHour:
        return Flow::fromCubicMetresPerHour(figure);
    case FlowUnit::litresPerSecond:
        return Flow::fromLitresPerSecond(figure);
    case FlowUnit::litresPerMinute:
        return Flow::fromLitresPerMinute(figure);
    case FlowUnit::usGallonsPerMinute:
        return Flow::fromUsGallonsPerMinute(figure);
    case FlowUnit::imperialGallonsPerMinute:
        return Flow::fromImperialGallonsPerMinute(figure);
    }
    return Flow::fromCubicMetresPerHour(figure);
}

Head DisplayUnits::headFrom(double figure) const {
    return head == HeadUnit::feet ? Head::fromFeet(figure) : Head::fromMetres(figure);
}

Level DisplayUnits::levelFrom(double figure) const {
    return Level::fromMetres(length == LengthUnit::feet ? figure * factor::kFoot_m : figure);
}

GaugePressure DisplayUnits::pressureFrom(double figure) const {
    switch (pressure) {
    case PressureUnit::kilopascals:
        return GaugePressure::fromKilopascals(figure);
    case PressureUnit::bar:
        return GaugePressure::fromBars(figure);
    case PressureUnit::psi:
        return GaugePressure::fromPsi(figure);
    case PressureUnit::metres:
        return GaugePressure::fromPascals(figure * factor::kMetreOfWater_Pa);
    }
    return GaugePressure::fromKilopascals(figure);
}

Length DisplayUnits::lengthFrom(double figure) const {
    return length == LengthUnit::feet ? Length::fromFeet(figure) : Length::fromMetres(figure);
}

QString DisplayUnits::flowSymbol() const {
    switch (flow) {
    case FlowUnit::cubicMetresPerHour:
        return QStringLiteral("m³/h");
    case FlowUnit::litresPerSecond:
        return QStringLiteral("l/s");
    case FlowUnit::litresPerMinute:
        return QStringLiteral("l/min");
    case FlowUnit::usGallonsPerMinute:
        return QStringLiteral("US gal/min");
    case FlowUnit::imperialGallonsPerMinute:
        return QStringLiteral("imp gal/min");
    }
    return {};
}

QString DisplayUnits::headSymbol() const {
    return head == HeadUnit::feet ? QStringLiteral("ft") : QStringLiteral("m");
}

QString DisplayUnits::pressureSymbol() const {
    switch (pressure) {
    case PressureUnit::kilopascals:
        return QStringLiteral("kPa");
    case PressureUnit::bar:
        return QStringLiteral("bar");
    case PressureUnit::psi:
        return QStringLiteral("psi");
    case PressureUnit::metres:
        return QStringLiteral("m");
    }
    return {};
}

QString DisplayUnits::lengthSymbol() const {
    return length == LengthUnit::feet ? QStringLiteral("ft") : QStringLiteral("m");
}

QString DisplayUnits::text(Flow amount) const { return withUnit(figureText(figure(amount)), flowSymbol()); }
QString DisplayUnits::text(Head amount) const { return withUnit(figureText(figure(amount)), headSymbol()); }
QString DisplayUnits::text(Level level) const {
    return withUnit(withoutTrailingZeros(figureText(figure(level))), lengthSymbol());
}
QString DisplayUnits::text(GaugePressure amount) const {
    return withUnit(figureText(figure(amount)), pressureSymbol());
}
QString DisplayUnits::text(Length amount) const {
    return withUnit(withoutTrailingZeros(figureText(figure(amount))), lengthSymbol());
}

QString figureText(double figure, int decimals) {
    if (!std::isfinite(figure)) return QStringLiteral("–");
    QLocale locale;
    locale.setNumberOptions(QLocale::OmitGroupSeparator);
    // Never round away whole units: 1234 m stays 1234 m.
    const double size = std::abs(figure);
    const int whole = size < 1.0 ? 1 : static_cast<int>(std::floor(std::log10(size))) + 1;
    if (decimals < 0) return headmark::figure(figure, std::max(kSignificant, whole), kMostDecimals, locale);
    const double finest = std::pow(10.0, -decimals);
    return locale.toString(size < 0.5 * finest ? 0.0 : figure, 'f', decimals); // no "-0"
}

std::optional<double> parsedFigure(const QString& typed) {
    QString text = typed.simplified(); // no-break and narrow spaces become plain ones
    // Marks of writing direction, which stand beside the minus in right-to-left locales.
    text.removeIf([](QChar c) { return c.category() == QChar::Other_Format; });
    bool negative = false;
    if (!text.isEmpty() && (isMinus(text[0]) || text[0] == QLatin1Char('+'))) {
        negative = isMinus(text[0]);
        text = text.mid(1).trimmed();
    }
    if (!removeGroupSpaces(text)) return std::nullopt;
    std::string plain;
    bool pointSeen = false, digitSeen = false;
    for (const QChar c : std::as_const(text)) {
        if (c.isDigit()) {
            plain += static_cast<char>('0' + c.digitValue());
            digitSeen = true;
        } else if (isPoint(c) && !pointSeen) {
            plain += '.';
            pointSeen = true;
        } else {
            return std::nullopt;
        }
    }
    if (!digitSeen) return std::nullopt;
    double value = 0.0;
    const auto read = std::from_chars(plain.data(), plain.data() + plain.size(), value);
    if (read.ec != std::errc() || read.ptr != plain.data() + plain.size()) return std::nullopt;
    return negative ? -value : value;
}

WordUnits wordUnits(const DisplayUnits& units) {
    WordUnits words;
    if (units.flow != FlowUnit::cubicMetresPerHour) {
        // A litre a minute is as much as a chart is read to; a litre a second is sixty of them.
        const int decimals = units.flow == FlowUnit::litresPerSecond ? 3 : 1;
        words.flow =
            WordUnit{units.flowSymbol(), units.figure(Flow::fromCubicMetresPerHour(1.0)), 3, decimals};
    }
    if (units.pressure != PressureUnit::kilopascals) {
        const int decimals = units.pressure == PressureUnit::bar ? 2 : 1; // a kilopascal is 0.01 bar
        words.pressure =
            WordUnit{units.pressureSymbol(), units.figure(GaugePressure::fromKilopascals(1.0)), 5, decimals};
    }
    if (units.head == HeadUnit::feet && units.length == LengthUnit::feet)
        words.length = WordUnit{units.headSymbol(), units.figure(Head::fromMetres(1.0)), 5, 1};
    return words;
}

} // namespace headmark
