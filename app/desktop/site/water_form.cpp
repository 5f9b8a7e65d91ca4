#include "app/desktop/site/water_form.h"

#include "analysis/pipework/catalogue.h"
#include "app/desktop/site/item_words.h"
#include "app/desktop/site/site_words.h"

namespace headmark {

namespace {

WaterSource& sourceOf(Workspace& workspace) {
    if (!workspace.job.site.source) workspace.job.site.source.emplace();
    return *workspace.job.site.source;
}

const WaterSource* sourceOf(const Workspace& workspace) {
    return workspace.job.site.source ? &*workspace.job.site.source : nullptr;
}

QStringList kindWords() {
    QStringList words{WaterForm::tr("not said")};
    for (const SourceKindRow& row : sourceKindRows())
        words += sourceName(row.code);
    return words;
}

int kindIndex(const Workspace& workspace) {
    const WaterSource* source = sourceOf(workspace);
    int index = 0;
    for (const SourceKindRow& row : sourceKindRows()) {
        ++index;
        if (source && row.code == source->kind) return index;
    }
    return 0;
}

} // namespace

WaterForm::WaterForm(Desk& desk, QWidget* parent) : FieldForm(desk, parent) {
    addSource();
    addWater();
}

void WaterForm::addSource() {
    add(Choice{tr("Source"), tr("Change the kind of source"), kindWords(), kindIndex,
               [](Workspace& w, int index) {
                   const auto rows = sourceKindRows();
                   sourceOf(w).kind =
                       index > 0 ? rows[static_cast<std::size_t>(index - 1)].code : std::string();
               },
               tr("What the water stands in; it decides what is judged at the suction side.")});
    const auto level = [&](const QString& label, const QString& step, Level WaterSource::*which,
                           const QString& tip) {
        add(Number{label,
                   step,
                   Quantity::level,
                   {},
                   range::kLevel_m,
                   false,
                   [which](const Workspace& w) -> Figure {
                       const WaterSource* source = sourceOf(w);
                       return source ? (source->*which).inMetres() : 0.0;
                   },
                   [which](Workspace& w, Figure f) {
                       sourceOf(w).levelsGiven = true;
                       sourceOf(w).*which = Level::fromMetres(*f);
                   },
                   tip});
    };
    const QString datum = tr("All levels count from one zero of your choice, such as the pump's floor.");
    level(tr("Low water at"), tr("Change the low water level"), &WaterSource::low, datum);
    add(Number{tr("Usual water at"),
               tr("Change the water level"),
               Quantity::level,
               {},
               range::kLevel_m,
               false,
               [](const Workspace& w) -> Figure { return sourceOf(w) ? sourceOf(w)->usual.inMetres() : 0.0; },
               [](Workspace& w, Figure f) { moveUsualLevel(w.job.site, Level::fromMetres(*f)); },
               tr("Low and high water move along.")});
    level(tr("High water at"), tr("Change the high water level"), &WaterSource::high, datum);
    add(Number{tr("Pump at"),
               tr("Change the pump's level"),
               Quantity::level,
               {},
               range::kLevel_m,
               false,
               [](const Workspace& w) -> Figure { return w.job.site.pumpLevel.inMetres(); },
               [](Workspace& w, Figure f) { w.job.site.pumpLevel = Level::fromMetres(*f); },
               datum});
    add(Number{tr("Volume"), tr("Change the volume"), Quantity::plain, tr("m³"), range::kVolume_m3, true,
               [](const Workspace& w) -> Figure {
                   const WaterSource* s = sourceOf(w);
                   return s && s->volume ? Figure(s->volume->inCubicMetres()) : Figure();
               },
               [](Workspace& w, Figure f) {
                   sourceOf(w).volume = f ? std::optional(Volume::fromCubicMetres(*f)) : std::nullopt;
               },
               tr("What can be drawn between high and stop level.")});
    add(Number{tr("Refill"),
               tr("Change the refill"),
               Quantity::flow,
               {},
               range::kRefill_m3_h,
               true,
               [](const Workspace& w) -> Figure {
                   const WaterSource* s = sourceOf(w);
                   return s && s->refill ? Figure(s->refill->inCubicMetresPerHour()) : Figure();
               },
               [](Workspace& w, Figure f) {
                   sourceOf(w).refill = f ? std::optional(Flow::fromCubicMetresPerHour(*f)) : std::nullopt;
               }});
    add(Number{tr("Pump stops at"),
               tr("Change the stop level"),
               Quantity::level,
               {},
               range::kLevel_m,
               true,
               [](const Workspace& w) -> Figure {
                   const WaterSource* s = sourceOf(w);
                   return s && s->stopLevel ? Figure(s->stopLevel->inMetres()) : Figure();
               },
               [](Workspace& w, Figure f) {
                   sourceOf(w).stopLevel = f ? std::optional(Level::fromMetres(*f)) : std::nullopt;
               },
               tr("The water level at which a float or probe switches the pump off.")});
}

void WaterForm::addWater() {
    add(Number{tr("Temperature"), tr("Change the water temperature"), Quantity::plain, tr("°C"),
               range::kTemperature_C, false,
               [](const Workspace& w) -> Figure { return w.job.water.temperature.inCelsius(); },
               [](Workspace& w, Figure f) { w.job.water.temperature = Temperature::fromCelsius(*f); },
               tr("Warm water boils sooner at the suction side.")});
    add(Number{tr("Altitude"),
               tr("Change the altitude"),
               Quantity::length,
               {},
               range::kAltitude_m,
               false,
               [](const Workspace& w) -> Figure { return w.job.water.altitude.inMetres(); },
               [](Workspace& w, Figure f) { w.job.water.altitude = Length::fromMetres(*f); },
               tr("Above the sea; thin air lifts water less high.")});
}

DetailsForm::DetailsForm(Desk& desk, QWidget* parent) : FieldForm(desk, parent) {
    addFriction();
    addLimits();
    addUncertainty();
}

void DetailsForm::addFriction() {
    addHeading(tr("Pipe friction"));
    add(Choice{
        tr("By"),
        tr("Change how friction is computed"),
        {tr("Darcy and Weisbach"), tr("Hazen and Williams")},
        [](const Workspace& w) { return w.job.site.friction == FrictionMethod::hazenWilliams ? 1 : 0; },
        [](Workspace& w, int i) {
            w.job.site.friction = i == 1 ? FrictionMethod::hazenWilliams : FrictionMethod::darcy;
        }});
    add(Number{tr("Not listed"), tr("Change the allowance for fittings"), Quantity::plain, tr("of friction"),
               range::kShare, false,
               [](const Workspace& w) -> Figure { return w.job.site.fittingsAllowanceShare; },
               [](Workspace& w, Figure f) { w.job.site.fittingsAllowanceShare = *f; },
               tr("Added to pipe friction for joints and bends that are not in the run.")});
}

void DetailsForm::addLimits() {
    addHeading(tr("Limits"));
    add(Choice{tr("Pump judged"),
               tr("Change how the pump is judged"),
               {tr("as the maker may deliver it"), tr("as printed")},
               [](const Workspace& w) { return w.job.limits.asDelivered ? 0 : 1; },
               [](Workspace& w, int i) { w.job.limits.asDelivered = i == 0; }});
    add(Number{tr("NPSH margin"),
               tr("Change the NPSH margin"),
               Quantity::head,
               {},
               range::kMargin_m,
               false,
               [](const Workspace& w) -> Figure { return w.job.limits.npshMargin.inMetres(); },
               [](Workspace& w, Figure f) {
                   w.job.limits.npshMargin = Head::fromMetres(*f);
                   w.job.limits.npshMarginOwn = true;
               },
               tr("The larger of this and the share below is asked for. Until you set one of them, a pump of "
                  "high suction specific speed is asked for more.")});
    add(Number{tr("NPSH margin"), tr("Change the NPSH margin"), Quantity::plain, tr("of required"),
               range::kMarginShare, false,
               [](const Workspace& w) -> Figure { return w.job.limits.npshMarginShare; },
               [](Workspace& w, Figure f) {
                   w.job.limits.npshMarginShare = *f;
                   w.job.limits.npshMarginOwn = true;
               }});
    add(Tick{tr("Only the preferred region serves"), tr("Change the region asked for"),
             [](const Workspace& w) { return w.job.limits.preferredBandOnly; },
             [](Workspace& w, bool on) { w.job.limits.preferredBandOnly = on; }});
}

void DetailsForm::addUncertainty() {
    addHeading(tr("How sure the site is"));
    addNote(tr("One standard deviation each; two out of three sites lie within."));
    add(Number{tr("Levels"),
               tr("Change the uncertainty of levels"),
               Quantity::length,
               {},
               range::kMargin_m,
               false,
               [](const Workspace& w) -> Figure { return w.job.uncertainty.level.inMetres(); },
               [](Workspace& w, Figure f) { w.job.uncertainty.level = Head::fromMetres(*f); }});
    const auto share = [&](const QString& label, double Uncertainty::*which) {
        add(Number{label, tr("Change an uncertainty"), Quantity::plain, tr("share"), range::kShare, false,
                   [which](const Workspace& w) -> Figure { return w.job.uncertainty.*which; },
                   [which](Workspace& w, Figure f) { w.job.uncertainty.*which = *f; }});
    };
    share(tr("Pipe lengths"), &Uncertainty::lengthShare);
    share(tr("Roughness"), &Uncertainty::roughnessShare);
    share(tr("Fitting losses"), &Uncertainty::kShare);
    share(tr("Emitter flow"), &Uncertainty::emitterShare);
}

} // namespace headmark
