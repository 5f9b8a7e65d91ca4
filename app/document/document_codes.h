#pragma once
// The codes that opening, saving and recovering add to those of the readers (analysis/job/error_codes.h).
// app/words has a sentence for each.

#include <array>
#include <string_view>

namespace headmark::code {

// Another program wrote the file since it was opened here; nothing was written.
inline constexpr std::string_view kChangedOnDisk = "changed-on-disk";
inline constexpr std::string_view kCannotWrite = "cannot-write"; // why
// Another Headmark has this work open, or took it over before.
inline constexpr std::string_view kRecoveryTaken = "recovery-taken";

inline constexpr std::array kDocumentCodes{kChangedOnDisk, kCannotWrite, kRecoveryTaken};

} // namespace headmark::code
