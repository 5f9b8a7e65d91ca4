#include "analysis/job/json_sax.h"

#include "analysis/job/error_codes.h"
#include "analysis/job/json_document.h"

#include <algorithm>

namespace headmark {

namespace {

bool continuation(std::string_view text, std::size_t at) {
    return at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0u) == 0x80u;
}

// Bytes of the character that begins there, or 0 (RFC 3629, table of well-formed sequences).
std::size_t characterLength(std::string_view text, std::size_t at) {
    const auto first = static_cast<unsigned char>(text[at]);
    if (first < 0x80) return 1;
    if (first < 0xC2 || first > 0xF4) return 0;
    const std::size_t length = first < 0xE0 ? 2 : first < 0xF0 ? 3 : 4;
    for (std::size_t i = 1; i < length; ++i) {
        if (!continuation(text, at + i)) return 0;
    }
    const auto second = static_cast<unsigned char>(text[at + 1]);
    const bool overlong = (first == 0xE0 && second < 0xA0) || (first == 0xF0 && second < 0x90);
    const bool surrogate = first == 0xED && second >= 0xA0;
    const bool beyond = first == 0xF4 && second >= 0x90;
    return overlong || surrogate || beyond ? 0 : length;
}

// What the parser read last, its control characters ("<U+000A>") as blanks; the end matters, not the
// beginning.
std::string shownToken(std::string token) {
    for (std::size_t at = token.find("<U+00"); at != std::string::npos; at = token.find("<U+00", at)) {
        token.replace(at, std::string_view("<U+0000>").size(), " ");
    }
    token.erase(0, token.find_first_not_of(' '));
    constexpr std::size_t kLongestShown = 40;
    if (token.size() <= kLongestShown) return token;
    std::size_t cut = token.size() - kLongestShown;
    while (continuation(token, cut)) {
        ++cut;
    }
    return "..." + token.substr(cut);
}

} // namespace

std::optional<std::size_t> firstInvalidUtf8(std::string_view text) {
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t length = characterLength(text, at);
        if (length == 0) return at;
        at += length;
    }
    return std::nullopt;
}

Facts positionFacts(std::string_view text, std::size_t offset) {
    const std::string_view before = text.substr(0, std::min(offset, text.size()));
    const auto line = std::count(before.begin(), before.end(), '\n') + 1;
    const std::size_t newline = before.rfind('\n');
    const std::string_view inLine = newline == std::string_view::npos ? before : before.substr(newline + 1);
    const auto column =
        std::count_if(inLine.begin(), inLine.end(),
                      [](char c) { return (static_cast<unsigned char>(c) & 0xC0u) != 0x80u; }) +
        1;
    return {{"line", static_cast<std::int64_t>(line)}, {"column", static_cast<std::int64_t>(column)}};
}

std::string shortened(std::string_view text, std::size_t greatestBytes) {
    if (text.size() <= greatestBytes) return std::string(text);
    std::size_t cut = greatestBytes;
    while (cut > 0 && continuation(text, cut)) {
        --cut;
    }
    return std::string(text.substr(0, cut)) + "...";
}

nlohmann::ordered_json* DocumentBuilder::put(nlohmann::ordered_json value) {
    if (open_.empty()) {
        document_ = std::move(value);
        return &document_;
    }
    Open& parent = open_.back();
    if (parent.value->is_array()) {
        parent.value->push_back(std::move(value));
        return &parent.value->back();
    }
    // Straight onto the vector below: the keys are known to differ, and looking each one up would make large
    // objects quadratic.
    auto& members = parent.value->get_ref<nlohmann::ordered_json::object_t&>();
    return &members.emplace_back(parent.key, std::move(value)).second;
}

bool DocumentBuilder::countOne() {
    constexpr std::int64_t kMostValues = 500000; // a job of 60 zones has some thousand
    if (++values_ <= kMostValues) return true;
    return refuse(code::kListTooLong, currentPlace(), {{"found", values_}, {"limit", kMostValues}});
}

bool DocumentBuilder::open(nlohmann::ordered_json value) {
    if (!countOne()) return false;
    if (open_.size() >= kGreatestJsonDepth) {
        // Where in the text is not known to the event, but the place is.
        return refuse(code::kTooDeep, currentPlace(),
                      {{"limit", static_cast<std::int64_t>(kGreatestJsonDepth)}});
    }
    open_.push_back({put(std::move(value)), {}, {}});
    return true;
}

bool DocumentBuilder::close() {
    open_.pop_back();
    return true;
}

bool DocumentBuilder::key(string_t& key) {
    Open& object = open_.back();
    object.key = key;
    if (!object.keys.insert(key).second) return refuse(code::kDuplicateKey, currentPlace(), {});
    return true;
}

std::string DocumentBuilder::currentPlace() const {
    std::string where;
    for (const Open& level : open_) {
        where = level.value->is_array()
                    ? placeOfItem(where, level.value->size() - (&level == &open_.back() ? 0 : 1))
                    : placeOfKey(where, level.key);
    }
    return where;
}

bool DocumentBuilder::refuse(std::string_view code, std::string where, Facts facts) {
    error_ = {std::string(code), fileName_, std::move(where), std::move(facts)};
    return false;
}

bool DocumentBuilder::parse_error(std::size_t position, const std::string& lastToken,
                                  const nlohmann::detail::exception& exception) {
    // The position counts the bytes read, the offending one included.
    Facts facts = positionFacts(text_, position > 0 ? position - 1 : 0);
    facts.push_back({"found", position > text_.size() ? std::string() : shownToken(lastToken)});
    constexpr int kNumberOverflow = 406;
    const auto code = exception.id == kNumberOverflow ? code::kNumberTooLarge : code::kBrokenJson;
    return refuse(code, "", std::move(facts));
}

} // namespace headmark
