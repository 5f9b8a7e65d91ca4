#include "app/desktop/frame/number_entry.h"

#include "app/desktop/frame/theme.h"
#include "app/document/display_units.h"

namespace headmark {

NumberEntry::NumberEntry(QWidget* parent) : QLineEdit(parent) {
    setAlignment(Qt::AlignRight);
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
}

void NumberEntry::finish() {
    if (!isModified() || text() == shown_) return;
    if (!complaint().isEmpty()) return;
    shown_ = text();
    setModified(false);
    emit entered(parsedFigure(text()));
}

} // namespace headmark
