// The sample's whole answer as people read it, kept as a text that must be looked at when it changes, and the
// README's quotations of it.
// To approve a change after reading the difference: HEADMARK_APPROVE=1 ctest -R Golden (in the build folder).
#include "tests/support/process.h"

#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>

namespace headmark::test {
namespace {

std::string sampleTable() {
    const ProcessResult r =
        runProcess({HEADMARK_CLI, "duty", HEADMARK_ROOT "/samples/terrace-nursery.job.json", "--table"});
    EXPECT_EQ(r.status, 0) << r.messages;
    return r.out;
}

TEST(Golden, SampleTableReadsAsApproved) {
    const std::string expected = HEADMARK_TESTS_DIR "/golden/terrace-nursery/expected/table.txt";
    const std::string found = sampleTable();
    if (std::getenv("HEADMARK_APPROVE")) std::ofstream(expected, std::ios::binary) << found;
    EXPECT_EQ(found, readText(expected));
}

// Paragraphs of the README's text blocks, split at blank lines.
std::vector<std::string> quotedParagraphs(const std::string& readme) {
    std::vector<std::string> paragraphs;
    const std::string open = "```text\n", close = "```";
    for (auto at = readme.find(open); at != std::string::npos; at = readme.find(open, at)) {
        at += open.size();
        const auto end = readme.find(close, at);
        std::string block = readme.substr(at, end - at);
        for (auto gap = block.find("\n\n"); gap != std::string::npos; gap = block.find("\n\n")) {
            paragraphs.push_back(block.substr(0, gap + 1));
            block.erase(0, gap + 2);
        }
        paragraphs.push_back(block);
        at = end + close.size();
    }
    return paragraphs;
}

TEST(Golden, ReadmeQuotesWhatTheProgramPrints) {
    const std::string table = sampleTable();
    const auto paragraphs = quotedParagraphs(readText(HEADMARK_ROOT "/README.md"));
    EXPECT_GT(paragraphs.size(), 5U);
    for (const std::string& paragraph : paragraphs) {
        EXPECT_NE(table.find(paragraph), std::string::npos) << paragraph;
    }
}

} // namespace
} // namespace headmark::test
