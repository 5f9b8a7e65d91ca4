#pragma once
// Every code that opening a page may report, with its facts. The meaning of each stands in
// analysis/chart/page.h; app/words has a sentence for each.

#include "analysis/job/error_codes.h"

#include <array>
#include <string_view>

namespace headmark::code {

inline constexpr View kNotAPicture = "not-a-picture";         // no format known here
inline constexpr View kWrongMediaType = "wrong-media-type";   // said, found: media types
inline constexpr View kBrokenPicture = "broken-picture";      // format ("PNG"), why (one of kWhyBroken)
inline constexpr View kPictureTooLarge = "picture-too-large"; // width_px, height_px, megapixels,
                                                              // limit_megapixels
inline constexpr View kNoSuchPage = "no-such-page";           // page, pages
inline constexpr View kLockedPdf = "locked-pdf";
inline constexpr View kPageNotInPdf = "page-not-in-pdf"; // key ("page", "dpi"), format

inline constexpr std::array kPageCodes{
    kNoSuchFile, kIsFolder,    kNotRegularFile, kCannotRead,    kFileTooLarge,
    kEmptyFile,  kNotAPicture, kWrongMediaType, kBrokenPicture, kPictureTooLarge,
    kNoSuchPage, kLockedPdf,   kPageNotInPdf,
};

// The values of `why` beside kBrokenPicture.
inline constexpr View kCutShort = "cut-short"; // the data end before the picture does
inline constexpr View kDamaged = "damaged";    // the data contradict themselves

inline constexpr std::array kWhyBroken{kCutShort, kDamaged};

} // namespace headmark::code
