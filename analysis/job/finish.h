#pragma once
// Whether a job or reading must be whole, or may be as far as its user has come: what is being described on
// the desk is saved at any time and must open again. Unfinished may lack
//   a job       pumps, a pump's head, zones, end and system, points of a curve; names may be empty or used
//   twice, and
//               take-offs, zones and pumps be named that are not there
//   a reading   pins, their figures, lines, clicks on a line, the flow's unit
// Everything else is refused as ever: wrong types, unknown keys, numbers out of range.

#include <string_view>

namespace headmark {

enum class Finish { whole, mayBeUnfinished };

// Whether a refusal only says that something is not there as yet.
[[nodiscard]] bool isOnlyUnfinished(std::string_view code, std::string_view place);

} // namespace headmark
