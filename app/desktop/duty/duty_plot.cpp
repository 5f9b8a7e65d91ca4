#include "app/desktop/duty/duty_plot.h"

#include "app/desktop/duty/curve_reading.h"
#include "app/desktop/duty/duty_drawing.h"
#include "app/desktop/duty/duty_words.h"
#include "app/desktop/duty/picture_export.h"
#include "app/desktop/duty/plot_table.h"
#include "app/desktop/frame/theme.h"

#include <QKeyEvent>
#include <QPainter>
#include <QSvgGenerator>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

constexpr double kZoomStep = 0.85;  // of the range in view, a notch of the wheel
constexpr double kReadStep = 0.005; // of the range in view, a press of an arrow
constexpr double kPictureScale = 2.0;

} // namespace

DutyPlot::DutyPlot(QWidget* parent)
    : QWidget(parent), canvas_(new QCustomPlot(this)), drawing_(std::make_unique<DutyDrawing>(*canvas_)) {
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(3, 3, 3, 3);
    layout->addWidget(canvas_);
    setFocusPolicy(Qt::StrongFocus);
    setAccessibleName(tr("Plot of head over flow"));
    setMinimumSize(300, 140);
    canvas_->setFocusPolicy(Qt::NoFocus);
    canvas_->setInteractions({});
    canvas_->setPlottingHint(QCP::phFastPolylines, false);
    canvas_->setSelectionRectMode(QCP::srmCustom);
    canvas_->installEventFilter(this);
    connectCanvas();
}

// The drawing holds parts of the canvas: it goes first.
DutyPlot::~DutyPlot() {
    canvas_->disconnect();
    drawing_.reset();
}

void DutyPlot::connectCanvas() {
    connect(canvas_, &QCustomPlot::mouseMove, this,
            [this](QMouseEvent* event) { point(drawing_->flowAt_m3_s(event->position())); });
    connect(canvas_, &QCustomPlot::mousePress, this, [this] { setFocus(Qt::MouseFocusReason); });
    connect(canvas_, &QCustomPlot::mouseDoubleClick, this, [this] { showAll(); });
    connect(canvas_, &QCustomPlot::mouseWheel, this, [this](QWheelEvent* event) {
        const double notches = event->angleDelta().y() / 120.0;
        if (notches == 0.0) return;
        drawing_->zoomAt(event->position(), std::pow(kZoomStep, notches));
        canvas_->replot(QCustomPlot::rpQueuedReplot);
        event->accept();
    });
    connect(canvas_->selectionRect(), &QCPSelectionRect::accepted, this, [this](const QRect& rect) {
        drawing_->zoomTo(rect.normalized());
        canvas_->replot(QCustomPlot::rpQueuedReplot);
    });
}

void DutyPlot::show(const DutyPicture& picture, const DisplayUnits& units, bool grow) {
    picture_ = picture;
    units_ = units;
    QColor veil = theme().accent;
    canvas_->selectionRect()->setPen(QPen(veil, 1));
    veil.setAlpha(40);
    canvas_->selectionRect()->setBrush(veil);
    drawing_->draw(picture, units, grow);
    canvas_->replot(QCustomPlot::rpQueuedRefresh);
    describe();
    if (reading_m3_s_) point(reading_m3_s_);
}

void DutyPlot::describe() {
    QStringList parts;
    if (!picture_.pump.empty()) parts << tr("Pump %1.").arg(QString::fromStdString(picture_.pump));
    for (const SystemLine& line : picture_.systems) {
        if (line.duty)
            parts << tr("%1: %2 at %3.")
                         .arg(QString::fromStdString(line.name), units_.text(line.duty->flow),
                              units_.text(line.duty->head));
    }
    for (const Need& need : picture_.needs)
        parts << tr("%1 needs %2 at %3.")
                     .arg(QString::fromStdString(need.caseName), units_.text(need.flow),
                          units_.text(need.head));
    parts << tr("Left and right read the curves, plus and minus zoom, Home shows everything.");
    setAccessibleDescription(parts.join(QLatin1Char(' ')));
}

void DutyPlot::showAll() {
    drawing_->showAll();
    canvas_->replot(QCustomPlot::rpQueuedReplot);
}

void DutyPlot::zoomBy(double factor) {
    const auto [low, high] = drawing_->flowRange_m3_s();
    const double flow = reading_m3_s_.value_or((low + high) / 2);
    const double head = picture_.plot ? valueAt(picture_.plot->head, flow).value_or(0.0) : 0.0;
    drawing_->zoomAt(drawing_->pixelOf(flow, head), factor);
    canvas_->replot(QCustomPlot::rpQueuedReplot);
}

QString DutyPlot::readingAt(double flow_m3_s) const {
    QStringList parts;
    const auto head = [this](double m) { return units_.text(Head::fromMetres(m)); };
    if (picture_.plot) {
        const PumpPlot& plot = *picture_.plot;
        if (const auto h = valueAt(plot.head, flow_m3_s)) parts << tr("head %1").arg(head(*h));
        if (const auto e = valueAt(plot.efficiency, flow_m3_s))
            parts << tr("efficiency %1").arg(percentText(*e));
        if (const auto p = valueAt(plot.shaftPower, flow_m3_s))
            parts << tr("shaft %1 kW").arg(figureText(Power::fromWatts(*p).inKilowatts()));
        if (const auto p = valueAt(plot.inputPower, flow_m3_s))
            parts << tr("motor input %1 kW").arg(figureText(Power::fromWatts(*p).inKilowatts()));
        const auto available = valueAt(plot.npshAvailable, flow_m3_s);
        const auto required = valueAt(plot.npshRequired, flow_m3_s);
        if (available && required)
            parts << tr("NPSH %1 available, %2 required").arg(head(*available), head(*required));
        else if (available)
            parts << tr("NPSH %1 available").arg(head(*available));
        else if (required)
            parts << tr("NPSH %1 required").arg(head(*required));
    }
    for (const SystemLine& line : picture_.systems) {
        if (!line.shown) continue;
        if (const auto h = valueAt(line.curve, flow_m3_s)) parts << tr("the site asks %1").arg(head(*h));
    }
    const QString flow = units_.text(Flow::fromCubicMetresPerSecond(flow_m3_s));
    return parts.isEmpty() ? tr("At %1: beyond the curves").arg(flow)
                           : tr("At %1: %2").arg(flow, parts.join(QStringLiteral(" · ")));
}

void DutyPlot::point(std::optional<double> flow_m3_s) {
    if (flow_m3_s && *flow_m3_s < 0.0) flow_m3_s.reset();
    if (picture_.systems.empty() && !picture_.plot) flow_m3_s.reset();
    reading_m3_s_ = flow_m3_s;
    drawing_->setCursor(flow_m3_s);
    emit pointed(flow_m3_s ? readingAt(*flow_m3_s) : QString());
}

void DutyPlot::keyPressEvent(QKeyEvent* event) {
    const auto [low, high] = drawing_->flowRange_m3_s();
    const double step = (high - low) * kReadStep * (event->modifiers() & Qt::ShiftModifier ? 10.0 : 1.0);
    const double start = picture_.answer && picture_.answer->duty
                             ? picture_.answer->duty->flow.inCubicMetresPerSecond()
                             : (low + high) / 2;
    switch (event->key()) {
    case Qt::Key_Left:
        point(std::clamp(reading_m3_s_.value_or(start) - step, low, high));
        return;
    case Qt::Key_Right:
        point(std::clamp(reading_m3_s_.value_or(start) + step, low, high));
        return;
    case Qt::Key_Plus:
        zoomBy(kZoomStep);
        return;
    case Qt::Key_Minus:
        zoomBy(1.0 / kZoomStep);
        return;
    case Qt::Key_Home:
        showAll();
        return;
    case Qt::Key_Escape:
        if (!reading_m3_s_) break;
        point({});
        return;
    default:
        break;
    }
    QWidget::keyPressEvent(event);
}

void DutyPlot::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    update();
}

void DutyPlot::focusOutEvent(QFocusEvent* event) {
    QWidget::focusOutEvent(event);
    update();
}

void DutyPlot::paintEvent(QPaintEvent*) {
    if (!hasFocus()) return;
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(theme().accent, 2));
    painter.drawRoundedRect(QRectF(rect()).adjusted(1, 1, -1, -1), 5, 5);
}

bool DutyPlot::eventFilter(QObject* watched, QEvent* event) {
    if (watched == canvas_ && event->type() == QEvent::Leave) point({});
    return QWidget::eventFilter(watched, event);
}

QPixmap DutyPlot::pixmap() {
    drawing_->setCursor({});
    QPixmap picture = canvas_->toPixmap(0, 0, kPictureScale);
    drawing_->setCursor(reading_m3_s_);
    return picture;
}

bool DutyPlot::writeSvg(const QString& path) {
    QSvgGenerator generator;
    generator.setFileName(path);
    generator.setSize(canvas_->size());
    generator.setViewBox(canvas_->rect());
    generator.setTitle(QString::fromStdString(picture_.pump));
    QCPPainter painter;
    if (!painter.begin(&generator)) return false;
    painter.setMode(QCPPainter::pmVectorized);
    painter.setMode(QCPPainter::pmNoCaching);
    canvas_->toPainter(&painter, canvas_->width(), canvas_->height());
    return painter.end();
}

bool DutyPlot::writeTo(const QString& path) {
    const QString ending = pathEnding(path);
    if (ending == QLatin1String("csv")) return writeWhole(path, plotTable(picture_, units_));
    drawing_->setCursor({});
    bool written = false;
    if (ending == QLatin1String("png")) written = canvas_->savePng(path, 0, 0, kPictureScale);
    if (ending == QLatin1String("svg")) written = writeSvg(path);
    if (ending == QLatin1String("pdf")) written = canvas_->savePdf(path, canvas_->width(), canvas_->height());
    drawing_->setCursor(reading_m3_s_);
    return written;
}

QPointF DutyPlot::pixelOf(double flow_m3_s, double head_m) const {
    return canvas_->mapToParent(QPointF(drawing_->pixelOf(flow_m3_s, head_m)).toPoint());
}

std::vector<QRectF> DutyPlot::labelBoxes() const { return drawing_->labelBoxes(); }
std::pair<double, double> DutyPlot::flowRange_m3_s() const { return drawing_->flowRange_m3_s(); }
QWidget* DutyPlot::canvas() const { return canvas_; }

} // namespace headmark
