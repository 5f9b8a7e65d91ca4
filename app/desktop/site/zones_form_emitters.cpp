// Of zones_form.h: the emitters of a zone and its laterals.

#include "app/desktop/site/zones_form.h"

#include "analysis/irrigation/emitter_catalogue.h"
#include "app/desktop/site/emitter_forms.h"
#include "app/desktop/site/item_words.h"

namespace headmark {

namespace {

QStringList typeWords() {
    QStringList words;
    for (const EmitterRow& row : emitterRows())
        words += QString::fromStdString(row.name);
    return words;
}

int typeIndex(const std::string& code) {
    const auto rows = emitterRows();
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (rows[i].code == code) return static_cast<int>(i);
    }
    return -1;
}

} // namespace

void ZonesForm::addEmitterFields() {
    const auto any = [this](const Workspace& w) { return hasZone(w); };
    const auto form = [this](const Workspace& w, EmitterForm f) {
        return hasZone(w) && formOf(of(w).emitters) == f;
    };
    const auto whole = [form](const Workspace& w) { return form(w, EmitterForm::wholeZone); };
    const auto typed = [form](const Workspace& w) { return form(w, EmitterForm::typed); };
    const auto compensating = [form](const Workspace& w) { return form(w, EmitterForm::compensating); };
    const auto power = [form](const Workspace& w) { return form(w, EmitterForm::powerLaw); };
    const auto outlet = [power, compensating](const Workspace& w) { return power(w) || compensating(w); };
    const auto law = [power, whole](const Workspace& w) { return power(w) || whole(w); };
    addHeading(tr("Emitters"), any);
    add(Choice{tr("Said as"),
               tr("Change how the emitters are said"),
               {tr("flow of the whole zone"), tr("a type of the catalogue"), tr("flow at a pressure"),
                tr("pressure-compensating")},
               [this](const Workspace& w) { return static_cast<int>(formOf(of(w).emitters)); },
               [this](Workspace& w, int i) { setForm(of(w), static_cast<EmitterForm>(i)); },
               {},
               any});
    add(Choice{tr("Type"),
               tr("Change the type of emitter"),
               typeWords(),
               [this](const Workspace& w) { return typeIndex(of(w).emitters.type); },
               [this](Workspace& w, int i) {
                   setType(of(w).emitters, emitterRows()[static_cast<std::size_t>(i)].code);
               },
               {},
               typed});
    add(Number{
        tr("Whole zone"),
        tr("Change the zone's flow"),
        Quantity::flow,
        {},
        range::kZoneFlow_m3_h,
        false,
        [this](const Workspace& w) -> Figure { return of(w).emitters.law.nominal.inCubicMetresPerHour(); },
        [this](Workspace& w, Figure f) { of(w).emitters.law.nominal = Flow::fromCubicMetresPerHour(*f); },
        {},
        whole});
    add(Number{tr("Flow of one"),
               tr("Change the emitter's flow"),
               Quantity::plain,
               tr("l/h"),
               range::kOutletFlow_l_h,
               false,
               [this](const Workspace& w) -> Figure { return of(w).emitters.law.nominal.inLitresPerHour(); },
               [this](Workspace& w, Figure f) { of(w).emitters.law.nominal = Flow::fromLitresPerHour(*f); },
               {},
               outlet});
    add(Number{tr("at a pressure of"),
               tr("Change the emitters' pressure"),
               Quantity::pressure,
               {},
               range::kEmitterPressure_kPa,
               false,
               [this](const Workspace& w) -> Figure { return of(w).emitters.law.at.inKilopascals(); },
               [this](Workspace& w, Figure f) { of(w).emitters.law.at = Pressure::fromKilopascals(*f); },
               {},
               law});
    add(Number{tr("Exponent"),
               tr("Change the exponent"),
               Quantity::plain,
               {},
               range::kExponent,
               false,
               [this](const Workspace& w) -> Figure { return of(w).emitters.law.exponent; },
               [this](Workspace& w, Figure f) { of(w).emitters.law.exponent = *f; },
               tr("0.5 for sprinklers and most drippers: four times the pressure, twice the flow."),
               law});
    const auto regulated = [&](const QString& label, std::optional<Pressure> EmitterLaw::*which) {
        add(Number{label,
                   tr("Change the compensating range"),
                   Quantity::pressure,
                   {},
                   range::kEmitterPressure_kPa,
                   false,
                   [this, which](const Workspace& w) -> Figure {
                       return (of(w).emitters.law.*which)->inKilopascals();
                   },
                   [this, which](Workspace& w, Figure f) {
                       Emitters& e = of(w).emitters;
                       e.law.*which = Pressure::fromKilopascals(*f);
                       if (e.law.regulatedFrom) e.law.at = *e.law.regulatedFrom;
                       if (!e.limitsGiven) setLimits(e, {}, {});
                   },
                   {},
                   compensating});
    };
    regulated(tr("Even from"), &EmitterLaw::regulatedFrom);
    regulated(tr("Even up to"), &EmitterLaw::regulatedTo);
    const auto counted = [this](const Workspace& w) {
        return hasZone(w) && of(w).emitters.count.has_value();
    };
    const auto measured = [this](const Workspace& w) {
        return hasZone(w) && of(w).emitters.metres.has_value();
    };
    const auto spaced = [this, measured](const Workspace& w) {
        return measured(w) && of(w).emitters.spacing.has_value();
    };
    const auto perMetre = [this](const Workspace& w) {
        const EmitterRow* row = findEmitterType(of(w).emitters.type);
        return row && row->perMetre;
    };
    add(Choice{tr("How many"),
               tr("Change how emitters are counted"),
               {tr("by number"), tr("by metres of hose")},
               [this](const Workspace& w) { return of(w).emitters.metres ? 1 : 0; },
               [this, perMetre](Workspace& w, int i) {
                   Emitters& e = of(w).emitters;
                   e.count = i == 0 ? std::optional(100) : std::nullopt;
                   e.metres = i == 1 ? std::optional(Length::fromMetres(100.0)) : std::nullopt;
                   e.spacing = i == 1 && !perMetre(w) ? std::optional(Length::fromMetres(0.3)) : std::nullopt;
               },
               {},
               [counted, measured](const Workspace& w) { return counted(w) || measured(w); }});
    add(Number{tr("Number"),
               tr("Change the number of emitters"),
               Quantity::plain,
               {},
               range::kOutlets,
               false,
               [this](const Workspace& w) -> Figure { return *of(w).emitters.count; },
               [this](Workspace& w, Figure f) { of(w).emitters.count = static_cast<int>(*f); },
               {},
               counted});
    add(Number{tr("Hose"),
               tr("Change the length of hose"),
               Quantity::length,
               {},
               range::kMetres_m,
               false,
               [this](const Workspace& w) -> Figure { return of(w).emitters.metres->inMetres(); },
               [this](Workspace& w, Figure f) { of(w).emitters.metres = Length::fromMetres(*f); },
               {},
               measured});
    add(Number{tr("One every"),
               tr("Change the spacing"),
               Quantity::length,
               {},
               range::kSpacing_m,
               false,
               [this](const Workspace& w) -> Figure { return of(w).emitters.spacing->inMetres(); },
               [this](Workspace& w, Figure f) { of(w).emitters.spacing = Length::fromMetres(*f); },
               {},
               spaced});
    const auto limit = [&](const QString& label, std::optional<GaugePressure> Emitters::*which, bool least) {
        add(Number{label,
                   tr("Change the pressure limits"),
                   Quantity::pressure,
                   {},
                   range::kLimit_kPa,
                   true,
                   [this, which](const Workspace& w) -> Figure {
                       const auto& at = of(w).emitters.*which;
                       return at ? Figure(at->inKilopascals()) : Figure();
                   },
                   [this, least](Workspace& w, Figure f) {
                       Emitters& e = of(w).emitters;
                       const auto typedLimit =
                           f ? std::optional(GaugePressure::fromKilopascals(*f)) : std::nullopt;
                       setLimits(e, least ? typedLimit : e.least, least ? e.greatest : typedLimit);
                   },
                   tr("Outside these the zone is not served; empty: the type's own."),
                   any});
    };
    limit(tr("At least"), &Emitters::least, true);
    limit(tr("At most"), &Emitters::greatest, false);
    const auto single = [this](const Workspace& w) { return hasZone(w) && !of(w).emitters.whole; };
    add(Number{tr("Emitters a plant"),
               tr("Change the emitters a plant"),
               Quantity::plain,
               {},
               range::kPerPlant,
               false,
               [this](const Workspace& w) -> Figure { return of(w).emitters.perPlant; },
               [this](Workspace& w, Figure f) { of(w).emitters.perPlant = static_cast<int>(*f); },
               {},
               single});
    add(Number{tr("Smallest passage"), tr("Change the emitters' smallest passage"), Quantity::plain, tr("mm"),
               range::kPassage_mm, true,
               [this](const Workspace& w) -> Figure {
                   const auto& passage = of(w).emitters.passage;
                   return passage ? Figure(passage->inMillimetres()) : Figure();
               },
               [this](Workspace& w, Figure f) {
                   of(w).emitters.passage = f ? std::optional(Length::fromMillimetres(*f)) : std::nullopt;
               },
               tr("The filter is judged by it; empty: by the type."), single});
}

void ZonesForm::addLateralFields() {
    const auto single = [this](const Workspace& w) { return hasZone(w) && !of(w).emitters.whole; };
    const auto on = [this](const Workspace& w) { return hasZone(w) && of(w).laterals.has_value(); };
    add(Tick{
        tr("On laterals"), tr("Change the laterals"),
        [this](const Workspace& w) { return of(w).laterals.has_value(); },
        [this](Workspace& w, bool wanted) { setLaterals(of(w), wanted); },
        tr("Rows of pipe with emitters along them; the loss along each row is followed outlet by outlet."),
        single});
    add(Number{tr("Laterals"),
               tr("Change the number of laterals"),
               Quantity::plain,
               {},
               range::kLaterals,
               false,
               [this](const Workspace& w) -> Figure { return of(w).laterals->count; },
               [this](Workspace& w, Figure f) { of(w).laterals->count = static_cast<int>(*f); },
               {},
               on});
    add(Pipe{tr("Their pipe"), tr("Change the laterals' pipe"),
             [this](const Workspace& w) { return &of(w).laterals->pipe; },
             [this](Workspace& w, const PipeKind& kind) { of(w).laterals->pipe = kind; }, on});
    add(Number{tr("Length of each"),
               tr("Change the length of the laterals"),
               Quantity::length,
               {},
               range::kLateralLength_m,
               false,
               [this](const Workspace& w) -> Figure { return of(w).laterals->length.inMetres(); },
               [this](Workspace& w, Figure f) { of(w).laterals->length = Length::fromMetres(*f); },
               {},
               on});
    add(Number{tr("Emitter every"),
               tr("Change the spacing"),
               Quantity::length,
               {},
               range::kSpacing_m,
               false,
               [this](const Workspace& w) -> Figure { return of(w).laterals->spacing.inMetres(); },
               [this](Workspace& w, Figure f) { of(w).laterals->spacing = Length::fromMetres(*f); },
               {},
               on});
    add(Choice{tr("First one"),
               tr("Change where the first emitter is"),
               {tr("a whole spacing in"), tr("half a spacing in")},
               [this](const Workspace& w) { return of(w).laterals->firstAtHalf ? 1 : 0; },
               [this](Workspace& w, int i) { of(w).laterals->firstAtHalf = i == 1; },
               {},
               on});
    add(Number{tr("Rise per length"),
               tr("Change the slope"),
               Quantity::plain,
               {},
               range::kSlopeShare,
               false,
               [this](const Workspace& w) -> Figure { return of(w).laterals->slopeShare; },
               [this](Workspace& w, Figure f) { of(w).laterals->slopeShare = *f; },
               tr("0.02: two metres up in a hundred, away from the inlet; negative falls."),
               on});
}

} // namespace headmark
