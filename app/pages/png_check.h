#pragma once
// Is a PNG whole? Walks its chunks and their checksums before the decoder sees it: the decoder's library
// would write its complaint straight to stderr, and would not miss an end that is cut off. Source: PNG
// specification (W3C), 5.3 chunk layout, annex D CRC-32.

#include <string_view>

namespace headmark {

// Empty: whole. Otherwise code::kCutShort or code::kDamaged. Chunks a decoder may skip are not checksummed.
[[nodiscard]] std::string_view whatIsWrongWithPng(std::string_view bytes);

// What the header says, however absurd (the decoder's library would only call it broken); 0 x 0: no header.
struct PngSize {
    double width_px = 0.0, height_px = 0.0;
};
[[nodiscard]] PngSize claimedPngSize(std::string_view bytes);

} // namespace headmark
