#include "app/desktop/duty/duty_drawing.h"

#include "app/desktop/duty/curve_reading.h"
#include "app/desktop/duty/duty_words.h"
#include "app/desktop/frame/theme.h"

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

constexpr double kCurve_px = 2.2, kThin_px = 1.0;
constexpr int kLongestName_px = 230;
constexpr int kGap_px = 6;
const QMargins kTextPadding(3, 1, 3, 1);

QColor faded(QColor color, double share) {
    color.setAlphaF(static_cast<float>(color.alphaF() * share));
    return color;
}

QPen penOf(const QColor& color, double width, Qt::PenStyle style = Qt::SolidLine) {
    return QPen(color, width, style, Qt::RoundCap, Qt::RoundJoin);
}

double largest(const std::vector<double>& values) {
    return values.empty() ? 0.0 : *std::max_element(values.begin(), values.end());
}

QSizeF sizeOf(const QCPItemText& item) {
    const QRect text =
        QFontMetrics(item.font()).boundingRect(0, 0, 0, 0, Qt::TextDontClip | Qt::AlignLeft, item.text());
    return QSizeF(text.size()).grownBy(QMarginsF(item.padding()));
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
    rect.axis(QCPAxis::atLeft)->ticker()->setTickCount(&rect == head_ ? 6 : 3);
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

QCPItemText* DutyDrawing::addLabel(QCPAxisRect& rect, const QString& text, const QColor& color, Spots spots) {
    auto* item = new QCPItemText(&canvas_);
    items_.push_back(item);
    item->setSelectable(false);
    item->setClipToAxisRect(false);
    item->setText(text);
    item->setFont(smallFont());
    item->setColor(color);
    item->setPadding(kTextPadding);
    item->setPositionAlignment(Qt::AlignLeft | Qt::AlignTop);
    item->setTextAlignment(Qt::AlignLeft);
    item->position->setType(QCPItemPosition::ptAbsolute);
    labels_.push_back({item, &rect, std::move(spots)});
    return item;
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

void DutyDrawing::drawPreferred() {
    if (!picture_.plot || !picture_.plot->preferred_m3_s) return;
    const auto [low_m3_s, high_m3_s] = *picture_.plot->preferred_m3_s;
    const double low = flowFigure(low_m3_s), high = flowFigure(high_m3_s);
    for (QCPAxisRect* rect : {head_, efficiency_}) {
        auto* region = new QCPItemRect(&canvas_);
        items_.push_back(region);
        region->setLayer(QStringLiteral("background"));
        region->setSelectable(false);
        region->setClipAxisRect(rect);
        for (QCPItemPosition* at : {region->topLeft, region->bottomRight}) {
            at->setAxisRect(rect);
            at->setAxes(rect->axis(QCPAxis::atBottom), rect->axis(QCPAxis::atLeft));
            at->setTypeX(QCPItemPosition::ptPlotCoords);
            at->setTypeY(QCPItemPosition::ptAxisRectRatio);
        }
        region->topLeft->setCoords(low, 0.0);
        region->bottomRight->setCoords(high, 1.0);
        region->setPen(Qt::NoPen);
        region->setBrush(theme().preferred);
    }
    addLabel(*head_, tr("preferred region"), theme().good, [this, low, high](const QSizeF& size) {
        const QCPAxis* x = head_->axis(QCPAxis::atBottom);
        const double left = x->coordToPixel(low), right = x->coordToPixel(high);
        const double bottom = head_->bottom() - size.height() - 4.0;
        std::vector<QPointF> spots;
        for (const double at : {(left + right - size.width()) / 2, left + 4.0, right - size.width() - 4.0}) {
            for (int up = 0; up < 3; ++up)
                spots.emplace_back(at, bottom - up * (size.height() + 4.0));
        }
        return spots;
    });
}

void DutyDrawing::drawBand() {
    const PumpPlot& plot = *picture_.plot;
    QCPAxis* y = head_->axis(QCPAxis::atLeft);
    const QVector<double> flows = flowFigures(plot.head);
    if (plot.deliveredShare > 0.0) {
        const CurveEdges edges = deliveredEdges(plot);
        const QVector<double> low = headFigures(edges.low);
        QCPGraph* under = addCurve(*head_, y, flows, low, Qt::NoPen);
        QCPGraph* over = addCurve(*head_, y, flows, headFigures(edges.high), Qt::NoPen);
        over->setBrush(theme().delivered);
        over->setChannelFillGraph(under);
        lines_.push_back({head_, head_->axis(QCPAxis::atBottom), y, flows, low});
        addLabel(*head_, tr("shaded: as the maker may deliver, ± %1").arg(percentText(plot.deliveredShare)),
                 theme().pumpCurve, alongLine(lines_.size() - 1, false));
    }
    const CurveEdges reading = readingEdges(plot.head);
    if (reading.low.empty()) return;
    for (const auto* edge : {&reading.low, &reading.high})
        addCurve(*head_, y, flows, headFigures(*edge), penOf(faded(theme().pumpCurve, 0.65), kThin_px));
}

void DutyDrawing::drawHeads() {
    QCPAxis* y = head_->axis(QCPAxis::atLeft);
    for (const OtherPump& other : picture_.others) {
        const QVector<double> flows = flowFigures(other.head), heads = headFigures(other.head.value);
        const QColor color = faded(theme().faint, 0.7);
        addCurve(*head_, y, flows, heads, penOf(color, 1.2));
        addLabel(*head_, shortName(other.name), theme().faint,
                 alongLine(addLine(*head_, y, flows, heads), true));
    }
    if (!picture_.plot) return;
    drawBand();
    const QVector<double> flows = flowFigures(picture_.plot->head),
                          heads = headFigures(picture_.plot->head.value);
    addCurve(*head_, y, flows, heads, penOf(theme().pumpCurve, kCurve_px));
    QCPItemText* name = addLabel(*head_, shortName(picture_.pump), theme().pumpCurve,
                                 alongLine(addLine(*head_, y, flows, heads), false));
    QFont bold = smallFont();
    bold.setWeight(QFont::DemiBold);
    name->setFont(bold);
}

void DutyDrawing::drawSystems() {
    QCPAxis* y = head_->axis(QCPAxis::atLeft);
    // The shown one last: over the others.
    for (const bool shown : {false, true}) {
        for (const SystemLine& line : picture_.systems) {
            if (line.shown != shown) continue;
            const QVector<double> flows = flowFigures(line.curve), heads = headFigures(line.curve.value);
            const QColor color = shown ? theme().systemCurve : theme().faint;
            addCurve(*head_, y, flows, heads,
                     penOf(color, shown ? kCurve_px : 1.4, shown ? Qt::SolidLine : Qt::DashLine));
            const QString name = line.asItIs ? tr("as it is") : shortName(line.name);
            QCPItemText* label =
                addLabel(*head_, name, color, alongLine(addLine(*head_, y, flows, heads), true));
            if (shown) {
                QFont bold = smallFont();
                bold.setWeight(QFont::DemiBold);
                label->setFont(bold);
                std::rotate(labels_.begin(), labels_.end() - 1, labels_.end()); // before the others
            }
        }
    }
}

void DutyDrawing::drawDuty() {
    QCPAxis* y = head_->axis(QCPAxis::atLeft);
    const auto figures = [&](const auto& point) {
        return QPointF(units_.figure(point.flow), units_.figure(point.head));
    };
    for (const SystemLine& line : picture_.systems) {
        if (line.shown || !line.duty) continue;
        const QPointF at = figures(*line.duty);
        addDot(*head_, y, at.x(), at.y(), theme().faint, false);
    }
    if (!picture_.answer || !picture_.answer->duty) return;
    const CaseAnswer& answer = *picture_.answer;
    const QPointF at = figures(*answer.duty);
    const QPen dotted = penOf(theme().text, 1.0, Qt::DotLine);
    addRule(*head_, y, {at.x(), at.y()}, {at.x(), -1e6}, dotted);
    addRule(*head_, y, {at.x(), at.y()}, {0.0, at.y()}, dotted);
    if (answer.deliveredLow && answer.deliveredHigh) {
        QPen bar = penOf(faded(theme().text, 0.45), 4.0);
        addRule(*head_, y, figures(*answer.deliveredLow), figures(*answer.deliveredHigh), bar);
    }
    addDot(*head_, y, at.x(), at.y(), theme().text, true);
    QString words = tr("%1 at %2").arg(units_.text(answer.duty->flow), units_.text(answer.duty->head));
    if (answer.deliveredLow && answer.deliveredHigh) {
        words += QLatin1Char('\n') + tr("as delivered %1 to %2")
                                         .arg(figureText(units_.figure(answer.deliveredLow->flow)),
                                              figureText(units_.figure(answer.deliveredHigh->flow)));
    }
    QCPItemText* callOut = addLabel(*head_, words, theme().stripText, [this, at, y](const QSizeF& size) {
        const QPointF pixel(head_->axis(QCPAxis::atBottom)->coordToPixel(at.x()), y->coordToPixel(at.y()));
        if (!QRectF(head_->rect()).contains(pixel)) return std::vector<QPointF>{};
        return spotsAround(pixel, size, 14.0);
    });
    callOut->setBrush(theme().strip);
    callOut->setPen(QPen(theme().border, 1));
    callOut->setPadding({10, 6, 10, 6});
    callOut->setLayer(QStringLiteral("legend"));                    // over every curve
    std::rotate(labels_.begin(), labels_.end() - 1, labels_.end()); // takes its place first
}

void DutyDrawing::drawNeeds() {
    QCPAxis* y = head_->axis(QCPAxis::atLeft);
    for (const Need& need : picture_.needs) {
        const QPointF at(units_.figure(need.flow), units_.figure(need.head));
        addDot(*head_, y, at.x(), at.y(), theme().text, true);
        addLabel(*head_, tr("needed: %1 at %2").arg(units_.text(need.flow), units_.text(need.head)),
                 theme().text, [this, at, y](const QSizeF& size) {
                     const QPointF pixel(head_->axis(QCPAxis::atBottom)->coordToPixel(at.x()),
                                         y->coordToPixel(at.y()));
                     return spotsAround(pixel, size, 9.0);
                 });
    }
}

void DutyDrawing::drawEfficiencyAndPower() {
    hasEfficiency_ = picture_.plot && picture_.plot->efficiency;
    hasPower_ = picture_.plot && picture_.plot->shaftPower;
    const CaseAnswer* answer = picture_.answer && picture_.answer->duty ? &*picture_.answer : nullptr;
    QCPAxis* y = efficiency_->axis(QCPAxis::atLeft);
    y->setTickLabels(hasEfficiency_);
    if (hasEfficiency_) {
        QVector<double> percent;
        for (const double share : picture_.plot->efficiency->value)
            percent.push_back(Efficiency::fromShare(share).inPercent());
        const QVector<double> flows = flowFigures(*picture_.plot->efficiency);
        addCurve(*efficiency_, y, flows, percent, penOf(theme().efficiency, kCurve_px));
        y->setRange(0.0, 1.18 * *std::max_element(percent.begin(), percent.end()));
        addLabel(*efficiency_, tr("efficiency"), theme().efficiency,
                 alongLine(addLine(*efficiency_, y, flows, percent), false));
        if (answer && answer->efficiency && answer->efficiency->atDuty) {
            const QPointF at(units_.figure(answer->duty->flow), answer->efficiency->atDuty->inPercent());
            addDot(*efficiency_, y, at.x(), at.y(), theme().efficiency, true);
            addLabel(*efficiency_, percentText(answer->efficiency->atDuty->inShare()), theme().efficiency,
                     [this, at, y](const QSizeF& size) {
                         return spotsAround({efficiency_->axis(QCPAxis::atBottom)->coordToPixel(at.x()),
                                             y->coordToPixel(at.y())},
                                            size, 5.0);
                     });
        }
    }
    power_->setTickLabels(hasPower_);
    if (!hasPower_) return;
    QVector<double> kilowatts;
    for (const double watts : picture_.plot->shaftPower->value)
        kilowatts.push_back(Power::fromWatts(watts).inKilowatts());
    const QVector<double> flows = flowFigures(*picture_.plot->shaftPower);
    addCurve(*efficiency_, power_, flows, kilowatts, penOf(theme().power, kCurve_px, Qt::DashDotLine));
    power_->setRange(0.0, 1.25 * *std::max_element(kilowatts.begin(), kilowatts.end()));
    addLabel(*efficiency_, tr("shaft power"), theme().power,
             alongLine(addLine(*efficiency_, power_, flows, kilowatts), true));
}

void DutyDrawing::drawNpsh() {
    const bool available = picture_.plot && picture_.plot->npshAvailable;
    const bool required = picture_.plot && picture_.plot->npshRequired;
    hasNpsh_ = available || required;
    if (!hasNpsh_) return;
    QCPAxis* y = npsh_->axis(QCPAxis::atLeft);
    double top = 0.0, bottom = 0.0;
    const auto draw = [&](const CurvePlot& curve, const QString& name, Qt::PenStyle style, bool fromEnd) {
        const QVector<double> flows = flowFigures(curve), heads = headFigures(curve.value);
        addCurve(*npsh_, y, flows, heads, penOf(theme().npsh, kCurve_px, style));
        addLabel(*npsh_, name, theme().npsh, alongLine(addLine(*npsh_, y, flows, heads), fromEnd));
        top = std::max(top, *std::max_element(heads.begin(), heads.end()));
        bottom = std::min(bottom, *std::min_element(heads.begin(), heads.end()));
    };
    if (available) draw(*picture_.plot->npshAvailable, tr("NPSH available"), Qt::SolidLine, false);
    if (required) draw(*picture_.plot->npshRequired, tr("NPSH required"), Qt::DashLine, false);
    y->setRange(1.15 * bottom, 1.3 * top);
    const CaseAnswer* answer = picture_.answer && picture_.answer->duty ? &*picture_.answer : nullptr;
    if (!answer || !answer->npsh || !answer->npsh->required) return;
    const double flow = units_.figure(answer->duty->flow);
    const double low = units_.figure(*answer->npsh->required), high = units_.figure(answer->npsh->available);
    addRule(*npsh_, y, {flow, low}, {flow, high}, QPen(theme().npsh, 5.0, Qt::SolidLine, Qt::FlatCap));
    if (!answer->npsh->margin) return;
    addLabel(*npsh_, tr("margin %1").arg(units_.text(*answer->npsh->margin)), theme().npsh,
             [this, flow, low, high, y](const QSizeF& size) {
                 return spotsAround({npsh_->axis(QCPAxis::atBottom)->coordToPixel(flow),
                                     (y->coordToPixel(low) + y->coordToPixel(high)) / 2},
                                    size, 7.0);
             });
}

void DutyDrawing::drawAxisNames() {
    const auto above = [this](QCPAxisRect& rect, const QString& text, bool right, const QColor& color) {
        auto* item = new QCPItemText(&canvas_);
        items_.push_back(item);
        item->setSelectable(false);
        item->setClipToAxisRect(false);
        item->setText(text);
        item->setFont(smallFont());
        item->setColor(color);
        item->setPadding({0, 0, 0, 3});
        item->position->setAxisRect(&rect);
        item->position->setType(QCPItemPosition::ptAxisRectRatio);
        item->position->setCoords(right ? 1.0 : 0.0, 0.0);
        item->setPositionAlignment((right ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignBottom);
    };
    above(*head_, tr("head, %1").arg(units_.headSymbol()), false, theme().faint);
    if (hasEfficiency_) above(*efficiency_, tr("%"), false, theme().efficiency);
    if (hasPower_) above(*efficiency_, tr("kW"), true, theme().power);
    if (hasNpsh_) above(*npsh_, units_.headSymbol(), false, theme().npsh);
}

void DutyDrawing::showRows() {
    const std::pair<QCPAxisRect*, bool> rows[] = {
        {head_, true}, {efficiency_, hasEfficiency_ || hasPower_}, {npsh_, hasNpsh_}};
    QCPAxisRect* last = head_;
    int row = 0;
    for (const auto& [rect, visible] : rows) {
        rect->setVisible(visible);
        rect->setMinimumSize(visible ? QSize(50, 40) : QSize(0, 0));
        rect->setMaximumSize(visible ? QSize(QWIDGETSIZE_MAX, QWIDGETSIZE_MAX) : QSize(QWIDGETSIZE_MAX, 1));
        if (!visible) rect->setMargins({});
        rect->setAutoMargins(visible ? QCP::msLeft | QCP::msRight | QCP::msBottom : QCP::msNone);
        canvas_.plotLayout()->setRowStretchFactor(row++, rect == head_ ? 2.8 : visible ? 1.0 : 0.001);
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
