#pragma once
// Every number that a person reads, with as many digits as it deserves and no more.
//   flow      3 significant digits, at most 0.01 m3/h      head, level   0.1 m
//   pressure  1 kPa                                        power         3 significant digits, at most 0.01
//   kW velocity  0.01 m/s                                     share         whole percent kWh/m3    2
//   significant digits, at most 0.001
// Why: a chart is read to about one part in a hundred; more digits would promise more than is known.
// The key of a fact carries its unit as in files ("limit_m3_h"); no key, no unit, four significant digits.
// A figure that is not finite is "not known". No group separators: they read as decimal signs elsewhere.

#include "app/words/phrasing.h"

#include <QString>

#include <string_view>

namespace headmark {

// At most `significant` digits and nothing finer than `decimals` places; trailing zeros stay, they are meant.
[[nodiscard]] QString figure(double value, int significant, int decimals, const QLocale& locale);

// The number of that key without and with its unit: "7.93", "7.93 m³/h". `moreDigits` shows a difference that
// rounding would hide.
[[nodiscard]] QString quantityNumber(std::string_view key, double value, const Phrasing& phrasing,
                                     int moreDigits = 0);
[[nodiscard]] QString quantityWords(std::string_view key, double value, const Phrasing& phrasing,
                                    int moreDigits = 0);

// For a working: four significant digits, shares as a plain number, so that the sum can be followed by hand.
[[nodiscard]] QString workingNumberWords(std::string_view key, double value, const Phrasing& phrasing);

// "m³/h" of "limit_m3_h", or what the reader chose instead; empty where the key has no unit.
[[nodiscard]] QString unitOfKey(std::string_view key, const Phrasing& phrasing);

[[nodiscard]] QString notKnown(const Phrasing& phrasing);

} // namespace headmark
