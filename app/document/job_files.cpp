#include "app/document/job_files.h"

#include "analysis/job/job_reader.h"
#include "analysis/job/job_writer.h"
#include "analysis/job/json_document.h"
#include "analysis/job/reading_reader.h"
#include "analysis/job/reading_writer.h"
#include "app/document/document_codes.h"

#include <QCryptographicHash>
#include <QDir>
#include <QFileInfo>
#include <QSaveFile>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>

namespace headmark {

namespace {

using Json = nlohmann::ordered_json;

constexpr const char* kChartsKey = "x_charts";

QByteArray hashOf(const std::string& bytes) {
    return QCryptographicHash::hash(QByteArrayView(bytes.data(), static_cast<qsizetype>(bytes.size())),
                                    QCryptographicHash::Sha256);
}

std::string absolute(const std::string& path) {
    return QDir::cleanPath(QFileInfo(QString::fromStdString(path)).absoluteFilePath()).toStdString();
}

std::string relativeTo(const std::string& folder, const std::string& path) {
    return QDir(QString::fromStdString(folder)).relativeFilePath(QString::fromStdString(path)).toStdString();
}

bool exists(const std::string& path) { return QFileInfo::exists(QString::fromStdString(path)); }

// Reading files in the order in which the charts are shown.
std::vector<std::string> readingPaths(const Job& job) {
    std::vector<std::string> paths;
    const auto add = [&](const std::string& path) {
        if (std::find(paths.begin(), paths.end(), path) == paths.end()) paths.push_back(path);
    };
    if (const auto listed = job.extras.find(kChartsKey); listed != job.extras.end()) {
        const Json names = Json::parse(listed->second, nullptr, false);
        if (names.is_array()) {
            for (const Json& name : names)
                if (name.is_string()) add(name.get<std::string>());
        }
    }
    for (const Pump& pump : job.pumps)
        for (const ReadingUse& use : pump.readings)
            add(use.path);
    return paths;
}

// The job with the list of its charts where the pumps alone would not give it back.
Job withChartList(const Workspace& workspace) {
    Job job = workspace.job;
    job.extras.erase(kChartsKey);
    std::vector<std::string> names;
    for (const ChartSheet& sheet : workspace.charts)
        names.push_back(sheet.path);
    if (readingPaths(job) != names && !names.empty()) job.extras[kChartsKey] = Json(names).dump();
    return job;
}

struct ReadFile {
    std::optional<Json> document;
    QByteArray hash;
    std::vector<Error> errors;
};

ReadFile readFile(const std::string& path) {
    const auto bytes = readRegularFile(path);
    if (!bytes) return {std::nullopt, {}, {bytes.error()}};
    auto document = parseJson(*bytes, path);
    if (!document) return {std::nullopt, {}, {document.error()}};
    return {std::move(*document), hashOf(*bytes), {}};
}

void openReading(const std::string& name, OpenedFiles& opened, std::vector<Error>& warnings) {
    const std::string path = absolute(pathFrom(opened.workspace.job.folder, name));
    const ReadFile file = readFile(path);
    ReadingReading read;
    if (file.document) read = readReadingDocument(*file.document, path, Finish::mayBeUnfinished);
    warnings.insert(warnings.end(), file.errors.begin(), file.errors.end());
    warnings.insert(warnings.end(), read.errors.begin(), read.errors.end());
    if (!read.reading) return;
    read.reading->chart.folder = folderOf(path);
    auto reading = std::make_shared<const Reading>(std::move(*read.reading));
    opened.workspace.charts.push_back({name, reading});
    opened.known[path] = {file.hash, reading};
}

// As it is written into `folder`: the page named from there.
Reading namedFrom(const std::string& folder, const Reading& reading) {
    Reading written = reading;
    const bool stays = reading.chart.bytes || absolute(reading.chart.folder) == folder;
    if (!stays) written.chart.path = relativeTo(folder, pagePath(reading.chart));
    written.chart.folder = folder;
    return written;
}

struct FileText {
    std::string path, text;
    std::shared_ptr<const Reading> reading; // null: the job
};

// Readings that differ from what is on the disk, then the job. What the reader would refuse is an error.
std::vector<FileText> textsOf(const Workspace& workspace, const std::string& path, const KnownFiles& known,
                              std::vector<Error>& errors) {
    std::vector<FileText> texts;
    const auto add = [&](FileText text, const std::vector<Error>& wrong) {
        errors.insert(errors.end(), wrong.begin(), wrong.end());
        texts.push_back(std::move(text));
    };
    for (const ChartSheet& sheet : workspace.charts) {
        const std::string file = absolute(pathFrom(workspace.job.folder, sheet.path));
        const auto old = known.find(file);
        if (old != known.end() && old->second.reading && exists(file) &&
            sameReading(*old->second.reading, *sheet.reading))
            continue;
        const Reading written = namedFrom(folderOf(file), *sheet.reading);
        add({file, writeReading(written), sheet.reading},
            readReadingDocument(readingDocument(written), file, Finish::mayBeUnfinished).errors);
    }
    const Job job = withChartList(workspace);
    add({path, writeJob(job), nullptr},
        readJobDocument(jobDocument(job), path, Finish::mayBeUnfinished).errors);
    return texts;
}

Error cannotWrite(const std::string& path, const QString& why) {
    return {std::string(code::kCannotWrite), path, "", {{"why", why.toStdString()}}};
}

bool changedOnDisk(const std::string& path, const KnownFiles& known) {
    const auto old = known.find(path);
    if (old == known.end() || !exists(path)) return false;
    const auto bytes = readRegularFile(path);
    return !bytes || hashOf(*bytes) != old->second.hash;
}

// Written whole beside the old file, not in its place yet.
std::unique_ptr<QSaveFile> writtenBeside(const FileText& file, std::vector<Error>& errors) {
    const QString path = QString::fromStdString(file.path);
    QDir().mkpath(QFileInfo(path).absolutePath());
    auto beside = std::make_unique<QSaveFile>(path);
    const auto size = static_cast<qint64>(file.text.size());
    if (!beside->open(QIODevice::WriteOnly) || beside->write(file.text.data(), size) != size ||
        !beside->flush()) {
        errors.push_back(cannotWrite(file.path, beside->errorString()));
        return nullptr;
    }
    return beside;
}

// A name for the sheet inside `folder`: its own, if neither another sheet nor another job's file has it.
std::string freeName(const Workspace& target, const std::string& folder, const ChartSheet& own) {
    constexpr std::string_view kEnding = ".reading.json";
    const std::filesystem::path asked(own.path);
    const bool inside = asked.is_relative() && !own.path.starts_with("..");
    const std::string name = inside ? own.path : asked.filename().string();
    const auto taken = [&](const std::string& path) {
        const bool bySheet =
            std::any_of(target.charts.begin(), target.charts.end(),
                        [&](const ChartSheet& sheet) { return &sheet != &own && sheet.path == path; });
        return bySheet || exists(pathFrom(folder, path));
    };
    if (!taken(name)) return name;
    const std::string stem = name.ends_with(kEnding) ? name.substr(0, name.size() - kEnding.size()) : name;
    for (int number = 2;; ++number) {
        const std::string path = stem + "-" + std::to_string(number) + std::string(kEnding);
        if (!taken(path)) return path;
    }
}

} // namespace

std::string pagePath(const ChartPage& chart) {
    return chart.bytes ? std::string() : absolute(pathFrom(chart.folder, chart.path));
}

std::vector<Error> openFiles(const std::string& path, OpenedFiles& opened, std::vector<Error>& warnings) {
    const ReadFile file = readFile(path);
    if (!file.document) return file.errors;
    JobReading read = readJobDocument(*file.document, path, Finish::mayBeUnfinished);
    if (!read.job) return read.errors;
    opened = {};
    opened.workspace.job = std::move(*read.job);
    opened.workspace.job.folder = folderOf(absolute(path));
    opened.known[absolute(path)] = {file.hash, nullptr};
    for (const std::string& name : readingPaths(opened.workspace.job))
        openReading(name, opened, warnings);
    opened.workspace.job.extras.erase(kChartsKey);
    return {};
}

Renames renamesFor(const Workspace& workspace, const std::string& path, const KnownFiles& known) {
    const std::string folder = folderOf(absolute(path));
    Workspace target = workspace; // what the sheets are called there
    Renames renames;
    for (ChartSheet& sheet : target.charts) {
        const std::string name = sheet.path;
        if (known.contains(absolute(pathFrom(folder, name)))) continue;
        sheet.path = freeName(target, folder, sheet);
        if (sheet.path != name) renames[name] = sheet.path;
    }
    // Readings that could not be opened stay where they are.
    for (const std::string& name : readingPaths(workspace.job)) {
        if (workspace.job.folder == folder || chartIndex(workspace, name) >= 0) continue;
        renames[name] = relativeTo(folder, absolute(pathFrom(workspace.job.folder, name)));
    }
    return renames;
}

void relocate(Workspace& workspace, const std::string& path, const Renames& renames) {
    const auto rename = [&](std::string& name) {
        if (const auto found = renames.find(name); found != renames.end()) name = found->second;
    };
    for (ChartSheet& sheet : workspace.charts)
        rename(sheet.path);
    for (Pump& pump : workspace.job.pumps)
        for (ReadingUse& use : pump.readings)
            rename(use.path);
    workspace.job.folder = folderOf(absolute(path));
}

std::vector<Error> saveFiles(const Workspace& workspace, const std::string& path, KnownFiles& known,
                             bool overwrite) {
    std::vector<Error> errors;
    const std::vector<FileText> texts = textsOf(workspace, absolute(path), known, errors);
    for (const FileText& file : texts) {
        if (!overwrite && changedOnDisk(file.path, known))
            errors.push_back({std::string(code::kChangedOnDisk), file.path, "", {}});
    }
    if (!errors.empty()) return errors;
    std::vector<std::unique_ptr<QSaveFile>> beside;
    for (const FileText& file : texts)
        beside.push_back(writtenBeside(file, errors));
    if (!errors.empty()) return errors; // the files beside vanish with their objects
    for (std::size_t i = 0; i < texts.size(); ++i) {
        if (!beside[i]->commit()) return {cannotWrite(texts[i].path, beside[i]->errorString())};
        known[texts[i].path] = {hashOf(texts[i].text), texts[i].reading};
    }
    return {};
}

} // namespace headmark
