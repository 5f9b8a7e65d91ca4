#include "app/words/number_words.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

struct KeyUnit {
    std::string_view ending; // of the fact's key
    const char* unit;
    int significant, decimals;
    double factor = 1.0;
};

// Longer endings first: "velocity_m_s" ends with "m_s", not with a quantity in seconds.
constexpr KeyUnit kUnits[] = {
    {"kWh_per_m3", "kWh/m³", 2, 3},
    {"kWh_m3", "kWh/m³", 2, 3},
    {"per_kWh", "", 4, 4},
    {"cost_per_m3", "", 3, 3},
    {"J_kgK", "J/(kg K)", 4, 0},
    {"K_min", "K/min", 2, 1},
    {"K_h", "K/h", 2, 2},
    {"l_min", "l/min", 3, 1},
    {"residual_m", "m", 2, 6},
    {"kg_m3", "kg/m³", 4, 1},
    {"share_of_best_flow", "%", 3, 0, 100.0},
    {"m2_s", "m²/s", 3, 9},
    {"m3_s", "m³/s", 3, 6},
    {"m_s2", "m/s²", 6, 5},
    {"share", "%", 3, 0, 100.0},
    {"m3_h", "m³/h", 3, 2},
    {"m_s", "m/s", 3, 2},
    {"kPa", "kPa", 5, 0},
    {"rpm", "rpm", 4, 0},
    {"kW", "kW", 3, 2},
    {"m2", "m²", 3, 6},
    {"mm", "mm", 3, 1},
    {"kWh", "kWh", 3, 2},
    {"m3", "m³", 3, 2},
    {"min", "min", 5, 0},
    {"minutes", "min", 3, 1},
    {"seconds", "s", 3, 1},
    {"micron", "µm", 3, 0},
    {"volts", "V", 3, 0},
    {"m", "m", 5, 1},
    {"l", "l", 3, 1},
    {"s", "s", 3, 2},
    {"h", "times an hour", 3, 0},
    {"K", "K", 2, 1},
    {"C", "°C", 3, 0},
    {"A", "A", 3, 1},
    {"W", "W", 3, 0},
    {"kg", "kg", 3, 1},
};
constexpr KeyUnit kPlain{"", "", 4, 4};
constexpr int kWorkingDigits = 4;
constexpr int kWorkingDecimals = 8;
constexpr double kSmallestPlain = 1e-4; // smaller ones are written with a power of ten

const KeyUnit& unitOf(std::string_view key) {
    for (const KeyUnit& unit : kUnits) {
        if (!key.ends_with(unit.ending)) continue;
        const std::size_t before = key.size() - unit.ending.size();
        if (before == 0 || key[before - 1] == '_') return unit;
    }
    return kPlain;
}

// The reader's unit for that key; null: the key's own.
const WordUnit* chosenUnit(const KeyUnit& unit, const Phrasing& p) {
    if (!p.units) return nullptr;
    const auto given = [](const std::optional<WordUnit>& chosen) { return chosen ? &*chosen : nullptr; };
    if (unit.ending == "m3_h") return given(p.units->flow);
    if (unit.ending == "kPa") return given(p.units->pressure);
    return unit.ending == "m" ? given(p.units->length) : nullptr;
}

QString plain(double value, int decimals, QLocale locale) {
    locale.setNumberOptions(QLocale::OmitGroupSeparator);
    return locale.toString(value, 'f', decimals);
}

// "38.200" -> "38.2": in a working the zeros carry nothing.
QString withoutTrailingZeros(QString number, const QLocale& locale) {
    const QString point = locale.decimalPoint();
    if (!number.contains(point)) return number;
    while (number.endsWith(locale.zeroDigit()))
        number.chop(1);
    if (number.endsWith(point)) number.chop(point.size());
    return number;
}

int decadeOf(double value) { return static_cast<int>(std::floor(std::log10(std::abs(value)))); }

} // namespace

QString figure(double value, int significant, int decimals, const QLocale& locale) {
    if (!std::isfinite(value)) return {};
    const double finest = std::pow(10.0, -decimals);
    if (std::abs(value) < 0.5 * finest) return plain(0.0, decimals, locale);
    int places = std::min(decimals, significant - 1 - decadeOf(value));
    // Rounding may carry into the next decade: 9.996 becomes 10.0.
    const double step = std::pow(10.0, -places);
    const double rounded = std::round(value / step) * step;
    places = std::min(decimals, significant - 1 - decadeOf(rounded));
    return plain(rounded, std::max(places, 0), locale);
}

QString quantityNumber(std::string_view key, double value, const Phrasing& p, int moreDigits) {
    if (!std::isfinite(value)) return notKnown(p);
    const KeyUnit& unit = unitOf(key);
    if (const WordUnit* chosen = chosenUnit(unit, p))
        return figure(value * chosen->factor, chosen->significant + moreDigits, chosen->decimals + moreDigits,
                      p.locale);
    return figure(value * unit.factor, unit.significant + moreDigits, unit.decimals + moreDigits, p.locale);
}

QString quantityWords(std::string_view key, double value, const Phrasing& p, int moreDigits) {
    const QString number = quantityNumber(key, value, p, moreDigits);
    const QString unit = unitOfKey(key, p);
    return unit.isEmpty() || !std::isfinite(value) ? number : number + QLatin1Char(' ') + unit;
}

QString workingNumberWords(std::string_view key, double value, const Phrasing& p) {
    if (!std::isfinite(value)) return notKnown(p);
    const KeyUnit& unit = unitOf(key);
    const int digits = std::max(kWorkingDigits, unit.ending == "m_s2" ? unit.significant : 0);
    QString number;
    if (value != 0.0 && std::abs(value) < kSmallestPlain) {
        const int decade = decadeOf(value);
        const QString mantissa = figure(value * std::pow(10.0, -decade), digits, digits - 1, p.locale);
        number = withoutTrailingZeros(mantissa, p.locale) + QStringLiteral("·10^%1").arg(decade);
    } else {
        number = withoutTrailingZeros(figure(value, digits, kWorkingDecimals, p.locale), p.locale);
    }
    const QString name = QString::fromUtf8(unit.unit);
    return name.isEmpty() || unit.factor != 1.0 ? number : number + QLatin1Char(' ') + name;
}

QString unitOfKey(std::string_view key, const Phrasing& p) {
    const KeyUnit& unit = unitOf(key);
    const WordUnit* chosen = chosenUnit(unit, p);
    return chosen ? chosen->symbol : QString::fromUtf8(unit.unit);
}

QString notKnown(const Phrasing& p) { return p.text("Numbers", QT_TRANSLATE_NOOP("Numbers", "not known")); }

} // namespace headmark
