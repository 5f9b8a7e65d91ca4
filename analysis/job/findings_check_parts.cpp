#include "analysis/job/findings_check_parts.h"

#include "analysis/job/error_codes.h"
#include "analysis/job/json_document.h"

#include <cmath>

namespace headmark::findings_check {

// The value, unless it is left out or null and may be.
std::optional<PlacedValue> present(const ObjectReader& object, std::string_view key, Presence presence) {
    if (presence != Presence::mayBeLeftOut) object.need(key);
    const auto at = object.value(key);
    if (at && at->value->is_null() && presence != Presence::needed) return std::nullopt;
    return at;
}

void checkNumber(const ObjectReader& object, std::string_view key, NumberRange range, Presence presence) {
    if (present(object, key, presence)) (void)object.number(key, range);
}

// [lo, hi]; an interval may have no width.
void checkInterval(const ObjectReader& object, std::string_view key) {
    const auto at = object.value(key);
    if (!at) return;
    const auto items = object.list(key);
    if (!at->value->is_array()) return;
    if (items.size() != 2) {
        object.refuse(code::kWrongLength, key,
                      {{"found", static_cast<std::int64_t>(items.size())}, {"expected", std::int64_t{2}}});
        return;
    }
    const auto low = numberOf(items[0], kAny, object.log());
    const auto high = numberOf(items[1], kAny, object.log());
    if (!low || !high || *low <= *high) return;
    object.refuse(code::kNotAscending, key,
                  {{"lower", items[0].place},
                   {"lower_value", *low},
                   {"upper", items[1].place},
                   {"upper_value", *high}});
}

// A figure and its 95 % interval.
void checkFigure(const ObjectReader& object, std::string_view key, std::string_view key95, NumberRange range,
                 Presence presence) {
    checkNumber(object, key, range, presence);
    checkInterval(object, key95);
}

void checkWhole(const PlacedValue& at, ReadLog& log) {
    const bool whole =
        at.value->is_number() && std::floor(at.value->get<double>()) == at.value->get<double>();
    if (whole) {
        (void)numberOf(at, kCount, log);
    } else {
        refuseType(at, "whole number", log);
    }
}

void checkCount(const ObjectReader& object, std::string_view key) {
    if (object.need(key)) checkWhole(*object.value(key), object.log());
}

void checkBoolean(const ObjectReader& object, std::string_view key) {
    if (object.need(key)) (void)object.boolean(key);
}

void checkName(const ObjectReader& object, std::string_view key) {
    // The name of a case may list many zones: longer than a name in a job.
    if (!object.need(key)) return;
    const auto name = object.text(key, kLongestText);
    if (name && name->find_first_not_of(" \t\r\n") == std::string::npos) object.refuse(code::kEmptyText, key);
}

void checkTexts(const ObjectReader& object, std::initializer_list<std::string_view> keys) {
    for (const auto key : keys) {
        if (object.need(key)) (void)object.text(key, kLongestText);
    }
}

void checkNames(const PlacedValue& at, ReadLog& log) {
    if (!at.value->is_array()) {
        refuseType(at, "list", log);
        return;
    }
    for (std::size_t i = 0; i < at.value->size(); ++i) {
        (void)nameOf({&(*at.value)[i], placeOfItem(at.place, i)}, log);
    }
}

// Numbers, texts and lists of texts under any key; null where a number was not finite.
void checkValues(const PlacedValue& at, ReadLog& log) {
    if (!at.value->is_object()) {
        refuseType(at, "object", log);
        return;
    }
    for (const auto& [key, value] : at.value->items()) {
        const PlacedValue member{&value, placeOfKey(at.place, key)};
        if (value.is_array()) {
            for (std::size_t i = 0; i < value.size(); ++i) {
                if (!value[i].is_string()) refuseType({&value[i], placeOfItem(member.place, i)}, "text", log);
            }
        } else if (value.is_boolean() || value.is_object()) {
            refuseType(member, "number", log);
        }
    }
}

void checkCaution(const PlacedValue& at, ReadLog& log) {
    const ObjectReader caution(at, log, {"code", "severity", "place", "values", "remedy", "text", "source"});
    checkName(caution, "code");
    caution.need("severity");
    (void)caution.choice<int>("severity", {{"note", 0}, {"warning", 1}, {"danger", 2}});
    checkTexts(caution, {"place", "remedy", "text", "source"});
    checkObject(caution, "values", checkValues);
}

} // namespace headmark::findings_check
