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
    std::shared_ptr<const Page> page;        // null: could not be opened, see errors
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
    // Null where the job cannot be answered yet: `errors` say why (no pump yet is none of them).
    std::shared_ptr<const PreparedJob> prepared;
    std::vector<Error> errors;
    std::vector<Need> needs; // flow and head asked for, known before any pump
    Shown shown;
    std::optional<CaseAnswer> shownCase; // without intervals
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

  signals:
    void answered(); // latest() changed: first the quick part, then the whole
    void busyChanged(bool busy);

  private:
    class Worker;
    void post();
    std::shared_ptr<const Answer> latest_;
    Document& document_;
    Shown shown_;
    std::unique_ptr<Worker> worker_;
};

} // namespace headmark
