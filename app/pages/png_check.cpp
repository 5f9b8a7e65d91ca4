#include "app/pages/png_check.h"

#include "app/pages/page_error_codes.h"

#include <algorithm>
#include <array>
#include <cstdint>

namespace headmark {

namespace {

constexpr std::size_t kSignatureBytes = 8;

constexpr std::array<std::uint32_t, 256> makeCrcTable() {
    std::array<std::uint32_t, 256> table{};
    for (std::uint32_t n = 0; n < table.size(); ++n) {
        std::uint32_t c = n;
        for (int bit = 0; bit < 8; ++bit)
            c = (c & 1U) != 0 ? 0xEDB88320U ^ (c >> 1U) : c >> 1U;
        table[n] = c;
    }
    return table;
}

constexpr auto kCrcTable = makeCrcTable();

std::uint32_t crc32(std::string_view bytes) {
    std::uint32_t c = 0xFFFFFFFFU;
    for (const char byte : bytes)
        c = kCrcTable[(c ^ static_cast<unsigned char>(byte)) & 0xFFU] ^ (c >> 8U);
    return c ^ 0xFFFFFFFFU;
}

std::uint32_t bigEndian(std::string_view bytes) {
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < 4; ++i)
        value = (value << 8U) | static_cast<unsigned char>(bytes[i]);
    return value;
}

bool allLetters(std::string_view type) {
    return std::all_of(type.begin(), type.end(),
                       [](char c) { return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z'); });
}

} // namespace

PngSize claimedPngSize(std::string_view bytes) {
    constexpr std::size_t kWidthAt = 16, kHeightAt = 20; // first chunk: IHDR
    if (bytes.size() < kHeightAt + 4) return {};
    return {static_cast<double>(bigEndian(bytes.substr(kWidthAt))),
            static_cast<double>(bigEndian(bytes.substr(kHeightAt)))};
}

std::string_view whatIsWrongWithPng(std::string_view bytes) {
    constexpr std::size_t kAroundData = 12; // length, type, checksum
    std::string_view rest = bytes.substr(std::min(kSignatureBytes, bytes.size()));
    for (;;) {
        if (rest.size() < kAroundData) return code::kCutShort;
        const std::size_t length = bigEndian(rest);
        const std::string_view type = rest.substr(4, 4);
        if (length > 0x7FFFFFFFU || !allLetters(type)) return code::kDamaged;
        if (rest.size() - kAroundData < length) return code::kCutShort;
        const bool needed = type[0] >= 'A' && type[0] <= 'Z';
        if (needed && crc32(rest.substr(4, 4 + length)) != bigEndian(rest.substr(8 + length)))
            return code::kDamaged;
        if (type == "IEND") return {};
        rest.remove_prefix(kAroundData + length);
    }
}

} // namespace headmark
