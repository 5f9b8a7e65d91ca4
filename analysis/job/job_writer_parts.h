#pragma once
// The parts of job_writer.cpp; whole JSON header, so only for the writer's own files.

#include "analysis/job/job.h"

#include <nlohmann/json.hpp>

#include <map>
#include <string>

namespace headmark {

// To 12 significant digits, a whole number without a point.
[[nodiscard]] nlohmann::ordered_json numberJson(double value);

// Puts the kept "x_" keys back into every object that still stands where it stood; `place` is that of
// `value`.
void restoreExtras(nlohmann::ordered_json& value, const std::string& place,
                   const std::map<std::string, std::string>& extras);

[[nodiscard]] nlohmann::ordered_json pumpJson(const Pump& pump);
[[nodiscard]] nlohmann::ordered_json runJson(const Run& run, FrictionMethod friction);
[[nodiscard]] nlohmann::ordered_json pipeKindJson(const PipeKind& kind, FrictionMethod friction);
[[nodiscard]] nlohmann::ordered_json siteJson(const Site& site);
[[nodiscard]] nlohmann::ordered_json zoneJson(const Zone& zone, FrictionMethod friction);
[[nodiscard]] nlohmann::ordered_json fieldCheckJson(const FieldCheck& check);

// Sets `key` when there is something to say.
inline void setText(nlohmann::ordered_json& object, const char* key, const std::string& text) {
    if (!text.empty()) object[key] = text;
}
inline void setNumber(nlohmann::ordered_json& object, const char* key, const std::optional<double>& value) {
    if (value) object[key] = numberJson(*value);
}
inline void setCount(nlohmann::ordered_json& object, const char* key, const std::optional<int>& value) {
    if (value) object[key] = *value;
}
template <class Quantity>
void setAmount(nlohmann::ordered_json& object, const char* key, const std::optional<Quantity>& value,
               double (Quantity::*in)() const) {
    if (value) object[key] = numberJson(((*value).*in)());
}

} // namespace headmark
