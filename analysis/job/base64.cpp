#include "analysis/job/base64.h"

#include <algorithm>
#include <array>
#include <cstdint>

namespace headmark {

namespace {

constexpr std::string_view kAlphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
constexpr std::uint8_t kNoDigit = 64;

constexpr std::array<std::uint8_t, 256> digitTable() {
    std::array<std::uint8_t, 256> table{};
    table.fill(kNoDigit);
    for (std::size_t i = 0; i < kAlphabet.size(); ++i) {
        table[static_cast<unsigned char>(kAlphabet[i])] = static_cast<std::uint8_t>(i);
    }
    return table;
}

constexpr auto kDigits = digitTable();

std::uint8_t digitOf(char c) { return kDigits[static_cast<unsigned char>(c)]; }

} // namespace

std::string encodeBase64(std::string_view bytes) {
    std::string text;
    text.reserve((bytes.size() + 2) / 3 * 4);
    for (std::size_t i = 0; i < bytes.size(); i += 3) {
        const std::size_t given = std::min<std::size_t>(3, bytes.size() - i);
        std::uint32_t bits = 0;
        for (std::size_t k = 0; k < 3; ++k)
            bits = bits << 8U | (k < given ? static_cast<unsigned char>(bytes[i + k]) : 0U);
        for (std::size_t k = 0; k < 4; ++k)
            text.push_back(k <= given ? kAlphabet[bits >> (18U - 6U * k) & 0x3FU] : '=');
    }
    return text;
}

Base64Bytes decodeBase64(std::string_view text) {
    const std::size_t padding = text.ends_with("==") ? 2 : text.ends_with('=') ? 1 : 0;
    const std::string_view digits = text.substr(0, text.size() - padding);
    const auto foreign =
        std::find_if(digits.begin(), digits.end(), [](char c) { return digitOf(c) == kNoDigit; });
    if (foreign != digits.end()) return {{}, static_cast<std::size_t>(foreign - digits.begin())};
    if (text.size() % 4 != 0) return {{}, text.size()};

    std::string bytes;
    bytes.reserve(digits.size() / 4 * 3 + 2);
    std::uint32_t bits = 0;
    int held = 0; // bits not yet written
    for (const char c : digits) {
        bits = (bits << 6U | digitOf(c)) & 0xFFFFU;
        held += 6;
        if (held < 8) continue;
        held -= 8;
        bytes.push_back(static_cast<char>(bits >> static_cast<unsigned>(held) & 0xFFU));
    }
    const std::uint32_t unused = bits & ((1U << static_cast<unsigned>(held)) - 1U);
    if (unused != 0) return {{}, digits.size() - 1};
    return {std::move(bytes), std::nullopt};
}

} // namespace headmark
