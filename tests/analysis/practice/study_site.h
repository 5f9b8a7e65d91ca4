#pragma once
// A small site and pump whose every part a test may change before it asks one study.

#include "analysis/practice/installation.h"
#include "tests/support/duty_fixtures.h"

#include <functional>
#include <memory>

namespace headmark::testing {

struct StudySite {
    Site site = siteOf(sourceAt(-2.0, -1.5, -1.0));
    PumpModel pump = pumpOf(parabola(40.0, 0.0, -0.25, 0.0, 10.0));
    Limits limits = asPrinted();
    WaterConditions water;
    InstallationFacts facts;
    std::map<std::string, double> rules; // the job's own
    bool fillsMain = false;

    StudySite() {
        site.suction = {pipe(50.0, 5.0)};
        site.delivery = {pipe(50.0, 100.0)};
        site.zones = {zoneOf("Beds", 6.0, 2.0)};
        pump.chartSpeed = RotationalSpeed::fromRevolutionsPerMinute(2900.0);
        pump.deliveredShare = 0.0; // what is delivered counts against ratings in any case
    }

    [[nodiscard]] Study ask(Study (*study)(const InstallationQuestion&)) const {
        const SiteModel model = modelOf(site, {}, water);
        Limits judged = limits;
        judged.rules = Rules(rules);
        const CaseSolver solver(model, pump, judged);
        std::vector<CaseAnswer> cases;
        std::vector<std::string> open;
        for (const Zone& z : site.zones)
            open.push_back(z.name);
        cases.push_back(solver.answer(caseOf(open, WaterLevel::low)));
        cases.push_back(solver.answer(caseOf({})));
        if (fillsMain) cases.push_back(solver.answer(caseOf({}), true));
        return study({&solver, cases, facts, water.temperature});
    }
};

// NPSH required the same at every flow.
inline StudySite withNpsh(double required_m) {
    StudySite s;
    s.pump.npshRequired = curveThrough({{0.0, required_m}, {10.0, required_m}});
    return s;
}

inline const Caution* cautionIn(const Study& study, const std::string& code) {
    for (const Caution& c : study.cautions) {
        if (c.code == code) return &c;
    }
    return nullptr;
}

inline const WorkingStep* figureIn(const Study& study, const std::string& code) {
    for (const WorkingStep& f : study.figures) {
        if (f.code == code) return &f;
    }
    return nullptr;
}

// The result of a figure that must be there; NaN fails every comparison.
inline double resultOf(const Study& study, const std::string& code) {
    const WorkingStep* f = figureIn(study, code);
    return f ? std::get<double>(f->result.value) : std::numeric_limits<double>::quiet_NaN();
}

inline double factOf(const Facts& facts, const std::string& key) {
    const Fact* f = findFact(facts, key);
    return f ? std::get<double>(f->value) : std::numeric_limits<double>::quiet_NaN();
}

} // namespace headmark::testing
