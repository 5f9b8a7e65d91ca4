#include "app/desktop/site/emitter_forms.h"

#include "analysis/core/assertion.h"
#include "analysis/irrigation/emitter_catalogue.h"
#include "analysis/pipework/catalogue.h"

namespace headmark {

namespace {

// Figures of a garden, meant to be typed over.
constexpr int kNewCount = 100;
const Flow kNewOutlet = Flow::fromLitresPerHour(2.0);
const Pressure kNewAt = Pressure::fromKilopascals(100.0);
const Pressure kNewRegulatedTo = Pressure::fromKilopascals(350.0);
const Flow kNewWhole = Flow::fromCubicMetresPerHour(2.0);

// What holds of the outlet where the user gave no limits.
void limitsOfLaw(Emitters& e) {
    if (e.limitsGiven) return;
    e.least.reset();
    e.greatest.reset();
    if (const EmitterRow* row = findEmitterType(e.type)) {
        e.least = row->least;
        e.greatest = row->greatest;
    } else if (e.law.regulatedFrom && e.law.regulatedTo) {
        e.least = GaugePressure() + *e.law.regulatedFrom;
        e.greatest = GaugePressure() + *e.law.regulatedTo;
    }
}

void needCount(Zone& zone) {
    Emitters& e = zone.emitters;
    if (zone.laterals || e.whole) {
        e.count.reset();
        e.metres.reset();
        e.spacing.reset();
    } else if (!e.count && !e.metres) {
        e.count = kNewCount;
    }
}

} // namespace

EmitterForm formOf(const Emitters& emitters) {
    if (emitters.whole) return EmitterForm::wholeZone;
    if (!emitters.type.empty()) return EmitterForm::typed;
    return emitters.law.compensating() ? EmitterForm::compensating : EmitterForm::powerLaw;
}

void setForm(Zone& zone, EmitterForm form) {
    Emitters& e = zone.emitters;
    if (formOf(e) == form) return;
    const bool wasWhole = e.whole;
    e.whole = form == EmitterForm::wholeZone;
    e.type.clear();
    e.variation.reset();
    e.variationGiven = false;
    if (e.whole) {
        zone.laterals.reset();
        e.perPlant = 1;
        if (!wasWhole) e.law = {kNewWhole, kNewAt, 0.5, {}, {}};
    } else {
        e.law = {wasWhole ? kNewOutlet : e.law.nominal, kNewAt, 0.5, {}, {}};
    }
    if (form == EmitterForm::compensating) {
        e.law.regulatedFrom = kNewAt;
        e.law.regulatedTo = kNewRegulatedTo;
    }
    needCount(zone);
    if (form == EmitterForm::typed) {
        setType(e, emitterRows().front().code);
    } else {
        limitsOfLaw(e);
    }
}

void setType(Emitters& e, const std::string& code) {
    const EmitterRow* row = findEmitterType(code);
    if (!row) return;
    e.whole = false;
    e.type = row->code;
    e.law = row->law;
    if (!e.variationGiven) e.variation = row->variationShare;
    if (row->perMetre) {
        if (e.count && !e.metres) e.metres = Length::fromMetres(*e.count);
        e.count.reset();
        e.spacing.reset();
    } else if (e.metres && !e.spacing) {
        e.spacing = Length::fromMetres(0.3);
    }
    limitsOfLaw(e);
}

void setLimits(Emitters& e, std::optional<GaugePressure> least, std::optional<GaugePressure> greatest) {
    e.limitsGiven = false;
    limitsOfLaw(e);
    if (!least && !greatest) return;
    e.limitsGiven = true;
    if (least) e.least = least;
    if (greatest) e.greatest = greatest;
}

void setLaterals(Zone& zone, bool on) {
    zone.laterals.reset();
    if (on) {
        const PipeRow* row = findPipe("ldpe_pn4_16");
        HEADMARK_ASSERT(row != nullptr, "the catalogue has a lateral's pipe");
        Laterals laterals;
        laterals.count = 8;
        laterals.pipe = row->kind;
        laterals.length = Length::fromMetres(30.0);
        laterals.spacing = Length::fromMetres(0.5);
        zone.laterals = laterals;
    }
    needCount(zone);
}

} // namespace headmark
