#pragma once
// The usual cautions that stand under every answer, whatever the figures say (common practice, no source).

#include "app/words/phrasing.h"

#include <QStringList>

namespace headmark {

// One whole sentence each, most dangerous first.
[[nodiscard]] QStringList usualCautions(const Phrasing& phrasing);

} // namespace headmark
