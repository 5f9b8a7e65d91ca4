#pragma once
// "The pump": what its sheet and its motor's plate say beyond the curves, of the pump shown. An empty field
// is a fact not given.

#include "app/desktop/site/field_form.h"

namespace headmark {

class OrderedPairEdit;
class ThreadEdit;

class PumpFactsForm : public FieldForm {
    Q_OBJECT

  public:
    explicit PumpFactsForm(Desk& desk, QWidget* parent = nullptr);
    void refresh();
    [[nodiscard]] ThreadEdit& inlet() const { return *inlet_; }
    [[nodiscard]] ThreadEdit& outlet() const { return *outlet_; }
    [[nodiscard]] OrderedPairEdit& allowable() const { return *allowable_; }

  private:
    using Get = std::function<Figure(const Pump&)>;
    using Set = std::function<void(Pump&, Figure)>;
    struct FactField {
        QString label, step;
        FigureRange range;
        QString unit; // of a plain figure
        Quantity quantity = Quantity::plain;
    };
    void addFact(const FactField& field, const Get& get, const Set& set, const QString& tip);

    void addSpeeds();
    void addMotor();
    void addPlate();
    void addBody();
    void addPromises();
    [[nodiscard]] ThreadEdit* threadEdit(const QString& label, const QString& step, std::string Pump::*which);
    [[nodiscard]] const Pump* pumpOf(const Workspace& workspace) const; // null: there is none
    [[nodiscard]] Pump* pumpOf(Workspace& workspace) const;

    Desk& desk_;
    ThreadEdit *inlet_ = nullptr, *outlet_ = nullptr;
    OrderedPairEdit* allowable_ = nullptr;
};

} // namespace headmark
