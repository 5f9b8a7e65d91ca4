#include "app/desktop/shifts/shift_chart.h"

#include "app/desktop/duty/picture_export.h"
#include "app/desktop/frame/theme.h"
#include "app/desktop/shifts/shift_painting.h"

#include <QHelpEvent>
#include <QKeyEvent>
#include <QPainter>
#include <QPdfWriter>
#include <QSvgGenerator>
#include <QToolTip>

namespace headmark {

namespace {

constexpr double kPictureScale = 2.0;
constexpr double kStale = 0.45; // of its strength, what is of an earlier edit
constexpr double kPointsPerInch = 72.0;

} // namespace

ShiftChart::ShiftChart(QWidget* parent) : QWidget(parent) {
    setFocusPolicy(Qt::StrongFocus);
    setAccessibleName(tr("Day chart of the shifts"));
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Expanding);
    setMouseTracking(true);
}

void ShiftChart::show(const ShiftNight& night, bool stale) {
    night_ = night;
    stale_ = stale;
    if (selected_ && *selected_ >= night.plan.shifts.size()) selected_.reset();
    layOutAnew();
    describe();
    updateGeometry();
}

void ShiftChart::clear() {
    night_.reset();
    selected_.reset();
    layOutAnew();
}

void ShiftChart::layOutAnew() {
    layout_ = night_ ? layOut(*night_, size(), smallFont()) : ShiftLayout{};
    update();
}

QString ShiftChart::barWords(const ShiftBar& bar) const {
    const ShiftPlanFinding::Shift& shift = night_->plan.shifts[bar.shift];
    Flow flow;
    for (const auto& station : shift.stations) {
        if (station.station == static_cast<int>(bar.zone) + 1) flow = station.flow;
    }
    return tr("Shift %1: station %2, %3, %4 to %5, %6 min at %7")
        .arg(bar.shift + 1)
        .arg(bar.zone + 1)
        .arg(QString::fromStdString(night_->zones[bar.zone]), night_->timeOf(shift.beginMinute),
             night_->timeOf(shift.beginMinute + shift.minutes))
        .arg(shift.minutes)
        .arg(night_->units.text(flow));
}

void ShiftChart::describe() {
    QStringList parts;
    for (const ShiftBar& bar : layout_.bars)
        parts << barWords(bar) + QLatin1Char('.');
    if (night_->dry_min) parts << tr("The source runs dry at %1.").arg(night_->timeOf(*night_->dry_min));
    parts << tr("Left and right go from shift to shift.");
    setAccessibleDescription(parts.join(QLatin1Char(' ')));
}

void ShiftChart::select(std::optional<std::size_t> shift) {
    if (selected_ == shift) return;
    selected_ = shift;
    update();
}

void ShiftChart::choose(std::size_t shift) {
    select(shift);
    emit shiftChosen(static_cast<int>(shift));
}

void ShiftChart::draw(QPainter& painter, bool withChoice) const {
    if (!night_) return;
    paintShifts(painter, {*night_, layout_, smallFont(), withChoice ? selected_ : std::nullopt});
}

void ShiftChart::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.save();
    if (stale_) painter.setOpacity(kStale);
    draw(painter, true);
    painter.restore();
    if (!hasFocus()) return;
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(theme().accent, 2));
    painter.setBrush(Qt::NoBrush);
    painter.drawRoundedRect(QRectF(rect()).adjusted(1, 1, -1, -1), 5, 5);
}

void ShiftChart::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    layOutAnew();
}

void ShiftChart::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::FontChange) layOutAnew();
}

void ShiftChart::keyPressEvent(QKeyEvent* event) {
    const std::size_t count = night_ ? night_->plan.shifts.size() : 0;
    if (count > 0 && event->key() == Qt::Key_Right) {
        choose(selected_ ? std::min(*selected_ + 1, count - 1) : 0);
    } else if (count > 0 && event->key() == Qt::Key_Left) {
        choose(selected_ && *selected_ > 0 ? *selected_ - 1 : 0);
    } else {
        QWidget::keyPressEvent(event);
    }
}

void ShiftChart::mousePressEvent(QMouseEvent* event) {
    QWidget::mousePressEvent(event);
    if (const auto bar = layout_.barAt(event->position())) choose(layout_.bars[*bar].shift);
}

bool ShiftChart::event(QEvent* event) {
    if (event->type() != QEvent::ToolTip) return QWidget::event(event);
    const auto* help = static_cast<QHelpEvent*>(event);
    const auto bar = layout_.barAt(help->pos());
    QToolTip::showText(help->globalPos(), bar ? barWords(layout_.bars[*bar]) : QString(), this);
    return true;
}

void ShiftChart::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    update();
}

void ShiftChart::focusOutEvent(QFocusEvent* event) {
    QWidget::focusOutEvent(event);
    update();
}

QPixmap ShiftChart::pixmap() const {
    QPixmap picture(size() * kPictureScale);
    picture.setDevicePixelRatio(kPictureScale);
    picture.fill(theme().surface);
    QPainter painter(&picture);
    draw(painter, false);
    return picture;
}

bool ShiftChart::writeTo(const QString& path) const {
    const QString ending = pathEnding(path);
    if (ending == QLatin1String("png")) return pixmap().save(path, "PNG");
    if (ending == QLatin1String("svg")) {
        QSvgGenerator generator;
        generator.setFileName(path);
        generator.setSize(size());
        generator.setViewBox(rect());
        generator.setResolution(logicalDpiX());
        generator.setTitle(tr("Shift plan"));
        QPainter painter;
        if (!painter.begin(&generator)) return false;
        painter.fillRect(rect(), theme().surface);
        draw(painter, false);
        return painter.end();
    }
    if (ending != QLatin1String("pdf")) return false;
    QPdfWriter writer(path);
    writer.setResolution(logicalDpiX());
    const double points = kPointsPerInch / logicalDpiX();
    writer.setPageSize(QPageSize(QSizeF(size()) * points, QPageSize::Point, {}, QPageSize::ExactMatch));
    writer.setPageMargins({});
    writer.setTitle(tr("Shift plan"));
    QPainter painter;
    if (!painter.begin(&writer)) return false;
    painter.fillRect(rect(), theme().surface);
    draw(painter, false);
    return painter.end();
}

QSize ShiftChart::sizeHint() const { return minimumSizeHint(); }

QSize ShiftChart::minimumSizeHint() const {
    return night_ ? leastSize(*night_, smallFont()).toSize() : QSize(0, 0);
}

} // namespace headmark
