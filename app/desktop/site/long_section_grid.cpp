// Of long_section_view.h: the lines of equal level and their figures.

#include "app/desktop/frame/theme.h"
#include "app/desktop/site/long_section_view.h"

#include <QPainter>

#include <cmath>

namespace headmark {

namespace {

// 1, 2 or 5 times a power of ten, so that about six lines fit.
double gridStep(double span) {
    const double rough = span / 6.0;
    const double power = std::pow(10.0, std::floor(std::log10(rough)));
    for (const double factor : {1.0, 2.0, 5.0}) {
        if (factor * power >= rough) return factor * power;
    }
    return 10.0 * power;
}

} // namespace

void LongSectionView::paintGrid(QPainter& painter) const {
    const SectionDrawing& d = content_.drawing;
    const DisplayUnits& units = content_.units;
    const double least = units.figure(Level::fromMetres(d.least_m));
    const double greatest = units.figure(Level::fromMetres(d.greatest_m));
    const double step = gridStep(greatest - least);
    QRegion clear(rect()); // no line strikes through a label
    for (const PlacedLabel& label : labels_)
        clear -= label.where.toAlignedRect();
    painter.setFont(smallFont());
    const QFontMetricsF metrics(smallFont());
    for (double level = std::ceil(least / step) * step; level <= greatest; level += step) {
        const double height = y(units.levelFrom(level).inMetres());
        QColor grid = theme().border;
        grid.setAlphaF(0.6F);
        painter.setPen(QPen(grid, 1.0));
        painter.setClipRegion(clear);
        painter.drawLine(QPointF(plot_.left(), height), QPointF(plot_.right(), height));
        painter.setClipping(false);
        painter.setPen(theme().faint);
        const QRectF where(0, height - metrics.height() / 2.0, plot_.left() - 6.0, metrics.height());
        const bool last = level + step > greatest;
        painter.drawText(where, Qt::AlignRight | Qt::AlignVCenter,
                         figureText(level, step < 1.0 ? 1 : 0) +
                             (last ? QLatin1Char(' ') + units.lengthSymbol() : QString()));
    }
}

} // namespace headmark
