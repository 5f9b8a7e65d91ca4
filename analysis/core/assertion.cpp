#include "analysis/core/assertion.h"

#include <iostream>
#include <string>
#include <string_view>

namespace headmark {

void assertionFailed(const char* condition, const char* why, const char* file, int line) {
    // The file's own name is enough; the folder of the machine it was built on is nobody's business.
    std::string_view name = file;
    if (const auto slash = name.rfind('/'); slash != std::string_view::npos) name.remove_prefix(slash + 1);
    const std::string text =
        std::string(name) + ":" + std::to_string(line) + ": " + why + " (" + condition + ")";
    std::cerr << "internal error: " << text << '\n';
    throw InternalError(text);
}

} // namespace headmark
