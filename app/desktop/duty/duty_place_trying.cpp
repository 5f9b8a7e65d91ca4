// Of duty_place.h: valves turned and sliders moved are tried without touching the job, and kept as a case
// when asked for.

#include "app/desktop/duty/cases_card.h"
#include "app/desktop/duty/duty_picture.h"
#include "app/desktop/duty/duty_place.h"
#include "app/desktop/duty/duty_plot.h"
#include "app/desktop/duty/duty_words.h"
#include "app/desktop/duty/trying.h"
#include "app/desktop/duty/what_if_card.h"
#include "app/desktop/duty/zones_card.h"

#include <QTimer>

namespace headmark {

WhatIfChange DutyPlace::change() const {
    WhatIfChange all = whatIf_->change();
    all.zonesOpen = zones_->tried();
    return all;
}

void DutyPlace::resetTried() {
    trying_->forget();
    details_->stop();
    const auto answer = desk_.answers.latest();
    const std::vector<CaseEntry> entries = caseEntries(*answer, desk_.shown());
    const auto index = static_cast<std::size_t>(desk_.shown().caseIndex);
    const bool known = index < entries.size();
    whatIf_->setEnabled(known);
    if (!known) {
        zones_->clear();
        return;
    }
    const Site& site = answer->workspace.job.site;
    whatIf_->reset(entries[index].setting, site, answer->prepared->pumps() > 0);
    zones_->reset(entries[index].setting, site);
}

void DutyPlace::askTried() {
    const auto answer = desk_.answers.latest();
    const std::vector<CaseEntry> entries = caseEntries(*answer, desk_.shown());
    const auto index = static_cast<std::size_t>(desk_.shown().caseIndex);
    if (index >= entries.size()) return;
    if (change().isNone()) {
        trying_->forget();
        cases_->refresh();
        showPicture(*asItIs_);
        refreshZones();
        refreshDetails();
        return;
    }
    trying_->ask({answer->prepared, static_cast<std::size_t>(desk_.shown().pump), entries[index].setting,
                  change(), asItIs_->greatest_m3_s});
}

void DutyPlace::showTried() {
    drawTried();
    cases_->showTried(trying_->answer()->of);
    // Valves answer at once; sliders move by many small steps.
    if (change().zonesOpen) refreshZones();
    refreshWords(true);
    emit triedShown();
}

void DutyPlace::drawTried() {
    plot().show(triedPicture(*asItIs_, *trying_->answer(), trying_->systemCurve()), desk_.units(), true);
}

void DutyPlace::keepTried() {
    const auto answer = desk_.answers.latest();
    const std::vector<CaseEntry> entries = caseEntries(*answer, desk_.shown());
    const auto index = static_cast<std::size_t>(desk_.shown().caseIndex);
    if (index >= entries.size()) return;
    Case kept = keptCase(entries[index].setting.setting, change(), {});
    kept.name = tr("%1, %2, %3")
                    .arg(zones_->setName(), waterWords(kept.level), filterWords(kept.filter))
                    .toStdString();
    cases_->add(kept);
}

} // namespace headmark
