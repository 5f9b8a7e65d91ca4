#pragma once
// What guards the pump shown and its pipes: a card for each study of the installation; beside them what is
// known of the pump and at the source; at the end the rules all this is judged by.

#include "app/desktop/frame/card.h"
#include "app/desktop/frame/desk.h"

#include <QBoxLayout>
#include <QScrollArea>

#include <string_view>
#include <vector>

namespace headmark {

class PumpFactsForm;
class RulesCard;
class SourceFactsForm;
class StudyCard;

class GuardsView : public QWidget {
    Q_OBJECT

  public:
    explicit GuardsView(Desk& desk, QWidget* parent = nullptr);

    // Shows the latest answer; hidden, it waits until it is shown. It also follows the desk by itself.
    void refresh();

    [[nodiscard]] std::vector<StudyCard*> studies() const;           // those shown, in order
    [[nodiscard]] StudyCard* study(std::string_view topic) const;    // null: not shown
    [[nodiscard]] QString notice() const { return notice_->text(); } // what is missing
    [[nodiscard]] QString state() const { return state_->text(); }   // whether it is of an earlier edit
    [[nodiscard]] QPushButton& noticeButton() const { return *noticeButton_; }
    [[nodiscard]] PumpFactsForm& pumpForm() const { return *pumpForm_; }
    [[nodiscard]] SourceFactsForm& sourceForm() const { return *sourceForm_; }
    [[nodiscard]] RulesCard& rules() const { return *rules_; }
    [[nodiscard]] QScrollArea& page() const { return *page_; }

  protected:
    void resizeEvent(QResizeEvent* event) override;
    void showEvent(QShowEvent* event) override;
    void changeEvent(QEvent* event) override;

  private:
    [[nodiscard]] QWidget* madeStudies();
    [[nodiscard]] QWidget* madeForms();
    void connectDesk();
    void refreshForms();
    void refreshNotice();
    void refreshStudies();
    void goMend();
    void fitWidth();

    Desk& desk_;
    bool late_ = true; // something changed while this was out of sight
    QScrollArea* page_;
    QBoxLayout* parts_; // studies and forms
    QWidget *studyColumn_, *formColumn_;
    Card *noticeCard_, *pumpCard_;
    QLabel *state_, *notice_;
    QPushButton* noticeButton_;
    PlaceId noticePlace_ = PlaceId::charts;
    QVBoxLayout* studyList_;
    std::vector<StudyCard*> cards_;
    std::size_t used_ = 0;
    PumpFactsForm* pumpForm_;
    SourceFactsForm* sourceForm_;
    RulesCard* rules_;
};

} // namespace headmark
