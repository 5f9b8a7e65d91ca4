#include "analysis/job/object_reader.h"

#include "analysis/core/assertion.h"
#include "analysis/job/error_codes.h"
#include "analysis/job/json_document.h"
#include "analysis/pipework/catalogue.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

using Json = nlohmann::ordered_json;

std::string kindOf(const Json& value) {
    switch (value.type()) {
    case Json::value_t::null:
        return "null";
    case Json::value_t::object:
        return "object";
    case Json::value_t::array:
        return "list";
    case Json::value_t::string:
        return "text";
    case Json::value_t::boolean:
        return "true or false";
    default:
        return "number";
    }
}

// The value as written, short enough for a sentence; nothing for objects and lists.
std::string shownValue(const Json& value) {
    constexpr std::size_t kLongestShown = 60;
    if (value.is_structured()) return {};
    std::string text = value.dump(-1, ' ', false, Json::error_handler_t::replace);
    if (text.size() <= kLongestShown) return text;
    std::size_t cut = kLongestShown;
    while (cut > 0 && (static_cast<unsigned char>(text[cut]) & 0xC0u) == 0x80u) {
        --cut;
    }
    return text.substr(0, cut) + "...";
}

bool blank(const std::string& text) { return text.find_first_not_of(" \t\r\n") == std::string::npos; }

bool endsWithShare(const std::string& place) {
    // "allowable_share[1]" counts as well.
    const std::string key = place.substr(0, place.find_last_not_of("0123456789[]") + 1);
    return key.ends_with("_share");
}

std::optional<std::string> textOf(const PlacedValue& at, std::size_t longest, ReadLog& log) {
    if (!at.value->is_string()) {
        refuseType(at, "text", log);
        return std::nullopt;
    }
    auto text = at.value->get<std::string>();
    if (text.size() > longest) {
        log.add(code::kTextTooLong, at.place,
                {{"length", static_cast<std::int64_t>(text.size())},
                 {"limit", static_cast<std::int64_t>(longest)}});
        return std::nullopt;
    }
    return text;
}

} // namespace

void ReadLog::add(std::string_view code, std::string place, Facts facts) {
    if (finish_ == Finish::mayBeUnfinished && isOnlyUnfinished(code, place)) return;
    constexpr std::size_t kMost = 100;
    if (errors_.size() < kMost)
        errors_.push_back({std::string(code), file_, std::move(place), std::move(facts)});
}

void refuseType(const PlacedValue& at, std::string_view expected, ReadLog& log) {
    log.add(code::kWrongType, at.place,
            {{"found_kind", kindOf(*at.value)},
             {"found", shownValue(*at.value)},
             {"expected", std::string(expected)}});
}

void refuseCode(const PlacedValue& at, std::string_view kind, const std::vector<std::string>& known,
                ReadLog& log) {
    constexpr std::size_t kLongestCompared = 100;
    const std::string found = at.value->get<std::string>().substr(0, kLongestCompared);
    log.add(code::kUnknownCode, at.place,
            {{"kind", std::string(kind)},
             {"found", shownValue(*at.value)},
             {"nearest", nearestCodes(found, known)}});
}

std::optional<double> numberOf(const PlacedValue& at, NumberRange range, ReadLog& log) {
    if (!at.value->is_number()) {
        refuseType(at, "number", log);
        return std::nullopt;
    }
    const auto found = at.value->get<double>();
    if (std::isfinite(found) && found >= range.least && found <= range.greatest) return found;
    Facts facts{{"found", found}, {"least", range.least}, {"greatest", range.greatest}};
    const double asShare = found / 100.0;
    if (endsWithShare(at.place) && found > 1.0 && asShare >= range.least && asShare <= range.greatest) {
        facts.push_back({"suggested", asShare});
        log.add(code::kShareNotPercent, at.place, std::move(facts));
    } else {
        log.add(code::kOutOfRange, at.place, std::move(facts));
    }
    return std::nullopt;
}

std::optional<std::string> nameOf(const PlacedValue& at, ReadLog& log) {
    auto text = textOf(at, kLongestName, log);
    if (text && blank(*text)) {
        log.add(code::kEmptyText, at.place);
        return std::nullopt;
    }
    return text;
}

ObjectReader::ObjectReader(const PlacedValue& at, ReadLog& log, std::vector<std::string> known)
    : place_(at.place), log_(log), known_(std::move(known)) {
    if (!at.value->is_object()) {
        refuseType(at, "object", log_);
        return;
    }
    object_ = at.value;
    checkKeys();
}

void ObjectReader::checkKeys() const {
    for (const auto& [key, value] : object_->items()) {
        if (std::find(known_.begin(), known_.end(), key) != known_.end()) continue;
        if (key.starts_with("x_")) {
            // The plain key, not the shown one: it is written back.
            log_.keepExtra(place_.empty() ? key : place_ + "." + key,
                           value.dump(-1, ' ', false, Json::error_handler_t::replace));
            continue;
        }
        // No slip of the pen is longer than this; comparing whole pages of text would take long.
        constexpr std::size_t kLongestCompared = 100;
        const std::string_view compared = std::string_view(key).substr(0, kLongestCompared);
        log_.add(code::kUnknownKey, placeOf(key),
                 {{"nearest", nearestCodes(compared, known_)}, {"known", known_}});
    }
}

std::string ObjectReader::placeOf(std::string_view key) const { return placeOfKey(place_, key); }

const Json* ObjectReader::find(std::string_view key) const {
    HEADMARK_ASSERT(std::find(known_.begin(), known_.end(), key) != known_.end(),
                    "key asked for but not known");
    if (!object_) return nullptr;
    const auto found = object_->find(std::string(key));
    return found == object_->end() ? nullptr : &*found;
}

void ObjectReader::refuse(std::string_view code, std::string_view key, Facts facts) const {
    log_.add(code, placeOf(key), std::move(facts));
}

bool ObjectReader::need(std::string_view key) const {
    if (has(key)) return true;
    if (valid()) refuse(code::kMissingKey, key);
    return false;
}

bool ObjectReader::needBeside(std::string_view key, std::string_view beside) const {
    if (has(key)) return true;
    if (valid()) refuse(code::kMissingBeside, key, {{"beside", std::string(beside)}});
    return false;
}

void ObjectReader::exclude(std::initializer_list<std::string_view> keys, std::string_view by) const {
    for (const auto key : keys) {
        if (has(key)) refuse(code::kExcludedBy, key, {{"by", std::string(by)}});
    }
}

std::vector<std::string> ObjectReader::atMostOneOf(std::initializer_list<std::string_view> keys,
                                                   bool needed) const {
    std::vector<std::string> present;
    for (const auto key : keys) {
        if (has(key)) present.emplace_back(key);
    }
    const std::vector<std::string> all(keys.begin(), keys.end());
    if (present.size() > 1) log_.add(code::kOnlyOneOf, place_, {{"found", present}, {"keys", all}});
    if (present.empty() && needed && valid()) log_.add(code::kOneOfNeeded, place_, {{"keys", all}});
    return present;
}

std::optional<PlacedValue> ObjectReader::value(std::string_view key) const {
    const Json* found = find(key);
    return found ? std::optional<PlacedValue>({found, placeOf(key)}) : std::nullopt;
}

std::optional<double> ObjectReader::number(std::string_view key, NumberRange range) const {
    const auto at = value(key);
    return at ? numberOf(*at, range, log_) : std::nullopt;
}

std::optional<int> ObjectReader::integer(std::string_view key, int least, int greatest) const {
    const auto at = value(key);
    if (!at) return std::nullopt;
    const bool whole =
        at->value->is_number() && std::floor(at->value->get<double>()) == at->value->get<double>();
    if (!whole) {
        refuseType(*at, "whole number", log_);
        return std::nullopt;
    }
    const auto found = numberOf(*at, {static_cast<double>(least), static_cast<double>(greatest)}, log_);
    return found ? std::optional<int>(static_cast<int>(*found)) : std::nullopt;
}

std::optional<bool> ObjectReader::boolean(std::string_view key) const {
    const auto at = value(key);
    if (!at) return std::nullopt;
    if (at->value->is_boolean()) return at->value->get<bool>();
    refuseType(*at, "true or false", log_);
    return std::nullopt;
}

std::optional<std::string> ObjectReader::text(std::string_view key, std::size_t longest) const {
    const auto at = value(key);
    return at ? textOf(*at, longest, log_) : std::nullopt;
}

std::optional<std::string> ObjectReader::name(std::string_view key) const {
    const auto at = value(key);
    return at ? nameOf(*at, log_) : std::nullopt;
}

std::vector<PlacedValue> ObjectReader::list(std::string_view key) const {
    const auto at = value(key);
    if (!at) return {};
    if (!at->value->is_array()) {
        refuseType(*at, "list", log_);
        return {};
    }
    std::vector<PlacedValue> items;
    for (std::size_t i = 0; i < at->value->size(); ++i) {
        items.push_back({&(*at->value)[i], placeOfItem(at->place, i)});
    }
    return items;
}

std::optional<std::pair<double, double>> ObjectReader::ascendingPair(std::string_view key,
                                                                     NumberRange range) const {
    const auto at = value(key);
    if (!at) return std::nullopt;
    const auto items = list(key);
    if (!at->value->is_array()) return std::nullopt;
    if (items.size() != 2) {
        refuse(code::kWrongLength, key,
               {{"found", static_cast<std::int64_t>(items.size())}, {"expected", std::int64_t{2}}});
        return std::nullopt;
    }
    const auto low = numberOf(items[0], range, log_);
    const auto high = numberOf(items[1], range, log_);
    if (!low || !high) return std::nullopt;
    if (*low < *high) return std::pair(*low, *high);
    refuse(code::kNotAscending, key,
           {{"lower", items[0].place},
            {"lower_value", *low},
            {"upper", items[1].place},
            {"upper_value", *high}});
    return std::nullopt;
}

std::optional<std::string> ObjectReader::choiceWord(std::string_view key) const { return text(key); }

void ObjectReader::refuseChoice(std::string_view key, const std::string& found,
                                std::vector<std::string> allowed) const {
    refuse(code::kUnknownChoice, key, {{"found", found}, {"allowed", std::move(allowed)}});
}

} // namespace headmark
