#include "app/document/recovery_text.h"

#include "analysis/job/job_reader.h"
#include "analysis/job/job_writer.h"
#include "analysis/job/json_document.h"
#include "analysis/job/reading_reader.h"
#include "analysis/job/reading_writer.h"

#include <nlohmann/json.hpp>

namespace headmark {

namespace {

using Json = nlohmann::ordered_json;

constexpr const char* kFormat = "headmark-recovery";
constexpr int kVersion = 1;

Json sheetJson(const ChartSheet& sheet, const PageNames& pageNames) {
    Reading named = *sheet.reading;
    Json object{{"path", sheet.path}};
    if (named.chart.bytes) {
        const auto name = pageNames.find(named.chart.bytes);
        object["embedded"] = name == pageNames.end() ? std::string() : name->second.toStdString();
        object["media_type"] = named.chart.mediaType;
        named.chart.bytes.reset();
        named.chart.path = "embedded";
    } else {
        named.chart.path = pagePath(named.chart);
    }
    object["reading"] = readingDocument(named);
    return object;
}

std::optional<ChartSheet> sheetOf(const Json& object, const PageBytes& pages) {
    const ReadingReading read = readReadingDocument(object.at("reading"), "", Finish::mayBeUnfinished);
    if (!read.reading) return std::nullopt;
    auto reading = std::make_shared<Reading>(*read.reading);
    if (object.contains("embedded")) {
        reading->chart.path.clear();
        reading->chart.mediaType = object.at("media_type").get<std::string>();
        reading->chart.bytes = pages(QString::fromStdString(object.at("embedded").get<std::string>()));
        if (!reading->chart.bytes) return std::nullopt;
    }
    return ChartSheet{object.at("path").get<std::string>(), std::move(reading)};
}

// Throws Json::exception where a key is missing or of another type.
std::optional<RecoveredWork> workOf(const Json& document, const PageBytes& pages) {
    if (document.at("format") != kFormat || document.at("version") != kVersion) return std::nullopt;
    const JobReading read = readJobDocument(document.at("job"), "", Finish::mayBeUnfinished);
    if (!read.job) return std::nullopt;
    RecoveredWork work;
    work.title = QString::fromStdString(read.job->title);
    work.jobPath = QString::fromStdString(document.at("job_path").get<std::string>());
    work.changed = QDateTime::fromString(QString::fromStdString(document.at("changed").get<std::string>()),
                                         Qt::ISODateWithMs);
    work.workspace.job = *read.job;
    work.workspace.job.folder = folderOf(work.jobPath.toStdString());
    for (const Json& object : document.at("readings")) {
        auto sheet = sheetOf(object, pages);
        if (!sheet) return std::nullopt;
        work.workspace.charts.push_back(std::move(*sheet));
    }
    for (const auto& [path, hash] : document.at("files").items())
        work.known[path].hash = QByteArray::fromHex(QByteArray::fromStdString(hash.get<std::string>()));
    return work;
}

} // namespace

std::string recoveryText(const RecoveredWork& work, const PageNames& pageNames) {
    Json document{{"format", kFormat},
                  {"version", kVersion},
                  {"changed", work.changed.toUTC().toString(Qt::ISODateWithMs).toStdString()},
                  {"job_path", work.jobPath.toStdString()},
                  {"job", jobDocument(work.workspace.job)},
                  {"readings", Json::array()},
                  {"files", Json::object()}};
    for (const ChartSheet& sheet : work.workspace.charts)
        document["readings"].push_back(sheetJson(sheet, pageNames));
    for (const auto& [path, file] : work.known)
        document["files"][path] = file.hash.toHex().toStdString();
    return document.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::optional<RecoveredWork> recoveredWork(const std::string& text, const PageBytes& pages) {
    const auto document = parseJson(text, "");
    if (!document || !document->is_object()) return std::nullopt;
    try {
        return workOf(*document, pages);
    } catch (const Json::exception&) {
        return std::nullopt;
    }
}

bool canBeRecovered(const Workspace& workspace) {
    return readJobDocument(jobDocument(workspace.job), "", Finish::mayBeUnfinished).job.has_value();
}

} // namespace headmark
