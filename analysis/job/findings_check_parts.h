#pragma once
// What findings_check.cpp and findings_check_plans.cpp check alike: figures with their intervals, names,
// lists, cautions. Each reports into the reader's log. Whole JSON header, so for these files only.

#include "analysis/job/object_reader.h"

#include <nlohmann/json.hpp>

namespace headmark::findings_check {

// Results may lie anywhere; only what no number could be is refused.
inline constexpr NumberRange kAny{-1e15, 1e15};
inline constexpr NumberRange kNotNegative{0.0, 1e15};
// Counts of sets of zones grow past what an int holds.
inline constexpr NumberRange kCount{0.0, 1e18};
inline constexpr std::size_t kLongestText = 100'000;
inline constexpr std::size_t kMostBestSets = 20;

enum class Presence { needed, neededOrNull, mayBeLeftOut };

// The value, unless it is left out or null and may be.
[[nodiscard]] std::optional<PlacedValue> present(const ObjectReader& object, std::string_view key,
                                                 Presence presence);
void checkNumber(const ObjectReader& object, std::string_view key, NumberRange range,
                 Presence presence = Presence::needed);
// [lo, hi]; an interval may have no width.
void checkInterval(const ObjectReader& object, std::string_view key);
// A figure and its 95 % interval.
void checkFigure(const ObjectReader& object, std::string_view key, std::string_view key95,
                 NumberRange range = kAny, Presence presence = Presence::needed);
void checkWhole(const PlacedValue& at, ReadLog& log);
void checkCount(const ObjectReader& object, std::string_view key);
void checkBoolean(const ObjectReader& object, std::string_view key);
void checkName(const ObjectReader& object, std::string_view key);
void checkTexts(const ObjectReader& object, std::initializer_list<std::string_view> keys);
void checkNames(const PlacedValue& at, ReadLog& log);

template <class Check>
void checkItems(const ObjectReader& object, std::string_view key, Check check,
                Presence presence = Presence::needed) {
    if (!present(object, key, presence)) return;
    for (const auto& item : object.list(key)) {
        check(item, object.log());
    }
}

template <class Check>
void checkObject(const ObjectReader& object, std::string_view key, Check check,
                 Presence presence = Presence::needed) {
    if (const auto at = present(object, key, presence)) check(*at, object.log());
}

// Numbers, texts and lists of texts under any key; null where a number was not finite.
void checkValues(const PlacedValue& at, ReadLog& log);
void checkCaution(const PlacedValue& at, ReadLog& log);

// --- findings_check_plans.cpp
void checkStudy(const PlacedValue& at, ReadLog& log);
void checkZonesAtOnce(const PlacedValue& at, ReadLog& log);
void checkShiftPlan(const PlacedValue& at, ReadLog& log);
void checkConnections(const PlacedValue& at, ReadLog& log);

} // namespace headmark::findings_check
