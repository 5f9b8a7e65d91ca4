#include "app/desktop/frame/number_entry.h"

#include "app/desktop/frame/rail.h"
#include "app/desktop/frame/theme.h"
#include "app/document/display_units.h"

#include <QAction>
#include <QPainter>
#include <QToolTip>

#include <cmath>

namespace headmark {

namespace {

QIcon dangerSign() {
    constexpr int kSide_px = 32; // drawn large, shown at the style's size
    QPixmap picture(kSide_px, kSide_px);
    picture.fill(Qt::transparent);
    QPainter painter(&picture);
    paintSign(painter, QRectF(picture.rect()).adjusted(3, 3, -3, -3), Sign::danger);
    return picture;
}

} // namespace

NumberEntry::NumberEntry(QWidget* parent) : QLineEdit(parent), sign_(new QAction(this)) {
    setAlignment(Qt::AlignRight);
    connect(sign_, &QAction::triggered, this, &NumberEntry::say);
    connect(this, &QLineEdit::textChanged, this, &NumberEntry::look);
    connect(this, &QLineEdit::editingFinished, this, &NumberEntry::finish);
}

void NumberEntry::setFigure(std::optional<double> figure, int decimals) {
    if (hasFocus() && isModified()) return;
    shown_ = figure ? figureText(*figure, decimals) : QString();
    if (text() == shown_) return;
    // What was wholly marked (as Tab leaves it) stays so, or the next key would be added to the new figure.
    const bool wasMarked = hasFocus() && hasSelectedText() && selectedText() == text();
    setText(shown_);
    setModified(false);
    if (wasMarked) selectAll();
}

std::optional<double> NumberEntry::figure() const {
    return complaint().isEmpty() ? parsedFigure(text()) : std::nullopt;
}

QString NumberEntry::complaint() const {
    if (text().trimmed().isEmpty()) return range_.mayBeEmpty ? QString() : tr("A figure is needed here.");
    const auto parsed = parsedFigure(text());
    if (!parsed) return tr("This is not a figure; write it like 12.5 or 12,5.");
    if (range_.whole && *parsed != std::floor(*parsed)) return tr("Only a whole number is possible here.");
    if (*parsed < range_.least) return tr("At least %1 is possible here.").arg(figureText(range_.least));
    if (*parsed > range_.greatest) return tr("At most %1 is possible here.").arg(figureText(range_.greatest));
    return {};
}

void NumberEntry::look() {
    const QString why = complaint();
    setToolTip(why);
    setAccessibleDescription(why);
    QPalette p = palette();
    p.setColor(QPalette::Text, why.isEmpty() ? theme().text : theme().danger);
    setPalette(p);
    const bool marked = actions().contains(sign_);
    if (marked == !why.isEmpty()) return;
    if (marked) {
        removeAction(sign_);
    } else {
        sign_->setIcon(dangerSign());
        addAction(sign_, LeadingPosition);
    }
}

void NumberEntry::say() const {
    if (!isVisible()) return;
    QToolTip::showText(mapToGlobal(rect().bottomLeft()), complaint(), const_cast<NumberEntry*>(this));
}

void NumberEntry::finish() {
    if (!isModified() || text() == shown_) return;
    if (!complaint().isEmpty()) return say();
    shown_ = text();
    setModified(false);
    emit entered(parsedFigure(text()));
}

} // namespace headmark
