#pragma once
// From a file or a text to a JSON document, strictly.
//   file: regular files only (no folder, pipe or device), at most 128 MB
//   text: UTF-8, a byte-order mark is accepted; nothing after the document; no duplicate keys; at most 64
//         levels deep; numbers must fit a double
// Every refusal carries a code of error_codes.h; line and column count from 1, columns in characters.

#include "analysis/core/result.h"

#include <nlohmann/json_fwd.hpp>

#include <string>
#include <string_view>

namespace headmark {

inline constexpr std::size_t kGreatestJsonBytes = 128u * 1024u * 1024u;
inline constexpr std::size_t kGreatestJsonDepth = 64;

// The bytes of a regular file. Never waits on a pipe; `path` is also what errors name as the file.
[[nodiscard]] Result<std::string> readRegularFile(const std::string& path,
                                                  std::size_t greatestBytes = kGreatestJsonBytes);

[[nodiscard]] Result<nlohmann::ordered_json> parseJson(std::string_view text, const std::string& fileName);

[[nodiscard]] Result<nlohmann::ordered_json> readJsonFile(const std::string& path);

// The folder that a file lies in, empty for the working one; and a path as seen from a folder.
[[nodiscard]] std::string folderOf(const std::string& path);
[[nodiscard]] std::string pathFrom(const std::string& folder, const std::string& path);

// The text under "format" at the top of a document; empty where there is none.
[[nodiscard]] std::string documentFormat(const nlohmann::ordered_json& document);

// Path of a key inside an object: "site" + "zones" = "site.zones"; a key that is no plain word is put in
// brackets and quotes, and shortened if very long.
[[nodiscard]] std::string placeOfKey(const std::string& object, std::string_view key);
[[nodiscard]] std::string placeOfItem(const std::string& list, std::size_t index);

} // namespace headmark
