#pragma once
// Sliders that move the system curve without touching the job: the pump's speed, the water's level, a valve
// in the main.

#include "app/desktop/frame/card.h"
#include "app/desktop/frame/desk.h"
#include "app/document/what_if.h"

#include <QSlider>

namespace headmark {

class WhatIfCard : public Card {
    Q_OBJECT

  public:
    explicit WhatIfCard(Desk& desk, QWidget* parent = nullptr);

    // Sliders at what the shown case says.
    void reset(const MadeCase& shown, const Site& site, bool hasPump);
    void refreshWords();
    [[nodiscard]] const WhatIfChange& change() const { return change_; }

    [[nodiscard]] QSlider* speedSlider() const { return speed_; }
    [[nodiscard]] QSlider* waterSlider() const { return water_; }
    [[nodiscard]] QSlider* valveSlider() const { return valve_; }

  signals:
    void changed();

  private:
    void take();
    void putBack();
    [[nodiscard]] Level waterAt(int step) const;

    Desk& desk_;
    QSlider *speed_, *water_, *valve_;
    QLabel *speedWords_, *waterWords_, *valveWords_, *waterName_;
    QPushButton* asItIs_;
    WhatIfChange change_;
    int speedAtStart_ = 100;
    int waterAtStart_ = 0;
    Level low_, high_;
};

} // namespace headmark
