#pragma once
// Keeps the answer of the open job up to date, off the screen's thread. After every edit first the quick part
// (charts, the shown case), then the whole; an edit in between supersedes what is being computed.

#include "analysis/chart/page.h"
#include "analysis/chart/read_chart.h"
#include "analysis/job/findings.h"
#include "analysis/job/prepared_job.h"
#include "app/document/document.h"

#include <QObject>

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace headmark {

struct ChartAnswer {
    // Null: could not be opened, see errors; or, without errors of the page, one of many large pages that had
    // to make room: showChart() has it opened again.
    std::shared_ptr<const Page> page;
    std::optional<ChartMapping> mapping;     // none: pins missing or wrong, see errors
    std::shared_ptr<const ChartLines> lines; // those that could be read; null without a mapping
    std::vector<Error> errors;               // of page, pins and single lines ("lines[1]...")
};

// Which pump and case the screens show.
struct Shown {
    int pump = 0;
    int caseIndex = 0; // of the job's cases, given or made
};

struct Answer {
    Workspace workspace;                       // what it answers
    std::map<std::string, ChartAnswer> charts; // by the sheet's path
    // Null where the job cannot be answered yet: `errors` say why (no pump yet is none of them). Where only a
    // pump cannot be made ready, `errors` say so and the pumps before it are answered.
    std::shared_ptr<const PreparedJob> prepared;
    std::vector<Error> errors;
    std::vector<Need> needs; // flow and head asked for, known before any pump
    Shown shown;
    std::optional<CaseAnswer> shownCase;       // without intervals
    std::vector<LongSectionItem> shownSection; // of that case; empty without a duty point
    // The whole: intervals, every case, zones at once. Of an earlier edit while `stale`.
    std::shared_ptr<const Findings> findings;
    bool stale = true;
};

class AnswerService : public QObject {
    Q_OBJECT

  public:
    explicit AnswerService(Document& document, QObject* parent = nullptr);
    ~AnswerService() override;

    // Never null; empty before the first answer.
    [[nodiscard]] std::shared_ptr<const Answer> latest() const { return latest_; }
    [[nodiscard]] bool isBusy() const;
    void show(Shown shown);
    // The sheet on the screen: its page is at hand in every answer.
    void showChart(const std::string& path);

  signals:
    void answered(); // latest() changed: first the quick part, then the whole
    void busyChanged(bool busy);

  private:
    class Worker;
    void post();
    void receive(std::shared_ptr<const Answer> answer, long number, bool isLast);
    void setBusy(bool busy);

    std::shared_ptr<const Answer> latest_;
    Document& document_;
    Shown shown_;
    std::string shownChart_;
    long revision_ = 0; // of the document's workspace
    long posted_ = 0;   // questions so far
    bool busy_ = false;
    std::unique_ptr<Worker> worker_;
};

} // namespace headmark
