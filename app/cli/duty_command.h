#pragma once
// `headmark-cli duty JOB`: the findings of a job as JSON or as a table.

#include "app/cli/command.h"

namespace headmark {

class DutyCommand final : public Command {
  public:
    using Command::Command;
    [[nodiscard]] int run(const Arguments& arguments) override;
};

} // namespace headmark
