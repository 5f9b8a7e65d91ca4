#pragma once
// The place Shifts: what runs when, so that every zone gets its water in one night: the day chart with the
// source's level under it; beside it what to key into the controller, the totals and what to look at.

#include "app/desktop/duty/pump_choice.h"
#include "app/desktop/frame/card.h"
#include "app/desktop/frame/place.h"
#include "app/desktop/shifts/shift_chart.h"
#include "app/desktop/shifts/shift_table.h"
#include "app/desktop/shifts/shift_totals.h"

#include <QBoxLayout>
#include <QScrollArea>

namespace headmark {

class CautionRows;

class ShiftsPlace : public Place {
    Q_OBJECT

  public:
    explicit ShiftsPlace(Desk& desk, QWidget* parent = nullptr);

    [[nodiscard]] PlaceMark mark() const override;
    [[nodiscard]] QString markWords() const override;

    [[nodiscard]] ShiftChart& chart() const { return *chart_; }
    [[nodiscard]] ShiftTable& table() const { return *table_; }
    [[nodiscard]] QString notice() const { return notice_->text(); }
    [[nodiscard]] ShiftTotals& totals() const { return *totals_; }
    [[nodiscard]] std::vector<QString> cautions() const;
    [[nodiscard]] QPushButton* noticeButton() const { return noticeButton_; }
    [[nodiscard]] QPushButton* exportButton() const { return export_; }
    [[nodiscard]] QPushButton* copyButton() const { return copy_; }
    // PNG, SVG, PDF, or CSV as the command line writes it, for the pump shown.
    [[nodiscard]] bool writeTo(const QString& path) const;

  protected:
    void resizeEvent(QResizeEvent* event) override;
    void showEvent(QShowEvent* event) override;

  private:
    void makeChartCard();
    void makeColumn();
    void connectDesk();
    void refresh();
    void refreshNotice(const Answer& answer, bool hasPlan);
    void refreshCautions(const Answer& answer, const ShiftPlanFinding& plan);
    void chooseShift(int shift);
    void copy();
    void fitWidth();
    [[nodiscard]] const PumpFindings* found(const Answer& answer) const; // of the shown pump, with a plan

    bool late_ = false; // answers came while another place was shown
    QScrollArea *page_, *side_;
    QBoxLayout* parts_;
    Card *chartCard_, *tableCard_, *cautionsCard_;
    PumpChoice* pump_;
    QLabel *notice_, *state_, *noTank_;
    QPushButton *noticeButton_, *copy_, *export_, *tankButton_;
    QWidget* noTankLine_;
    ShiftChart* chart_;
    ShiftTable* table_;
    ShiftTotals* totals_;
    CautionRows* cautionRows_;
    SiteForm noticeForm_ = SiteForm::zones;
    PlaceId noticePlace_ = PlaceId::site;
};

} // namespace headmark
