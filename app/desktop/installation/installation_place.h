#pragma once
// The place Installation: what guards the pump beside its duty point, the connection sheet a fitter builds
// from, and what is read at the first start; one tab each, of the pump that all places show.

#include "app/desktop/duty/pump_choice.h"
#include "app/desktop/frame/place.h"
#include "app/desktop/installation/connections_view.h"
#include "app/desktop/installation/first_start.h"
#include "app/desktop/installation/guards_view.h"

#include <QStackedWidget>
#include <QTabBar>

namespace headmark {

class InstallationPlace : public Place {
    Q_OBJECT

  public:
    enum Tab { kGuards, kConnections, kFirstStart };

    explicit InstallationPlace(Desk& desk, QWidget* parent = nullptr);

    [[nodiscard]] PlaceMark mark() const override;
    [[nodiscard]] QString markWords() const override;

    [[nodiscard]] QTabBar& tabs() const { return *tabs_; }
    [[nodiscard]] GuardsView& guards() const { return *guards_; }
    [[nodiscard]] ConnectionsView& connections() const { return *connections_; }
    [[nodiscard]] FirstStart& firstStart() const { return *firstStart_; }
    [[nodiscard]] QPushButton& exportButton() const { return *export_; }
    [[nodiscard]] QPushButton& copyButton() const { return *copy_; }
    [[nodiscard]] QString notice() const { return notice_->text(); }
    // The sheet as PDF, its drawing as SVG or PNG, its list of parts as CSV, by the path's ending.
    [[nodiscard]] bool writeTo(const QString& path) const;

  protected:
    void showEvent(QShowEvent* event) override;

  private:
    void makeFirstStart();
    void refresh();
    void refreshNotice(const Answer& answer, bool hasSheet);
    void copy();
    [[nodiscard]] const PumpFindings* found(const Answer& answer) const; // of the pump shown

    bool late_ = false; // answers came while another place was shown
    QTabBar* tabs_;
    QStackedWidget* pages_;
    PumpChoice* pump_;
    QPushButton *copy_, *export_, *noticeButton_;
    QLabel *notice_, *state_;
    GuardsView* guards_;
    ConnectionsView* connections_;
    FirstStart* firstStart_;
    QLabel* usual_;
    QWidget *noticePage_, *connectionsPage_, *firstPage_;
    PlaceId noticePlace_ = PlaceId::charts;
};

} // namespace headmark
