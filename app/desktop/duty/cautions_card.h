#pragma once
// What to look at in the shown case, worst first, each with what to do and where the limit comes from; at the
// end, folded, the cautions that hold for every pump.

#include "analysis/duty/case_answer.h"
#include "app/desktop/duty/sign_mark.h"
#include "app/desktop/frame/card.h"
#include "app/words/phrasing.h"

#include <QToolButton>

#include <optional>
#include <vector>

namespace headmark {

// One caution: sign, severity in a word, sentence, remedy, source.
class CautionRow : public QWidget {
    Q_OBJECT

  public:
    explicit CautionRow(QWidget* parent = nullptr);
    struct Words {
        Sign sign = Sign::note;
        QString severity, sentence, remedy, source;
    };
    [[nodiscard]] static Words wordsOf(const Caution& caution, const Phrasing& phrasing);
    void show(const Words& words);
    [[nodiscard]] QString sentence() const { return sentence_->text(); }

  private:
    SignMark* sign_;
    QLabel *severity_, *sentence_, *remedy_, *source_;
};

class CautionsCard : public Card {
    Q_OBJECT

  public:
    explicit CautionsCard(QWidget* parent = nullptr);

    void show(const std::optional<CaseAnswer>& answer, const Cautions& ofPump, const Site& site);
    [[nodiscard]] std::vector<QString> sentences() const; // in the order shown

  private:
    QVBoxLayout* list_;
    std::vector<CautionRow*> rows_;
    std::size_t used_ = 0;
    QLabel* none_;
    QToolButton* usual_;
    QLabel* usualWords_;
};

} // namespace headmark
