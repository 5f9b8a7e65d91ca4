#pragma once
// What the connection sheet goes by: exposure, a set that is carried away, plastic at tank and pump, clamps.

#include "app/desktop/site/field_form.h"

namespace headmark {

class SheetForm : public FieldForm {
    Q_OBJECT

  public:
    explicit SheetForm(Desk& desk, QWidget* parent = nullptr);
};

} // namespace headmark
