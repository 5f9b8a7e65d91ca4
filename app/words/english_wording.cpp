#include "app/words/english_wording.h"

#include "app/words/caution_words.h"
#include "app/words/part_words.h"
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

Wording::PartText EnglishWording::partText(const PlacedPart& part) const {
    return {partName(part.part, phrasing_).toStdString(), partSizeWords(part, phrasing_).toStdString(),
            partPurpose(part.purpose, phrasing_).toStdString()};
}

std::string EnglishWording::jointText(const JointVerdict& verdict) const {
    return jointSentence(verdict, phrasing_).toStdString();
}

std::string EnglishWording::billText(const BillRow& row) const {
    return billRowWords(row, phrasing_).toStdString();
}

std::string EnglishWording::stepText(const AssemblyStep& step) const {
    return assemblySentence(step, phrasing_).toStdString();
}

Wording::CommissioningText EnglishWording::commissioningText(const CommissioningRow& row) const {
    const CommissioningWords words = commissioningWords(row, phrasing_);
    return {words.what.toStdString(), words.expected.toStdString()};
}

} // namespace headmark
