#pragma once
// One class per subcommand, with its streams given, so that tests can run it without a process.

#include "analysis/core/error.h"
#include "app/cli/arguments.h"

#include <ostream>
#include <string>
#include <vector>

namespace headmark {

inline constexpr int kRan = 0;        // the computation ran, whatever its answer
inline constexpr int kWrongInput = 2; // input wrong or output not writable
inline constexpr int kNotConverged = 3;

class Command {
  public:
    Command(std::ostream& out, std::ostream& messages) : out_(out), messages_(messages) {}
    virtual ~Command() = default;
    [[nodiscard]] virtual int run(const Arguments& arguments) = 0;

  protected:
    // Prints the sentences; kWrongInput, or kNotConverged where a chart's mapping or curve did not settle.
    int refuse(const std::vector<Error>& errors);
    int refuse(Error error, const std::string& file);
    // Writes the whole text to --out (all or nothing) or to the output stream.
    [[nodiscard]] int deliver(const Arguments& arguments, const std::string& text);

    std::ostream& out_;
    std::ostream& messages_;
};

// Runs the command named in the arguments; nothing thrown leaves it.
[[nodiscard]] int runCommand(const Arguments& arguments, std::ostream& out, std::ostream& messages);

} // namespace headmark
