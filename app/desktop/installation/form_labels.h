#pragma once
// Labels of a form that holds widgets with labels of their own: all as wide as the widest, so that the fields
// stand under each other.

#include <QLabel>

#include <algorithm>

namespace headmark {

inline void alignLabels(const QWidget& form) {
    int widest = 0;
    const auto labels = form.findChildren<QLabel*>();
    for (const QLabel* label : labels) {
        if (label->buddy()) widest = std::max(widest, label->sizeHint().width());
    }
    for (QLabel* label : labels) {
        if (label->buddy()) label->setMinimumWidth(widest);
    }
}

} // namespace headmark
