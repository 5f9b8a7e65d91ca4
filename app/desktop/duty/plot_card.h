#pragma once
// The plot of the place Duty in its card: the pump shown, what stands in the way of an answer and where to
// mend it, the reading at the pointer, copying and writing to files.

#include "app/desktop/duty/duty_plot.h"
#include "app/desktop/duty/pump_choice.h"
#include "app/desktop/frame/card.h"
#include "app/desktop/frame/desk.h"

namespace headmark {

class PlotCard : public Card {
    Q_OBJECT

  public:
    explicit PlotCard(Desk& desk, QWidget* parent = nullptr);

    void refresh(); // pumps and notice
    void refreshTheme();
    void setDrawable(bool drawable);
    [[nodiscard]] DutyPlot& plot() const { return *plot_; }

  private:
    void makeBar();
    void makeReading();
    void refreshNotice();
    void copyPlot();
    void exportPlot();

    Desk& desk_;
    PumpChoice* pump_;
    QLabel *notice_, *reading_;
    QPushButton *noticeButton_, *copy_, *export_, *whole_;
    DutyPlot* plot_;
    PlaceId noticePlace_ = PlaceId::charts;
};

} // namespace headmark
