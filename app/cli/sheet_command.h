#pragma once
// `headmark-cli sheet JOB [--pump NAME]`: the connection sheet and the commissioning sheet of a pump, as JSON
// or as a table, with the drawing as SVG besides.

#include "app/cli/command.h"

namespace headmark {

class SheetCommand final : public Command {
  public:
    using Command::Command;
    [[nodiscard]] int run(const Arguments& arguments) override;
};

} // namespace headmark
