#include "analysis/job/installation_finding.h"

#include "analysis/job/cautions_json.h"

namespace headmark {

namespace {

InstallationFacts factsOf(const Job& job, const Pump& pump) {
    InstallationFacts facts;
    if (job.site.source) {
        facts.mouthLevel = job.site.source->mouth;
        facts.floorLevel = job.site.source->floor;
    }
    facts.valveClosing = job.site.valveClosing;
    facts.casing = pump.casing;
    facts.primesTo = pump.primesTo;
    facts.plateInput = pump.plate.input;
    facts.plateAmps = pump.plate.amps;
    facts.volts = pump.plate.volts;
    facts.powerFactor = pump.plate.powerFactor;
    facts.phases = pump.plate.phases;
    facts.pricePerKilowattHour = job.energy.pricePerKilowattHour;
    return facts;
}

nlohmann::ordered_json figureJson(const WorkingStep& figure, const Wording& wording) {
    const Wording::WorkingText text = wording.workingText(figure);
    Facts values = figure.with;
    values.push_back(figure.result);
    return {{"code", figure.code},   {"place", figure.place},   {"values", factsJson(values)},
            {"title", text.title},   {"formula", text.formula}, {"with", text.with},
            {"result", text.result}, {"source", text.source}};
}

} // namespace

std::vector<Study> installationFinding(const PreparedJob& prepared, std::size_t pump,
                                       std::span<const CaseAnswer> cases) {
    const Job& job = prepared.job();
    return installationOf(
        {&prepared.solver(pump), cases, factsOf(job, job.pumps[pump]), job.water.temperature});
}

nlohmann::ordered_json installationJson(const std::vector<Study>& studies, const Wording& wording) {
    auto list = nlohmann::ordered_json::array();
    for (const Study& study : studies) {
        auto figures = nlohmann::ordered_json::array();
        for (const WorkingStep& figure : study.figures)
            figures.push_back(figureJson(figure, wording));
        list.push_back({{"topic", study.topic},
                        {"figures", std::move(figures)},
                        {"cautions", cautionsJson(study.cautions, wording)}});
    }
    return list;
}

} // namespace headmark
