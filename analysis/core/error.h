#pragma once
// What a failed step says: a code, the place and the numbers; the sentence is made in app/words.

#include <cstdint>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace headmark {

// One named fact of an error, a caution or a working. The key carries the unit ("velocity_m_s").
struct Fact {
    std::string key;
    std::variant<double, std::int64_t, std::string, std::vector<std::string>> value;

    bool operator==(const Fact&) const = default;
};

using Facts = std::vector<Fact>;

// The fact of that key, or null.
[[nodiscard]] const Fact* findFact(const Facts& facts, std::string_view key);

// code:   stable, lower-case with hyphens ("unknown-key"), worded in app/words.
// file:   the file concerned, as the user named it; empty where no file is involved.
// place:  path of the key inside the file, "site.zones[2].emitters.count"; empty for the whole file.
struct Error {
    std::string code;
    std::string file;
    std::string place;
    Facts facts;

    bool operator==(const Error&) const = default;
};

} // namespace headmark
