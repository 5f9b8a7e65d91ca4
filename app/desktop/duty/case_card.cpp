#include "app/desktop/duty/case_card.h"

#include "app/desktop/frame/card.h"
#include "app/desktop/frame/theme.h"

#include <QHBoxLayout>
#include <QPainter>

namespace headmark {

CaseCard::CaseCard(QWidget* parent)
    : QAbstractButton(parent), sign_(new SignMark), name_(new QLabel), verdict_(faintLabel({})) {
    setCheckable(true);
    setAutoExclusive(true);
    setFocusPolicy(Qt::StrongFocus);
    setCursor(Qt::PointingHandCursor);
    for (QLabel* label : {name_, verdict_}) {
        label->setWordWrap(true);
        label->setTextFormat(Qt::PlainText);
        label->setTextInteractionFlags(Qt::NoTextInteraction);
        label->setAttribute(Qt::WA_TransparentForMouseEvents);
    }
    auto* words = new QVBoxLayout;
    words->setSpacing(1);
    words->addWidget(name_);
    words->addWidget(verdict_);
    auto* layout = new QHBoxLayout(this);
    layout->setContentsMargins(10, 7, 10, 7);
    layout->setSpacing(10);
    layout->addWidget(sign_, 0, Qt::AlignVCenter);
    layout->addLayout(words, 1);
}

void CaseCard::show(const QString& name, const QString& verdict, Sign sign) {
    QFont bold = font();
    bold.setWeight(QFont::DemiBold);
    if (name_->font() != bold) name_->setFont(bold);
    if (verdict_->font() != smallFont()) verdict_->setFont(smallFont());
    if (name_->text() != name) name_->setText(name);
    if (verdict_->text() != verdict) verdict_->setText(verdict);
    verdict_->setVisible(!verdict.isEmpty());
    sign_->setSign(sign);
    setText({});
    setAccessibleName(verdict.isEmpty() ? name : tr("%1: %2").arg(name, verdict));
    update();
}

void CaseCard::paintEvent(QPaintEvent*) {
    const Theme& t = theme();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const bool strong = isChecked() || hasFocus();
    painter.setPen(QPen(strong || underMouse() ? t.accent : t.border, strong ? 2.0 : 1.0));
    painter.setBrush(t.surface);
    painter.drawRoundedRect(QRectF(rect()).adjusted(1, 1, -1, -1), 6, 6);
    if (!hasFocus()) return;
    painter.setPen(QPen(t.accent, 1, Qt::DotLine));
    painter.setBrush(Qt::NoBrush);
    painter.drawRoundedRect(QRectF(rect()).adjusted(4, 4, -4, -4), 4, 4);
}

} // namespace headmark
