#pragma once
// The codes that saving and answering add to those of the readers (analysis/job/error_codes.h).
// app/words has a sentence for each.

#include <array>
#include <string_view>

namespace headmark::code {

// Another program wrote the file since it was opened here; nothing was written.
inline constexpr std::string_view kChangedOnDisk = "changed-on-disk";
inline constexpr std::string_view kCannotWrite = "cannot-write"; // why
// Computing the answer ended in an exception; saving still works.
inline constexpr std::string_view kCannotCompute = "cannot-compute"; // why

inline constexpr std::array kDocumentCodes{kChangedOnDisk, kCannotWrite, kCannotCompute};

} // namespace headmark::code
