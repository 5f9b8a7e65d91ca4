#include "app/desktop/frame/rail.h"

#include "app/desktop/frame/theme.h"

#include <QPainter>
#include <QPainterPath>

namespace headmark {

namespace {

constexpr int kSign_px = 16;

QString markText(PlaceMark mark) {
    switch (mark) {
    case PlaceMark::empty:
        return Rail::tr("nothing here yet");
    case PlaceMark::ready:
        return Rail::tr("ready");
    case PlaceMark::attention:
        break;
    }
    return Rail::tr("needs attention");
}

} // namespace

void paintSign(QPainter& painter, const QRectF& where, Sign sign) {
    const Theme& t = theme();
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const QPointF c = where.center();
    const double r = 0.5 * std::min(where.width(), where.height());
    QPen line(t.surface, r * 0.24, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin);
    switch (sign) {
    case Sign::empty:
        painter.setPen(QPen(t.faint, r * 0.2));
        painter.setBrush(Qt::NoBrush);
        painter.drawEllipse(c, r * 0.75, r * 0.75);
        break;
    case Sign::good:
        painter.setPen(Qt::NoPen);
        painter.setBrush(t.good);
        painter.drawEllipse(c, r, r);
        painter.setPen(line);
        painter.drawPolyline(QPolygonF({c + QPointF(-0.45 * r, 0.05 * r), c + QPointF(-0.1 * r, 0.4 * r),
                                        c + QPointF(0.45 * r, -0.35 * r)}));
        break;
    case Sign::note:
        painter.setPen(Qt::NoPen);
        painter.setBrush(t.note);
        painter.drawEllipse(c, r, r);
        painter.setPen(line);
        painter.drawLine(c + QPointF(0, -0.05 * r), c + QPointF(0, 0.5 * r));
        painter.drawPoint(c + QPointF(0, -0.5 * r));
        break;
    case Sign::warning:
    case Sign::danger: {
        painter.setPen(Qt::NoPen);
        painter.setBrush(sign == Sign::warning ? t.warning : t.danger);
        QPolygonF shape;
        if (sign == Sign::warning) {
            shape << c + QPointF(0, -r) << c + QPointF(r, 0.85 * r) << c + QPointF(-r, 0.85 * r);
        } else {
            const double k = 0.41 * r;
            shape << c + QPointF(-k, -r) << c + QPointF(k, -r) << c + QPointF(r, -k) << c + QPointF(r, k)
                  << c + QPointF(k, r) << c + QPointF(-k, r) << c + QPointF(-r, k) << c + QPointF(-r, -k);
        }
        painter.drawPolygon(shape);
        painter.setPen(line);
        painter.drawLine(c + QPointF(0, -0.4 * r), c + QPointF(0, 0.2 * r));
        painter.drawPoint(c + QPointF(0, 0.58 * r));
        break;
    }
    }
    painter.restore();
}

RailButton::RailButton(const QString& text, const QKeySequence& shortcut, QWidget* parent)
    : QAbstractButton(parent), name_(text) {
    setText(text);
    setCheckable(true);
    setAutoExclusive(true);
    setFocusPolicy(Qt::StrongFocus);
    setShortcut(shortcut);
    setMark(PlaceMark::empty, {});
}

void RailButton::setMark(PlaceMark mark, const QString& words) {
    mark_ = mark;
    const QString said = words.isEmpty() ? markText(mark) : words;
    setToolTip(tr("%1: %2 (%3)").arg(name_, said, shortcut().toString(QKeySequence::NativeText)));
    setAccessibleName(tr("%1, %2").arg(name_, said));
    update();
}

QSize RailButton::sizeHint() const {
    const QFontMetrics m(font());
    return {m.horizontalAdvance(text()) + 3 * kSign_px + 40, m.height() + 18};
}

void RailButton::paintEvent(QPaintEvent*) {
    const Theme& t = theme();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const QRectF box = QRectF(rect()).adjusted(1, 1, -1, -1);
    if (isChecked() || underMouse()) {
        painter.setPen(QPen(t.border, 1));
        painter.setBrush(isChecked() ? t.surface : t.window);
        painter.drawRoundedRect(box, 7, 7);
    }
    if (isChecked()) {
        painter.setPen(Qt::NoPen);
        painter.setBrush(t.accent);
        painter.drawRoundedRect(QRectF(box.left() + 1, box.top() + 7, 4, box.height() - 14), 2, 2);
    }
    if (hasFocus()) {
        painter.setPen(QPen(t.accent, 2));
        painter.setBrush(Qt::NoBrush);
        painter.drawRoundedRect(box, 7, 7);
    }
    painter.setPen(t.text);
    QFont f = font();
    f.setWeight(isChecked() ? QFont::DemiBold : QFont::Normal);
    painter.setFont(f);
    painter.drawText(box.adjusted(16, 0, -30, 0), Qt::AlignVCenter | Qt::AlignLeft, name_);
    const Sign sign = mark_ == PlaceMark::ready       ? Sign::good
                      : mark_ == PlaceMark::attention ? Sign::warning
                                                      : Sign::empty;
    paintSign(painter,
              QRectF(box.right() - 12 - kSign_px, box.center().y() - kSign_px / 2.0, kSign_px, kSign_px),
              sign);
}

Rail::Rail(QWidget* parent) : QWidget(parent), layout_(new QVBoxLayout(this)) {
    layout_->setContentsMargins(8, 16, 8, 16);
    layout_->setSpacing(6);
    layout_->addStretch(1);
    setAccessibleName(tr("Places"));
}

RailButton* Rail::add(PlaceId place, const QString& text, const QKeySequence& shortcut) {
    auto* button = new RailButton(text, shortcut, this);
    layout_->insertWidget(layout_->count() - 1, button);
    entries_.push_back({place, button});
    connect(button, &RailButton::clicked, this, [this, place] { emit chosen(place); });
    return button;
}

void Rail::setCurrent(PlaceId place) {
    for (const Entry& e : entries_)
        if (e.place == place) e.button->setChecked(true);
}

void Rail::setMark(PlaceId place, PlaceMark mark, const QString& words) {
    for (const Entry& e : entries_)
        if (e.place == place) e.button->setMark(mark, words);
}

void Rail::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), theme().sunken);
    painter.setPen(theme().border);
    painter.drawLine(rect().topRight(), rect().bottomRight());
}

} // namespace headmark
