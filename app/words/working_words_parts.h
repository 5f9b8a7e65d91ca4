#pragma once
// The tables behind working_words.h. Titles and sources are in the translation context "Workings".

#include <span>
#include <string_view>

namespace headmark {

// Braces in `with` name the step's figures; {where} in the title its place. Formulas are not translated.
struct WorkingRow {
    std::string_view code;
    const char* title;
    const char* formula;
    const char* with;
    const char* source;
};

[[nodiscard]] std::span<const WorkingRow> practiceWorkingRows();

// Title of a study of the installation ("suction").
struct TopicRow {
    std::string_view topic;
    const char* title;
};
[[nodiscard]] std::span<const TopicRow> topicRows();

} // namespace headmark
