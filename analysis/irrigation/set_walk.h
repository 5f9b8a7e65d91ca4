#pragma once
// The walk over all sets of zones behind zones_at_once.h: zone after zone, in a given order, is opened first
// and left shut then. What a whole branch of sets has in common is told to a visitor at once.

#include "analysis/irrigation/zones_at_once.h"

namespace headmark {

class SetVisitor {
  public:
    virtual ~SetVisitor() = default;
    virtual void allWork(const SetBranch& branch) = 0;
    virtual void allFail(const SetBranch& branch) = 0;
    // Whether any set of the branch is still of interest.
    [[nodiscard]] virtual bool wants(const SetBranch& branch) const = 0;
};

class SetWalk {
  public:
    // `order`: every zone once. `most`: questions that may be asked.
    SetWalk(const ZonesAtOnceQuestion& question, std::vector<int> order, SetVisitor& visitor, long most);

    // False where the questions ran out before the end.
    bool run();
    [[nodiscard]] long questions() const { return questions_; }

  private:
    void visit(const SetBranch& branch, std::size_t next, const SetVerdict& held, const SetVerdict* whole);
    bool decidedAsAWhole(const SetBranch& branch, const SetVerdict& held, const SetVerdict*& whole,
                         SetVerdict& room);
    void open(const SetBranch& branch, std::size_t next, const SetVerdict* whole);
    SetVerdict ask(ZoneMask set);

    const ZonesAtOnceQuestion& q_;
    std::vector<int> order_;
    SetVisitor& visitor_;
    long most_, questions_ = 0;
    int largestHolding_ = 0; // size of the largest set whose lower limits held so far
    bool stopped_ = false;
};

} // namespace headmark
