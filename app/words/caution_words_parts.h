#pragma once
// The tables behind caution_words.h, by what they are about. Sentences are in the translation context
// "Cautions".

#include <span>
#include <string_view>

namespace headmark {

// Braces name facts of the caution; {where} and {Where} its place. `variant` is the caution's fact "side" or
// the name of its severity; the row without one serves all others.
struct CautionEntry {
    std::string_view code, variant;
    const char* label;
    const char* sentence;
};

struct RemedyEntry {
    std::string_view code;
    const char* sentence;
};

[[nodiscard]] std::span<const CautionEntry> chartCautionRows();
[[nodiscard]] std::span<const RemedyEntry> chartRemedyRows();
[[nodiscard]] std::span<const CautionEntry> zoneCautionRows();
[[nodiscard]] std::span<const RemedyEntry> zoneRemedyRows();
[[nodiscard]] std::span<const CautionEntry> practiceCautionRows();
[[nodiscard]] std::span<const RemedyEntry> practiceRemedyRows();

} // namespace headmark
