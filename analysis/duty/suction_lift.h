#pragma once
// How high a pump may stand above its water in practice, friction included.
//   limit = suction_lift_max - suction_lift_altitude altitude/1000 m
// Range: sites above the sea; below it the limit stays that at the sea. Source: the table of limits.

#include "analysis/duty/site_model.h"

namespace headmark {

// Kinds of source whose pump hangs in the water: no lift, no priming.
[[nodiscard]] bool isSubmersedSource(std::string_view kind);
// A pump on the pipe of the mains: no water may be led back, no surface stands anywhere.
[[nodiscard]] bool isMainsSource(std::string_view kind);
[[nodiscard]] bool drawsFromMains(const Site& site);

// A level or length that somebody is told to set: the next 0.1 m up, as levels are measured.
[[nodiscard]] double nextTenthUp_m(double value_m);

[[nodiscard]] double practicalLift_m(const SiteModel& model, const Rules& rules);

} // namespace headmark
