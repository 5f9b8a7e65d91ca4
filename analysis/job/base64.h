#pragma once
// Base64 as RFC 4648 section 4 has it, strictly: that alphabet, padding to a multiple of four, no blanks or
// line ends, unused bits zero. So every text that is accepted stands for one string of bytes and the other
// way round.

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace headmark {

struct Base64Bytes {
    std::string bytes;
    std::optional<std::size_t>
        badCharacter; // where the text stops being base64, from 0; bytes are then empty
};

[[nodiscard]] std::string encodeBase64(std::string_view bytes);

[[nodiscard]] Base64Bytes decodeBase64(std::string_view text);

} // namespace headmark
