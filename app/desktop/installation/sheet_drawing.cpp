#include "app/desktop/installation/sheet_drawing.h"

#include "app/desktop/frame/screen_phrasing.h"
#include "app/desktop/frame/theme.h"
#include "app/desktop/installation/strokes_painter.h"
#include "app/words/part_words.h"

#include <QHelpEvent>
#include <QKeyEvent>
#include <QToolTip>

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

constexpr double kNumber_mm = 2.6; // height of a number on the drawing
constexpr double kStale = 0.45;
constexpr double kZoomStep = 1.25;
constexpr double kLeastZoom = 0.5, kGreatestZoom = 4.0;
constexpr double kMark_mm = 1.2; // round the chosen part

QRectF rectOf(const DrawBox& box) { return {box.left, box.top, box.width, box.height}; }

} // namespace

SheetDrawing::SheetDrawing(QWidget* parent) : QWidget(parent) {
    setFocusPolicy(Qt::StrongFocus);
    setMouseTracking(true);
    setAccessibleName(tr("Drawing of the connections"));
    setProperty("drawing", true); // wider than its view it is moved along
}

// A number on the drawing as high as the small font's capitals.
double SheetDrawing::leastScale() const { return QFontMetricsF(smallFont()).capHeight() / kNumber_mm; }

void SheetDrawing::show(const ConnectionSheet& sheet, bool stale) {
    sheet_ = sheet;
    drawing_ = schematicOf(sheet);
    stale_ = stale;
    if (selected_ && *selected_ >= sheet.parts.size()) selected_.reset();
    fitTo(room_);
    describe();
    update();
}

void SheetDrawing::clear() {
    sheet_ = {};
    drawing_ = {};
    selected_.reset();
    updateGeometry();
    update();
}

void SheetDrawing::fitTo(int width) {
    room_ = width;
    if (drawing_.width <= 0.0) return;
    setScale(zoom_ * std::max(leastScale(), width / drawing_.width));
}

void SheetDrawing::zoom(double factor) {
    zoom_ = std::clamp(zoom_ * factor, kLeastZoom, kGreatestZoom);
    fitTo(room_);
}

void SheetDrawing::setScale(double scale) {
    if (std::abs(scale - scale_) > 1e-6) {
        scale_ = scale;
        update();
    }
    setFixedSize(sizeHint());
}

QSize SheetDrawing::sizeHint() const {
    return {static_cast<int>(std::floor(drawing_.width * scale_)),
            static_cast<int>(std::ceil(drawing_.height * scale_))};
}

std::optional<std::size_t> SheetDrawing::partAt(const QPointF& place) const {
    const QPointF at = place / scale_;
    constexpr double kNear_mm = 1.0;
    for (const SchematicSymbol& symbol : drawing_.symbols) {
        if (rectOf(symbol.box.grown(kNear_mm)).contains(at)) return symbol.part;
    }
    for (const SchematicLabel& label : drawing_.labels) {
        if (label.part && rectOf(label.box).contains(at)) return label.part;
    }
    return std::nullopt;
}

QRectF SheetDrawing::boxOf(std::size_t part) const {
    QRectF box;
    for (const SchematicSymbol& symbol : drawing_.symbols) {
        if (symbol.part == part) box |= rectOf(symbol.box);
    }
    return {box.topLeft() * scale_, box.size() * scale_};
}

void SheetDrawing::select(std::optional<std::size_t> part) {
    if (selected_ == part) return;
    selected_ = part;
    describe();
    update();
}

void SheetDrawing::choose(std::size_t part) {
    select(part);
    emit partChosen(static_cast<int>(part));
}

void SheetDrawing::describe() {
    QStringList words;
    if (selected_ && *selected_ < sheet_.parts.size()) {
        const PlacedPart& part = sheet_.parts[*selected_];
        words << tr("Chosen: %1, %2.").arg(*selected_ + 1).arg(placedPartWords(part, screenPhrasing()));
    }
    words << tr("Left and right go from part to part; plus and minus draw it larger and smaller.");
    setAccessibleDescription(words.join(QLatin1Char(' ')));
}

void SheetDrawing::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.save();
    painter.scale(scale_, scale_);
    if (selected_) {
        for (const SchematicSymbol& symbol : drawing_.symbols) {
            if (symbol.part != *selected_) continue;
            QColor fill = theme().accent;
            fill.setAlphaF(0.18F);
            painter.setBrush(fill);
            painter.setPen(QPen(theme().accent, 0.5));
            painter.drawRoundedRect(rectOf(symbol.box.grown(kMark_mm)), 1.0, 1.0);
        }
    }
    if (stale_) painter.setOpacity(kStale);
    paintStrokes(painter, drawing_.strokes(), theme().text, screenPhrasing());
    painter.restore();
    if (!hasFocus()) return;
    painter.setPen(QPen(theme().accent, 2));
    painter.setBrush(Qt::NoBrush);
    painter.drawRoundedRect(QRectF(rect()).adjusted(1, 1, -1, -1), 5, 5);
}

void SheetDrawing::keyPressEvent(QKeyEvent* event) {
    const std::size_t count = sheet_.parts.size();
    if (count > 0 && event->key() == Qt::Key_Right) {
        choose(selected_ ? std::min(*selected_ + 1, count - 1) : 0);
    } else if (count > 0 && event->key() == Qt::Key_Left) {
        choose(selected_ && *selected_ > 0 ? *selected_ - 1 : 0);
    } else if (event->key() == Qt::Key_Plus) {
        zoom(kZoomStep);
    } else if (event->key() == Qt::Key_Minus) {
        zoom(1.0 / kZoomStep);
    } else {
        QWidget::keyPressEvent(event);
    }
}

void SheetDrawing::mousePressEvent(QMouseEvent* event) {
    QWidget::mousePressEvent(event);
    if (const auto part = partAt(event->position())) choose(*part);
}

void SheetDrawing::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::FontChange) fitTo(room_);
}

bool SheetDrawing::event(QEvent* event) {
    if (event->type() != QEvent::ToolTip) return QWidget::event(event);
    const auto* help = static_cast<QHelpEvent*>(event);
    QString words;
    if (const auto part = partAt(help->pos())) {
        const PlacedPart& placed = sheet_.parts[*part];
        words = QStringLiteral("%1  %2\n%3")
                    .arg(*part + 1)
                    .arg(placedPartWords(placed, screenPhrasing()),
                         partPurpose(placed.purpose, screenPhrasing()));
    }
    QToolTip::showText(help->globalPos(), words, this);
    return true;
}

void SheetDrawing::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    update();
}

void SheetDrawing::focusOutEvent(QFocusEvent* event) {
    QWidget::focusOutEvent(event);
    update();
}

} // namespace headmark
