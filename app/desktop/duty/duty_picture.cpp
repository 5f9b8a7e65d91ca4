#include "app/desktop/duty/duty_picture.h"

#include "analysis/job/job_writer.h"

#include <nlohmann/json.hpp>

#include <algorithm>

namespace headmark {

namespace {

constexpr double kBeyondPump = 1.12;  // system curves reach a little past the pump's
constexpr double kBeyondNeed = 1.6;   // and well past the need where there is no pump
constexpr double kNoNeed_m3_s = 0.01; // a site with neither: 36 m3/h

double reachOf(const DutyPicture& picture) {
    if (picture.plot && !picture.plot->head.flow_m3_s.empty())
        return kBeyondPump * picture.plot->head.flow_m3_s.back();
    double most = 0.0;
    for (const Need& need : picture.needs)
        most = std::max(most, need.flow.inCubicMetresPerSecond());
    return most > 0.0 ? kBeyondNeed * most : kNoNeed_m3_s;
}

void takePumps(const PreparedJob& job, const PictureQuestion& q, DutyPicture& picture) {
    const Case& setting = q.cases.front().setting;
    for (std::size_t p = 0; p < job.pumps(); ++p) {
        if (p == q.pump) {
            picture.pump = job.job().pumps[p].name;
            picture.plot = job.plot(p, setting);
        } else {
            picture.others.push_back({job.job().pumps[p].name, job.plot(p, setting).head});
        }
    }
}

void takeNeeds(const PictureQuestion& q, DutyPicture& picture) {
    for (const Need& need : q.answer->needs) {
        const bool drawn = std::any_of(q.cases.begin(), q.cases.end(), [&](const MadeCase& c) {
            return !c.fillingEmptyMain && c.setting.name == need.caseName;
        });
        if (drawn) picture.needs.push_back(need);
    }
}

std::string siteTextOf(const Job& job) {
    const nlohmann::ordered_json document = jobDocument(job);
    const nlohmann::ordered_json site = {document.value("site", nlohmann::ordered_json()),
                                         document.value("water", nlohmann::ordered_json())};
    return site.dump(-1, ' ', false, nlohmann::ordered_json::error_handler_t::replace);
}

// The curve of that case in the picture before, where it still holds well enough; else null.
const CurvePlot* curveBefore(const PictureQuestion& q, const DutyPicture& picture, const MadeCase& c) {
    if (!q.answer->stale || !q.before || !picture.plot) return nullptr;
    if (q.before->pump != picture.pump || q.before->siteText != picture.siteText) return nullptr;
    for (const SystemLine& line : q.before->systems) {
        const Case &was = line.made.setting, &now = c.setting;
        if (was.zonesOpen == now.zonesOpen && was.level == now.level && was.filter == now.filter &&
            was.speedShare == now.speedShare && line.made.fillingEmptyMain == c.fillingEmptyMain)
            return &line.curve;
    }
    return nullptr;
}

} // namespace

DutyPicture pictureOf(const PictureQuestion& q) {
    DutyPicture picture;
    if (!q.answer->prepared || q.cases.empty()) return picture;
    const PreparedJob& job = *q.answer->prepared;
    takePumps(job, q, picture);
    if (!picture.plot) takeNeeds(q, picture);
    picture.greatest_m3_s = reachOf(picture);
    picture.siteText = siteTextOf(job.job());
    for (const MadeCase& c : q.cases) {
        SystemLine line;
        line.name = c.setting.name;
        line.made = c;
        line.shown = &c == &q.cases.front();
        const CurvePlot* known = curveBefore(q, picture, c);
        line.curve =
            known ? *known : job.systemCurve(c.setting, picture.greatest_m3_s, q.pump, c.fillingEmptyMain);
        if (q.pump < job.pumps()) {
            CaseAnswer answer = job.answer(q.pump, c.setting, c.fillingEmptyMain);
            line.duty = answer.duty;
            if (line.shown) picture.answer = std::move(answer);
        }
        picture.systems.push_back(std::move(line));
    }
    return picture;
}

DutyPicture triedPicture(DutyPicture picture, const WhatIfAnswer& tried, const CurvePlot& system) {
    const auto shown = std::find_if(picture.systems.begin(), picture.systems.end(),
                                    [](const SystemLine& line) { return line.shown; });
    if (shown == picture.systems.end()) return picture;
    SystemLine now = *shown;
    shown->shown = false;
    shown->asItIs = true;
    if (!system.value.empty()) now.curve = system;
    now.duty = tried.of ? tried.of->duty : std::nullopt;
    picture.systems.insert(picture.systems.begin(), std::move(now));
    picture.answer = tried.of;
    if (tried.plot) picture.plot = tried.plot;
    return picture;
}

} // namespace headmark
