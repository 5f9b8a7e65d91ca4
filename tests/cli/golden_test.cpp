// The sample's whole answer and one of its charts as people read them, kept as texts that must be looked at
// when they change, and the README's quotations of them.
// To approve a change after reading the difference: HEADMARK_APPROVE=1 ctest -R Golden (in the build folder).
#include "tests/support/process.h"

#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>

namespace headmark::test {
namespace {

// From the samples' folder, so that a page names its file as briefly as a user would.
std::string tableOf(const std::string& command, const std::string& file) {
    const std::filesystem::path before = std::filesystem::current_path();
    std::filesystem::current_path(HEADMARK_ROOT "/samples");
    constexpr double kSeconds = 400.0; // six charts are read, in a sanitized build on a busy machine
    const ProcessResult r = runProcess({HEADMARK_CLI, command, file, "--table"}, {}, kSeconds);
    std::filesystem::current_path(before);
    EXPECT_EQ(r.status, 0) << r.messages;
    return r.out;
}

std::string sampleTable() { return tableOf("duty", "terrace-nursery.job.json"); }
std::string chartTable() { return tableOf("read", "pages/pump-a-head.reading.json"); }

void expectAsApproved(const std::string& found, const std::string& name) {
    const std::string expected = HEADMARK_TESTS_DIR "/golden/terrace-nursery/expected/" + name;
    if (std::getenv("HEADMARK_APPROVE")) std::ofstream(expected, std::ios::binary) << found;
    EXPECT_EQ(found, readText(expected));
}

TEST(Golden, SampleTableReadsAsApproved) { expectAsApproved(sampleTable(), "table.txt"); }

TEST(Golden, ChartTableReadsAsApproved) { expectAsApproved(chartTable(), "pump-a-head.txt"); }

// A fitter's sheet: looked at as a page and as a drawing when it changes.
TEST(Golden, ConnectionSheetReadsAsApproved) {
    expectAsApproved(tableOf("sheet", "terrace-nursery.job.json"), "sheet.txt");
}

TEST(Golden, ConnectionDrawingIsAsApproved) {
    const TemporaryFolder folder;
    const std::string drawing = folder.file("drawing.svg");
    constexpr double kSeconds = 400.0;
    const ProcessResult r = runProcess(
        {HEADMARK_CLI, "sheet", HEADMARK_ROOT "/samples/terrace-nursery.job.json", "--drawing", drawing}, {},
        kSeconds);
    EXPECT_EQ(r.status, 0) << r.messages;
    expectAsApproved(readText(drawing), "drawing.svg");
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
    const std::string printed = sampleTable() + "\n" + chartTable();
    const auto paragraphs = quotedParagraphs(readText(HEADMARK_ROOT "/README.md"));
    EXPECT_GT(paragraphs.size(), 5U);
    for (const std::string& paragraph : paragraphs) {
        EXPECT_NE(printed.find(paragraph), std::string::npos) << paragraph;
    }
}

} // namespace
} // namespace headmark::test
