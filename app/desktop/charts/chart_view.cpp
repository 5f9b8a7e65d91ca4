#include "app/desktop/charts/chart_view.h"

#include "app/desktop/charts/chart_words.h"
#include "app/desktop/frame/theme.h"

#include <QMouseEvent>

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

constexpr double kSnapReach_px = 14.0;                               // on the screen
constexpr double kMostSnapReach_px = 30.0, kLeastSnapReach_px = 5.0; // of the page held
constexpr double kPinReach_px = 11.0, kSpotReach_px = 9.0, kLineReach_px = 7.0;
constexpr double kDragStarts_px = 3.0;

double distance(QPointF a, QPointF b) { return std::hypot(a.x() - b.x(), a.y() - b.y()); }

double distanceToSegment(QPointF p, QPointF a, QPointF b) {
    const QPointF along = b - a;
    const double length2 = QPointF::dotProduct(along, along);
    const double share =
        length2 > 0.0 ? std::clamp(QPointF::dotProduct(p - a, along) / length2, 0.0, 1.0) : 0.0;
    return distance(p, a + share * along);
}

} // namespace

ChartView::ChartView(ChartSession& session, QWidget* parent)
    : PageView(parent), session_(session), snap_(this), form_(new PinForm(viewport())),
      choice_(new LineChoice(viewport())) {
    setAccessibleName(tr("Page with pins and lines"));
    setAccessibleDescription(tr("P places a pin, L reads a line, Tab goes through pins and lines."));
    connect(&session_, &ChartSession::sheetChanged, this, &ChartView::followSession);
    connect(&session_, &ChartSession::changed, this, &ChartView::followSession);
    connect(&session_, &ChartSession::chosenChanged, this, &ChartView::followMode);
    connect(&session_.desk, &Desk::themeChanged, viewport(), qOverload<>(&QWidget::update));
    connect(&snap_, &GridSnap::found, viewport(), qOverload<>(&QWidget::update));
    connect(form_, &PinForm::entered, this, [this](const Pin& pin, std::optional<std::size_t> index) {
        if (index) {
            session_.changePin(*index, pin);
        } else {
            session_.placePin(pin);
        }
        setFocus();
    });
    connect(form_, &PinForm::left, this, [this] { setFocus(); });
    connect(choice_, &LineChoice::chosen, this, [this](PixelPoint at, LineQuantity quantity) {
        setFocus();
        session_.readLineAt(at, quantity);
    });
    connect(choice_, &LineChoice::left, this, [this] { setFocus(); });
    followSession();
}

void ChartView::followSession() {
    const bool otherSheet = session_.path() != shownSheet_;
    shownSheet_ = session_.path();
    if (otherSheet) {
        form_->hide();
        choice_->hide();
        pointer_.reset();
        drag_.reset();
        snap_.clear();
    }
    const ChartAnswer* answer = session_.answer();
    setPage(answer ? answer->page : nullptr, !otherSheet && page());
    shapes_ = shapesOf(session_);
    viewport()->update();
}

void ChartView::followMode() {
    nudging_ = false;
    if (!isPlacing()) {
        pointer_.reset();
        if (!drag_) snap_.clear();
    }
    if (session_.mode() != ChartMode::placePin) {
        if (!form_->index()) form_->hide();
        if (!drag_) snap_.clear();
    }
    if (session_.mode() != ChartMode::readLine) choice_->hide();
    viewport()->setCursor(isPlacing() ? Qt::CrossCursor : Qt::ArrowCursor);
    if (const auto place = session_.placeOf(session_.chosen()); place && page() && !drag_) ensureSeen(*place);
    viewport()->update();
}

Sight ChartView::sight() const {
    const QPointF first = viewFromPixel({-0.5, -0.5});
    return {first, zoom(), QRectF(viewport()->rect()).adjusted(2, 2, -2, -2)};
}

ChartPart ChartView::partAt(QPointF at) const {
    const auto reading = session_.reading();
    if (!reading) return {};
    ChartPart best;
    double nearest = 1e9;
    const auto consider = [&](ChartPart part, PixelPoint place, double reach) {
        const double d = distance(at, viewFromPixel(place));
        if (d < reach && d < nearest) {
            nearest = d;
            best = part;
        }
    };
    for (std::size_t p = 0; p < reading->pins.size(); ++p)
        consider({PartKind::pin, p, 0}, reading->pins[p].at, kPinReach_px);
    for (std::size_t l = 0; l < reading->lines.size(); ++l) {
        const bool open =
            (session_.chosen().isOfLine() && session_.chosen().index == l) || !session_.readLine(l);
        if (!open) continue;
        for (std::size_t s = 0; s < reading->lines[l].spots.size(); ++s)
            consider({PartKind::spot, l, s}, reading->lines[l].spots[s], kSpotReach_px);
        for (std::size_t s = 0; s < reading->lines[l].followFrom.size(); ++s)
            consider({PartKind::click, l, s}, reading->lines[l].followFrom[s], kSpotReach_px);
    }
    if (best.kind != PartKind::none) return best;
    for (const LineShape& shape : shapes_) {
        for (std::size_t i = 1; i < shape.middle.size(); ++i) {
            const double d =
                distanceToSegment(at, viewFromPixel(shape.middle[i - 1]), viewFromPixel(shape.middle[i]));
            if (d >= kLineReach_px || d >= nearest) continue;
            nearest = d;
            best = {PartKind::line, shape.line, 0};
        }
    }
    return best;
}

void ChartView::point(PixelPoint at, bool free) {
    pointer_ = at;
    const bool wanted = session_.mode() == ChartMode::placePin ||
                        (drag_ && drag_->part.kind == PartKind::pin) ||
                        (nudging_ && session_.chosen().kind == PartKind::pin);
    if (wanted && !free && page()) {
        const double held = page()->scale;
        const double reach_px =
            std::clamp(kSnapReach_px / zoom() * held, kLeastSnapReach_px, kMostSnapReach_px) / held;
        snap_.ask(page(), at, reach_px);
    } else {
        snap_.clear();
    }
    emit pointedAt(isOnPage(at) ? figuresAt(session_, at) : QString());
    viewport()->update();
}

void ChartView::act(bool free) {
    if (!pointer_ || !isOnPage(*pointer_)) return;
    const auto reading = session_.reading();
    switch (session_.mode()) {
    case ChartMode::placePin: {
        Pin pin;
        pin.at = !free && snap_.crossing() ? *snap_.crossing() : *pointer_;
        form_->ask(pin, std::nullopt, *reading, viewFromPixel(pin.at).toPoint());
        break;
    }
    case ChartMode::readLine:
        choice_->ask(*pointer_, session_.lastQuantity(), viewFromPixel(*pointer_).toPoint());
        break;
    case ChartMode::addSpot:
        if (session_.chosen().isOfLine()) session_.addSpot(session_.chosen().index, *pointer_);
        break;
    case ChartMode::choose:
        break;
    }
}

void ChartView::editPin(std::size_t index) {
    const auto reading = session_.reading();
    if (!reading || index >= reading->pins.size()) return;
    const Pin& pin = reading->pins[index];
    form_->ask(pin, index, *reading, viewFromPixel(pin.at).toPoint());
}

void ChartView::startDrag(ChartPart part, QPointF at) {
    const auto place = session_.placeOf(part);
    if (!place) return;
    const PixelPoint pointer = pixelFromView(at);
    drag_ = Drag{part, at, {place->x_px - pointer.x_px, place->y_px - pointer.y_px}, 0};
}

void ChartView::finishDrag(bool free) {
    const Drag drag = *drag_;
    drag_.reset();
    if (drag.number != 0 && !free && snap_.crossing() && drag.part.kind == PartKind::pin)
        session_.move(drag.part, *snap_.crossing(), drag.number);
    snap_.clear();
    pointer_.reset();
    viewport()->update();
}

void ChartView::mousePressEvent(QMouseEvent* event) {
    if (panPressed(event) || event->button() != Qt::LeftButton || !page()) return;
    const PixelPoint at = pixelFromView(event->position());
    const bool free = event->modifiers() & Qt::ControlModifier;
    const ChartPart part = partAt(event->position());
    if (isPlacing()) {
        // A pin under the pointer is taken up rather than doubled.
        if (session_.mode() != ChartMode::placePin || part.kind != PartKind::pin) {
            point(at, free); // a crossing shown farther off no longer counts
            return act(free);
        }
    }
    if ((event->modifiers() & Qt::ShiftModifier) && session_.chosen().isOfLine() && isOnPage(at))
        return session_.addSpot(session_.chosen().index, at);
    session_.choose(part);
    if (part.kind != PartKind::line && part.kind != PartKind::none) startDrag(part, event->position());
}

void ChartView::mouseMoveEvent(QMouseEvent* event) {
    if (panMoved(event) || !page()) return;
    const PixelPoint at = pixelFromView(event->position());
    const bool free = event->modifiers() & Qt::ControlModifier;
    if (drag_) {
        if (drag_->number == 0 && distance(event->position(), drag_->from) < kDragStarts_px) return;
        if (drag_->number == 0) drag_->number = session_.newDrag();
        const PixelPoint to{at.x_px + drag_->offset.x_px, at.y_px + drag_->offset.y_px};
        if (!isOnPage(to)) return;
        session_.move(drag_->part, to, drag_->number);
        return point(to, free);
    }
    if (isPlacing() && !form_->isVisible() && !choice_->isVisible()) return point(at, free);
    emit pointedAt(isOnPage(at) ? figuresAt(session_, at) : QString());
    if (!isPlacing())
        viewport()->setCursor(partAt(event->position()).kind == PartKind::none ? Qt::ArrowCursor
                                                                               : Qt::PointingHandCursor);
}

void ChartView::mouseReleaseEvent(QMouseEvent* event) {
    if (panReleased(event) || !drag_ || event->button() != Qt::LeftButton) return;
    finishDrag(event->modifiers() & Qt::ControlModifier);
}

void ChartView::mouseDoubleClickEvent(QMouseEvent* event) {
    if (isPlacing() || !page()) return mousePressEvent(event);
    const ChartPart part = partAt(event->position());
    if (part.kind != PartKind::pin) return;
    drag_.reset();
    session_.choose(part);
    editPin(part.index);
}

bool ChartView::viewportEvent(QEvent* event) {
    if (event->type() == QEvent::Leave) {
        emit pointedAt({});
        if (!drag_ && !hasFocus()) {
            pointer_.reset();
            snap_.clear();
        }
        viewport()->update();
    }
    return PageView::viewportEvent(event);
}

} // namespace headmark
