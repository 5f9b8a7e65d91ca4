#include "app/desktop/duty/duty_drawing.h"

#include "app/desktop/duty/curve_reading.h"
#include "app/desktop/duty/plot_pens.h"
#include "app/desktop/frame/theme.h"

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

constexpr int kGap_px = 6;

double largest(const std::vector<double>& values) {
    return values.empty() ? 0.0 : *std::max_element(values.begin(), values.end());
}

} // namespace

DutyDrawing::DutyDrawing(QCustomPlot& canvas) : canvas_(canvas) {
    canvas_.plotLayout()->clear();
    canvas_.plotLayout()->setRowSpacing(kGap_px);
    canvas_.addLayer(QStringLiteral("cursor"), canvas_.layer(QStringLiteral("overlay")),
                     QCustomPlot::limBelow);
    canvas_.layer(QStringLiteral("cursor"))->setMode(QCPLayer::lmBuffered);
    head_ = new QCPAxisRect(&canvas_);
    efficiency_ = new QCPAxisRect(&canvas_);
    npsh_ = new QCPAxisRect(&canvas_);
    power_ = efficiency_->axis(QCPAxis::atRight);
    auto* group = new QCPMarginGroup(&canvas_);
    int row = 0;
    for (QCPAxisRect* rect : {head_, efficiency_, npsh_}) {
        canvas_.plotLayout()->addElement(row++, 0, rect);
        rect->setMarginGroup(QCP::msLeft | QCP::msRight, group);
        setUpRect(*rect);
    }
    power_->setVisible(true);
    power_->setTicks(true);
    power_->setTickLabels(true);
    power_->setTickPen(Qt::NoPen);
    power_->setSubTicks(false);
    const auto linked = {head_, efficiency_, npsh_};
    for (QCPAxisRect* from : linked) {
        for (QCPAxisRect* to : linked) {
            if (from == to) continue;
            QObject::connect(from->axis(QCPAxis::atBottom),
                             qOverload<const QCPRange&>(&QCPAxis::rangeChanged), to->axis(QCPAxis::atBottom),
                             qOverload<const QCPRange&>(&QCPAxis::setRange));
        }
    }
    QObject::connect(&canvas_, &QCustomPlot::afterLayout, &canvas_, [this] { placeLabels(); });
}

void DutyDrawing::setUpRect(QCPAxisRect& rect) {
    rect.setRangeDrag({});
    rect.setRangeZoom({});
    rect.setAutoMargins(QCP::msLeft | QCP::msRight | QCP::msBottom);
    for (QCPAxis* axis : rect.axes()) {
        axis->setLayer(QStringLiteral("axes"));
        axis->grid()->setLayer(QStringLiteral("grid"));
        axis->setSubTicks(false);
        axis->setTickLength(0, 0);
        axis->grid()->setZeroLinePen(Qt::NoPen);
        axis->setNumberFormat(QStringLiteral("g"));
        axis->setNumberPrecision(6);
        axis->setTickLabelPadding(6);
    }
    rect.axis(QCPAxis::atBottom)->ticker()->setTickCount(8);
    rect.axis(QCPAxis::atLeft)->ticker()->setTickCount(&rect == head_ ? 6 : &rect == npsh_ ? 2 : 3);
    rect.axis(QCPAxis::atRight)->ticker()->setTickCount(3);
    auto* line = new QCPItemLine(&canvas_);
    line->setLayer(QStringLiteral("cursor"));
    line->setClipAxisRect(&rect);
    line->start->setAxisRect(&rect);
    line->end->setAxisRect(&rect);
    for (QCPItemPosition* at : {line->start, line->end}) {
        at->setTypeX(QCPItemPosition::ptPlotCoords);
        at->setTypeY(QCPItemPosition::ptAxisRectRatio);
        at->setAxes(rect.axis(QCPAxis::atBottom), rect.axis(QCPAxis::atLeft));
    }
    line->setVisible(false);
    line->setSelectable(false);
    cursor_.push_back(line);
}

void DutyDrawing::clear() {
    for (QCPAbstractItem* item : items_)
        canvas_.removeItem(item);
    items_.clear();
    lines_.clear();
    labels_.clear();
    canvas_.clearPlottables();
}

void DutyDrawing::applyTheme() {
    const Theme& t = theme();
    QLocale locale;
    locale.setNumberOptions(QLocale::OmitGroupSeparator);
    canvas_.setLocale(locale);
    canvas_.setBackground(QBrush(t.surface));
    const int top = QFontMetrics(smallFont()).height() + 4;
    for (QCPAxisRect* rect : {head_, efficiency_, npsh_}) {
        rect->setMargins({0, top, 0, 0});
        for (QCPAxis* axis : rect->axes()) {
            axis->setBasePen(axis == rect->axis(QCPAxis::atBottom) ? QPen(t.border) : Qt::NoPen);
            axis->setTickPen(Qt::NoPen);
            axis->setTickLabelColor(t.faint);
            axis->setLabelColor(t.faint);
            axis->setTickLabelFont(smallFont());
            axis->setLabelFont(smallFont());
            axis->grid()->setPen(QPen(faded(t.border, 0.6), 1));
        }
    }
    power_->setTickLabelColor(t.power);
    for (QCPItemLine* line : cursor_)
        line->setPen(QPen(faded(t.text, 0.5), 1));
}

double DutyDrawing::flowFigure(double flow_m3_s) const {
    return units_.figure(Flow::fromCubicMetresPerSecond(flow_m3_s));
}

double DutyDrawing::headFigure(double head_m) const { return units_.figure(Head::fromMetres(head_m)); }

QVector<double> DutyDrawing::flowFigures(const CurvePlot& curve) const {
    QVector<double> figures;
    figures.reserve(static_cast<qsizetype>(curve.flow_m3_s.size()));
    for (const double q : curve.flow_m3_s)
        figures.push_back(flowFigure(q));
    return figures;
}

QVector<double> DutyDrawing::headFigures(const std::vector<double>& heads_m) const {
    QVector<double> figures;
    figures.reserve(static_cast<qsizetype>(heads_m.size()));
    for (const double h : heads_m)
        figures.push_back(headFigure(h));
    return figures;
}

void DutyDrawing::showRows() {
    const std::pair<QCPAxisRect*, bool> rows[] = {
        {head_, true}, {efficiency_, hasEfficiency_ || hasPower_}, {npsh_, hasNpsh_}};
    QCPAxisRect* last = head_;
    int row = 0;
    // In a low plot the rows under the heads need a larger share to be read at all.
    const bool low = canvas_.height() < 26 * QFontMetrics(smallFont()).height();
    const double headShare = low ? 1.7 : 2.8;
    for (const auto& [rect, visible] : rows) {
        rect->setVisible(visible);
        rect->setMinimumSize(visible ? QSize(50, 40) : QSize(0, 0));
        rect->setMaximumSize(visible ? QSize(QWIDGETSIZE_MAX, QWIDGETSIZE_MAX) : QSize(QWIDGETSIZE_MAX, 1));
        if (!visible) rect->setMargins({});
        rect->setAutoMargins(visible ? QCP::msLeft | QCP::msRight | QCP::msBottom : QCP::msNone);
        canvas_.plotLayout()->setRowStretchFactor(row++, rect == head_ ? headShare : visible ? 1.0 : 0.001);
        if (visible) last = rect;
    }
    for (const auto& [rect, visible] : rows) {
        QCPAxis* x = rect->axis(QCPAxis::atBottom);
        x->setTickLabels(rect == last);
        x->setLabel(rect == last ? tr("flow, %1").arg(units_.flowSymbol()) : QString());
    }
}

void DutyDrawing::chooseRanges(bool grow) {
    double flow = picture_.greatest_m3_s, head = 0.0, least = 0.0;
    if (picture_.plot) {
        head = 1.05 * largest(deliveredEdges(*picture_.plot).high);
    } else {
        for (const Need& need : picture_.needs)
            head = std::max(head, 1.6 * need.head.inMetres());
    }
    for (const SystemLine& line : picture_.systems) {
        if (line.curve.value.empty()) continue;
        least = std::min(least, line.curve.value.front());
        if (head <= 0.0) head = 1.2 * largest(line.curve.value);
    }
    if (flow <= 0.0) flow = 1.0;
    if (head <= 0.0) head = 1.0;
    QCPRange flows(0.0, flowFigure(flow)), heads(headFigure(1.08 * least), headFigure(head));
    if (grow) {
        flows.expand(fullFlow_);
        heads.expand(fullHead_);
    }
    fullFlow_ = flows;
    fullHead_ = heads;
    if (!zoomed_) showAll();
}

void DutyDrawing::showAll() {
    zoomed_ = false;
    head_->axis(QCPAxis::atBottom)->setRange(fullFlow_);
    head_->axis(QCPAxis::atLeft)->setRange(fullHead_);
}

void DutyDrawing::draw(const DutyPicture& picture, const DisplayUnits& units, bool grow) {
    if (units != units_) {
        zoomed_ = false;
        grow = false;
    }
    picture_ = picture;
    units_ = units;
    clear();
    applyTheme();
    drawPreferred();
    drawHeads();
    drawSystems();
    drawNeeds();
    drawEfficiencyAndPower();
    drawNpsh();
    drawDuty();
    drawAxisNames();
    showRows();
    chooseRanges(grow);
}

void DutyDrawing::zoomAt(const QPointF& pixel, double factor) {
    zoomed_ = true;
    QCPAxis *x = head_->axis(QCPAxis::atBottom), *y = head_->axis(QCPAxis::atLeft);
    x->scaleRange(factor, x->pixelToCoord(pixel.x()));
    if (head_->rect().contains(pixel.toPoint())) y->scaleRange(factor, y->pixelToCoord(pixel.y()));
    // Never beyond the whole: there is nothing there.
    x->setRange(x->range().bounded(fullFlow_.lower, fullFlow_.upper));
    y->setRange(y->range().bounded(fullHead_.lower, fullHead_.upper));
    if (x->range() == fullFlow_ && y->range() == fullHead_) zoomed_ = false;
}

void DutyDrawing::zoomTo(const QRect& pixels) {
    constexpr int kLeast_px = 8; // a click that slipped is no rectangle
    if (pixels.width() < kLeast_px) return;
    zoomed_ = true;
    QCPAxis *x = head_->axis(QCPAxis::atBottom), *y = head_->axis(QCPAxis::atLeft);
    const QCPRange flows(x->pixelToCoord(pixels.left()), x->pixelToCoord(pixels.right()));
    const QCPRange heads(y->pixelToCoord(pixels.bottom()), y->pixelToCoord(pixels.top()));
    x->setRange(flows.bounded(fullFlow_.lower, fullFlow_.upper));
    if (pixels.height() >= kLeast_px && head_->rect().contains(pixels.center()))
        y->setRange(heads.bounded(fullHead_.lower, fullHead_.upper));
}

void DutyDrawing::setCursor(std::optional<double> flow_m3_s) {
    const QCPAxisRect* rects[] = {head_, efficiency_, npsh_};
    for (std::size_t i = 0; i < cursor_.size(); ++i) {
        cursor_[i]->setVisible(flow_m3_s.has_value() && rects[i]->visible());
        if (!flow_m3_s) continue;
        cursor_[i]->start->setCoords(flowFigure(*flow_m3_s), 0.0);
        cursor_[i]->end->setCoords(flowFigure(*flow_m3_s), 1.0);
    }
    canvas_.layer(QStringLiteral("cursor"))->replot();
}

std::optional<double> DutyDrawing::flowAt_m3_s(const QPointF& pixel) const {
    for (const QCPAxisRect* rect : {head_, efficiency_, npsh_}) {
        if (!rect->visible() || !rect->rect().contains(pixel.toPoint())) continue;
        const double figure = head_->axis(QCPAxis::atBottom)->pixelToCoord(pixel.x());
        return units_.flowFrom(figure).inCubicMetresPerSecond();
    }
    return std::nullopt;
}

QPointF DutyDrawing::pixelOf(double flow_m3_s, double head_m) const {
    return {head_->axis(QCPAxis::atBottom)->coordToPixel(flowFigure(flow_m3_s)),
            head_->axis(QCPAxis::atLeft)->coordToPixel(headFigure(head_m))};
}

std::pair<double, double> DutyDrawing::flowRange_m3_s() const {
    const QCPRange range = head_->axis(QCPAxis::atBottom)->range();
    return {units_.flowFrom(range.lower).inCubicMetresPerSecond(),
            units_.flowFrom(range.upper).inCubicMetresPerSecond()};
}

std::vector<QRectF> DutyDrawing::labelBoxes() const { return boxes_; }

} // namespace headmark
