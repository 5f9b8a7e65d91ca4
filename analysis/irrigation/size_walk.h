#pragma once
// The walk over the sets of one size behind zones_at_once.h, where a bound on branches is known: zone after
// zone, in a given order, is opened first and left shut then; a branch ends where the bound decides all of
// its sets of that size, or where one is left, which is asked for.

#include "analysis/irrigation/zones_at_once.h"

namespace headmark {

enum class SizeAim { findWorking, findFailing, listWorking, listFailing, countWorking };

inline constexpr std::size_t kMostSetsListed = 20; // contract of the findings document

// Exact for up to 62 zones: the greatest is 4.7e17.
[[nodiscard]] long combinations(int n, int k);

// Appends choices of `more` zones of `free`, in job order, until the list is full.
void appendChoices(ZoneMask held, ZoneMask free, int more, std::vector<ZoneMask>& list);

class SizeWalk {
  public:
    // `most`: questions and bounds that may be asked for.
    SizeWalk(const ZonesAtOnceQuestion& question, const std::vector<int>& order, int size, SizeAim aim,
             long most);

    // False where the questions ran out before the aim was met.
    bool run();
    [[nodiscard]] long questions() const { return questions_; }
    // Sets that were looked for: one, or the first kMostSetsListed if the order is that of the job.
    [[nodiscard]] const std::vector<ZoneMask>& found() const { return found_; }
    [[nodiscard]] long counted() const { return counted_; } // sets that work, with the aim countWorking

  private:
    void visit(const SetBranch& branch, std::size_t next);
    void settle(ZoneMask set);
    void note(const SetBranch& branch, bool work);
    bool spend();
    [[nodiscard]] bool done() const;

    const ZonesAtOnceQuestion& q_;
    const std::vector<int>& order_;
    int size_;
    SizeAim aim_;
    long most_, questions_ = 0, counted_ = 0;
    std::vector<ZoneMask> found_;
    bool stopped_ = false;
};

} // namespace headmark
