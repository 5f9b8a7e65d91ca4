// What is said of the suction side beside NPSH: hoses that flatten, lift, wells too deep for a surface pump.
#include "analysis/duty/case_cautions.h"
#include "analysis/duty/suction_lift.h"
#include "analysis/pipework/catalogue.h"

namespace headmark {

namespace {

void suctionPipeCautions(const JudgedState& s, Cautions& out) {
    for (const Element& e : s.model->suction()) {
        if (e.kind == ElementKind::pipe && !e.mayBeSuction) {
            out.push_back({"suction-hose-collapses",
                           Severity::danger,
                           "suction[" + std::to_string(e.item) + "]",
                           {},
                           "rigid-helix-hose",
                           {},
                           "common practice, no source"});
        }
    }
    if (!s.model->site().system && !suctionKnown(s.model->site())) {
        out.push_back(
            {"source-level-assumed", Severity::note, "source", {}, "give-the-water-levels", {}, ""});
    }
}

// A well deeper than suction lift is for a pump that hangs in the water: one above it draws nothing.
void surfacePumpImpossible(const JudgedState& s, Cautions& out) {
    const SourceKindRow* kind = findSourceKind(s.model->site().source->kind);
    if (!kind || kind->code != "well_deep") return;
    const double above_m = s.model->site().pumpLevel.inMetres() - s.model->sourceLevel_m(WaterLevel::high);
    if (above_m <= 0.0) return;
    out.push_back(
        {"surface-pump-impossible",
         Severity::danger,
         "source",
         {{"source", kind->name}, {"above_m", above_m}},
         "pump-into-the-water",
         {{"level_m", s.model->sourceLevel_m(WaterLevel::low) - s.limits->rules.value("submersible_cover")}},
         "limit of suction lift"});
}

// Height and friction together, against what the air bears at this altitude.
void liftCaution(const JudgedState& s, const Crossing* duty, Cautions& out) {
    if (isSubmersedSource(s.model->site().source->kind)) return; // it hangs in the water or draws none
    const double static_m = s.model->site().pumpLevel.inMetres() - s.tree->tree.sourceLevel_m;
    if (static_m <= 0.0) return;
    const double loss_m = suctionLoss_m(s.tree->tree, duty ? duty->flow_m3_s : 0.0);
    const double greatest_m = practicalLift_m(*s.model, s.limits->rules);
    if (static_m + loss_m <= greatest_m) return;
    out.push_back({"suction-lift",
                   Severity::danger,
                   "source",
                   {{"lift_m", static_m + loss_m},
                    {"static_m", static_m},
                    {"loss_m", loss_m},
                    {"limit_m", greatest_m},
                    {"altitude_m", s.model->altitude().inMetres()}},
                   "submersible-or-lower-pump",
                   {{"lower_m", nextTenthUp_m(static_m + loss_m - greatest_m)}},
                   s.limits->rules.source("suction_lift_max")});
}

} // namespace

void addSuctionCautions(const JudgedState& s, const Crossing* duty, Cautions& out) {
    suctionPipeCautions(s, out);
    if (!suctionKnown(s.model->site())) return;
    surfacePumpImpossible(s, out);
    liftCaution(s, duty, out);
}

} // namespace headmark
