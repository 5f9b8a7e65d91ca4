#include "furniture.h"

#include "chart.h"

#include <QFontMetricsF>
#include <QPolygonF>

#include <algorithm>

namespace headmark::pages {

namespace {

const QStringList& sentences() {
    static const QStringList all = {
        "Single-stage pump for clean water in gardens, nurseries and small farms.",
        "The casing is of grey cast iron, painted inside and out.",
        "The impeller is balanced and can be taken out without moving the pipes.",
        "The shaft seal needs no care as long as it never runs dry.",
        "Before the first start the casing is filled with water to the upper plug.",
        "Figures hold for water of 20 degrees and an open tank beside the pump.",
        "The motor stands on feet of its own and is cooled by its fan.",
        "Where frost is likely the drain plug is opened in autumn.",
        "The lines show the mean of several pumps of the same kind.",
        "A valve behind the outlet lets the flow be set when the pump is put to work.",
        "The suction pipe should be no narrower than the inlet and rise towards the pump.",
        "Other voltages and seals are made on request.",
        "Spare parts are kept for ten years after the last pump was sold.",
        "The pump may stand level or with its shaft upright, never with the motor below.",
    };
    return all;
}

void drawArrow(QPainter& painter, QPointF from, QPointF to, const QString& letter, QPointF letterAt) {
    painter.drawLine(from, to);
    const QPointF along = (to - from) / std::max(1.0, std::hypot(to.x() - from.x(), to.y() - from.y()));
    const QPointF across(-along.y(), along.x());
    const QPen pen = painter.pen();
    painter.setBrush(pen.color());
    painter.drawPolygon(QPolygonF{from, from + along * 4 + across * 1.3, from + along * 4 - across * 1.3});
    painter.drawPolygon(QPolygonF{to, to - along * 4 + across * 1.3, to - along * 4 - across * 1.3});
    painter.setBrush(Qt::NoBrush);
    painter.drawText(QRectF(letterAt.x() - 10, letterAt.y() - 6, 20, 12), Qt::AlignCenter, letter);
}

void drawPumpBody(QPainter& painter, const QRectF& box) {
    const double w = box.width(), h = box.height();
    const auto at = [&](double x, double y) { return QPointF(box.left() + x * w, box.top() + y * h); };
    const auto part = [&](double x0, double y0, double x1, double y1) {
        painter.drawRect(QRectF(at(x0, y0), at(x1, y1)));
    };
    part(0.40, 0.34, 0.86, 0.70); // motor
    for (int k = 1; k < 7; ++k)
        painter.drawLine(at(0.43, 0.34 + 0.0515 * k), at(0.76, 0.34 + 0.0515 * k));
    part(0.78, 0.31, 0.92, 0.73);                                // fan cover
    part(0.50, 0.25, 0.66, 0.34);                                // terminal box
    part(0.33, 0.40, 0.40, 0.64);                                // bracket
    painter.drawEllipse(QRectF(at(0.17, 0.27), at(0.36, 0.77))); // casing
    painter.drawEllipse(QRectF(at(0.225, 0.41), at(0.305, 0.63)));
    part(0.21, 0.14, 0.32, 0.29); // outlet
    part(0.19, 0.11, 0.34, 0.14);
    part(0.10, 0.44, 0.175, 0.60); // inlet
    part(0.07, 0.40, 0.10, 0.64);
    part(0.22, 0.76, 0.31, 0.84); // feet
    part(0.46, 0.70, 0.56, 0.84);
    part(0.68, 0.70, 0.78, 0.84);
    painter.drawLine(at(0.04, 0.84), at(0.95, 0.84));
}

} // namespace

void drawParagraph(QPainter& painter, const QRectF& box, const QString& family, double size_pt,
                   const QColor& ink, Dice& dice) {
    painter.setFont(letters(family, size_pt));
    painter.setPen(ink);
    const double row_pt = QFontMetricsF(painter.font()).height();
    const int last = static_cast<int>(sentences().size()) - 1;
    int next = dice.whole(0, last);
    QStringList words;
    double y = box.top();
    while (y + row_pt <= box.bottom()) {
        QString row;
        for (;;) {
            if (words.isEmpty()) {
                words = sentences()[next].split(' ');
                next = (next + 1) % (last + 1);
            }
            const QString longer = row.isEmpty() ? words.first() : row + ' ' + words.first();
            if (QFontMetricsF(painter.font()).horizontalAdvance(longer) > box.width()) break;
            row = longer;
            words.removeFirst();
        }
        painter.drawText(QRectF(box.left(), y, box.width() + 20, row_pt), Qt::AlignLeft | Qt::AlignVCenter,
                         row);
        y += row_pt;
    }
}

void drawTable(QPainter& painter, const QRectF& box, const std::vector<QStringList>& rows,
               const QString& family, double size_pt, const QColor& headGround) {
    const double row_pt = box.height() / static_cast<double>(rows.size());
    const double first_pt = box.width() * 0.24;
    const double other_pt = (box.width() - first_pt) / static_cast<double>(rows.front().size() - 1);
    painter.fillRect(QRectF(box.left(), box.top(), box.width(), row_pt), headGround);
    for (std::size_t r = 0; r < rows.size(); ++r) {
        const double y = box.top() + static_cast<double>(r) * row_pt;
        painter.setFont(letters(family, size_pt, r == 0));
        painter.setPen(r == 0 && headGround.lightness() < 128 ? Qt::white : Qt::black);
        for (qsizetype c = 0; c < rows[r].size(); ++c) {
            const double x =
                c == 0 ? box.left() : box.left() + first_pt + other_pt * static_cast<double>(c - 1);
            painter.drawText(QRectF(x + 3, y, (c == 0 ? first_pt : other_pt) - 6, row_pt),
                             Qt::AlignVCenter | (c == 0 ? Qt::AlignLeft : Qt::AlignHCenter), rows[r][c]);
        }
        painter.setPen(QPen(QColor(130, 130, 130), 0.3));
        painter.drawLine(QPointF(box.left(), y), QPointF(box.right(), y));
    }
    painter.setPen(QPen(Qt::black, 0.5));
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(box);
}

std::vector<QStringList> sizeRows(const QStringList& models, Dice& dice) {
    std::vector<QStringList> rows = {{"Model", "a", "b", "c", "h1", "h2", "kg"}};
    int length = dice.whole(300, 380);
    for (const QString& model : models) {
        length += dice.whole(12, 40);
        rows.push_back({model, QString::number(length), QString::number(length / 2 - dice.whole(5, 20)),
                        QString::number(dice.whole(70, 95)), QString::number(dice.whole(90, 132)),
                        QString::number(dice.whole(160, 210)), QString::number(length / 14)});
    }
    return rows;
}

void drawSketch(QPainter& painter, const QRectF& box, const QString& family, const QColor& ink) {
    painter.setPen(QPen(ink, 0.6));
    painter.setBrush(Qt::NoBrush);
    drawPumpBody(painter, box);
    painter.setPen(QPen(ink, 0.3));
    painter.setFont(letters(family, 6.0, false, true));
    const auto at = [&](double x, double y) {
        return QPointF(box.left() + x * box.width(), box.top() + y * box.height());
    };
    for (const double x : {0.07, 0.92, 0.51})
        painter.drawLine(at(x, 0.86), at(x, 0.99));
    drawArrow(painter, at(0.07, 0.97), at(0.92, 0.97), "a", at(0.72, 0.93));
    drawArrow(painter, at(0.07, 0.90), at(0.51, 0.90), "b", at(0.15, 0.865));
    painter.drawLine(at(0.0, 0.52), at(0.07, 0.52));
    painter.drawLine(at(0.0, 0.11), at(0.19, 0.11));
    drawArrow(painter, at(0.02, 0.52), at(0.02, 0.84), "h1", at(-0.03, 0.68));
    drawArrow(painter, at(0.02, 0.11), at(0.02, 0.52), "h2", at(-0.03, 0.32));
}

QString modelName(Dice& dice) {
    static const int kBores[] = {25, 32, 40, 50};
    static const int kWheels[] = {125, 160, 200};
    const int bore = kBores[dice.whole(0, 3)], wheel = kWheels[dice.whole(0, 2)];
    switch (dice.whole(0, 3)) {
    case 0:
        return QString("Model K %1-%2").arg(bore).arg(wheel);
    case 1:
        return QString("Type R%1").arg(bore * 10 + dice.whole(1, 9));
    case 2:
        return QString("Series T %1/%2").arg(bore).arg(dice.whole(3, 9));
    default:
        return QString("Garden pump %1-W").arg(dice.whole(4, 19));
    }
}

} // namespace headmark::pages
