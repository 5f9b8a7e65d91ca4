#pragma once
// The connection sheet on the desk: the drawing across, what is missing or wrong, parts with the chosen one
// beside, choices, joints, order of assembly. Drawing and list choose together.

#include "app/desktop/duty/caution_rows.h"
#include "app/desktop/duty/flow_text.h"
#include "app/desktop/frame/card.h"
#include "app/desktop/frame/desk.h"
#include "app/desktop/installation/part_card.h"
#include "app/desktop/installation/parts_table.h"
#include "app/desktop/installation/sheet_drawing.h"
#include "app/desktop/installation/sheet_form.h"
#include "app/desktop/installation/thread_finder.h"

#include <QBoxLayout>
#include <QScrollArea>

#include <optional>

namespace headmark {

class ConnectionsView : public QWidget {
    Q_OBJECT

  public:
    explicit ConnectionsView(Desk& desk, QWidget* parent = nullptr);

    // Of the pump shown; `stale`: of an earlier edit.
    void show(const ConnectionFinding& finding, const Site& site, bool stale);

    [[nodiscard]] SheetDrawing& drawing() const { return *drawing_; }
    [[nodiscard]] PartsTable& parts() const { return *parts_; }
    [[nodiscard]] PartCard& part() const { return *part_; }
    [[nodiscard]] SheetForm& form() const { return *form_; }
    [[nodiscard]] ThreadFinder& threads() const { return *threads_; }
    [[nodiscard]] QPushButton& countLosses() const { return *countLosses_; }
    [[nodiscard]] std::vector<QString> cautions() const { return rows_->sentences(); }

  protected:
    void resizeEvent(QResizeEvent* event) override;

  private:
    void choose(int part, bool inList);
    void showCautions(const Cautions& cautions, const Site& site);
    void count();
    void fitWidth();

    Desk& desk_;
    QScrollArea* drawingArea_;
    SheetDrawing* drawing_;
    Card *drawingCard_, *cautionsCard_, *partsCard_, *assemblyCard_;
    PartsTable* parts_;
    PartCard* part_;
    SheetForm* form_;
    ThreadFinder* threads_;
    FlowText* assembly_;
    QPushButton* countLosses_;
    QBoxLayout* beside_;
    QWidget* column_;
    QSpacerItem* abovePart_; // brings the chosen part beside its row
    CautionRows* rows_;
    ConnectionSheet sheet_;
    bool stale_ = false;
};

} // namespace headmark
