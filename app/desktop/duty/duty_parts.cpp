// What a picture is put together from: curves, dots, rules and labels, and where the labels go once the
// layout is known.
#include "app/desktop/duty/duty_drawing.h"
#include "app/desktop/duty/plot_pens.h"
#include "app/desktop/frame/theme.h"

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

constexpr int kLongestName_px = 230;
const QMargins kTextPadding(3, 1, 3, 1);

QSizeF sizeOf(const QCPItemText& item) {
    const QRect text =
        QFontMetrics(item.font()).boundingRect(0, 0, 0, 0, Qt::TextDontClip | Qt::AlignLeft, item.text());
    return QSizeF(text.size()).grownBy(QMarginsF(item.padding()));
}

} // namespace

QString DutyDrawing::shortName(const std::string& name) const {
    return QFontMetrics(smallFont())
        .elidedText(QString::fromStdString(name), Qt::ElideRight, kLongestName_px);
}

QCPGraph* DutyDrawing::addCurve(QCPAxisRect& rect, QCPAxis* y, const QVector<double>& keys,
                                const QVector<double>& values, const QPen& pen) {
    QCPGraph* graph = canvas_.addGraph(rect.axis(QCPAxis::atBottom), y);
    graph->setData(keys, values, true);
    graph->setPen(pen);
    graph->setSelectable(QCP::stNone);
    return graph;
}

std::size_t DutyDrawing::addLine(QCPAxisRect& rect, QCPAxis* y, const QVector<double>& keys,
                                 const QVector<double>& values) {
    lines_.push_back({&rect, rect.axis(QCPAxis::atBottom), y, keys, values});
    return lines_.size() - 1;
}

void DutyDrawing::addDot(QCPAxisRect& rect, QCPAxis* y, double key, double value, const QColor& color,
                         bool filled) {
    QCPGraph* dot = addCurve(rect, y, {key}, {value}, Qt::NoPen);
    dot->setLineStyle(QCPGraph::lsNone);
    dot->setScatterStyle(QCPScatterStyle(QCPScatterStyle::ssCircle, QPen(color, filled ? 1.0 : 1.6),
                                         filled ? QBrush(color) : QBrush(theme().surface),
                                         filled ? 10.0 : 7.0));
}

void DutyDrawing::addRule(QCPAxisRect& rect, QCPAxis* y, const QPointF& from, const QPointF& to,
                          const QPen& pen) {
    auto* line = new QCPItemLine(&canvas_);
    items_.push_back(line);
    line->setSelectable(false);
    line->setClipAxisRect(&rect);
    for (QCPItemPosition* at : {line->start, line->end}) {
        at->setAxisRect(&rect);
        at->setAxes(rect.axis(QCPAxis::atBottom), y);
        at->setType(QCPItemPosition::ptPlotCoords);
    }
    line->start->setCoords(from);
    line->end->setCoords(to);
    line->setPen(pen);
}

QCPItemText* DutyDrawing::addText(const QString& text, const QColor& color) {
    auto* item = new QCPItemText(&canvas_);
    items_.push_back(item);
    item->setSelectable(false);
    item->setClipToAxisRect(false);
    item->setText(text);
    item->setFont(smallFont());
    item->setColor(color);
    return item;
}

QCPItemText* DutyDrawing::addLabel(QCPAxisRect& rect, const QString& text, const QColor& color, Spots spots) {
    QCPItemText* item = addText(text, color);
    item->setPadding(kTextPadding);
    item->setPositionAlignment(Qt::AlignLeft | Qt::AlignTop);
    item->setTextAlignment(Qt::AlignLeft);
    item->position->setType(QCPItemPosition::ptAbsolute);
    labels_.push_back({item, &rect, std::move(spots)});
    return item;
}

void DutyDrawing::addDotLabel(QCPAxisRect& rect, QCPAxis* y, const QPointF& at, const QString& text,
                              const QColor& color) {
    constexpr double kAway_px = 6.0;
    addLabel(rect, text, color, [&rect, y, at](const QSizeF& size) {
        const QPointF pixel(rect.axis(QCPAxis::atBottom)->coordToPixel(at.x()), y->coordToPixel(at.y()));
        return QRectF(rect.rect()).contains(pixel) ? spotsAround(pixel, size, kAway_px)
                                                   : std::vector<QPointF>{};
    });
}

namespace {

// Of spotsAlong(): it gives as many above the line as under it, the upper ones first.
std::vector<QPointF> ofOneSide(const std::vector<QPointF>& all, bool above) {
    std::vector<QPointF> spots;
    for (std::size_t i = 0; i < all.size(); ++i) {
        if ((i % kSpotsAbreast < kSpotsAbreast / 2) == above) spots.push_back(all[i]);
    }
    return spots;
}

} // namespace

DutyDrawing::Spots DutyDrawing::onOneSide(std::size_t line, bool above) const {
    return [this, line, above](const QSizeF& size) {
        return ofOneSide(spotsAlong(visible_[line], size, true), above);
    };
}

DutyDrawing::Spots DutyDrawing::aboveOrAlong(const Line& edge, std::size_t line) const {
    return [this, edge, line](const QSizeF& size) {
        std::vector<QPointF> spots = ofOneSide(spotsAlong(visible(edge), size, true), true);
        for (const QPointF& spot : spotsAlong(visible_[line], size, false))
            spots.push_back(spot);
        return spots;
    };
}

DutyDrawing::Spots DutyDrawing::alongLine(std::size_t line, bool fromEnd) const {
    return [this, line, fromEnd](const QSizeF& size) { return spotsAlong(visible_[line], size, fromEnd); };
}

QPolygonF DutyDrawing::visible(const Line& line) {
    constexpr double kPiece_px = 8.0;
    const QRectF area(line.rect->rect());
    QPolygonF best, now;
    const auto end = [&] {
        if (now.size() > best.size()) best = now;
        now.clear();
    };
    for (qsizetype i = 0; i < line.keys.size(); ++i) {
        const QPointF to(line.x->coordToPixel(line.keys[i]), line.y->coordToPixel(line.values[i]));
        const QPointF from = i == 0 ? to
                                    : QPointF(line.x->coordToPixel(line.keys[i - 1]),
                                              line.y->coordToPixel(line.values[i - 1]));
        const QRectF box = QRectF(from, to).normalized().adjusted(-1, -1, 1, 1);
        if (!area.intersects(box)) {
            end();
            continue;
        }
        constexpr int kMostPieces = 400;
        const int pieces =
            std::clamp(static_cast<int>(QLineF(from, to).length() / kPiece_px), 1, kMostPieces);
        for (int k = 1; k <= pieces; ++k) {
            const QPointF p = from + (to - from) * (static_cast<double>(k) / pieces);
            if (area.contains(p))
                now << p;
            else
                end();
        }
    }
    end();
    return best;
}

void DutyDrawing::placeLabels() {
    boxes_.clear();
    visible_.clear();
    for (const Line& line : lines_)
        visible_.push_back(visible(line));
    for (QCPAxisRect* rect : {head_, efficiency_, npsh_}) {
        if (!rect->visible()) continue;
        LabelPlaces places;
        for (std::size_t i = 0; i < lines_.size(); ++i) {
            if (lines_[i].rect == rect) places.addLine(visible_[i]);
        }
        const QRectF area = QRectF(rect->rect()).adjusted(2, 2, -2, -2);
        if (rect == head_ && picture_.answer && picture_.answer->duty) {
            const DutyPoint& duty = *picture_.answer->duty;
            const QPointF at = pixelOf(duty.flow.inCubicMetresPerSecond(), duty.head.inMetres());
            places.cover(QRectF(at - QPointF(8, 8), QSizeF(16, 16)));
            // Its dotted rules are ink as well.
            places.addLine(QPolygonF({QPointF(head_->left(), at.y()), at, QPointF(at.x(), head_->bottom())}));
        }
        if (rect == npsh_ && margin_) {
            const QCPAxis *x = npsh_->axis(QCPAxis::atBottom), *y = npsh_->axis(QCPAxis::atLeft);
            places.cover(QRectF(QPointF(x->coordToPixel(margin_->x1()), y->coordToPixel(margin_->y1())),
                                QPointF(x->coordToPixel(margin_->x2()), y->coordToPixel(margin_->y2())))
                             .normalized()
                             .adjusted(-3, 0, 3, 0));
        }
        for (Label& label : labels_) {
            if (label.rect != rect) continue;
            const QSizeF size = sizeOf(*label.item);
            const auto box = places.place(size, area, label.spots(size));
            label.item->setVisible(box.has_value());
            if (!box) continue;
            label.item->position->setCoords(box->topLeft());
            boxes_.push_back(*box);
        }
    }
}

} // namespace headmark
