#include "app/desktop/site/controller_edits.h"

#include <algorithm>

namespace headmark {

namespace {

void dropIfEmpty(Site& site) {
    const Controller& c = *site.controller;
    if (!c.stations && !c.valvesAtOnce && !c.window && !c.startDelay && c.objective == ShiftObjective::time &&
        c.together.empty() && c.apart.empty())
        site.controller.reset();
}

} // namespace

void editController(Workspace& workspace, const std::function<void(Controller&)>& change) {
    Site& site = workspace.job.site;
    if (!site.controller) site.controller.emplace();
    change(*site.controller);
    dropIfEmpty(site);
}

void renameInPairs(Site& site, const std::string& old, const std::string& wanted) {
    if (!site.controller) return;
    for (auto* lists : {&site.controller->together, &site.controller->apart}) {
        for (auto& list : *lists)
            std::replace(list.begin(), list.end(), old, wanted);
    }
}

void removeFromPairs(Site& site, const std::string& zone) {
    if (!site.controller) return;
    for (auto* lists : {&site.controller->together, &site.controller->apart}) {
        for (auto& list : *lists)
            std::erase(list, zone);
        std::erase_if(*lists, [](const auto& list) { return list.size() < 2; });
    }
    dropIfEmpty(site);
}

} // namespace headmark
