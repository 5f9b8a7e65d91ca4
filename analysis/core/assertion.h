#pragma once
// One macro for programming errors. It logs and throws in every build, so that the window can survive and
// save the user's work; it is never used for bad input (see Result).

#include <stdexcept>

namespace headmark {

class InternalError : public std::logic_error {
  public:
    using std::logic_error::logic_error;
};

[[noreturn]] void assertionFailed(const char* condition, const char* why, const char* file, int line);

} // namespace headmark

#define HEADMARK_ASSERT(condition, why)                                                                      \
    ((condition) ? static_cast<void>(0) : ::headmark::assertionFailed(#condition, why, __FILE__, __LINE__))
