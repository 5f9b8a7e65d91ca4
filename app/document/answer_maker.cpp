#include "app/document/answer_maker.h"

#include "analysis/job/analyse.h"
#include "analysis/job/job_reader.h"
#include "analysis/job/job_writer.h"
#include "analysis/job/json_document.h"

#include <nlohmann/json.hpp>

namespace headmark {

namespace {

Error inReading(Error error, const std::string& file) {
    if (!error.file.empty()) error.facts.push_back({"picture", error.file});
    error.file = file;
    return error;
}

void answerShown(Answer& answer, Shown shown) {
    answer.shown = shown;
    answer.shownCase.reset();
    answer.shownSection.clear();
    const PreparedJob* prepared = answer.prepared.get();
    if (!prepared || shown.pump < 0 || shown.caseIndex < 0) return;
    const auto pump = static_cast<std::size_t>(shown.pump);
    const auto index = static_cast<std::size_t>(shown.caseIndex);
    if (pump >= prepared->pumps() || index >= prepared->cases().size()) return;
    const MadeCase& one = prepared->cases()[index];
    answer.shownCase = prepared->answer(pump, one.setting, one.fillingEmptyMain);
    answer.shownSection = prepared->longSection(pump, one.setting, one.fillingEmptyMain);
}

} // namespace

AnswerMaker::AnswerMaker() : shelf_(pages_), book_(pages_), last_(std::make_shared<Answer>()) {}

ChartAnswer AnswerMaker::chartAnswer(const ChartSheet& sheet, const std::string& file, GridLook look) {
    const PageKey key = keyOf(sheet.reading->chart);
    const auto known = sheets_.find(file);
    if (known != sheets_.end() && known->second.page == key &&
        sameReading(*known->second.reading, *sheet.reading) &&
        !(known->second.provisional && look == GridLook::anew)) {
        ChartAnswer& answer = known->second.answer;
        if (!shelf_.holds(key)) answer.page.reset(); // or this would hold it
        const bool isShown = sheet.path == shownChart_;
        if (!isShown || answer.page || !known->second.opened) return answer;
    }
    ChartAnswer answer;
    bool provisional = false;
    auto held = shelf_.held(sheet.reading->chart);
    if (!held) {
        answer.errors.push_back(inReading(held.error(), file));
    } else {
        answer.page = (*held)->page;
        ChartReader::Outcome read = (*held)->reader->read(*sheet.reading, look);
        provisional = read.provisional;
        for (const Error& error : read.errors)
            answer.errors.push_back(inReading(error, file));
        if (read.chart) {
            for (auto& [line, error] : read.chart->unread)
                error = inReading(std::move(error), file);
            answer.mapping = read.chart->mapping;
            answer.lines = std::make_shared<const ChartLines>(std::move(*read.chart));
        }
    }
    sheets_[file] = {sheet.reading, key, answer, answer.page != nullptr, provisional};
    book_.provide(file, sheet.reading,
                  answer.lines ? ChartBook::Charted{answer.lines, {}}
                               : ChartBook::Charted{nullptr, answer.errors});
    return answer;
}

void AnswerMaker::readCharts(Answer& answer, GridLook look) {
    answer.charts.clear();
    std::map<std::string, Sheet> gone = sheets_;
    for (const ChartSheet& sheet : answer.workspace.charts) {
        const std::string file = pathFrom(answer.workspace.job.folder, sheet.path);
        gone.erase(file);
        answer.charts[sheet.path] = chartAnswer(sheet, file, look);
        provisional_ = provisional_ || sheets_[file].provisional;
    }
    for (const auto& [file, sheet] : gone) {
        sheets_.erase(file);
        book_.forget(file);
    }
    // Pages that had to make room for others.
    for (const ChartSheet& sheet : answer.workspace.charts) {
        if (!shelf_.holds(keyOf(sheet.reading->chart))) answer.charts[sheet.path].page.reset();
    }
}

// Where a pump cannot be made ready (its chart is still being pinned) the ones before it still answer.
void AnswerMaker::makeReady(Answer& answer, const SiteModel* sameZones) {
    Job fewer = answer.workspace.job;
    for (bool tryFewer = true; tryFewer;) {
        auto prepared = PreparedJob::make(fewer, book_, sameZones);
        if (prepared) {
            answer.prepared = std::make_shared<const PreparedJob>(std::move(*prepared));
            return;
        }
        if (answer.errors.empty()) answer.errors.push_back(prepared.error());
        tryFewer = !fewer.pumps.empty();
        if (tryFewer) fewer.pumps.pop_back();
    }
}

// `before`: of the last answer, to take over from; may be null.
void AnswerMaker::prepare(Answer& answer, const PreparedJob* before) {
    const auto document = jobDocument(answer.workspace.job);
    std::string jobText = document.dump(-1, ' ', false, nlohmann::ordered_json::error_handler_t::replace);
    std::string siteText = (document.contains("site") ? document.at("site") : nlohmann::ordered_json())
                               .dump(-1, ' ', false, nlohmann::ordered_json::error_handler_t::replace);
    siteText += document.at("water").dump();
    const bool sameJob = before && jobText == jobText_;
    const bool sameZones = before && siteText == siteText_;
    if (!sameJob) jobErrors_ = readJobDocument(document, "", Finish::mayBeUnfinished).errors;
    jobText_ = std::move(jobText);
    siteText_ = std::move(siteText);
    const bool sameNeeds = sameJob && before->pumps() > 0 && !answer.needs.empty();
    answer.prepared.reset();
    answer.errors = jobErrors_;
    if (!sameNeeds) answer.needs.clear();
    if (!answer.errors.empty()) return;
    makeReady(answer, sameZones ? &before->site() : nullptr);
    if (answer.prepared && !sameNeeds) answer.needs = answer.prepared->needs();
    provisional_ = provisional_ || sameZones;
}

std::shared_ptr<const Answer> AnswerMaker::quick(const AnswerQuestion& question) {
    auto answer = std::make_shared<Answer>(question.jobNumber == jobNumber_ ? *last_ : Answer());
    const bool sameWorkspace = question.revision == revision_;
    if (!sameWorkspace || question.shownChart != shownChart_) {
        answer->workspace = question.workspace;
        shownChart_ = question.shownChart;
        if (!sameWorkspace) provisional_ = false;
        readCharts(*answer, sameWorkspace ? GridLook::anew : GridLook::asKnown);
        if (!sameWorkspace) {
            prepare(*answer, last_->prepared.get());
            answer->stale = answer->prepared || provisional_; // else there is nothing to wait for
            if (!answer->prepared) answer->findings.reset();
        }
    }
    answerShown(*answer, question.shown);
    revision_ = question.revision;
    jobNumber_ = question.jobNumber;
    last_ = answer;
    return answer;
}

// What the quick answer took over, found out anew.
void AnswerMaker::settle(Answer& answer) {
    provisional_ = false;
    readCharts(answer, GridLook::anew);
    prepare(answer, nullptr);
    answerShown(answer, answer.shown);
    last_ = std::make_shared<const Answer>(answer);
}

std::shared_ptr<const Answer> AnswerMaker::whole(const std::atomic<bool>& stop) {
    auto answer = std::make_shared<Answer>(*last_);
    if (provisional_) settle(*answer);
    answer->stale = false;
    if (answer->prepared) {
        AnalyseOptions options;
        options.stop = &stop;
        auto findings = analyse(*answer->prepared, options);
        if (stop) return nullptr;
        answer->findings.reset();
        if (findings)
            answer->findings = std::make_shared<const Findings>(std::move(*findings));
        else
            answer->errors.push_back(findings.error());
    }
    if (!answer->prepared) answer->findings.reset();
    last_ = answer;
    return answer;
}

} // namespace headmark
