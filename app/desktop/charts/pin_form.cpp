#include "app/desktop/charts/pin_form.h"

#include "app/desktop/charts/chart_words.h"
#include "app/desktop/frame/card.h"
#include "app/desktop/frame/theme.h"

#include <QGridLayout>
#include <QKeyEvent>

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

constexpr int kDistance_px = 18;      // from the pin, so that it is not covered
constexpr double kInLineSlope = 0.06; // 3.4 degrees: no scan that was laid on by hand is more crooked

// Along the grid from one pin to the other: `along` is the way along it, `aside` the way across.
bool inLine(double along_px, double aside_px) {
    return std::abs(aside_px) <= kInLineSlope * std::abs(along_px);
}

} // namespace

Pin withOffer(const Pin& pin, const Reading& reading) {
    Pin offered = pin;
    if (reading.pins.empty()) {
        offered.flow = 0.0;
        offered.value = 0.0;
        return offered;
    }
    double nearest_px = 1e9, level_px = 1e9;
    for (const Pin& other : reading.pins) {
        const double dx = other.at.x_px - pin.at.x_px, dy = other.at.y_px - pin.at.y_px;
        if (other.flow && inLine(dy, dx) && std::abs(dx) < nearest_px) {
            nearest_px = std::abs(dx);
            offered.flow = other.flow;
        }
        if (other.value && other.axis == pin.axis && inLine(dx, dy) && std::abs(dy) < level_px) {
            level_px = std::abs(dy);
            offered.value = other.value;
        }
    }
    return offered;
}

PinForm::PinForm(QWidget* parent) : QFrame(parent) {
    setObjectName(QStringLiteral("card"));
    setAccessibleName(tr("What is printed at this pin"));
    setAutoFillBackground(true);
    auto* grid = new QGridLayout(this);
    grid->setContentsMargins(10, 8, 10, 8);
    grid->setSpacing(6);
    flow_ = new NumberEntry(this);
    value_ = new NumberEntry(this);
    flow_->setObjectName(QStringLiteral("pinFlow"));
    value_->setObjectName(QStringLiteral("pinValue"));
    for (NumberEntry* entry : {flow_, value_}) {
        entry->setRange({-1e9, 1e9, true});
        entry->setMinimumWidth(fontMetrics().averageCharWidth() * 12);
    }
    flow_->setAccessibleName(tr("Flow printed here"));
    value_->setAccessibleName(tr("Value printed here"));
    flow_->setToolTip(tr("The flow printed at this place; leave it empty where only the value is known."));
    value_->setToolTip(tr("The value printed at this place; leave it empty where only the flow is known."));
    axis_ = new QComboBox(this);
    axis_->addItem(tr("on the left axis"));
    axis_->addItem(tr("on the right axis"));
    axis_->setAccessibleName(tr("Axis of the value"));
    flowUnit_ = faintLabel({}, this);
    valueUnit_ = faintLabel({}, this);
    why_ = wrappedLabel({}, this);
    place_ = mainButton(tr("Place"), this);
    auto* drop = quietButton(tr("Cancel"), this);
    grid->addWidget(new QLabel(tr("Flow"), this), 0, 0);
    grid->addWidget(flow_, 0, 1);
    grid->addWidget(flowUnit_, 0, 2);
    grid->addWidget(new QLabel(tr("Value"), this), 1, 0);
    grid->addWidget(value_, 1, 1);
    grid->addWidget(valueUnit_, 1, 2);
    grid->addWidget(axis_, 2, 1, 1, 2);
    grid->addWidget(why_, 3, 0, 1, 3);
    grid->addWidget(drop, 4, 0);
    grid->addWidget(place_, 4, 1, 1, 2);
    place_->setAutoDefault(false);
    drop->setAutoDefault(false);
    connect(place_, &QPushButton::clicked, this, &PinForm::finish);
    connect(drop, &QPushButton::clicked, this, &PinForm::drop);
    connect(axis_, &QComboBox::currentIndexChanged, this, [this](int axis) {
        if (unitOf_) valueUnit_->setText(unitOf_(axis == 1 ? ValueAxis::right : ValueAxis::left));
    });
    hide();
}

void PinForm::ask(const Pin& pin, std::optional<std::size_t> index, const Reading& reading, QPoint beside) {
    pin_ = index ? pin : withOffer(pin, reading);
    index_ = index;
    unitOf_ = [reading = reading](ValueAxis axis) { return axisUnit(reading, axis); };
    const auto show = [](NumberEntry* entry, std::optional<double> figure) {
        entry->setText(figure ? printedFigure(*figure) : QString());
        entry->setModified(false);
    };
    show(flow_, pin_.flow);
    show(value_, pin_.value);
    axis_->setCurrentIndex(pin.axis == ValueAxis::right ? 1 : 0);
    flowUnit_->setText(symbolWords(reading.printedUnits.flow));
    valueUnit_->setText(unitOf_(pin.axis));
    place_->setText(index ? tr("Change") : tr("Place"));
    explain({});
    adjustSize();
    const QRect room = parentWidget()->rect();
    QPoint at = beside + QPoint(kDistance_px, kDistance_px);
    if (at.x() + width() > room.right()) at.setX(beside.x() - kDistance_px - width());
    if (at.y() + height() > room.bottom()) at.setY(beside.y() - kDistance_px - height());
    move(std::clamp(at.x(), 0, std::max(0, room.width() - width())),
         std::clamp(at.y(), 0, std::max(0, room.height() - height())));
    QWidget::show();
    raise();
    flow_->setFocus(Qt::OtherFocusReason);
    flow_->selectAll();
}

void PinForm::explain(const QString& why) {
    why_->setText(why);
    why_->setVisible(!why.isEmpty());
    QPalette p = why_->palette();
    p.setColor(QPalette::WindowText, theme().danger);
    why_->setPalette(p);
    adjustSize();
}

void PinForm::finish() {
    for (const NumberEntry* entry : {flow_, value_}) {
        if (!entry->complaint().isEmpty()) return explain(entry->complaint());
    }
    Pin pin = pin_;
    pin.flow = flow_->figure();
    pin.value = value_->figure();
    pin.axis = axis_->currentIndex() == 1 ? ValueAxis::right : ValueAxis::left;
    if (!pin.flow && !pin.value) return explain(tr("A pin needs the flow or the value printed there."));
    hide();
    emit entered(pin, index_);
}

void PinForm::drop() {
    hide();
    emit left();
}

void PinForm::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape) return drop();
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) return finish();
    QFrame::keyPressEvent(event);
}

} // namespace headmark
