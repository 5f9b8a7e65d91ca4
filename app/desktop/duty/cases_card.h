#pragma once
// The operating cases with their verdicts: choosing one shows it everywhere, a tick draws another's system
// curve as well; adding, changing, renaming, duplicating and deleting are edits of the job.

#include "app/desktop/duty/case_card.h"
#include "app/desktop/duty/case_form.h"
#include "app/desktop/frame/card.h"
#include "app/desktop/frame/desk.h"

#include <QAction>
#include <QGridLayout>
#include <QToolButton>

#include <functional>
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace headmark {

// A case of the list, with its answer where there is one.
struct CaseEntry {
    MadeCase setting;
    const CaseAnswer* answer = nullptr; // lives as long as the desk's answer
};

// The cases of the answer at hand for the shown pump, in the order `Shown::caseIndex` counts them.
[[nodiscard]] std::vector<CaseEntry> caseEntries(const Answer& answer, const Shown& shown);

class CasesCard : public Card {
    Q_OBJECT

  public:
    explicit CasesCard(Desk& desk, QWidget* parent = nullptr);

    void refresh();
    // The verdict of the shown case as tried; empty: as it is.
    void showTried(const std::optional<CaseAnswer>& tried);
    // A new case of the job, shown; made cases become the job's own with it.
    void add(const Case& described);
    // To draw: the shown case first, then the ticked ones.
    [[nodiscard]] std::vector<MadeCase> drawn() const;

  signals:
    void drawnChanged();

  protected:
    void keyPressEvent(QKeyEvent* event) override;

  private:
    struct Row {
        CaseCard* card;
        QCheckBox* tick;
    };
    void makeMenu();
    void addRow();
    void refreshRow(std::size_t index);
    void choose(std::size_t index);
    void openForm(bool isNew);
    void closeForm();
    void take(const Case& described);
    void showChanged(const std::function<int()>& edit); // shows the case it gives
    [[nodiscard]] std::vector<Case> proposedSets() const;
    void addProposed();
    void rename();
    void duplicate();
    void remove();
    [[nodiscard]] std::vector<MadeCase> settings() const;
    [[nodiscard]] std::size_t current() const;
    void showCase(int index);

    Desk& desk_;
    std::shared_ptr<const Answer> answer_; // keeps what entries_ points to
    std::vector<CaseEntry> entries_;
    std::vector<Row> rows_;
    std::set<std::string> ticked_; // names
    QGridLayout* grid_;
    QLabel* none_;
    QToolButton *add_, *more_;
    QAction *change_, *rename_, *duplicate_, *delete_;
    QPushButton* proposed_;
    CaseForm* form_;
    bool formIsNew_ = true;
};

} // namespace headmark
