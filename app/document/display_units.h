#pragma once
// The user's units, and the one place where figures become text for the screen. Language and number format
// are separate settings: figures follow QLocale(), words follow the translation.

#include "analysis/units/quantities.h"
#include "app/words/word_units.h"

#include <QString>

#include <optional>

namespace headmark {

enum class FlowUnit {
    cubicMetresPerHour,
    litresPerSecond,
    litresPerMinute,
    usGallonsPerMinute,
    imperialGallonsPerMinute
};
enum class HeadUnit { metres, feet };
enum class PressureUnit { kilopascals, bar, psi, metres };
enum class LengthUnit { metres, feet };

struct DisplayUnits {
    FlowUnit flow = FlowUnit::cubicMetresPerHour;
    HeadUnit head = HeadUnit::metres;
    PressureUnit pressure = PressureUnit::bar;
    LengthUnit length = LengthUnit::metres;

    bool operator==(const DisplayUnits&) const = default;

    // Figures in the unit shown, and back.
    [[nodiscard]] double figure(Flow flow) const;
    [[nodiscard]] double figure(Head head) const;
    [[nodiscard]] double figure(Level level) const;
    [[nodiscard]] double figure(GaugePressure pressure) const;
    [[nodiscard]] double figure(Length length) const;
    [[nodiscard]] Flow flowFrom(double figure) const;
    [[nodiscard]] Head headFrom(double figure) const;
    [[nodiscard]] Level levelFrom(double figure) const;
    [[nodiscard]] GaugePressure pressureFrom(double figure) const;
    [[nodiscard]] Length lengthFrom(double figure) const;

    [[nodiscard]] QString flowSymbol() const;
    [[nodiscard]] QString headSymbol() const;
    [[nodiscard]] QString pressureSymbol() const;
    [[nodiscard]] QString lengthSymbol() const;

    // "9.8 m³/h" with as many digits as a reading deserves (three significant, at most two decimals).
    [[nodiscard]] QString text(Flow flow) const;
    [[nodiscard]] QString text(Head head) const;
    [[nodiscard]] QString text(Level level) const;
    [[nodiscard]] QString text(GaugePressure pressure) const;
    [[nodiscard]] QString text(Length length) const;
};

// The same choice for the figures in sentences. Metres there may be of a head or of a pipe: they become feet
// where both are shown in feet.
[[nodiscard]] WordUnits wordUnits(const DisplayUnits& units);

// A figure without a unit, in the user's number format: `decimals` after the separator, or as deserved.
[[nodiscard]] QString figureText(double figure, int decimals = -1);

// What a person typed: point or comma as the decimal separator whatever the locale, spaces and a unit-less
// sign allowed; empty where it is no number ("1.234,5" and "1,234.5" are refused: nobody can know).
[[nodiscard]] std::optional<double> parsedFigure(const QString& typed);

} // namespace headmark
