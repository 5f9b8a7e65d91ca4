#include "analysis/pipework/rules.h"

#include "analysis/core/assertion.h"
#include "analysis/pipework/catalogue.h"
#include "analysis/pipework/rule_list.h"

#include <cstdlib>
#include <utility>
#include <vector>

namespace headmark {

namespace {

// Upper end of "over 0.75 to 2.2 kW", or the size of "2.2 kW"; 0: neither.
double upperPower_kW(const std::string& appliesTo) {
    if (!appliesTo.ends_with(" kW")) return 0.0;
    const std::size_t to = appliesTo.find(" to ");
    return std::strtod(appliesTo.c_str() + (to == std::string::npos ? 0 : to + 4), nullptr);
}

} // namespace

double Rules::value(std::string_view code, std::string_view appliesTo) const {
    HEADMARK_ASSERT(isJudgingCode(code), "rule_list.cpp lacks a rule that is judged by");
    if (const auto set = own_.find(std::string(code)); set != own_.end()) return set->second;
    const LimitRow* row = findLimit(code, appliesTo);
    HEADMARK_ASSERT(row && row->value, "the table of limits lacks a row");
    return *row->value;
}

double Rules::valueForPower(std::string_view code, double rated_kW) const {
    HEADMARK_ASSERT(isJudgingCode(code), "rule_list.cpp lacks a rule that is judged by");
    if (const auto set = own_.find(std::string(code)); set != own_.end()) return set->second;
    const LimitRow* last = nullptr;
    for (const LimitRow& row : limitRows()) {
        if (row.code != code || !row.value) continue;
        last = &row;
        if (rated_kW <= upperPower_kW(row.appliesTo) * (1.0 + 1e-9)) break;
    }
    HEADMARK_ASSERT(last != nullptr, "the table of limits lacks a row");
    return *last->value;
}

double Rules::valueAt_C(std::string_view code, double celsius) const {
    HEADMARK_ASSERT(isJudgingCode(code), "rule_list.cpp lacks a rule that is judged by");
    if (const auto set = own_.find(std::string(code)); set != own_.end()) return set->second;
    std::vector<std::pair<double, double>> points;
    for (const LimitRow& row : limitRows()) {
        if (row.code == code && row.value)
            points.emplace_back(std::strtod(row.appliesTo.c_str(), nullptr), *row.value);
    }
    HEADMARK_ASSERT(points.size() > 1, "the table of limits lacks rows");
    if (celsius <= points.front().first) return points.front().second;
    std::size_t end = 1;
    while (end + 1 < points.size() && celsius > points[end].first)
        ++end;
    const auto& [from_C, from] = points[end - 1];
    const auto& [to_C, to] = points[end];
    return from + (to - from) * (celsius - from_C) / (to_C - from_C);
}

std::string Rules::source(std::string_view code) const {
    if (own_.contains(std::string(code))) return "set in the job";
    const LimitRow* row = findLimit(code);
    if (!row) return {};
    return row->confidence == "practice" ? "common practice, no source" : row->source;
}

} // namespace headmark
