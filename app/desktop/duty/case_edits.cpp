#include "app/desktop/duty/case_edits.h"

#include <QCoreApplication>

#include <algorithm>

namespace headmark {

namespace {

struct Words {
    Q_DECLARE_TR_FUNCTIONS(CaseEdits)
};

// The job's own cases, the made ones taken over where it has none.
std::vector<Case>& ownCases(Job& job, const std::vector<MadeCase>& made) {
    if (job.casesGiven) return job.cases;
    job.cases.clear();
    for (const MadeCase& m : made) {
        if (!m.fillingEmptyMain) job.cases.push_back(m.setting);
    }
    job.casesGiven = true;
    return job.cases;
}

// Where case `index` of those shown stands among the job's own, or -1.
int ownIndex(const Job& job, const std::vector<MadeCase>& made, std::size_t index) {
    if (job.casesGiven) return index < job.cases.size() ? static_cast<int>(index) : -1;
    if (index >= made.size() || made[index].fillingEmptyMain) return -1;
    const auto before = std::count_if(made.begin(), made.begin() + static_cast<std::ptrdiff_t>(index),
                                      [](const MadeCase& m) { return !m.fillingEmptyMain; });
    return static_cast<int>(before);
}

} // namespace

std::string freeCaseName(const std::vector<MadeCase>& cases, const std::string& name) {
    const auto taken = [&](const std::string& wanted) {
        return std::any_of(cases.begin(), cases.end(),
                           [&](const MadeCase& m) { return m.setting.name == wanted; });
    };
    if (!taken(name)) return name;
    for (int number = 2;; ++number) {
        const std::string numbered = name + " (" + std::to_string(number) + ")";
        if (!taken(numbered)) return numbered;
    }
}

int addCases(Document& document, const std::vector<MadeCase>& made, const std::vector<Case>& added) {
    int index = 0;
    document.edit(added.size() == 1 ? Words::tr("Add a case") : Words::tr("Add cases"), [&](Workspace& w) {
        std::vector<Case>& cases = ownCases(w.job, made);
        index = static_cast<int>(cases.size());
        cases.insert(cases.end(), added.begin(), added.end());
    });
    return index;
}

int addCase(Document& document, const std::vector<MadeCase>& made, Case added) {
    added.name = freeCaseName(made, added.name);
    return addCases(document, made, {added});
}

int changeCase(Document& document, const std::vector<MadeCase>& made, std::size_t index,
               const Case& changed) {
    const int own = ownIndex(document.job(), made, index);
    if (own < 0) return static_cast<int>(index);
    Case named = changed;
    std::vector<MadeCase> others = made;
    others.erase(others.begin() + static_cast<std::ptrdiff_t>(index));
    named.name = freeCaseName(others, named.name);
    document.edit(Words::tr("Change the case"),
                  [&](Workspace& w) { ownCases(w.job, made)[static_cast<std::size_t>(own)] = named; });
    return own;
}

int duplicateCase(Document& document, const std::vector<MadeCase>& made, std::size_t index) {
    const int own = ownIndex(document.job(), made, index);
    if (own < 0) return static_cast<int>(index);
    Case copy = made[index].setting;
    copy.name = freeCaseName(made, copy.name);
    document.edit(Words::tr("Duplicate the case"), [&](Workspace& w) {
        std::vector<Case>& cases = ownCases(w.job, made);
        cases.insert(cases.begin() + own + 1, copy);
    });
    return own + 1;
}

int deleteCase(Document& document, const std::vector<MadeCase>& made, std::size_t index) {
    const int own = ownIndex(document.job(), made, index);
    if (own < 0) return static_cast<int>(index);
    document.edit(Words::tr("Delete the case"), [&](Workspace& w) {
        std::vector<Case>& cases = ownCases(w.job, made);
        cases.erase(cases.begin() + own);
        if (cases.empty()) w.job.casesGiven = false;
    });
    return std::max(0, own - 1);
}

} // namespace headmark
