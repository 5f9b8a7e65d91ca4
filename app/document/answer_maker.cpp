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

ChartAnswer AnswerMaker::chartAnswer(const ChartSheet& sheet, const std::string& file, bool isShown) {
    const PageKey key = keyOf(sheet.reading->chart);
    const auto known = sheets_.find(file);
    if (known != sheets_.end() && known->second.page == key &&
        sameReading(*known->second.reading, *sheet.reading)) {
        ChartAnswer& answer = known->second.answer;
        if (!shelf_.holds(key)) answer.page.reset(); // or this would hold it
        if (!isShown || answer.page || !known->second.opened) return answer;
    }
    ChartAnswer answer;
    auto held = shelf_.held(sheet.reading->chart);
    if (!held) {
        answer.errors.push_back(inReading(held.error(), file));
    } else {
        answer.page = (*held)->page;
        ChartReader::Outcome read = (*held)->reader->read(*sheet.reading);
        for (const Error& error : read.errors)
            answer.errors.push_back(inReading(error, file));
        if (read.chart) {
            for (auto& [line, error] : read.chart->unread)
                error = inReading(std::move(error), file);
            answer.mapping = read.chart->mapping;
            answer.lines = std::make_shared<const ChartLines>(std::move(*read.chart));
        }
    }
    sheets_[file] = {sheet.reading, key, answer, answer.page != nullptr};
    book_.provide(file, sheet.reading,
                  answer.lines ? ChartBook::Charted{answer.lines, {}}
                               : ChartBook::Charted{nullptr, answer.errors});
    return answer;
}

void AnswerMaker::readCharts(const AnswerQuestion& question, Answer& answer) {
    std::map<std::string, Sheet> gone = sheets_;
    for (const ChartSheet& sheet : question.workspace.charts) {
        const std::string file = pathFrom(question.workspace.job.folder, sheet.path);
        gone.erase(file);
        answer.charts[sheet.path] = chartAnswer(sheet, file, sheet.path == question.shownChart);
    }
    for (const auto& [file, sheet] : gone) {
        sheets_.erase(file);
        book_.forget(file);
    }
    // Pages that had to make room for others.
    for (const ChartSheet& sheet : question.workspace.charts) {
        if (!shelf_.holds(keyOf(sheet.reading->chart))) answer.charts[sheet.path].page.reset();
    }
}

// Where a pump cannot be made ready (its chart is still being pinned) the ones before it still answer.
void AnswerMaker::prepare(Answer& answer) {
    const Job& job = answer.workspace.job;
    answer.errors = readJobDocument(jobDocument(job), "", Finish::mayBeUnfinished).errors;
    if (!answer.errors.empty()) return;
    Job fewer = job;
    for (bool tryFewer = true; tryFewer;) {
        auto prepared = PreparedJob::make(fewer, book_);
        if (prepared) {
            answer.prepared = std::make_shared<const PreparedJob>(std::move(*prepared));
            answer.needs = answer.prepared->needs();
            return;
        }
        if (answer.errors.empty()) answer.errors.push_back(prepared.error());
        tryFewer = !fewer.pumps.empty();
        if (tryFewer) fewer.pumps.pop_back();
    }
}

std::shared_ptr<const Answer> AnswerMaker::quick(const AnswerQuestion& question) {
    auto answer = std::make_shared<Answer>(question.jobNumber == jobNumber_ ? *last_ : Answer());
    if (question.revision != revision_ || question.shownChart != shownChart_) {
        const bool sameWorkspace = question.revision == revision_;
        answer->workspace = question.workspace;
        answer->charts.clear();
        readCharts(question, *answer);
        if (!sameWorkspace) {
            answer->prepared.reset();
            answer->errors.clear();
            answer->needs.clear();
            prepare(*answer);
            answer->stale = answer->prepared != nullptr; // else there is nothing to wait for
            if (!answer->prepared) answer->findings.reset();
        }
    }
    answerShown(*answer, question.shown);
    revision_ = question.revision;
    jobNumber_ = question.jobNumber;
    shownChart_ = question.shownChart;
    last_ = answer;
    return answer;
}

std::shared_ptr<const Answer> AnswerMaker::whole(const std::atomic<bool>& stop) {
    HEADMARK_ASSERT(last_->prepared != nullptr, "the whole follows a quick answer");
    AnalyseOptions options;
    options.stop = &stop;
    auto findings = analyse(*last_->prepared, options);
    if (stop) return nullptr;
    auto answer = std::make_shared<Answer>(*last_);
    answer->stale = false;
    answer->findings.reset();
    if (findings)
        answer->findings = std::make_shared<const Findings>(std::move(*findings));
    else
        answer->errors.push_back(findings.error());
    last_ = answer;
    return answer;
}

} // namespace headmark
