#include "app/desktop/site/label_layout.h"

#include <QFontMetricsF>

#include <algorithm>

namespace headmark {

bool LabelLayout::isFree(const QRectF& rect) const {
    const auto meets = [&](const QRectF& other) { return other.intersects(rect); };
    return area_.contains(rect) && std::none_of(blocked_.begin(), blocked_.end(), meets) &&
           std::none_of(labels_.begin(), labels_.end(), [&](const PlacedLabel& l) { return meets(l.where); });
}

bool LabelLayout::place(PlacedLabel label, const QFont& font, double x, const std::vector<double>& tops,
                        double widest) {
    QFont weighted = font;
    if (label.strong) weighted.setWeight(QFont::DemiBold);
    const QFontMetricsF metrics(weighted);
    label.text = metrics.elidedText(label.text, Qt::ElideRight, std::min(widest, area_.width()));
    const double width = metrics.horizontalAdvance(label.text) + 6.0;
    const double left =
        std::clamp(x - width / 2.0, area_.left(), std::max(area_.left(), area_.right() - width));
    for (const double top : tops) {
        label.where = QRectF(left, top, width, metrics.height());
        if (!isFree(label.where)) continue;
        labels_.push_back(label);
        return true;
    }
    return false;
}

} // namespace headmark
