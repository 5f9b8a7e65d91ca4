#include "app/desktop/duty/flow_text.h"

#include "app/desktop/frame/theme.h"

#include <QAbstractTextDocumentLayout>
#include <QTextBlock>
#include <QTextDocument>
#include <QWheelEvent>

#include <cmath>

namespace headmark {

FlowText::FlowText(QWidget* parent) : QTextBrowser(parent) {
    frame(false);
    setOpenLinks(false);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    viewport()->setAutoFillBackground(false);
    document()->setDocumentMargin(2);
    setTabChangesFocus(false);
}

// The focus is seen by a frame that always takes its place, so that nothing moves.
void FlowText::frame(bool focused) {
    setStyleSheet(
        QStringLiteral("QTextBrowser { border: 1px solid %1; border-radius: 4px; background: transparent; }")
            .arg(focused ? theme().accent.name() : QStringLiteral("transparent")));
}

void FlowText::showHtml(const QString& html) {
    if (html == shown_) return;
    shown_ = html;
    setHtml(html);
    fit();
}

void FlowText::fit() {
    document()->setTextWidth(viewport()->width());
    setFixedHeight(static_cast<int>(std::ceil(document()->size().height())) + 2 * frameWidth());
}

int FlowText::topOf(const QString& anchor) const {
    for (QTextBlock block = document()->begin(); block.isValid(); block = block.next()) {
        for (auto it = block.begin(); !it.atEnd(); ++it) {
            const QTextCharFormat format = it.fragment().charFormat();
            if (format.anchorNames().contains(anchor) || format.anchorHref() == QLatin1Char('#') + anchor)
                return static_cast<int>(document()->documentLayout()->blockBoundingRect(block).top());
        }
    }
    return -1;
}

void FlowText::resizeEvent(QResizeEvent* event) {
    QTextBrowser::resizeEvent(event);
    if (event->oldSize().width() != event->size().width()) fit();
}

void FlowText::wheelEvent(QWheelEvent* event) { event->ignore(); } // the column scrolls

void FlowText::focusInEvent(QFocusEvent* event) {
    QTextBrowser::focusInEvent(event);
    frame(true);
}

void FlowText::focusOutEvent(QFocusEvent* event) {
    QTextBrowser::focusOutEvent(event);
    frame(false);
}

} // namespace headmark
