#include "analysis/job/job_reader.h"

#include "analysis/job/error_codes.h"
#include "analysis/job/job_reader_parts.h"
#include "analysis/job/json_document.h"

#include <nlohmann/json.hpp>

#include <map>

namespace headmark {

namespace {

constexpr std::size_t kLongestNotes = 100'000;

Job readJob(const ObjectReader& top) {
    ReadLog& log = top.log();
    Job job;
    job.title = top.text("title").value_or("");
    job.notes = top.text("notes", kLongestNotes).value_or("");
    job.madeBy = top.text("made_by").value_or("");
    if (const auto at = top.value("water")) job.water = readWater(*at, log);
    if (const auto at = top.value("energy")) job.energy = readEnergy(*at, log);
    if (const auto at = top.value("limits")) job.limits = readLimits(*at, log);
    if (const auto at = top.value("uncertainty")) job.uncertainty = readUncertainty(*at, log);
    if (const auto at = top.value("connections")) job.connections = readConnections(*at, log);
    if (top.need("pumps")) {
        const auto items = top.list("pumps");
        if (items.empty() && top.value("pumps")->value->is_array()) top.refuse(code::kEmptyList, "pumps");
        job.pumps = readPumps(items, log);
    }
    if (top.need("site")) job.site = readSite(*top.value("site"), log);
    const auto cases = top.list("cases");
    job.casesGiven = !cases.empty();
    job.cases = readCases(cases, job.site, log);
    if (const auto at = top.value("field_check")) job.fieldCheck = readFieldCheck(*at, job.pumps, log);
    return job;
}

} // namespace

void settleNames(std::string_view noun, std::vector<std::pair<std::string*, std::string>> named,
                 ReadLog& log) {
    std::map<std::string, std::string> firstPlace;
    for (const auto& [name, place] : named) {
        if (name->empty()) continue;
        const auto [known, added] = firstPlace.emplace(*name, place);
        if (!added) log.add(code::kDuplicateName, place, {{"name", *name}, {"first", known->second}});
    }
    for (std::size_t i = 0; i < named.size(); ++i) {
        std::string& name = *named[i].first;
        // From its own position on, until one is free.
        for (std::size_t number = i + 1; name.empty(); ++number) {
            const std::string candidate = std::string(noun) + " " + std::to_string(number);
            if (firstPlace.emplace(candidate, named[i].second).second) name = candidate;
        }
    }
}

bool checkFormatAndVersion(const PlacedValue& document, std::string_view format, int version, ReadLog& log) {
    if (!document.value->is_object()) {
        refuseType(document, "object", log);
        return false;
    }
    const auto at = [&](const char* key) -> const nlohmann::ordered_json* {
        const auto found = document.value->find(key);
        if (found == document.value->end()) log.add(code::kMissingKey, key);
        return found == document.value->end() ? nullptr : &*found;
    };
    // The format comes first only because a version means nothing without it.
    const auto* found = at("format");
    const auto* number = at("version");
    if (!found || !number) return false;
    if (!found->is_string()) {
        refuseType({found, "format"}, "text", log);
        return false;
    }
    if (*found != format) {
        log.add(code::kWrongFormat, "format",
                {{"found", found->get<std::string>()}, {"expected", std::string(format)}});
        return false;
    }
    if (!number->is_number_integer()) {
        refuseType({number, "version"}, "whole number", log);
        return false;
    }
    const auto given = number->get<double>();
    if (given == version) return true;
    log.add(given > version ? code::kNewerVersion : code::kUnknownVersion, "version",
            {{"found", given}, {"known", static_cast<std::int64_t>(version)}});
    return false;
}

JobReading readJobDocument(const nlohmann::ordered_json& document, const std::string& fileName,
                           Finish finish) {
    ReadLog log(fileName, finish);
    const PlacedValue root{&document, ""};
    if (!checkFormatAndVersion(root, "headmark-job", kJobVersion, log)) return {std::nullopt, log.errors()};
    const ObjectReader top(root, log,
                           {"format", "version", "title", "notes", "made_by", "water", "energy", "limits",
                            "uncertainty", "connections", "pumps", "site", "cases", "field_check"});
    Job job = readJob(top);
    if (!log.clean()) return {std::nullopt, log.errors()};
    job.extras = log.extras();
    return {std::move(job), {}};
}

JobReading readJobText(std::string_view text, const std::string& fileName, Finish finish) {
    const auto document = parseJson(text, fileName);
    if (!document) return {std::nullopt, {document.error()}};
    return readJobDocument(*document, fileName, finish);
}

JobReading readJobFile(const std::string& path, Finish finish) {
    const auto document = readJsonFile(path);
    if (!document) return {std::nullopt, {document.error()}};
    JobReading read = readJobDocument(*document, path, finish);
    if (read.job) read.job->folder = folderOf(path);
    return read;
}

} // namespace headmark
