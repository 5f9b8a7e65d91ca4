#pragma once
// Units for the figures in sentences, where a reader chose others than those in the figures' keys.

#include <QString>

#include <optional>

namespace headmark {

// A unit a reader chose instead of the one in a figure's key: shown = factor * figure.
struct WordUnit {
    QString symbol;
    double factor = 1.0;
    int significant = 3, decimals = 2;
};

// By what the key's ending says; empty: the key's own. Workings keep the units of their formulas.
struct WordUnits {
    std::optional<WordUnit> flow;     // m3_h
    std::optional<WordUnit> pressure; // kPa
    std::optional<WordUnit> length;   // m, of heads, levels and lengths alike
};

} // namespace headmark
