#include "app/desktop/frame/card.h"

#include "app/desktop/frame/theme.h"

namespace headmark {

Card::Card(const QString& title, QWidget* parent)
    : QFrame(parent), title_(new QLabel(title)), titleLine_(new QHBoxLayout), content_(new QVBoxLayout) {
    setObjectName(QStringLiteral("card"));
    title_->setFont(titleFont());
    title_->setVisible(!title.isEmpty());
    titleLine_->addWidget(title_);
    titleLine_->addStretch(1);
    auto* outer = new QVBoxLayout(this);
    outer->setContentsMargins(14, 10, 14, 12);
    outer->setSpacing(8);
    outer->addLayout(titleLine_);
    outer->addLayout(content_, 1);
    content_->setSpacing(6);
}

void Card::setTitle(const QString& title) {
    title_->setText(title);
    title_->setVisible(!title.isEmpty());
}

void Card::addToTitle(QWidget* widget) { titleLine_->addWidget(widget); }

QLabel* faintLabel(const QString& text, QWidget* parent) {
    auto* label = wrappedLabel(text, parent);
    label->setObjectName(QStringLiteral("faint"));
    return label;
}

QLabel* wrappedLabel(const QString& text, QWidget* parent) {
    auto* label = new QLabel(text, parent);
    label->setWordWrap(true);
    label->setTextFormat(Qt::PlainText);
    label->setTextInteractionFlags(Qt::TextSelectableByMouse);
    return label;
}

QPushButton* mainButton(const QString& text, QWidget* parent) {
    auto* button = new QPushButton(text, parent);
    button->setObjectName(QStringLiteral("main"));
    return button;
}

QPushButton* plainButton(const QString& text, QWidget* parent) { return new QPushButton(text, parent); }

QPushButton* quietButton(const QString& text, QWidget* parent) {
    auto* button = new QPushButton(text, parent);
    button->setObjectName(QStringLiteral("quiet"));
    return button;
}

} // namespace headmark
