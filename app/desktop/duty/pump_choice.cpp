#include "app/desktop/duty/pump_choice.h"

#include <QSignalBlocker>

namespace headmark {

PumpChoice::PumpChoice(Desk& desk, QWidget* parent) : QComboBox(parent), desk_(desk) {
    setAccessibleName(tr("Pump shown"));
    setToolTip(tr("The pump that all places show."));
    setSizeAdjustPolicy(QComboBox::AdjustToContents);
    connect(this, qOverload<int>(&QComboBox::activated), this, [this](int index) {
        Shown shown = desk_.shown();
        shown.pump = index;
        desk_.show(shown);
    });
}

void PumpChoice::refresh() {
    const Job& job = desk_.answers.latest()->workspace.job;
    const QSignalBlocker blocker(this);
    QStringList names, now;
    for (const Pump& pump : job.pumps)
        names << QString::fromStdString(pump.name);
    for (int i = 0; i < count(); ++i)
        now << itemText(i);
    if (names != now) {
        clear();
        addItems(names);
    }
    setCurrentIndex(desk_.shown().pump);
    setVisible(names.size() > 1);
}

} // namespace headmark
