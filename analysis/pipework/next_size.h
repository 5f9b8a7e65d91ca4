#pragma once
// The next part of the catalogue that does more: a wider or stronger pipe of the same make, a larger filter
// of the same kind. Null where the part is spelled out by the user or the catalogue has none.

#include "analysis/pipework/catalogue.h"

namespace headmark {

// The least wide pipe of at least that bore: of the same family ("pe100_sdr17"), else of the same material
// and no less rating. On suction only pipe that does not collapse.
[[nodiscard]] const PipeRow* widerPipe(const PipeKind& kind, Length least, bool suction);
// The same material and outside diameter in the least rating that is enough.
[[nodiscard]] const PipeRow* strongerPipe(const PipeKind& kind, GaugePressure needed);
// The smallest filter of that kind that passes the flow.
[[nodiscard]] const FilterRow* largerFilter(const FilterItem& filter, Flow needed);

} // namespace headmark
