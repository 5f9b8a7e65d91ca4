#include "app/desktop/site/site_ranges.h"

namespace headmark {

double shownFigure(Quantity quantity, double base, const DisplayUnits& units) {
    switch (quantity) {
    case Quantity::level:
        return units.figure(Level::fromMetres(base));
    case Quantity::length:
        return units.figure(Length::fromMetres(base));
    case Quantity::head:
        return units.figure(Head::fromMetres(base));
    case Quantity::flow:
        return units.figure(Flow::fromCubicMetresPerHour(base));
    case Quantity::pressure:
        return units.figure(GaugePressure::fromKilopascals(base));
    case Quantity::plain:
        break;
    }
    return base;
}

double baseFigure(Quantity quantity, double shown, const DisplayUnits& units) {
    switch (quantity) {
    case Quantity::level:
        return units.levelFrom(shown).inMetres();
    case Quantity::length:
        return units.lengthFrom(shown).inMetres();
    case Quantity::head:
        return units.headFrom(shown).inMetres();
    case Quantity::flow:
        return units.flowFrom(shown).inCubicMetresPerHour();
    case Quantity::pressure:
        return units.pressureFrom(shown).inKilopascals();
    case Quantity::plain:
        break;
    }
    return shown;
}

QString unitSymbol(Quantity quantity, const DisplayUnits& units) {
    switch (quantity) {
    case Quantity::level:
    case Quantity::length:
        return units.lengthSymbol();
    case Quantity::head:
        return units.headSymbol();
    case Quantity::flow:
        return units.flowSymbol();
    case Quantity::pressure:
        return units.pressureSymbol();
    case Quantity::plain:
        break;
    }
    return {};
}

NumberEntry::Range FigureRange::shown(Quantity quantity, const DisplayUnits& units, bool mayBeEmpty) const {
    return {shownFigure(quantity, least, units), shownFigure(quantity, greatest, units), mayBeEmpty, whole};
}

void keepFigures(const RunItem& old, RunItem& item) {
    if (const auto* from = std::get_if<PipeItem>(&old)) {
        if (auto* to = std::get_if<PipeItem>(&item)) {
            to->length = from->length;
            to->riseTo = from->riseTo;
        }
    } else if (const auto* fitting = std::get_if<FittingItem>(&old)) {
        if (auto* to = std::get_if<FittingItem>(&item)) to->count = fitting->count;
    } else if (const auto* regulator = std::get_if<RegulatorItem>(&old)) {
        if (auto* to = std::get_if<RegulatorItem>(&item)) to->set = regulator->set;
    }
}

} // namespace headmark
