#include "app/desktop/installation/pump_facts_form.h"

#include "app/desktop/installation/form_labels.h"
#include "app/desktop/installation/guards_ranges.h"
#include "app/desktop/installation/ordered_pair_edit.h"
#include "app/desktop/installation/thread_edit.h"

namespace headmark {

namespace {

using Figure = FieldForm::Figure;

template <class T>
Figure figureOf(const std::optional<T>& fact, double (T::*in)() const) {
    return fact ? Figure(((*fact).*in)()) : Figure();
}

template <class T>
std::optional<T> factOf(const Figure& figure, T (*from)(double)) {
    return figure ? std::optional<T>(from(*figure)) : std::nullopt;
}

// A motor of which nothing is known is none.
void editMotor(Pump& pump, const std::function<void(Motor&)>& change) {
    Motor motor = pump.motor.value_or(Motor{});
    change(motor);
    const bool known = motor.rated || motor.efficiency || !motor.supply.empty();
    pump.motor = known ? std::optional<Motor>(motor) : std::nullopt;
}

constexpr int kPhases[] = {0, 1, 3}; // in the order of the choice; 0: not said

} // namespace

PumpFactsForm::PumpFactsForm(Desk& desk, QWidget* parent) : FieldForm(desk, parent), desk_(desk) {
    addSpeeds();
    addMotor();
    addPlate();
    addBody();
    addPromises();
}

const Pump* PumpFactsForm::pumpOf(const Workspace& workspace) const {
    const auto index = static_cast<std::size_t>(desk_.shown().pump);
    return index < workspace.job.pumps.size() ? &workspace.job.pumps[index] : nullptr;
}

Pump* PumpFactsForm::pumpOf(Workspace& workspace) const {
    return const_cast<Pump*>(pumpOf(static_cast<const Workspace&>(workspace)));
}

void PumpFactsForm::addFact(const FactField& field, const Get& get, const Set& set, const QString& tip) {
    add(Number{field.label, field.step, field.quantity, field.unit, field.range, true,
               [this, get](const Workspace& w) {
                   const Pump* pump = pumpOf(w);
                   return pump ? get(*pump) : Figure();
               },
               [this, set](Workspace& w, Figure f) {
                   if (Pump* pump = pumpOf(w)) set(*pump, f);
               },
               tip});
}

void PumpFactsForm::addSpeeds() {
    const auto speed = [this](const QString& label, const QString& step,
                              std::optional<RotationalSpeed> Pump::*which, const QString& tip) {
        addFact(
            {label, step, range::kSpeed_rpm, tr("rpm")},
            [which](const Pump& p) { return figureOf(p.*which, &RotationalSpeed::inRevolutionsPerMinute); },
            [which](Pump& p, Figure f) { p.*which = factOf(f, &RotationalSpeed::fromRevolutionsPerMinute); },
            tip);
    };
    addHeading(tr("Speed"));
    speed(tr("Of the chart"), tr("Change the chart's speed"), &Pump::chartSpeed,
          tr("The speed the curves are printed for."));
    speed(tr("On site"), tr("Change the pump's speed"), &Pump::runSpeed,
          tr("The speed it runs at here, at 100 %; empty: that of the chart."));
}

void PumpFactsForm::addMotor() {
    addHeading(tr("Motor"));
    addFact(
        {tr("Rated"), tr("Change the motor's rating"), range::kRated_kW, tr("kW")},
        [](const Pump& p) { return p.motor ? figureOf(p.motor->rated, &Power::inKilowatts) : Figure(); },
        [](Pump& p, Figure f) {
            editMotor(p, [&](Motor& m) { m.rated = factOf(f, &Power::fromKilowatts); });
        },
        tr("What the motor may give at its shaft."));
    addFact(
        {tr("Efficiency"), tr("Change the motor's efficiency"), range::kMotorEfficiency_percent, tr("%")},
        [](const Pump& p) {
            return p.motor ? figureOf(p.motor->efficiency, &Efficiency::inPercent) : Figure();
        },
        [](Pump& p, Figure f) {
            editMotor(p, [&](Motor& m) { m.efficiency = factOf(f, &Efficiency::fromPercent); });
        },
        tr("Shaft power over input power; without it no input power is known."));
    add(Text{tr("Supply"),
             [this](const Workspace& w) {
                 const Pump* pump = pumpOf(w);
                 return pump && pump->motor ? QString::fromStdString(pump->motor->supply) : QString();
             },
             [this](const QString& typed) {
                 desk_.document.edit(tr("Change the motor's supply"), [&](Workspace& w) {
                     if (Pump* pump = pumpOf(w))
                         editMotor(*pump, [&](Motor& m) { m.supply = typed.trimmed().toStdString(); });
                 });
                 return true;
             },
             tr("As the plate says, such as \"400 V three-phase\".")});
}

void PumpFactsForm::addPlate() {
    addHeading(tr("On the motor's plate"));
    addFact(
        {tr("Input"), tr("Change the plate's input"), range::kRated_kW, tr("kW")},
        [](const Pump& p) { return figureOf(p.plate.input, &Power::inKilowatts); },
        [](Pump& p, Figure f) { p.plate.input = factOf(f, &Power::fromKilowatts); },
        tr("The greatest power the motor draws, where the plate gives it."));
    const auto plain = [this](const QString& label, const QString& step, const FigureRange& figures,
                              const QString& unit, std::optional<double> MotorPlate::*which,
                              const QString& tip) {
        addFact(
            {label, step, figures, unit}, [which](const Pump& p) { return p.plate.*which; },
            [which](Pump& p, Figure f) { p.plate.*which = f; }, tip);
    };
    plain(tr("Current"), tr("Change the plate's current"), range::kAmps, tr("A"), &MotorPlate::amps,
          tr("The current that the overload relay is set to at most."));
    plain(tr("Voltage"), tr("Change the plate's voltage"), range::kVolts, tr("V"), &MotorPlate::volts,
          tr("Between the phases, of three."));
    plain(tr("Power factor"), tr("Change the plate's power factor"), range::kPowerFactor, {},
          &MotorPlate::powerFactor, tr("The plate's cos φ; empty: a usual one is taken."));
    add(Choice{tr("Phases"),
               tr("Change the plate's phases"),
               {tr("not said"), tr("one"), tr("three")},
               [this](const Workspace& w) {
                   const Pump* pump = pumpOf(w);
                   const int phases = pump ? pump->plate.phases.value_or(0) : 0;
                   return static_cast<int>(std::find(std::begin(kPhases), std::end(kPhases), phases) -
                                           std::begin(kPhases));
               },
               [this](Workspace& w, int index) {
                   Pump* pump = pumpOf(w);
                   if (!pump) return;
                   pump->plate.phases = index > 0 ? std::optional<int>(kPhases[index]) : std::nullopt;
               },
               tr("Not said: told by the supply's words.")});
}

ThreadEdit* PumpFactsForm::threadEdit(const QString& label, const QString& step, std::string Pump::*which) {
    return new ThreadEdit(
        desk_,
        {label, step, tr("As the pump's sheet says, such as \"G 1-1/2\", \"R 1\", \"Rp 2\" or \"DN 50\"."),
         [this, which](const Workspace& w) {
             const Pump* pump = pumpOf(w);
             return pump ? QString::fromStdString(pump->*which) : QString();
         },
         [this, which](Workspace& w, const std::string& typed) {
             if (Pump* pump = pumpOf(w)) pump->*which = typed;
         }});
}

void PumpFactsForm::addBody() {
    addHeading(tr("Its body"));
    inlet_ = threadEdit(tr("Inlet thread"), tr("Change the inlet thread"), &Pump::inletThread);
    outlet_ = threadEdit(tr("Outlet thread"), tr("Change the outlet thread"), &Pump::outletThread);
    addWidget(inlet_);
    addWidget(outlet_);
    addFact(
        {tr("Highest pressure"),
         tr("Change the pump's highest pressure"),
         range::kPumpRating_kPa,
         {},
         Quantity::pressure},
        [](const Pump& p) { return figureOf(p.greatestPressure, &GaugePressure::inKilopascals); },
        [](Pump& p, Figure f) { p.greatestPressure = factOf(f, &GaugePressure::fromKilopascals); },
        tr("The rating of its casing and seal."));
    addFact(
        {tr("Water inside"), tr("Change the water in the casing"), range::kCasing_l, tr("l")},
        [](const Pump& p) { return figureOf(p.casing, &Volume::inLitres); },
        [](Pump& p, Figure f) { p.casing = factOf(f, &Volume::fromLitres); },
        tr("In the casing: it warms while no valve opens, and is filled in before the first start."));
    addFact(
        {tr("Primes itself to"), tr("Change the lift it primes"), range::kPrimes_m, {}, Quantity::head},
        [](const Pump& p) { return figureOf(p.primesTo, &Head::inMetres); },
        [](Pump& p, Figure f) { p.primesTo = factOf(f, &Head::fromMetres); },
        tr("The greatest lift up to which it draws the air out by itself; empty: it does not."));
}

void PumpFactsForm::addPromises() {
    addHeading(tr("What its maker states"));
    addFact(
        {tr("Head, give or take"), tr("Change the maker's tolerance"), range::kDelivered_percent, tr("%")},
        [](const Pump& p) {
            return p.deliveredHeadShare ? Figure(Efficiency::fromShare(*p.deliveredHeadShare).inPercent())
                                        : Figure();
        },
        [](Pump& p, Figure f) {
            p.deliveredHeadShare =
                f ? std::optional<double>(Efficiency::fromPercent(*f).inShare()) : std::nullopt;
        },
        tr("By how much a delivered pump's head may differ from the chart; empty: as ISO 9906 grades "
           "pumps of its power."));
    using Pair = OrderedPairEdit::Pair;
    OrderedPairEdit::About about;
    const QString tip = tr("Between which shares of best-efficiency flow it may run for long; empty: the "
                           "usual 50 to 125 %.");
    about.fields = {{{tr("Of best flow, from"), tip}, {tr("Of best flow, to"), tip}}};
    about.step = tr("Change the allowable flow");
    about.unit = tr("%");
    about.range = range::kAllowable_percent;
    about.bothOrNone = true;
    about.notAscending = tr("The least flow must be below the greatest.");
    about.oneMissing = tr("Both ends are needed, or none.");
    about.get = [this](const Workspace& w) -> Pair {
        const Pump* pump = pumpOf(w);
        if (!pump || !pump->allowableShare) return {};
        return {Efficiency::fromShare(pump->allowableShare->first).inPercent(),
                Efficiency::fromShare(pump->allowableShare->second).inPercent()};
    };
    about.set = [this](Workspace& w, const Pair& pair) {
        Pump* pump = pumpOf(w);
        if (!pump) return;
        pump->allowableShare.reset();
        if (pair[0] && pair[1])
            pump->allowableShare = {Efficiency::fromPercent(*pair[0]).inShare(),
                                    Efficiency::fromPercent(*pair[1]).inShare()};
    };
    allowable_ = new OrderedPairEdit(desk_, about);
    addWidget(allowable_);
}

void PumpFactsForm::refresh() {
    FieldForm::refresh();
    alignLabels(*this);
    inlet_->refresh();
    outlet_->refresh();
    allowable_->refresh();
}

} // namespace headmark
