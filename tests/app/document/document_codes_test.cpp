#include "app/document/document_codes.h"

#include "app/words/error_words.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace headmark {
namespace {

TEST(DocumentCodes, HaveASentenceEach) {
    const auto worded = wordedErrorCodes();
    for (const std::string_view code : code::kDocumentCodes)
        EXPECT_NE(std::find(worded.begin(), worded.end(), code), worded.end()) << code;
}

} // namespace
} // namespace headmark
