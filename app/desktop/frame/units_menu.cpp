#include "app/desktop/frame/units_menu.h"

#include <QActionGroup>

namespace headmark {

namespace {

// One group of choices of a member of DisplayUnits.
template <class Unit>
void addGroup(QMenu& menu, Desk& desk, const QString& title, Unit DisplayUnits::*member,
              const std::vector<Unit>& choices, QString (DisplayUnits::*symbol)() const) {
    menu.addSection(title);
    auto* group = new QActionGroup(&menu);
    for (const Unit choice : choices) {
        DisplayUnits sample;
        sample.*member = choice;
        QAction* action = menu.addAction((sample.*symbol)());
        action->setCheckable(true);
        action->setActionGroup(group);
        action->setChecked(desk.units().*member == choice);
        QObject::connect(action, &QAction::triggered, &desk, [&desk, member, choice] {
            DisplayUnits units = desk.units();
            units.*member = choice;
            desk.setUnits(units);
        });
        QObject::connect(&desk, &Desk::unitsChanged, action, [&desk, action, member, choice] {
            action->setChecked(desk.units().*member == choice);
        });
    }
}

} // namespace

QMenu* makeUnitsMenu(Desk& desk, QWidget* parent) {
    auto* menu = new QMenu(QObject::tr("Units"), parent);
    addGroup<FlowUnit>(*menu, desk, QObject::tr("Flow"), &DisplayUnits::flow,
                       {FlowUnit::cubicMetresPerHour, FlowUnit::litresPerSecond, FlowUnit::litresPerMinute,
                        FlowUnit::usGallonsPerMinute, FlowUnit::imperialGallonsPerMinute},
                       &DisplayUnits::flowSymbol);
    addGroup<HeadUnit>(*menu, desk, QObject::tr("Head and level"), &DisplayUnits::head,
                       {HeadUnit::metres, HeadUnit::feet}, &DisplayUnits::headSymbol);
    addGroup<PressureUnit>(
        *menu, desk, QObject::tr("Pressure"), &DisplayUnits::pressure,
        {PressureUnit::bar, PressureUnit::kilopascals, PressureUnit::psi, PressureUnit::metres},
        &DisplayUnits::pressureSymbol);
    addGroup<LengthUnit>(*menu, desk, QObject::tr("Length"), &DisplayUnits::length,
                         {LengthUnit::metres, LengthUnit::feet}, &DisplayUnits::lengthSymbol);
    return menu;
}

QString unitsWords(const DisplayUnits& u) {
    return QStringLiteral("%1 · %2 · %3").arg(u.flowSymbol(), u.headSymbol(), u.pressureSymbol());
}

} // namespace headmark
