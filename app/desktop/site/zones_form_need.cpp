// Of zones_form.h: what a zone needs a day.

#include "app/desktop/site/zones_form.h"

namespace headmark {

void ZonesForm::addNeedFields() {
    const auto shown = [this](const Workspace& w) { return hasZone(w); };
    const auto byArea = [this](const Workspace& w) { return hasZone(w) && of(w).area.has_value(); };
    const auto byVolume = [this](const Workspace& w) { return hasZone(w) && !of(w).area.has_value(); };
    addHeading(tr("Need"), shown);
    add(Choice{tr("Said as"),
               tr("Change how the need is said"),
               {tr("volume a day"), tr("depth on an area")},
               [this](const Workspace& w) { return of(w).area ? 1 : 0; },
               [this](Workspace& w, int i) {
                   Zone& zone = of(w);
                   zone.needPerDay.reset();
                   zone.area = i == 1 ? std::optional(Area::fromSquareMetres(1000.0)) : std::nullopt;
                   zone.needDepthPerDay = i == 1 ? std::optional(Length::fromMillimetres(4.0)) : std::nullopt;
               },
               {},
               shown});
    add(Number{tr("Volume a day"),
               tr("Change the need"),
               Quantity::plain,
               tr("m³"),
               range::kNeed_m3,
               true,
               [this](const Workspace& w) -> Figure {
                   return of(w).needPerDay ? Figure(of(w).needPerDay->inCubicMetres()) : Figure();
               },
               [this](Workspace& w, Figure f) {
                   of(w).needPerDay = f ? std::optional(Volume::fromCubicMetres(*f)) : std::nullopt;
               },
               {},
               byVolume});
    add(Number{tr("Area"),
               tr("Change the area"),
               Quantity::plain,
               tr("m²"),
               range::kArea_m2,
               false,
               [this](const Workspace& w) -> Figure { return of(w).area->inSquareMetres(); },
               [this](Workspace& w, Figure f) { of(w).area = Area::fromSquareMetres(*f); },
               {},
               byArea});
    add(Number{tr("Depth a day"),
               tr("Change the need"),
               Quantity::plain,
               tr("mm"),
               range::kDepth_mm,
               false,
               [this](const Workspace& w) -> Figure {
                   return of(w).needDepthPerDay.value_or(Length()).inMillimetres();
               },
               [this](Workspace& w, Figure f) { of(w).needDepthPerDay = Length::fromMillimetres(*f); },
               {},
               byArea});
}

} // namespace headmark
