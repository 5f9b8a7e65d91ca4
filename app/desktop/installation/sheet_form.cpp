#include "app/desktop/installation/sheet_form.h"

namespace headmark {

SheetForm::SheetForm(Desk& desk, QWidget* parent) : FieldForm(desk, parent) {
    add(Choice{tr("Stands"),
               tr("Change where the pump stands"),
               {tr("sheltered, plastic parts first"), tr("in the open, metal parts first")},
               [](const Workspace& w) { return w.job.connections.exposure == Exposure::open ? 1 : 0; },
               [](Workspace& w, int index) {
                   w.job.connections.exposure = index == 1 ? Exposure::open : Exposure::sheltered;
               },
               tr("Sun and frost make plastic fittings brittle; galvanised iron and brass bear both.")});
    add(Choice{tr("Hose clamps"),
               tr("Change the hose clamps"),
               {tr("heavy-duty bands"), tr("worm-drive"), tr("none")},
               [](const Workspace& w) {
                   return static_cast<int>(w.job.connections.clamp == Clamp::heavyBand   ? 0
                                           : w.job.connections.clamp == Clamp::wormDrive ? 1
                                                                                         : 2);
               },
               [](Workspace& w, int index) {
                   w.job.connections.clamp = index == 0   ? Clamp::heavyBand
                                             : index == 1 ? Clamp::wormDrive
                                                          : Clamp::none;
               },
               tr("A heavy-duty band presses evenly all round; worm-drive clamps work loose.")});
    const auto tick = [&](const QString& words, const QString& step, bool SheetChoices::*which,
                          const QString& tip) {
        add(Tick{words, step, [which](const Workspace& w) { return w.job.connections.*which; },
                 [which](Workspace& w, bool on) { w.job.connections.*which = on; }, tip});
    };
    tick(tr("The set is carried away"), tr("Change to a carried set"), &SheetChoices::temporary,
         tr("A quick coupler joins it to the main."));
    tick(tr("The tank is of plastic"), tr("Change the tank's material"), &SheetChoices::plasticTank,
         tr("Its wall moves as it fills: no rigid pipe may strain it."));
    tick(tr("The pump's ports are of plastic"), tr("Change the ports' material"),
         &SheetChoices::plasticPumpPorts, tr("A metal taper thread would split them."));
}

} // namespace headmark
