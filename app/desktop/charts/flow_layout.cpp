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
    int y = rect.y();
    for (qsizetype first = 0; first < items_.size();) {
        // One line: as many as fit, at least one, each in the middle of the line's height.
        int x = rect.x(), line = 0;
        qsizetype last = first;
        for (; last < items_.size(); ++last) {
            if (items_[last]->isEmpty()) continue;
            const QSize size = items_[last]->sizeHint();
            if (x > rect.x() && x + size.width() > rect.x() + rect.width()) break;
            x += size.width() + kGap_px;
            line = std::max(line, size.height());
        }
        x = rect.x();
        for (; first < last; ++first) {
            if (items_[first]->isEmpty()) continue;
            const QSize size = items_[first]->sizeHint();
            const QSize room(std::min(size.width(), rect.width()), size.height());
            if (move) items_[first]->setGeometry(QRect(QPoint(x, y + (line - size.height()) / 2), room));
            x += size.width() + kGap_px;
        }
        y += line + (line > 0 ? kGap_px : 0);
    }
    return std::max(0, y - kGap_px - rect.y());
}

} // namespace headmark
