#pragma once
// What was asked on the command line, parsed and checked.

#include <optional>
#include <string>
#include <vector>

namespace headmark {

struct Arguments {
    std::string command; // "read", "duty", "sheet", "check"
    std::string input;
    std::optional<std::string> out;
    bool table = false;
    std::optional<std::string> shifts;  // of "duty": the shift plan as CSV besides
    std::optional<std::string> pump;    // of "sheet": its name; empty: the first
    std::optional<std::string> drawing; // of "sheet": the drawing as SVG besides
};

// Either arguments, or what to print and with which exit status (help: 0 on stdout; misuse: 2 on stderr).
struct ParsedArguments {
    std::optional<Arguments> arguments;
    std::string text;
    int status = 0;
};

[[nodiscard]] ParsedArguments parseArguments(int argc, const char* const* argv);

} // namespace headmark
