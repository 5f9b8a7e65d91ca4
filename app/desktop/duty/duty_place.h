#pragma once
// The place Duty: where the shown pump runs on this site in the shown case, as a plot; at its right the
// cases, the zones open, what else can be tried, what to look at, and how every figure came about.

#include "app/desktop/frame/place.h"

#include <memory>

class QScrollArea;
class QTimer;

namespace headmark {

class CasesCard;
class CautionsCard;
class DutyPlot;
class IntervalCard;
class LatestOnly;
class PlotCard;
class Trying;
class WhatIfCard;
class WorkingCard;
class ZonesCard;
struct DutyPicture;
struct WhatIfChange;

class DutyPlace : public Place {
    Q_OBJECT

  public:
    explicit DutyPlace(Desk& desk, QWidget* parent = nullptr);
    ~DutyPlace() override;

    [[nodiscard]] PlaceMark mark() const override;
    [[nodiscard]] QString markWords() const override;

    [[nodiscard]] DutyPlot& plot() const;
    [[nodiscard]] CasesCard& cases() const { return *cases_; }
    [[nodiscard]] ZonesCard& zones() const { return *zones_; }
    [[nodiscard]] WhatIfCard& whatIf() const { return *whatIf_; }
    [[nodiscard]] WorkingCard& working() const { return *working_; }
    [[nodiscard]] CautionsCard& cautions() const { return *cautions_; }
    [[nodiscard]] IntervalCard& intervals() const { return *intervals_; }

  signals:
    void triedShown();      // duty, verdict and efficiency of what a slider asked for stand on the screen
    void triedCurveShown(); // and its system curve

  protected:
    void resizeEvent(QResizeEvent* event) override;
    void showEvent(QShowEvent* event) override;

  private:
    void makeRight();
    void connectDesk();
    void connectCards();
    void refresh();
    void refreshAll();
    void refreshWords(bool whenItRests);
    void refreshDetails();
    void refreshZones();
    void resetTried();
    void askPicture();
    void showPicture(const DutyPicture& picture);
    void askTried();
    void showTried();
    void drawTried();
    void keepTried();
    void showWorking(const QString& code);
    void keepShownInside();
    void fitColumn();
    [[nodiscard]] WhatIfChange change() const;           // of valves and sliders together
    [[nodiscard]] const CaseAnswer* shownAnswer() const; // with intervals where they are known

    PlotCard* plot_;
    QScrollArea* scroll_;
    CasesCard* cases_;
    ZonesCard* zones_;
    WhatIfCard* whatIf_;
    CautionsCard* cautions_;
    WorkingCard* working_;
    IntervalCard* intervals_;
    QTimer* details_; // until what is dragged rests
    std::unique_ptr<DutyPicture> asItIs_;
    bool late_ = false;   // answers came while another place was shown
    bool newCase_ = true; // valves and sliders go back when the next answer is shown
    Trying* trying_;
    std::unique_ptr<LatestOnly> pictures_; // last: its thread ends first
};

} // namespace headmark
