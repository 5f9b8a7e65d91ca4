// Of water_form.h: the controller, and what the shift plan aims at.

#include "app/desktop/site/controller_edits.h"
#include "app/desktop/site/water_form.h"
#include "app/desktop/site/window_edit.h"
#include "app/desktop/site/zone_pairs_edit.h"

namespace headmark {

namespace {

bool hasZones(const Workspace& w) { return !w.job.site.zones.empty(); }
bool hasPairOfZones(const Workspace& w) { return w.job.site.zones.size() > 1; }

} // namespace

void ControlForm::addController(Desk& desk) {
    addHeading(tr("Controller"));
    const auto whole = [&](const QString& label, std::optional<int> Controller::*which, const QString& tip) {
        add(Number{label,
                   tr("Change the controller"),
                   Quantity::plain,
                   {},
                   range::kStations,
                   true,
                   [which](const Workspace& w) -> Figure {
                       const auto& c = w.job.site.controller;
                       return c && ((*c).*which) ? Figure(*((*c).*which)) : Figure();
                   },
                   [which](Workspace& w, Figure f) {
                       editController(w, [&](Controller& c) {
                           c.*which = f ? std::optional(static_cast<int>(*f)) : std::nullopt;
                       });
                   },
                   tip});
    };
    whole(tr("Stations"), &Controller::stations, tr("How many zone valves it can switch."));
    whole(tr("Valves at once"), &Controller::valvesAtOnce, tr("How many it can hold open together."));
    window_ = new WindowEdit(desk);
    addWidget(window_);
    add(Number{tr("Start delay"), tr("Change the start delay"), Quantity::plain, tr("s"), range::kDelay_s,
               true,
               [](const Workspace& w) -> Figure {
                   const auto& c = w.job.site.controller;
                   return c && c->startDelay ? Figure(c->startDelay->inSeconds()) : Figure();
               },
               [](Workspace& w, Figure f) {
                   editController(w, [&](Controller& c) {
                       c.startDelay = f ? std::optional(Duration::fromSeconds(*f)) : std::nullopt;
                   });
               },
               tr("Between the end of one shift and the start of the next; counted in whole minutes.")});
    addHeading(tr("Shift plan"), hasZones);
    add(Choice{tr("Aims at"),
               tr("Change the aim of the shift plan"),
               {tr("least time"), tr("least energy"), tr("fewest shifts")},
               [](const Workspace& w) {
                   const auto& c = w.job.site.controller;
                   return c ? static_cast<int>(c->objective) : 0;
               },
               [](Workspace& w, int index) {
                   editController(w,
                                  [&](Controller& c) { c.objective = static_cast<ShiftObjective>(index); });
               },
               tr("What the plan makes as small as it can; each shift keeps every limit anyway."),
               hasZones});
    addNote(tr("Zones that must, or must never, run in one shift:"), hasPairOfZones);
    pairs_ = new ZonePairsEdit(desk);
    addWidget(pairs_);
}

} // namespace headmark
