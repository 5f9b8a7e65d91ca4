#include "app/desktop/site/run_edits.h"

#include "app/desktop/site/controller_edits.h"
#include "app/desktop/site/item_words.h"

#include <QCoreApplication>

#include <algorithm>

namespace headmark {

namespace {

struct Edits {
    Q_DECLARE_TR_FUNCTIONS(RunEdits)
};

bool takeoffNamed(const Site& site, const std::string& name) {
    return std::any_of(site.delivery.begin(), site.delivery.end(), [&](const RunItem& item) {
        const auto* takeoff = std::get_if<TakeoffItem>(&item);
        return takeoff && takeoff->name == name;
    });
}

bool zoneNamed(const Site& site, const std::string& name) {
    return std::any_of(site.zones.begin(), site.zones.end(),
                       [&](const Zone& zone) { return zone.name == name; });
}

// "T1" or the first number after it that no other has.
template <class Taken>
std::string freeName(const std::string& wanted, Taken taken) {
    std::string stem = wanted;
    while (!stem.empty() && stem.back() >= '0' && stem.back() <= '9')
        stem.pop_back();
    if (!taken(wanted)) return wanted;
    if (!stem.empty() && stem == wanted && stem.back() != ' ') stem += ' ';
    for (int number = 1;; ++number) {
        const std::string name = stem + std::to_string(number);
        if (!taken(name)) return name;
    }
}

void makeTakeoffUnique(const Site& site, RunItem& item) {
    if (auto* takeoff = std::get_if<TakeoffItem>(&item))
        takeoff->name =
            freeName(takeoff->name, [&](const std::string& name) { return takeoffNamed(site, name); });
}

bool mayStandIn(const RunItem& item, const RunSpot& spot) {
    return !std::holds_alternative<TakeoffItem>(item) || spot.part == RunPart::delivery;
}

void zonesLeaveTakeoff(Site& site, const std::string& name) {
    for (Zone& zone : site.zones) {
        if (zone.takeoff == name) zone.takeoff.clear();
    }
}

} // namespace

RunSpot insertItem(Document& document, const RunSpot& spot, RunItem item, bool before) {
    RunSpot made = spot;
    if (spot.part == RunPart::source || spot.part == RunPart::pump || spot.part == RunPart::tankReturn) {
        const bool suction = spot.part == RunPart::source || (before && spot.part == RunPart::pump);
        made = {suction ? RunPart::suction : RunPart::delivery, -1, -1};
        before = spot.part == RunPart::source || (spot.part != RunPart::source && !suction);
    }
    if (made.part == RunPart::zone || made.part == RunPart::outlet) { // what it ends in: before that
        made = {made.part == RunPart::zone ? RunPart::branch : RunPart::delivery, spot.zone, -1};
        before = false;
    }
    if (!mayStandIn(item, made)) made = {RunPart::delivery, -1, -1};
    makeTakeoffUnique(document.job().site, item);
    document.edit(Edits::tr("Insert %1").arg(itemName(item)), [&](Workspace& workspace) {
        Run* run = runAt(workspace.job.site, made);
        if (!run) return;
        const int size = static_cast<int>(run->size());
        int at = made.index < 0 ? (before ? 0 : size) : made.index + (before ? 0 : 1);
        at = std::clamp(at, 0, size);
        run->insert(run->begin() + at, item);
        made.index = at;
    });
    return made;
}

RunSpot duplicateItem(Document& document, const RunSpot& spot) {
    const RunItem* item = itemAt(document.job().site, spot);
    if (!item) return spot;
    RunItem copy = *item;
    makeTakeoffUnique(document.job().site, copy);
    RunSpot made = spot;
    ++made.index;
    document.edit(Edits::tr("Duplicate %1").arg(itemName(copy)), [&](Workspace& workspace) {
        Run* run = runAt(workspace.job.site, spot);
        run->insert(run->begin() + made.index, copy);
    });
    return made;
}

RunSpot removeItem(Document& document, const RunSpot& spot) {
    if (spot.part == RunPart::tankReturn && document.job().site.tankReturn) {
        document.edit(Edits::tr("Remove the tank return"),
                      [](Workspace& workspace) { workspace.job.site.tankReturn.reset(); });
        return {RunPart::pump, -1, -1};
    }
    const RunItem* item = itemAt(document.job().site, spot);
    if (!item) return spot;
    const RunItem old = *item;
    RunSpot next = spot;
    document.edit(Edits::tr("Remove %1").arg(itemName(old)), [&](Workspace& workspace) {
        Run* run = runAt(workspace.job.site, spot);
        run->erase(run->begin() + spot.index);
        if (const auto* takeoff = std::get_if<TakeoffItem>(&old))
            zonesLeaveTakeoff(workspace.job.site, takeoff->name);
        next.index = std::min(spot.index, static_cast<int>(run->size()) - 1);
    });
    return next;
}

RunSpot moveItem(Document& document, const RunSpot& from, const RunSpot& to) {
    const RunItem* item = itemAt(document.job().site, from);
    if (!item || !mayStandIn(*item, to) || !runAt(document.job().site, to)) return from;
    RunSpot made = to;
    if (made.part == RunPart::zone) made.part = RunPart::branch;
    document.edit(Edits::tr("Move %1").arg(itemName(*item)), [&](Workspace& workspace) {
        Site& site = workspace.job.site;
        const RunItem moved = *itemAt(site, from);
        Run* source = runAt(site, from);
        Run* target = runAt(site, made);
        int at = made.index < 0 ? static_cast<int>(target->size()) : made.index;
        source->erase(source->begin() + from.index);
        if (source == target && at > from.index) --at;
        at = std::clamp(at, 0, static_cast<int>(target->size()));
        target->insert(target->begin() + at, moved);
        made.index = at;
    });
    return made;
}

RunSpot nudgeItem(Document& document, const RunSpot& spot, int step) {
    const Run* run = runAt(document.job().site, spot);
    if (!run || !itemAt(document.job().site, spot)) return spot;
    const int target = spot.index + step;
    if (target < 0 || target >= static_cast<int>(run->size())) return spot;
    RunSpot to = spot;
    to.index = step > 0 ? target + 1 : target;
    return moveItem(document, spot, to);
}

void replaceItem(Document& document, const RunSpot& spot, const RunItem& item, const QString& stepName) {
    document.edit(stepName, [&](Workspace& workspace) {
        if (RunItem* old = itemAt(workspace.job.site, spot)) *old = item;
    });
}

bool renameTakeoff(Document& document, const RunSpot& spot, const QString& name) {
    const RunItem* item = itemAt(document.job().site, spot);
    const auto* takeoff = item ? std::get_if<TakeoffItem>(item) : nullptr;
    const std::string wanted = name.trimmed().toStdString();
    if (!takeoff || wanted.empty()) return false;
    if (takeoff->name == wanted) return true;
    if (takeoffNamed(document.job().site, wanted)) return false;
    const std::string old = takeoff->name;
    document.edit(Edits::tr("Rename the take-off"), [&](Workspace& workspace) {
        Site& site = workspace.job.site;
        std::get<TakeoffItem>(*itemAt(site, spot)).name = wanted;
        for (Zone& zone : site.zones) {
            if (zone.takeoff == old) zone.takeoff = wanted;
        }
    });
    return true;
}

bool renameZone(Document& document, int zone, const QString& name) {
    const Site& site = document.job().site;
    const std::string wanted = name.trimmed().toStdString();
    if (wanted.empty() || zone < 0 || zone >= static_cast<int>(site.zones.size())) return false;
    const std::string old = site.zones[static_cast<std::size_t>(zone)].name;
    if (old == wanted) return true;
    if (zoneNamed(site, wanted)) return false;
    document.edit(Edits::tr("Rename the zone"), [&](Workspace& workspace) {
        workspace.job.site.zones[static_cast<std::size_t>(zone)].name = wanted;
        for (Case& setting : workspace.job.cases)
            std::replace(setting.zonesOpen.begin(), setting.zonesOpen.end(), old, wanted);
        renameInPairs(workspace.job.site, old, wanted);
    });
    return true;
}

int addZone(Document& document) {
    Zone zone;
    const Site& site = document.job().site;
    if (!site.zones.empty()) {
        zone.level = site.zones.back().level;
        zone.takeoff = site.zones.back().takeoff;
    }
    zone.name = freeName(Edits::tr("Zone").toStdString() + " 1",
                         [&](const std::string& name) { return zoneNamed(site, name); });
    zone.emitters.whole = true;
    zone.emitters.law.nominal = Flow::fromCubicMetresPerHour(2.0);
    zone.emitters.law.at = Pressure::fromKilopascals(200.0);
    document.edit(Edits::tr("Add a zone"),
                  [&](Workspace& workspace) { workspace.job.site.zones.push_back(zone); });
    return static_cast<int>(document.job().site.zones.size()) - 1;
}

int duplicateZone(Document& document, int zone) {
    const Site& site = document.job().site;
    Zone copy = site.zones.at(static_cast<std::size_t>(zone));
    copy.name = freeName(copy.name, [&](const std::string& name) { return zoneNamed(site, name); });
    document.edit(Edits::tr("Duplicate the zone"), [&](Workspace& workspace) {
        auto& zones = workspace.job.site.zones;
        zones.insert(zones.begin() + zone + 1, copy);
    });
    return zone + 1;
}

int removeZone(Document& document, int zone) {
    const std::string name = document.job().site.zones.at(static_cast<std::size_t>(zone)).name;
    document.edit(Edits::tr("Remove the zone"), [&](Workspace& workspace) {
        auto& zones = workspace.job.site.zones;
        zones.erase(zones.begin() + zone);
        for (Case& setting : workspace.job.cases)
            std::erase(setting.zonesOpen, name);
        removeFromPairs(workspace.job.site, name);
    });
    return std::min(zone, static_cast<int>(document.job().site.zones.size()) - 1);
}

int moveZone(Document& document, int zone, int step) {
    const int to = zone + step;
    if (zone < 0 || to < 0 || to >= static_cast<int>(document.job().site.zones.size())) return zone;
    document.edit(Edits::tr("Move the zone"), [&](Workspace& workspace) {
        auto& zones = workspace.job.site.zones;
        std::swap(zones[static_cast<std::size_t>(zone)], zones[static_cast<std::size_t>(to)]);
    });
    return to;
}

} // namespace headmark
