#pragma once
// The figures of the item chosen in the run: what the catalogue says of it, or free values of the user's own.

#include "app/desktop/site/field_form.h"
#include "app/desktop/site/run_spot.h"

namespace headmark {

class ItemForm : public FieldForm {
    Q_OBJECT

  public:
    explicit ItemForm(Desk& desk, QWidget* parent = nullptr);
    void setSpot(const RunSpot& spot);
    void update();

  private:
    void addPipeFields();
    void addFittingFields();
    void addFilterFields();
    void addRegulatorFields();
    template <class Kind>
    [[nodiscard]] const Kind* item(const Workspace& workspace) const {
        const RunItem* found = itemAt(workspace.job.site, spot_);
        return found ? std::get_if<Kind>(found) : nullptr;
    }
    template <class Kind>
    [[nodiscard]] Kind& item(Workspace& workspace) const {
        return std::get<Kind>(*itemAt(workspace.job.site, spot_));
    }

    Desk& desk_;
    QLabel *name_, *says_;
    RunSpot spot_;
};

} // namespace headmark
