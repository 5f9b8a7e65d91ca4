#pragma once
// Pipe threads by their designation, as pump sheets print them.
//   ISO 228-1 (tight by faces outside the thread): "G 1-1/2" is the internal thread, "G 1-1/2 A" and
//     "G 1-1/2 B" the external one, by its tolerance class.
//   ISO 7-1 (tight on the thread): "R 1" external taper, "Rp 1" internal parallel, "Rc 1" internal taper.
//   "DN 50" is a flange, no thread.
// Sizes are those of threads.csv, "1-1/2"; "1 1/2" and "1.1/2" mean the same. Source: designations of
// ISO 228-1 and ISO 7-1, from memory.

#include "analysis/core/result.h"

#include <string>
#include <string_view>
#include <vector>

namespace headmark {

enum class ThreadForm { parallelG, taperR, parallelRp, taperRc };

struct PortEnd {
    bool flange = false;
    bool male = false;
    ThreadForm form = ThreadForm::parallelG;
    std::string size; // "1-1/2"; of a flange the thread size of that DN
};

// Errors: "thread-unreadable" (facts: found, allowed), "thread-size-unknown" (found, allowed: the sizes),
// "thread-class-misplaced" (found): a class after a thread that has none.
[[nodiscard]] Result<PortEnd> parsedPort(std::string_view text);

// Sizes that joints are made in, smallest first: "1/8" to "6", without the meter size 5/8.
[[nodiscard]] const std::vector<std::string>& threadSizes();
// Place in threadSizes(), or -1.
[[nodiscard]] int threadSizeIndex(std::string_view size);
// "1-1/2" of DN 40; empty where there is none.
[[nodiscard]] std::string threadSizeOfDn(int dn);

// "G", "R", "Rp", "Rc".
[[nodiscard]] std::string_view threadFormName(ThreadForm form);

} // namespace headmark
