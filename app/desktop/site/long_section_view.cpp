#include "app/desktop/site/long_section_view.h"

#include "app/desktop/frame/theme.h"
#include "app/desktop/site/item_words.h"

#include <QHelpEvent>
#include <QKeyEvent>
#include <QPainter>
#include <QToolTip>

#include <algorithm>

namespace headmark {

namespace {

enum Tone { kPlain, kGrade, kLoss };

} // namespace

LongSectionView::LongSectionView(QWidget* parent) : QWidget(parent) {
    setFocusPolicy(Qt::StrongFocus);
    setMouseTracking(true);
    setAccessibleName(tr("Long section"));
    setToolTipDuration(8000);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Expanding);
}

QSize LongSectionView::sizeHint() const {
    const int line = fontMetrics().height();
    return {line * 40, line * 15};
}

QSize LongSectionView::minimumSizeHint() const {
    const int line = fontMetrics().height();
    return {line * 16, line * 4}; // small text and a message above: the window keeps its size
}

double LongSectionView::symbol() const { return fontMetrics().height() * 0.85; }

// A riser long enough to show its valve, though the emitters stand at the main's level.
double LongSectionView::zoneTop(const SectionZone& zone) const {
    const double foot = y(zone.main_m), head = y(zone.level_m);
    const double shortest = symbol() * 1.9;
    return head > foot + shortest ? foot : std::min(head, foot - shortest);
}

double LongSectionView::x(double share) const { return plot_.left() + share * plot_.width(); }

double LongSectionView::y(double level_m) const {
    const SectionDrawing& d = content_.drawing;
    return plot_.bottom() - (level_m - d.least_m) / (d.greatest_m - d.least_m) * plot_.height();
}

void LongSectionView::show(Content content) {
    content_ = std::move(content);
    QStringList words;
    for (const SectionZone& zone : content_.drawing.zones) {
        const QString name = QString::fromStdString(zone.name);
        words += zone.open ? tr("%1 open").arg(name) : tr("%1 shut").arg(name);
    }
    setAccessibleDescription(content_.missing.isEmpty() ? words.join(QStringLiteral(", "))
                                                        : content_.missing);
    arrange();
    update();
}

void LongSectionView::setSelected(const RunSpot& spot) {
    if (selected_ == spot) return;
    selected_ = spot;
    update();
}

void LongSectionView::arrange() {
    const QFontMetricsF metrics(smallFont());
    const double left = metrics.horizontalAdvance(QStringLiteral("−000")) + 8.0;
    plot_ = QRectF(left, metrics.height() * 0.6, std::max(10.0, width() - left - 8.0),
                   std::max(10.0, height() - metrics.height() * 1.2));
    arrangeHits();
    arrangeLabels();
}

void LongSectionView::arrangeHits() {
    hits_.clear();
    const SectionDrawing& d = content_.drawing;
    if (!d.drawable) return;
    const double side = symbol();
    const double waterTop = std::min(y(d.high_m), y(d.shown_m)) - 4.0;
    hits_.push_back({QRectF(QPointF(x(d.sourceFrom), waterTop), QPointF(x(d.sourceTo), y(d.low_m) + side)),
                     {RunPart::source, -1, -1},
                     content_.source});
    for (const auto* run : {&d.suction, &d.delivery}) {
        for (const SectionItem& item : *run) {
            const double half = item.symbol == SectionItem::Symbol::pipe ? 4.0 : side / 2.0;
            QRectF where(at(item.from, item.levelFrom_m), at(item.to, item.levelTo_m));
            hits_.push_back({where.normalized().adjusted(-1.0, -half, 1.0, half), item.spot, QString()});
        }
    }
    for (const SectionZone& zone : d.zones) {
        const double top = zoneTop(zone) - 2.0;
        const double bottom = std::max(y(zone.level_m), y(zone.main_m));
        const QString says = content_.zoneSays.value(zone.zone);
        const QString name = QString::fromStdString(zone.name);
        hits_.push_back({QRectF(x(zone.at) - side, top, side * 2.0, bottom - top + side * 0.4),
                         {RunPart::zone, zone.zone, -1},
                         says.isEmpty() ? name : tr("%1: %2").arg(name, says)});
    }
    if (d.outlet_m)
        hits_.push_back(
            {QRectF(at(1.0, *d.outlet_m) - QPointF(side * 2.0, side), QSizeF(side * 2.0, side * 1.6)),
             {RunPart::outlet, -1, -1},
             tr("Outlet")});
    hits_.push_back({QRectF(at(d.pumpAt, d.pump_m) - QPointF(side, side), QSizeF(side * 2.0, side * 2.0)),
                     {RunPart::pump, -1, -1},
                     tr("Pump")});
}

void LongSectionView::arrangeLabels() {
    labels_.clear();
    const SectionDrawing& d = content_.drawing;
    LabelLayout layout(QRectF(plot_.left(), 0, plot_.width(), height()));
    const QFont plain = smallFont();
    const QFontMetricsF metrics(plain);
    const double line = metrics.height();
    const double side = symbol();
    if (!d.drawable) {
        layout.place({tr("A known system curve stands in place of the run."), {}, true, false, kPlain}, plain,
                     plot_.center().x(), {plot_.center().y()});
        labels_ = layout.labels();
        return;
    }
    for (const SectionZone& zone : d.zones) {
        const double top = zoneTop(zone) - 2.0;
        const double bottom = std::max(y(zone.level_m), y(zone.main_m));
        layout.block(QRectF(x(zone.at) - side, top, side * 2.0, bottom - top + 3.0));
    }
    layout.block(QRectF(at(d.pumpAt, d.pump_m) - QPointF(side, side), QSizeF(side * 2.0, side * 2.0)));
    for (const SectionItem& item : d.delivery) {
        if (item.symbol == SectionItem::Symbol::filter)
            layout.block(
                QRectF(x(item.from), y(item.levelFrom_m) - side / 2.0, x(item.to) - x(item.from), side));
        if (item.energyAfter_m)
            layout.block(QRectF(at(item.from, item.energyBefore_m.value_or(*item.energyAfter_m)),
                                at(item.to, *item.energyAfter_m))
                             .normalized()
                             .adjusted(0, -2, 0, 2));
    }
    if (d.pumpBefore_m && d.pumpAfter_m)
        layout.block(QRectF(at(d.pumpAt, *d.pumpAfter_m), at(d.pumpAt, *d.pumpBefore_m))
                         .normalized()
                         .adjusted(-2, 0, 2, 0));
    const auto under = [&](double from) {
        return std::vector<double>{from, from + line, from + 2 * line, from + 3 * line};
    };
    const auto over = [&](double from) {
        return std::vector<double>{from - line, from - 2 * line, from - 3 * line};
    };
    if (!content_.missing.isEmpty())
        layout.place({content_.missing, {}, false, true, kGrade}, plain, plot_.center().x(),
                     under(plot_.top() + 2));
    if (d.pumpAfter_m && d.pumpAdds_m) {
        const QString adds = tr("the pump adds %1").arg(content_.units.text(Head::fromMetres(*d.pumpAdds_m)));
        const double half = metrics.horizontalAdvance(adds) / 2.0 + 6.0;
        layout.place({adds, {}, false, true, kGrade}, plain, x(d.pumpAt) + half,
                     over(y(*d.pumpAfter_m) - 2.0));
    }
    const PlacedLabel pump{tr("pump"), {}, false, true, kPlain};
    // Beside the suction pipe that comes up from the left, not over it.
    const double risesFrom = d.waterAbovePump ? 0.0 : metrics.horizontalAdvance(pump.text) / 2.0 + 4.0;
    layout.place(pump, plain, x(d.pumpAt) + risesFrom, under(y(d.pump_m) + side + 2.0));
    for (const SectionItem& item : d.delivery) {
        if (item.symbol != SectionItem::Symbol::filter) continue;
        layout.place({tr("filter"), {}, false, false, kPlain}, plain, x(item.middle()),
                     under(y(item.levelFrom_m) + side * 0.7));
        if (item.loss_m && item.energyAfter_m)
            layout.place({tr("filter takes %1").arg(content_.units.text(Head::fromMetres(*item.loss_m))),
                          {},
                          false,
                          false,
                          kLoss},
                         plain, x(item.to), under(y(*item.energyAfter_m) + 3.0));
    }
    for (const SectionZone& zone : d.zones) {
        const double bottom = std::max(y(zone.level_m), y(zone.main_m)) + 6.0;
        const double top = zoneTop(zone) - 2.0;
        std::vector<double> tops = under(bottom);
        tops.push_back(top - line);
        layout.place(
            {QString::fromStdString(zone.name), {}, !zone.open, zone.open, kPlain}, plain, x(zone.at), tops,
            std::max(line * 5.0, plot_.width() / std::max(3.0, static_cast<double>(d.zones.size()))));
    }
    for (const SectionZone& zone : d.zones) {
        const QString says = content_.zoneSays.value(zone.zone);
        if (!zone.open || says.isEmpty()) continue;
        layout.place({says, {}, false, false, kPlain}, plain, x(zone.at), over(zoneTop(zone) - 4.0));
    }
    layout.place({content_.source, {}, true, false, kPlain}, plain, (x(d.sourceFrom) + x(d.sourceTo)) / 2.0,
                 under(y(std::min(d.low_m, d.shown_m)) + side * 0.9),
                 std::max(line * 6.0, x(d.pumpAt) - x(0.0)));
    labels_ = layout.labels();
}

QRectF LongSectionView::rectOf(const RunSpot& spot) const {
    for (const Hit& hit : hits_) {
        if (hit.spot == spot) return hit.where;
    }
    return {};
}

// The smallest of those under the pointer: a fitting on a long pipe can be met.
const LongSectionView::Hit* LongSectionView::hitAt(const QPointF& where) const {
    const Hit* best = nullptr;
    for (const Hit& hit : hits_) {
        if (!hit.where.adjusted(-2, -2, 2, 2).contains(where)) continue;
        const double area = hit.where.width() * hit.where.height();
        if (!best || area < best->where.width() * best->where.height()) best = &hit;
    }
    return best;
}

void LongSectionView::resizeEvent(QResizeEvent*) { arrange(); }

void LongSectionView::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::FontChange) arrange();
}

void LongSectionView::mousePressEvent(QMouseEvent* event) {
    if (const Hit* hit = hitAt(event->position())) {
        setSelected(hit->spot);
        emit picked(hit->spot);
    }
}

// Left and right go from item to item, in the order of the water.
void LongSectionView::keyPressEvent(QKeyEvent* event) {
    const int step = event->key() == Qt::Key_Right ? 1 : event->key() == Qt::Key_Left ? -1 : 0;
    if (step == 0 || hits_.empty()) {
        QWidget::keyPressEvent(event);
        return;
    }
    std::vector<const Hit*> order;
    for (const Hit& hit : hits_)
        order.push_back(&hit);
    std::stable_sort(order.begin(), order.end(), [](const Hit* a, const Hit* b) {
        return a->where.center().x() < b->where.center().x();
    });
    const auto now =
        std::find_if(order.begin(), order.end(), [&](const Hit* hit) { return hit->spot == selected_; });
    const auto last = static_cast<std::ptrdiff_t>(order.size()) - 1;
    const std::ptrdiff_t index =
        now == order.end() ? 0 : std::clamp<std::ptrdiff_t>(now - order.begin() + step, 0, last);
    const RunSpot spot = order[static_cast<std::size_t>(index)]->spot;
    setSelected(spot);
    emit picked(spot);
}

bool LongSectionView::event(QEvent* event) {
    if (event->type() != QEvent::ToolTip) return QWidget::event(event);
    auto* help = static_cast<QHelpEvent*>(event);
    const Hit* hit = hitAt(help->pos());
    if (hit && !hit->tip.isEmpty())
        QToolTip::showText(help->globalPos(), hit->tip, this);
    else
        QToolTip::hideText();
    return true;
}

} // namespace headmark
