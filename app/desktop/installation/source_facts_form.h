#pragma once
// "At the source": the suction's open end, what stops the pump before it runs dry, how fast the zone valves
// shut.

#include "app/desktop/site/field_form.h"

#include <span>
#include <string_view>

namespace headmark {

class OrderedPairEdit;

class SourceFactsForm : public FieldForm {
    Q_OBJECT

  public:
    explicit SourceFactsForm(Desk& desk, QWidget* parent = nullptr);
    void refresh();
    [[nodiscard]] OrderedPairEdit& levels() const { return *levels_; } // floor, then mouth

  private:
    OrderedPairEdit* levels_;
};

// As a job file writes them, in the order of the choice after "not said".
[[nodiscard]] std::span<const std::string_view> dryRunDevices();

} // namespace headmark
