// Of water_form.h: control and tank return; the controller stands in controller_form.cpp.

#include "app/desktop/site/water_form.h"

#include "analysis/core/assertion.h"
#include "analysis/pipework/catalogue.h"
#include "app/desktop/site/window_edit.h"
#include "app/desktop/site/zone_pairs_edit.h"

namespace headmark {

namespace {

bool hasReturn(const Workspace& w) { return w.job.site.tankReturn.has_value(); }
bool isHeld(const Workspace& w) { return w.job.site.control == ControlKind::pressureHeld; }
bool hasVessel(const Workspace& w) { return isHeld(w) && w.job.site.vessel.has_value(); }
bool hasSetPoint(const Workspace& w) { return isHeld(w) && w.job.site.hold.has_value(); }

// Garden size; the figures are to be typed over.
TankReturn newReturn() {
    TankReturn back;
    const PipeRow* row = findPipe("pe100_sdr11_20");
    HEADMARK_ASSERT(row != nullptr, "the catalogue has the return's pipe");
    back.pipe.kind = row->kind;
    back.pipe.length = Length::fromMetres(6.0);
    back.setFlow = Flow::fromCubicMetresPerHour(0.5);
    return back;
}

Vessel newVessel() {
    return {Volume::fromLitres(60.0), GaugePressure::fromKilopascals(180.0),
            GaugePressure::fromKilopascals(200.0), GaugePressure::fromKilopascals(350.0)};
}

} // namespace

ControlForm::ControlForm(Desk& desk, QWidget* parent) : FieldForm(desk, parent) {
    add(Choice{
        tr("The pump runs"),
        tr("Change the control"),
        {tr("with the zone valves"), tr("to hold pressure, by vessel"), tr("to hold pressure, by speed")},
        [](const Workspace& w) { return !isHeld(w)          ? 0
                                        : w.job.site.vessel ? 1
                                                            : 2; },
        [](Workspace& w, int index) {
            Site& site = w.job.site;
            site.control = index == 0 ? ControlKind::withZones : ControlKind::pressureHeld;
            site.vessel = index == 1 ? std::optional(site.vessel.value_or(newVessel())) : std::nullopt;
            site.hold = index == 2 ? std::optional(site.hold.value_or(GaugePressure::fromKilopascals(300.0)))
                                   : std::nullopt;
        },
        tr("With the valves: a controller starts the pump together with a zone.")});
    addPressureHeld();
    addReturn();
    addController(desk);
}

void ControlForm::refresh() {
    FieldForm::refresh();
    window_->refresh();
    pairs_->refresh();
}

void ControlForm::addPressureHeld() {
    add(Number{tr("Vessel"),
               tr("Change the vessel"),
               Quantity::plain,
               tr("l"),
               range::kVesselVolume_l,
               false,
               [](const Workspace& w) -> Figure { return w.job.site.vessel->volume.inLitres(); },
               [](Workspace& w, Figure f) { w.job.site.vessel->volume = Volume::fromLitres(*f); },
               {},
               hasVessel});
    const auto pressure = [&](const QString& label, const QString& step, GaugePressure Vessel::*which) {
        add(Number{
            label,
            step,
            Quantity::pressure,
            {},
            range::kGauge_kPa,
            false,
            [which](const Workspace& w) -> Figure { return (*w.job.site.vessel.*which).inKilopascals(); },
            [which](Workspace& w, Figure f) {
                *w.job.site.vessel.*which = GaugePressure::fromKilopascals(*f);
            },
            {},
            hasVessel});
    };
    pressure(tr("Precharge"), tr("Change the precharge"), &Vessel::precharge);
    pressure(tr("Cut in"), tr("Change the cut-in pressure"), &Vessel::cutIn);
    pressure(tr("Cut out"), tr("Change the cut-out pressure"), &Vessel::cutOut);
    add(Number{tr("Holds"),
               tr("Change the set point"),
               Quantity::pressure,
               {},
               range::kHold_kPa,
               false,
               [](const Workspace& w) -> Figure { return w.job.site.hold->inKilopascals(); },
               [](Workspace& w, Figure f) { w.job.site.hold = GaugePressure::fromKilopascals(*f); },
               {},
               hasSetPoint});
}

void ControlForm::addReturn() {
    addHeading(tr("Tank return"));
    add(Tick{
        tr("Some water flows back"), tr("Change the tank return"), hasReturn,
        [](Workspace& w, bool on) { w.job.site.tankReturn = on ? std::optional(newReturn()) : std::nullopt; },
        tr("A small pipe from the pump's outlet back; it keeps the pump cool while every valve is shut.")});
    add(Pipe{tr("Pipe"), tr("Change the return's pipe"),
             [](const Workspace& w) { return &w.job.site.tankReturn->pipe.kind; },
             [](Workspace& w, const PipeKind& kind) { w.job.site.tankReturn->pipe.kind = kind; }, hasReturn});
    add(Number{tr("Length"),
               tr("Change the length of the tank return"),
               Quantity::length,
               {},
               range::kPipeLength_m,
               false,
               [](const Workspace& w) -> Figure { return w.job.site.tankReturn->pipe.length.inMetres(); },
               [](Workspace& w, Figure f) { w.job.site.tankReturn->pipe.length = Length::fromMetres(*f); },
               {},
               hasReturn});
    add(Choice{tr("Known by"),
               tr("Change how the return is known"),
               {tr("pipe alone"), tr("its flow, zones shut"), tr("its valve's Kv")},
               [](const Workspace& w) {
                   const TankReturn& back = *w.job.site.tankReturn;
                   return back.setFlow ? 1 : back.valveKv_m3_h ? 2 : 0;
               },
               [](Workspace& w, int index) {
                   TankReturn& back = *w.job.site.tankReturn;
                   back.setFlow =
                       index == 1 ? std::optional(Flow::fromCubicMetresPerHour(0.5)) : std::nullopt;
                   back.valveKv_m3_h = index == 2 ? std::optional(1.0) : std::nullopt;
               },
               {},
               hasReturn});
    add(Number{
        tr("Flow, zones shut"),
        tr("Change the return's flow"),
        Quantity::flow,
        {},
        range::kReturnFlow_m3_h,
        false,
        [](const Workspace& w) -> Figure { return w.job.site.tankReturn->setFlow->inCubicMetresPerHour(); },
        [](Workspace& w, Figure f) { w.job.site.tankReturn->setFlow = Flow::fromCubicMetresPerHour(*f); },
        {},
        [](const Workspace& w) { return hasReturn(w) && w.job.site.tankReturn->setFlow.has_value(); }});
    add(Number{
        tr("Valve's Kv"),
        tr("Change the return's valve"),
        Quantity::plain,
        tr("m³/h"),
        range::kKv_m3_h,
        false,
        [](const Workspace& w) -> Figure { return w.job.site.tankReturn->valveKv_m3_h; },
        [](Workspace& w, Figure f) { w.job.site.tankReturn->valveKv_m3_h = f; },
        {},
        [](const Workspace& w) { return hasReturn(w) && w.job.site.tankReturn->valveKv_m3_h.has_value(); }});
    add(Number{tr("Ends at"),
               tr("Change the return's end"),
               Quantity::level,
               {},
               range::kLevel_m,
               true,
               [](const Workspace& w) -> Figure {
                   const auto& level = w.job.site.tankReturn->outletLevel;
                   return level ? Figure(level->inMetres()) : Figure();
               },
               [](Workspace& w, Figure f) {
                   w.job.site.tankReturn->outletLevel =
                       f ? std::optional(Level::fromMetres(*f)) : std::nullopt;
               },
               tr("Empty: at the water's surface."),
               hasReturn});
}

} // namespace headmark
