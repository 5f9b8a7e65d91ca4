#include "analysis/job/cautions_json.h"

#include <cmath>

namespace headmark {

namespace {

using Json = nlohmann::ordered_json;

Json factValue(const Fact& fact) {
    return std::visit(
        [](const auto& v) -> Json {
            if constexpr (std::is_same_v<std::decay_t<decltype(v)>, double>) {
                return finiteJson(v);
            } else {
                return v;
            }
        },
        fact.value);
}

const char* severityName(Severity severity) {
    switch (severity) {
    case Severity::note:
        return "note";
    case Severity::warning:
        return "warning";
    case Severity::danger:
        break;
    }
    return "danger";
}

} // namespace

Json finiteJson(double value) { return std::isfinite(value) ? Json(value) : Json(nullptr); }

Json factsJson(const Facts& facts) {
    Json values = Json::object();
    for (const Fact& f : facts)
        values[f.key] = factValue(f);
    return values;
}

Json cautionsJson(const Cautions& cautions, const Wording& wording) {
    Json list = Json::array();
    for (const Caution& c : cautions) {
        list.push_back({{"code", c.code},
                        {"severity", severityName(c.severity)},
                        {"place", c.place},
                        {"values", factsJson(c.values)},
                        {"remedy", wording.remedyText(c)},
                        {"text", wording.cautionText(c)},
                        {"source", c.source}});
    }
    return list;
}

} // namespace headmark
