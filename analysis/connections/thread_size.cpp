#include "analysis/connections/thread_size.h"

#include "analysis/core/csv.h"

#include <algorithm>
#include <cmath>

namespace headmark::embedded {
std::string_view threads_csv();
}

namespace headmark {

namespace {

// Widths of the window, common practice, no source. Below: class B of ISO 228-1 and a worn crest; above: a
// measure over paint or burrs. The least step between two neighbouring sizes (1/2 and 5/8) is 1.96 mm.
constexpr double kBelow_mm = 1.2;
constexpr double kAbove_mm = 0.9;

std::vector<ThreadCandidate> everySize(double measured_mm, ThreadSide side) {
    const CsvTable table(embedded::threads_csv());
    std::vector<ThreadCandidate> sizes;
    for (std::size_t i = 0; i < table.rows(); ++i) {
        const double nominal_mm =
            table.number(i, side == ThreadSide::male ? "major_diameter_mm" : "minor_diameter_mm");
        sizes.push_back({table.text(i, "designation"), Length::fromMillimetres(nominal_mm),
                         Length::fromMillimetres(measured_mm - nominal_mm), table.number(i, "tpi")});
    }
    std::stable_sort(sizes.begin(), sizes.end(), [](const ThreadCandidate& a, const ThreadCandidate& b) {
        return std::abs(a.difference.inMetres()) < std::abs(b.difference.inMetres());
    });
    return sizes;
}

} // namespace

ThreadSizeFinding threadSizeFromDiameter(Length measured, ThreadSide side) {
    // A male thread wears smaller, a female one larger.
    const double below = side == ThreadSide::male ? kBelow_mm : kAbove_mm;
    const double above = side == ThreadSide::male ? kAbove_mm : kBelow_mm;
    std::vector<ThreadCandidate> sizes = everySize(measured.inMillimetres(), side);
    ThreadSizeFinding finding;
    for (const ThreadCandidate& size : sizes) {
        const double off_mm = size.difference.inMillimetres();
        if (off_mm >= -below && off_mm <= above) finding.candidates.push_back(size);
    }
    using State = ThreadSizeFinding::State;
    if (finding.candidates.empty()) {
        finding.state = State::none;
        sizes.resize(2);
        finding.candidates = std::move(sizes);
        return finding;
    }
    finding.state = finding.candidates.size() == 1 ? State::sure : State::ambiguous;
    return finding;
}

} // namespace headmark
