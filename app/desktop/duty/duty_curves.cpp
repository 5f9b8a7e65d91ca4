// What DutyDrawing draws, curve by curve; the canvas, its ranges and its labels stand in duty_drawing.cpp.
#include "app/desktop/duty/curve_reading.h"
#include "app/desktop/duty/duty_drawing.h"
#include "app/desktop/duty/duty_words.h"
#include "app/desktop/duty/plot_pens.h"
#include "app/desktop/frame/theme.h"

#include <algorithm>

namespace headmark {

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
        const QVector<double> high = headFigures(edges.high);
        QCPGraph* over = addCurve(*head_, y, flows, high, Qt::NoPen);
        over->setBrush(theme().delivered);
        over->setChannelFillGraph(under);
        lines_.push_back({head_, head_->axis(QCPAxis::atBottom), y, flows, low});
        addLabel(*head_, tr("shaded: as the maker may deliver, ± %1").arg(percentText(plot.deliveredShare)),
                 theme().pumpCurve,
                 aboveOrAlong({head_, head_->axis(QCPAxis::atBottom), y, flows, high}, lines_.size() - 1));
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
    hasPower_ = picture_.plot && (picture_.plot->shaftPower || picture_.plot->inputPower);
    efficiency_->axis(QCPAxis::atLeft)->setTickLabels(hasEfficiency_);
    power_->setTickLabels(hasPower_);
    if (hasEfficiency_) drawEfficiency();
    if (hasPower_) drawPower();
}

void DutyDrawing::drawEfficiency() {
    const CaseAnswer* answer = picture_.answer && picture_.answer->duty ? &*picture_.answer : nullptr;
    QCPAxis* y = efficiency_->axis(QCPAxis::atLeft);
    QVector<double> percent;
    for (const double share : picture_.plot->efficiency->value)
        percent.push_back(Efficiency::fromShare(share).inPercent());
    const QVector<double> flows = flowFigures(*picture_.plot->efficiency);
    addCurve(*efficiency_, y, flows, percent, penOf(theme().efficiency, kCurve_px));
    y->setRange(0.0, 1.18 * *std::max_element(percent.begin(), percent.end()));
    addLabel(*efficiency_, tr("efficiency"), theme().efficiency,
             alongLine(addLine(*efficiency_, y, flows, percent), false));
    if (!answer || !answer->efficiency || !answer->efficiency->atDuty) return;
    const QPointF at(units_.figure(answer->duty->flow), answer->efficiency->atDuty->inPercent());
    addDot(*efficiency_, y, at.x(), at.y(), theme().efficiency, true);
    addDotLabel(*efficiency_, y, at, percentText(answer->efficiency->atDuty->inShare()), theme().efficiency);
}

// At the shaft, and at the motor's input where that is known: what the meter shows.
void DutyDrawing::drawPower() {
    const PumpPlot& plot = *picture_.plot;
    const CaseAnswer* answer = picture_.answer && picture_.answer->duty ? &*picture_.answer : nullptr;
    double most = 0.0;
    const auto draw = [&](const std::optional<CurvePlot>& curve, const QString& name, Qt::PenStyle style,
                          double width, bool above) {
        if (!curve) return;
        QVector<double> kilowatts;
        for (const double watts : curve->value)
            kilowatts.push_back(Power::fromWatts(watts).inKilowatts());
        const QVector<double> flows = flowFigures(*curve);
        addCurve(*efficiency_, power_, flows, kilowatts, penOf(theme().power, width, style));
        addLabel(*efficiency_, name, theme().power,
                 onOneSide(addLine(*efficiency_, power_, flows, kilowatts), above));
        most = std::max(most, *std::max_element(kilowatts.begin(), kilowatts.end()));
    };
    draw(plot.shaftPower, tr("shaft power"), Qt::DashDotLine, kCurve_px, false);
    draw(plot.inputPower, tr("motor input"), Qt::SolidLine, kThin_px * 1.4, true);
    power_->setRange(0.0, 1.25 * most);
    if (!answer || !answer->power) return;
    const std::optional<Power>& shown = answer->power->input ? answer->power->input : answer->power->shaft;
    if (!shown) return;
    const QPointF at(units_.figure(answer->duty->flow), shown->inKilowatts());
    addDot(*efficiency_, power_, at.x(), at.y(), theme().power, true);
    addDotLabel(*efficiency_, power_, at, tr("%1 kW").arg(figureText(shown->inKilowatts())), theme().power);
}

void DutyDrawing::drawNpsh() {
    const bool available = picture_.plot && picture_.plot->npshAvailable;
    const bool required = picture_.plot && picture_.plot->npshRequired;
    hasNpsh_ = available || required;
    margin_.reset();
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
    margin_ = QLineF(flow, low, flow, high);
    addRule(*npsh_, y, {flow, low}, {flow, high}, QPen(theme().npsh, 5.0, Qt::SolidLine, Qt::FlatCap));
    if (!answer->npsh->margin) return;
    addLabel(*npsh_, tr("margin %1").arg(units_.text(*answer->npsh->margin)), theme().npsh,
             [this, flow, low, high, y](const QSizeF& size) {
                 return spotsAround({npsh_->axis(QCPAxis::atBottom)->coordToPixel(flow),
                                     (y->coordToPixel(low) + y->coordToPixel(high)) / 2},
                                    size, 7.0);
             });
    std::rotate(labels_.begin(), labels_.end() - 1, labels_.end()); // before the names of the curves
}

void DutyDrawing::drawAxisNames() {
    const auto above = [this](QCPAxisRect& rect, const QString& text, bool right, const QColor& color) {
        QCPItemText* item = addText(text, color);
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

} // namespace headmark
