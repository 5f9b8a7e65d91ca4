#pragma once
// Makes answers of workspaces, one after the other, keeping what stays the same between them: pages, charts
// read, pumps made ready. For one thread.

#include "app/document/answer_service.h"
#include "app/document/page_shelf.h"
#include "app/pages/file_pages.h"

#include <atomic>

namespace headmark {

struct AnswerQuestion {
    Workspace workspace;
    long revision = 0; // of the workspace
    int jobNumber = 0; // of the document
    Shown shown;
    std::string shownChart; // whose page must be at hand; may be empty
};

class AnswerMaker {
  public:
    AnswerMaker();

    // Charts, the job made ready, the shown case; findings are those of before. What an edit left as it was
    // is taken over: the grid found on a page, the zones' laws, the needs where there is a pump.
    [[nodiscard]] std::shared_ptr<const Answer> quick(const AnswerQuestion& question);
    // Whether the last quick answer is to be followed by the whole.
    [[nodiscard]] bool wantsWhole() const { return last_->stale && (last_->prepared || provisional_); }
    // The whole, of the last quick answer, with nothing taken over; null when `stop` was set meanwhile.
    [[nodiscard]] std::shared_ptr<const Answer> whole(const std::atomic<bool>& stop);

  private:
    struct Sheet {
        std::shared_ptr<const Reading> reading;
        PageKey page;
        ChartAnswer answer;
        bool opened = true; // the page could be
        bool provisional = false;
    };
    [[nodiscard]] ChartAnswer chartAnswer(const ChartSheet& sheet, const std::string& file, GridLook look);
    void readCharts(Answer& answer, GridLook look);
    void prepare(Answer& answer, const PreparedJob* before);
    void makeReady(Answer& answer, const SiteModel* sameZones);
    void settle(Answer& answer);

    FilePages pages_;
    PageShelf shelf_;
    ChartBook book_;
    std::map<std::string, Sheet> sheets_; // by reading file
    std::shared_ptr<const Answer> last_;
    long revision_ = -1;
    int jobNumber_ = -1;
    std::string shownChart_;
    std::string jobText_, siteText_; // of the last answer: what the job's own errors and the zones come from
    std::vector<Error> jobErrors_;
    bool provisional_ = false; // the last answer took something over
};

} // namespace headmark
