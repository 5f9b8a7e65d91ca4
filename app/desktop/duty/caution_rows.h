#pragma once
// Cautions below each other, worst first; those that stop the case before others as bad.

#include "analysis/core/finding.h"
#include "app/desktop/duty/sign_mark.h"
#include "app/words/phrasing.h"

#include <QLabel>

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

class CautionRows : public QWidget {
    Q_OBJECT

  public:
    explicit CautionRows(QWidget* parent = nullptr);

    void show(Cautions cautions, const Phrasing& phrasing);
    [[nodiscard]] std::vector<QString> sentences() const; // in the order shown

  private:
    std::vector<CautionRow*> rows_;
    std::size_t used_ = 0;
};

} // namespace headmark
