#pragma once
// `headmark-cli read READING`: the lines of a chart as JSON or as a table.

#include "app/cli/command.h"

namespace headmark {

class ReadCommand final : public Command {
  public:
    using Command::Command;
    [[nodiscard]] int run(const Arguments& arguments) override;
};

} // namespace headmark
