#include "analysis/job/zones_finding.h"

#include <algorithm>

namespace headmark {

namespace {

constexpr std::pair<WaterLevel, FilterState> kCorners[] = {{WaterLevel::low, FilterState::service},
                                                           {WaterLevel::high, FilterState::clean}};

bool stopped(const ZonesFindingOptions& options) { return options.stop && options.stop->load(); }

int mostOpen(const Site& site) {
    if (!site.controller || !site.controller->valvesAtOnce) return kMostMaskedZones;
    return std::min(*site.controller->valvesAtOnce, kMostMaskedZones);
}

ZonesAtOnceAnswer search(const ZoneSets& sets, int valves, const ZonesFindingOptions& options) {
    ZonesAtOnceQuestion q = sets.question();
    q.mostOpen = valves;
    q.mostQuestions = sets.condensed() ? options.mostQuestions : options.mostQuestionsAskedExactly;
    q.stop = [&] { return stopped(options); };
    return zonesAtOnce(q);
}

CaseAnswer answerOf(const CaseSolver& solver, ZoneMask set, WaterLevel level, FilterState filter) {
    Case c;
    c.zonesOpen = zoneNames(set, solver.model().site());
    c.level = level;
    c.filter = filter;
    return solver.answer(c);
}

void addLimit(ZonesAtOnceFinding::Limit limit, ZonesAtOnceFinding& finding) {
    if (std::find(finding.limits.begin(), finding.limits.end(), limit) == finding.limits.end())
        finding.limits.push_back(std::move(limit));
}

// What the sets one larger than any that works in every choice break, each code and zone once.
void addLimits(const CaseSolver& solver, const ZonesAtOnceAnswer& answer, ZonesAtOnceFinding& finding,
               const ZonesFindingOptions& options) {
    for (ZoneMask set : answer.failingLarger) {
        for (const auto& [level, filter] : kCorners) {
            if (stopped(options)) return;
            for (const Caution& caution : answerOf(solver, set, level, filter).cautions) {
                const Fact* zone = findFact(caution.values, "zone");
                if (caution.stops)
                    addLimit({caution.code, zone ? std::get<std::string>(zone->value) : ""}, finding);
            }
        }
    }
    const Site& site = solver.model().site();
    const int valves = mostOpen(site);
    if (answer.anySet >= valves && valves < static_cast<int>(site.zones.size()))
        addLimit({"valves-at-once", ""}, finding);
}

// A zone that runs well in company but has too much pressure alone.
void addFewerFail(const CaseSolver& solver, const ZoneSets& sets, const ZonesAtOnceAnswer& answer,
                  ZonesAtOnceFinding& finding) {
    if (answer.bestSet < 2 || answer.bestSets.empty()) return;
    const Site& site = solver.model().site();
    const ZoneMask company = answer.bestSets.front();
    for (std::size_t z = 0; z < site.zones.size(); ++z) {
        const ZoneMask alone = ZoneMask{1} << z;
        if (!(company & alone) || sets.verdict(alone).tooHigh == 0) continue;
        const CaseAnswer a = answerOf(solver, alone, WaterLevel::high, FilterState::clean);
        const auto high = std::find_if(a.cautions.begin(), a.cautions.end(),
                                       [](const Caution& c) { return c.code == "pressure-high"; });
        if (high == a.cautions.end()) continue;
        Caution caution{"fewer-zones-fail", Severity::warning,  high->place, high->values,
                        high->remedy,       high->remedyValues, high->source};
        caution.values.push_back({"best_set", static_cast<std::int64_t>(answer.bestSet)});
        finding.cautions.push_back(std::move(caution));
    }
}

// Changes to the site that may allow one more zone; each tried by computing everything again.
struct Change {
    std::string code;
    Site site;
};

std::vector<Change> changesOf(const Site& site) {
    std::vector<Change> changes;
    Site wider = site;
    bool any = false;
    for (RunItem& item : wider.delivery) {
        auto* pipe = std::get_if<PipeItem>(&item);
        if (!pipe) continue;
        constexpr double kOneSize = 1.25; // the next nominal size has about a quarter more bore
        pipe->kind.bore = pipe->kind.bore * kOneSize;
        pipe->kind.code.clear();
        any = true;
    }
    if (any) changes.push_back({"wider-main", wider});
    Site cleaner = site;
    any = false;
    for (auto* run : {&cleaner.suction, &cleaner.delivery}) {
        for (RunItem& item : *run) {
            auto* filter = std::get_if<FilterItem>(&item);
            if (!filter || filter->service <= Pressure{}) continue;
            filter->service = Pressure{}; // never dirtier than clean
            any = true;
        }
    }
    if (any) changes.push_back({"cleaner-filter", cleaner});
    if (site.source && site.source->low < site.source->usual) {
        Site higher = site;
        higher.source->low = higher.source->usual;
        changes.push_back({"higher-water", higher});
    }
    return changes;
}

void addOneMore(const Job& job, const CaseSolver& solver, const ZoneSets& sets,
                const ZonesFindingOptions& options, ZonesAtOnceFinding& finding) {
    const Site& site = job.site;
    if (finding.bestSetAtMost >= static_cast<int>(site.zones.size()) || !finding.proven) return;
    ZonesFindingOptions quick = options;
    quick.mostQuestions /= 4;
    quick.mostQuestionsAskedExactly /= 4;
    if (finding.bestSet >= mostOpen(site)) {
        const ZonesAtOnceAnswer free = search(sets, kMostMaskedZones, quick);
        if (free.bestSet > finding.bestSet) finding.oneMore.push_back({"more-valves", free.bestSet});
        return;
    }
    for (const Change& change : changesOf(site)) {
        if (stopped(options)) return;
        const auto model = SiteModel::make(change.site, job.water, job.uncertainty);
        if (!model) continue;
        const CaseSolver changed(*model, solver.pump(), job.limits);
        const ZoneSets changedSets(changed);
        const ZonesAtOnceAnswer answer = search(changedSets, mostOpen(site), quick);
        if (answer.bestSet > finding.bestSet) finding.oneMore.push_back({change.code, answer.bestSet});
    }
}

} // namespace

std::vector<std::string> zoneNames(ZoneMask mask, const Site& site) {
    std::vector<std::string> names;
    for (std::size_t z = 0; z < site.zones.size(); ++z) {
        if ((mask >> z) & 1U) names.push_back(site.zones[z].name);
    }
    return names;
}

ZonesAtOnceFinding zonesFinding(const Job& job, const CaseSolver& solver, const ZoneSets& sets,
                                const ZonesFindingOptions& options) {
    const Site& site = solver.model().site();
    const ZonesAtOnceAnswer answer = search(sets, mostOpen(site), options);
    ZonesAtOnceFinding f;
    f.anySet = answer.anySet;
    f.everyChoiceWorksFor = answer.everyChoiceWorksFor;
    f.bestSet = answer.bestSet;
    for (ZoneMask set : answer.bestSets)
        f.bestSets.push_back(zoneNames(set, site));
    f.bestSetsCount = answer.bestSetsCount;
    f.bestSetsCounted = answer.bestSetsCounted;
    f.proven = answer.proven;
    f.bestSetAtMost = answer.bestSetAtMost;
    f.anySetAtMost = answer.anySetAtMost;
    if (stopped(options)) return f;
    addLimits(solver, answer, f, options);
    addFewerFail(solver, sets, answer, f);
    if (options.oneMore) addOneMore(job, solver, sets, options, f);
    return f;
}

} // namespace headmark
