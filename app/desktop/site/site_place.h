#pragma once
// The place "Site": the long section above, the run as a table below, the forms at the right; a new site
// begins with plain questions instead.

#include "app/desktop/frame/card.h"
#include "app/desktop/frame/place.h"
#include "app/desktop/site/item_form.h"
#include "app/desktop/site/long_section_view.h"
#include "app/desktop/site/run_card.h"
#include "app/desktop/site/site_questions.h"
#include "app/desktop/site/water_form.h"
#include "app/desktop/site/zones_form.h"
#include "app/desktop/site/zones_table.h"

#include <QSplitter>
#include <QStackedWidget>
#include <QTabWidget>

class QScrollArea;

namespace headmark {

class SitePlace : public Place {
    Q_OBJECT

  public:
    explicit SitePlace(Desk& desk, QWidget* parent = nullptr);

    [[nodiscard]] PlaceMark mark() const override;
    [[nodiscard]] QString markWords() const override;

    [[nodiscard]] LongSectionView& section() { return *section_; }
    [[nodiscard]] RunCard& run() { return *run_; }
    [[nodiscard]] ZonesTable& zoneTable() { return *zoneTable_; }
    [[nodiscard]] ControlForm& controlForm() { return *control_; }
    [[nodiscard]] SiteQuestions& questions() { return *questions_; }
    [[nodiscard]] ItemForm& itemForm() { return *item_; }
    [[nodiscard]] ZonesForm& zonesForm() { return *zones_; }
    [[nodiscard]] QTabWidget& forms() { return *forms_; }
    [[nodiscard]] QComboBox& caseChoice() { return *case_; }
    [[nodiscard]] QString complaint() const { return complaint_->text(); }
    [[nodiscard]] bool asksQuestions() const { return asks_; }
    void setAsksQuestions(bool asks);

  protected:
    void showEvent(QShowEvent* event) override;

  private:
    void makeSection();
    void makeTables();
    void makeForms();
    void styleTabs();
    void connectDesk();
    void followWorkspace(); // after every edit
    void refresh();
    void refreshCases();
    void refreshSection();
    void refreshComplaint();
    void point(const RunSpot& spot, bool fromTable);
    [[nodiscard]] QStringList zoneWords(const Answer& answer) const;

    QSplitter *whole_, *left_;
    Card* sectionCard_;
    LongSectionView* section_;
    QComboBox* case_;
    QLabel* complaint_;
    QStackedWidget* below_;
    RunCard* run_;
    ZonesTable* zoneTable_;
    SiteQuestions* questions_;
    QScrollArea* questionsArea_ = nullptr;
    QPushButton *askAgain_, *showZones_;
    QTabWidget* forms_;
    WaterForm* water_;
    ItemForm* item_;
    ZonesForm* zones_;
    ControlForm* control_;
    DetailsForm* details_;
    bool asks_ = false;
    long askedOf_ = 0; // number of the job whose questions were shown or not
    bool late_ = false; // what is shown is of an earlier answer: refreshed when it is seen again
    bool pointing_ = false;
};

} // namespace headmark
