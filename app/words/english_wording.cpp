#include "app/words/english_wording.h"

#include "app/words/caution_words.h"
#include "app/words/working_words.h"

namespace headmark {

std::string EnglishWording::cautionText(const Caution& caution) const {
    return cautionSentence(caution, phrasing_).toStdString();
}

std::string EnglishWording::remedyText(const Caution& caution) const {
    return remedySentence(caution, phrasing_).toStdString();
}

Wording::WorkingText EnglishWording::workingText(const WorkingStep& step) const {
    const WorkingWords w = workingWords(step, phrasing_);
    return {w.title.toStdString(), w.formula.toStdString(), w.with.toStdString(), w.result.toStdString(),
            w.source.toStdString()};
}

} // namespace headmark
