#include "app/desktop/duty/what_if_card.h"

#include "app/desktop/duty/duty_words.h"
#include "app/desktop/frame/theme.h"

#include <QSignalBlocker>

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

constexpr int kWaterSteps = 100;
constexpr int kLeastSpeed_percent = 50, kGreatestSpeed_percent = 115; // what speed controls are set to

QSlider* makeSlider(int least, int greatest, const QString& name, const QString& tip) {
    auto* slider = new QSlider(Qt::Horizontal);
    slider->setRange(least, greatest);
    slider->setAccessibleName(name);
    slider->setToolTip(tip);
    slider->setPageStep(std::max(1, (greatest - least) / 10));
    return slider;
}

} // namespace

WhatIfCard::WhatIfCard(Desk& desk, QWidget* parent)
    : Card(tr("What if"), parent), desk_(desk),
      speed_(makeSlider(kLeastSpeed_percent, kGreatestSpeed_percent, tr("Speed of the pump, percent"),
                        tr("Runs the pump slower or faster than its running speed."))),
      water_(makeSlider(0, kWaterSteps, tr("Level of the water"),
                        tr("Lets the water stand anywhere between its low and its high level."))),
      valve_(makeSlider(0, kValveSteps, tr("A valve in the main"),
                        tr("Throttles the main right after the pump, as a valve partly shut does."))),
      speedWords_(new QLabel), waterWords_(new QLabel), valveWords_(new QLabel),
      waterName_(new QLabel(tr("Water"))), asItIs_(quietButton(tr("As it is"))) {
    asItIs_->setToolTip(tr("Puts the sliders back to what the case says."));
    addToTitle(asItIs_);
    const std::tuple<QLabel*, QLabel*, QSlider*> rows[] = {
        {new QLabel(tr("Speed")), speedWords_, speed_},
        {waterName_, waterWords_, water_},
        {new QLabel(tr("A valve in the main")), valveWords_, valve_}};
    for (const auto& [name, words, slider] : rows) {
        auto* line = new QHBoxLayout;
        line->addWidget(name);
        line->addStretch(1);
        line->addWidget(words);
        words->setObjectName(QStringLiteral("faint"));
        content().addLayout(line);
        content().addWidget(slider);
        connect(slider, &QSlider::valueChanged, this, &WhatIfCard::take);
    }
    content().addWidget(faintLabel(tr("Tried here only: the job keeps what it says.")));
    connect(asItIs_, &QPushButton::clicked, this, &WhatIfCard::putBack);
}

Level WhatIfCard::waterAt(int step) const {
    return low_ + (high_ - low_) * (static_cast<double>(step) / kWaterSteps);
}

void WhatIfCard::reset(const MadeCase& shown, const Site& site, bool hasPump) {
    const QSignalBlocker blockers[] = {QSignalBlocker(speed_), QSignalBlocker(water_),
                                       QSignalBlocker(valve_)};
    change_ = {};
    const Case& c = shown.setting;
    speedAtStart_ = static_cast<int>(std::lround(Efficiency::fromShare(c.speedShare).inPercent()));
    speed_->setRange(std::min(kLeastSpeed_percent, speedAtStart_),
                     std::max(kGreatestSpeed_percent, speedAtStart_));
    speed_->setValue(speedAtStart_);
    speed_->setEnabled(hasPump);
    const bool moves = site.source && site.source->levelsGiven && site.source->low < site.source->high;
    low_ = site.source ? site.source->low : Level{};
    high_ = site.source ? site.source->high : Level{};
    const Level now = !site.source                  ? Level{}
                      : c.level == WaterLevel::low  ? site.source->low
                      : c.level == WaterLevel::high ? site.source->high
                                                    : site.source->usual;
    waterAtStart_ = moves ? static_cast<int>(std::lround((now - low_) / (high_ - low_) * kWaterSteps)) : 0;
    water_->setValue(waterAtStart_);
    water_->setEnabled(moves);
    valve_->setValue(0);
    valve_->setEnabled(!site.system.has_value());
    refreshWords();
}

void WhatIfCard::putBack() {
    {
        const QSignalBlocker blockers[] = {QSignalBlocker(speed_), QSignalBlocker(water_),
                                           QSignalBlocker(valve_)};
        speed_->setValue(speedAtStart_);
        water_->setValue(waterAtStart_);
        valve_->setValue(0);
    }
    take();
}

void WhatIfCard::take() {
    WhatIfChange now;
    if (speed_->value() != speedAtStart_) now.speedShare = Efficiency::fromPercent(speed_->value()).inShare();
    if (water_->value() != waterAtStart_) now.water = waterAt(water_->value());
    now.valveKv_m3_h = valveKvOfStep_m3_h(valve_->value());
    if (now == change_) return;
    change_ = now;
    refreshWords();
    emit changed();
}

void WhatIfCard::refreshWords() {
    speedWords_->setText(speed_->isEnabled() ? tr("%1 %").arg(speed_->value()) : tr("no pump yet"));
    waterWords_->setText(water_->isEnabled() ? desk_.units().text(waterAt(water_->value()))
                                             : tr("one level only"));
    valveWords_->setText(!valve_->isEnabled()   ? tr("no main described")
                         : change_.valveKv_m3_h ? tr("Kv %1 m³/h").arg(figureText(*change_.valveKv_m3_h))
                                                : tr("none"));
    asItIs_->setEnabled(!change_.isNone());
}

} // namespace headmark
