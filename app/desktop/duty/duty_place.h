#pragma once
// The place Duty: where the shown pump runs on this site in the shown case, as a plot; at its right the
// cases, what can be tried, what to look at, and how every figure came about.

#include "app/desktop/frame/place.h"

#include <memory>

class QComboBox;
class QLabel;
class QPushButton;
class QScrollArea;
class QTimer;

namespace headmark {

class CasesCard;
class CautionsCard;
class DutyPlot;
class IntervalCard;
class LatestOnly;
class WhatIfCard;
class WorkingCard;
struct DutyPicture;
struct CurvePlot;
struct WhatIfAnswer;
struct WhatIfQuestion;

class DutyPlace : public Place {
    Q_OBJECT

  public:
    explicit DutyPlace(Desk& desk, QWidget* parent = nullptr);
    ~DutyPlace() override;

    [[nodiscard]] PlaceMark mark() const override;
    [[nodiscard]] QString markWords() const override;

    [[nodiscard]] DutyPlot& plot() const { return *plot_; }
    [[nodiscard]] CasesCard& cases() const { return *cases_; }
    [[nodiscard]] WhatIfCard& whatIf() const { return *whatIf_; }
    [[nodiscard]] WorkingCard& working() const { return *working_; }
    [[nodiscard]] CautionsCard& cautions() const { return *cautions_; }
    [[nodiscard]] IntervalCard& intervals() const { return *intervals_; }

  signals:
    void triedShown();      // duty, verdict and efficiency of what a slider asked for stand on the screen
    void triedCurveShown(); // and its system curve

  protected:
    void resizeEvent(QResizeEvent* event) override;

  private:
    QWidget* makeLeft();
    QWidget* makeRight();
    void connectDesk();
    void refresh();
    void refreshPumps();
    void refreshNotice();
    void refreshDetails();
    void resetWhatIf();
    void forgetTried();
    void askPicture();
    void showPicture(const DutyPicture& picture);
    void askTried();
    void showTried(const std::shared_ptr<const WhatIfAnswer>& tried, const WhatIfQuestion& question);
    void drawTried();
    void showWorking(const QString& code);
    void copyPlot();
    void exportPlot();
    void keepShownInside();
    void fitColumn();
    [[nodiscard]] const CaseAnswer* shownAnswer() const; // with intervals where they are known

    QComboBox* pump_;
    QLabel *notice_, *reading_;
    QPushButton *noticeButton_, *copy_, *export_, *whole_;
    DutyPlot* plot_;
    QScrollArea* scroll_;
    CasesCard* cases_;
    WhatIfCard* whatIf_;
    CautionsCard* cautions_;
    WorkingCard* working_;
    IntervalCard* intervals_;
    QTimer* details_; // texts follow a slider at a reader's pace
    std::unique_ptr<DutyPicture> asItIs_;
    std::shared_ptr<const WhatIfAnswer> tried_;
    std::shared_ptr<const CurvePlot> triedCurve_; // the newest; may be of a moment before
    bool newCase_ = true;                         // sliders go back when the next answer is shown
    PlaceId noticePlace_ = PlaceId::charts;
    std::unique_ptr<LatestOnly> pictures_, tries_, curves_; // last: their threads end first
};

} // namespace headmark
