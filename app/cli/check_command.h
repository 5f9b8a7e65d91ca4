#pragma once
// `headmark-cli check FILE`: says nothing when the file is in order, else every fault.

#include "app/cli/command.h"

namespace headmark {

class CheckCommand final : public Command {
  public:
    using Command::Command;
    [[nodiscard]] int run(const Arguments& arguments) override;
};

} // namespace headmark
