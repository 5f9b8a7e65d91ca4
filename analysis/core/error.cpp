#include "analysis/core/error.h"

#include <algorithm>

namespace headmark {

const Fact* findFact(const Facts& facts, std::string_view key) {
    const auto found = std::find_if(facts.begin(), facts.end(), [&](const Fact& f) { return f.key == key; });
    return found == facts.end() ? nullptr : &*found;
}

} // namespace headmark
