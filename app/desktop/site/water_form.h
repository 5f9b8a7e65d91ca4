#pragma once
// "Water and source": where the water stands, what it is, where the pump stands.

#include "app/desktop/site/field_form.h"

namespace headmark {

class WindowEdit;
class ZonePairsEdit;

class WaterForm : public FieldForm {
    Q_OBJECT

  public:
    explicit WaterForm(Desk& desk, QWidget* parent = nullptr);

  private:
    void addSource();
    void addWater();
};

// "Control": how the pump is switched, the tank return, the controller.
class ControlForm : public FieldForm {
    Q_OBJECT

  public:
    explicit ControlForm(Desk& desk, QWidget* parent = nullptr);
    void refresh();
    [[nodiscard]] WindowEdit& window() const { return *window_; }
    [[nodiscard]] ZonePairsEdit& pairs() const { return *pairs_; }

  private:
    void addReturn();
    void addPressureHeld();
    void addController(Desk& desk);

    WindowEdit* window_;
    ZonePairsEdit* pairs_;
};

// "Details": limits and uncertainties.
class DetailsForm : public FieldForm {
    Q_OBJECT

  public:
    explicit DetailsForm(Desk& desk, QWidget* parent = nullptr);

  private:
    void addFriction();
    void addLimits();
    void addUncertainty();
};

} // namespace headmark
