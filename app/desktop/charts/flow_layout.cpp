#include "app/desktop/charts/flow_layout.h"

#include <QWidget>

#include <algorithm>

namespace headmark {

namespace {

constexpr int kGap_px = 6;

} // namespace

QSize FlowLayout::minimumSize() const {
    QSize size;
    for (const QLayoutItem* item : items_) {
        if (!item->isEmpty()) size = size.expandedTo(item->minimumSize());
    }
    return size;
}

int FlowLayout::place(const QRect& rect, bool move) const {
    int x = rect.x(), y = rect.y(), line = 0;
    for (QLayoutItem* item : items_) {
        if (item->isEmpty()) continue;
        const QSize size = item->sizeHint();
        if (x > rect.x() && x + size.width() > rect.x() + rect.width()) {
            x = rect.x();
            y += line + kGap_px;
            line = 0;
        }
        const int width = std::min(size.width(), rect.width());
        if (move) item->setGeometry(QRect(QPoint(x, y), QSize(width, size.height())));
        x += size.width() + kGap_px;
        line = std::max(line, size.height());
    }
    return y + line - rect.y();
}

} // namespace headmark
