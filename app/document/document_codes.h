#pragma once
// The codes that saving adds to those of the readers (analysis/job/error_codes.h).
// app/words has a sentence for each.

#include <array>
#include <string_view>

namespace headmark::code {

// Another program wrote the file since it was opened here; nothing was written.
inline constexpr std::string_view kChangedOnDisk = "changed-on-disk";
inline constexpr std::string_view kCannotWrite = "cannot-write"; // why

inline constexpr std::array kDocumentCodes{kChangedOnDisk, kCannotWrite};

} // namespace headmark::code
