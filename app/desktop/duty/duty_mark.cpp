// The mark of the place Duty in the rail.
#include "app/desktop/duty/duty_place.h"

#include <algorithm>

namespace headmark {

namespace {

// Whether a line that the pump uses is one the follower is not sure of.
bool hasDoubtfulLine(const Answer& answer, const Pump& pump) {
    for (const ReadingUse& use : pump.readings) {
        const auto chart = answer.charts.find(use.path);
        if (chart == answer.charts.end() || !chart->second.lines) continue;
        for (const ReadLine& line : chart->second.lines->lines) {
            const bool used = use.lines.empty() ||
                              std::any_of(use.lines.begin(), use.lines.end(),
                                          [&](const auto& entry) { return entry.second == line.name; });
            if (used && line.trust == Trust::doubtful) return true;
        }
    }
    return false;
}

struct Marked {
    bool empty = true, doubtful = false;
    int notServed = 0;
};

Marked markOf(const Desk& desk) {
    Marked marked;
    const auto answer = desk.answers.latest();
    const auto pump = static_cast<std::size_t>(desk.shown().pump);
    if (!answer->prepared || pump >= answer->prepared->pumps()) return marked;
    marked.empty = false;
    const Job& job = answer->prepared->job();
    if (pump < job.pumps.size()) marked.doubtful = hasDoubtfulLine(*answer, job.pumps[pump]);
    if (answer->findings && pump < answer->findings->pumps.size()) {
        const auto& cases = answer->findings->pumps[pump].cases;
        marked.notServed = static_cast<int>(
            std::count_if(cases.begin(), cases.end(), [](const CaseAnswer& a) { return !a.serves; }));
    } else if (answer->shownCase && !answer->shownCase->serves) {
        marked.notServed = 1;
    }
    return marked;
}

} // namespace

PlaceMark DutyPlace::mark() const {
    const Marked marked = markOf(desk_);
    if (marked.empty) return PlaceMark::empty;
    return marked.doubtful || marked.notServed > 0 ? PlaceMark::attention : PlaceMark::ready;
}

QString DutyPlace::markWords() const {
    const Marked marked = markOf(desk_);
    if (marked.empty) return tr("no pump yet");
    QStringList parts;
    if (marked.notServed > 0)
        parts << (marked.notServed == 1 ? tr("one case is not served")
                                        : tr("%1 cases are not served").arg(marked.notServed));
    if (marked.doubtful) parts << tr("a line of its chart is doubtful");
    return parts.isEmpty() ? tr("every case is served") : parts.join(QStringLiteral(", "));
}

} // namespace headmark
