#include "app/desktop/duty/caution_rows.h"

#include "app/desktop/duty/duty_words.h"
#include "app/desktop/frame/card.h"
#include "app/desktop/frame/theme.h"
#include "app/words/caution_words.h"

#include <QHBoxLayout>

#include <algorithm>

namespace headmark {

namespace {

void setWords(QLabel& label, const QString& words) {
    if (label.text() != words) label.setText(words);
    label.setVisible(!words.isEmpty());
}

Sign signOf(Severity severity) {
    switch (severity) {
    case Severity::danger:
        return Sign::danger;
    case Severity::warning:
        return Sign::warning;
    case Severity::note:
        break;
    }
    return Sign::note;
}

} // namespace

CautionRow::CautionRow(QWidget* parent)
    : QWidget(parent), sign_(new SignMark), severity_(new QLabel), sentence_(wrappedLabel({})),
      remedy_(wrappedLabel({})), source_(faintLabel({})) {
    auto* words = new QVBoxLayout;
    words->setSpacing(2);
    for (QLabel* label : {severity_, sentence_, remedy_, source_})
        words->addWidget(label);
    auto* layout = new QHBoxLayout(this);
    layout->setContentsMargins(0, 4, 0, 6);
    layout->setSpacing(10);
    layout->addWidget(sign_, 0, Qt::AlignTop);
    layout->addLayout(words, 1);
}

CautionRow::Words CautionRow::wordsOf(const Caution& c, const Phrasing& phrasing) {
    return {signOf(c.severity), capitalised(severityWords(c.severity, phrasing)),
            cautionSentence(c, phrasing), c.remedy.empty() ? QString() : remedySentence(c, phrasing),
            c.source.empty() ? QString() : tr("Source: %1").arg(QString::fromStdString(c.source))};
}

void CautionRow::show(const Words& words) {
    QFont bold = smallFont();
    bold.setWeight(QFont::DemiBold);
    if (severity_->font() != bold) severity_->setFont(bold);
    if (source_->font() != smallFont()) source_->setFont(smallFont());
    sign_->setSign(words.sign);
    sign_->update();
    setWords(*severity_, words.severity);
    setWords(*sentence_, words.sentence);
    setWords(*remedy_, words.remedy);
    setWords(*source_, words.source);
    setAccessibleName(tr("%1: %2 %3").arg(words.severity, words.sentence, words.remedy));
}

CautionRows::CautionRows(QWidget* parent) : QWidget(parent) {
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(4);
}

void CautionRows::show(Cautions cautions, const Phrasing& phrasing) {
    std::stable_sort(cautions.begin(), cautions.end(), [](const Caution& a, const Caution& b) {
        if (a.severity != b.severity) return a.severity > b.severity;
        return a.stops && !b.stops;
    });
    used_ = cautions.size();
    while (rows_.size() < used_) {
        rows_.push_back(new CautionRow);
        layout()->addWidget(rows_.back());
    }
    for (std::size_t i = 0; i < rows_.size(); ++i) {
        rows_[i]->setVisible(i < used_);
        if (i < used_) rows_[i]->show(CautionRow::wordsOf(cautions[i], phrasing));
    }
    setVisible(used_ > 0);
}

std::vector<QString> CautionRows::sentences() const {
    std::vector<QString> said;
    for (std::size_t i = 0; i < used_; ++i)
        said.push_back(rows_[i]->sentence());
    return said;
}

} // namespace headmark
