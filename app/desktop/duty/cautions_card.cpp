#include "app/desktop/duty/cautions_card.h"

#include "app/desktop/duty/duty_words.h"
#include "app/desktop/frame/theme.h"
#include "app/words/caution_words.h"
#include "app/words/safety_words.h"

namespace headmark {

namespace {

void setWords(QLabel& label, const QString& words) {
    if (label.text() != words) label.setText(words);
    label.setVisible(!words.isEmpty());
}

} // namespace

CautionsCard::CautionsCard(QWidget* parent)
    : Card(tr("Look at these"), parent), rows_(new CautionRows), none_(faintLabel({})),
      usual_(new QToolButton), usualWords_(wrappedLabel({})) {
    content().addWidget(none_);
    content().addWidget(rows_);
    usual_->setText(tr("What always holds"));
    usual_->setToolTip(
        tr("Cautions about electricity, pressure and drinking water, whatever the figures say."));
    usual_->setCheckable(true);
    usual_->setAutoRaise(true);
    usual_->setFocusPolicy(Qt::StrongFocus);
    usual_->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
    usual_->setArrowType(Qt::RightArrow);
    content().addWidget(usual_, 0, Qt::AlignLeft);
    content().addWidget(usualWords_);
    usualWords_->hide();
    connect(usual_, &QToolButton::toggled, this, [this](bool open) {
        usual_->setArrowType(open ? Qt::DownArrow : Qt::RightArrow);
        usualWords_->setVisible(open);
    });
}

void CautionsCard::show(const std::optional<CaseAnswer>& answer, const Cautions& ofPump, const Site& site) {
    const Phrasing phrasing = screenPhrasing(site);
    Cautions cautions = answer ? answer->cautions : Cautions{};
    cautions.insert(cautions.end(), ofPump.begin(), ofPump.end());
    rows_->show(cautions, phrasing);
    setWords(*none_, !cautions.empty() ? QString()
                     : answer          ? tr("Nothing stands out in this case.")
                                       : tr("Cautions come with a pump."));
    setWords(*usualWords_, usualCautions(phrasing).join(QStringLiteral("\n\n")));
    usualWords_->setVisible(usual_->isChecked());
}

} // namespace headmark
