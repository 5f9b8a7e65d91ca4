#include "analysis/job/json_document.h"

#include "analysis/job/error_codes.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <filesystem>
#include <fstream>
#include <sys/stat.h>
#include <unistd.h>

namespace headmark {
namespace {

std::string brokenPath(const std::string& name) {
    return std::string(HEADMARK_TESTS_DIR "/jobs/broken/") + name;
}

Error errorOf(std::string_view text) {
    const auto document = parseJson(text, "job.json");
    EXPECT_FALSE(document.ok()) << text.substr(0, 80);
    return document.ok() ? Error{} : document.error();
}

std::int64_t wholeFact(const Error& error, std::string_view key) {
    const Fact* fact = findFact(error.facts, key);
    return fact && std::holds_alternative<std::int64_t>(fact->value) ? std::get<std::int64_t>(fact->value)
                                                                     : -1;
}

class TemporaryFolder {
  public:
    TemporaryFolder() {
        std::string pattern = (std::filesystem::temp_directory_path() / "headmark-json-XXXXXX").string();
        path_ = ::mkdtemp(pattern.data());
    }
    ~TemporaryFolder() { std::filesystem::remove_all(path_); }
    TemporaryFolder(const TemporaryFolder&) = delete;
    TemporaryFolder& operator=(const TemporaryFolder&) = delete;
    [[nodiscard]] std::string file(const std::string& name) const { return path_ + "/" + name; }
    [[nodiscard]] const std::string& path() const { return path_; }

  private:
    std::string path_;
};

TEST(ParseJson, KeepsTheOrderOfKeys) {
    const auto document = parseJson(R"({"b": 1, "a": [true, null, "x"], "c": -2.5})", "job.json");
    ASSERT_TRUE(document.ok());
    EXPECT_EQ(document->dump(), R"({"b":1,"a":[true,null,"x"],"c":-2.5})");
}

TEST(ParseJson, AcceptsAByteOrderMark) {
    const auto document = parseJson("\xEF\xBB\xBF{\"a\": 1}", "job.json");
    ASSERT_TRUE(document.ok());
    EXPECT_EQ((*document)["a"], 1);
}

TEST(ParseJson, CallsAnEmptyTextEmpty) {
    EXPECT_EQ(errorOf("").code, code::kEmptyFile);
    EXPECT_EQ(errorOf(" \n\t\r\n").code, code::kEmptyFile);
    EXPECT_EQ(errorOf("\xEF\xBB\xBF").code, code::kEmptyFile);
}

TEST(ParseJson, NamesTheFileAsGiven) { EXPECT_EQ(errorOf("{").file, "job.json"); }

TEST(ParseJson, TellsLineAndColumnOfABreak) {
    // The quotation mark that opens "b" stands in line 3, column 3; the token ends at its third character.
    const Error error = errorOf("{\n  \"a\": 1\n  \"b\": 2\n}");
    EXPECT_EQ(error.code, code::kBrokenJson);
    EXPECT_EQ(wholeFact(error, "line"), 3);
    EXPECT_EQ(wholeFact(error, "column"), 5);
}

TEST(ParseJson, TellsACutOffTextFromABrokenOne) {
    const auto found = [](const Error& error) {
        return std::get<std::string>(findFact(error.facts, "found")->value);
    };
    EXPECT_EQ(found(errorOf("{\n  \"a\": [1,\n")), "");
    EXPECT_EQ(found(errorOf("{\"a\": \"b")), "");
    EXPECT_EQ(found(errorOf("{\n  \"a\": 1\n  ]\n}")), "1   ]");
}

TEST(ParseJson, CountsColumnsInCharacters) {
    // Four two-byte letters, then a stray bracket: [ " ä ö ü é " ] } is the ninth character.
    const Error error = errorOf("[\"\xC3\xA4\xC3\xB6\xC3\xBC\xC3\xA9\"]}");
    EXPECT_EQ(error.code, code::kBrokenJson);
    EXPECT_EQ(wholeFact(error, "line"), 1);
    EXPECT_EQ(wholeFact(error, "column"), 9);
}

TEST(ParseJson, RefusesWhatIsNoJson) {
    for (const char* text :
         {"{", "[1,]", "{\"a\": 01}", "{'a': 1}", "{\"a\": NaN}", "[Infinity]", "[-Infinity]", "[1] [2]",
          "{} x", "// note\n{}", "[.5]", "[+1]", "[0x10]", "tru"}) {
        EXPECT_EQ(errorOf(text).code, code::kBrokenJson) << text;
    }
}

TEST(ParseJson, RefusesNumbersThatOverflow) {
    const Error error = errorOf("{\n\"a\": 1e999}");
    EXPECT_EQ(error.code, code::kNumberTooLarge);
    EXPECT_EQ(wholeFact(error, "line"), 2);
    EXPECT_EQ(std::get<std::string>(findFact(error.facts, "found")->value), "1e999");
    EXPECT_EQ(errorOf("[-1e400]").code, code::kNumberTooLarge);
}

TEST(ParseJson, TakesWholeNumbersBeyond64BitsAsNumbers) {
    const auto document = parseJson("[123456789012345678901234567890]", "job.json");
    ASSERT_TRUE(document.ok());
    EXPECT_DOUBLE_EQ((*document)[0].get<double>(), 1.2345678901234568e29);
}

TEST(ParseJson, RefusesInvalidUtf8WithItsPlace) {
    // From RFC 3629: lone continuation, overlong slash, surrogate, past U+10FFFF, cut-off sequence.
    for (const char* bad :
         {"\x80", "\xC0\xAF", "\xE0\x80\xAF", "\xED\xA0\x80", "\xF4\x90\x80\x80", "\xE2\x82", "\xFF"}) {
        const Error error = errorOf(std::string("{\n\"a\": \"") + bad + "\"}");
        EXPECT_EQ(error.code, code::kInvalidUtf8);
        EXPECT_EQ(wholeFact(error, "line"), 2);
        EXPECT_EQ(wholeFact(error, "column"), 7);
    }
    EXPECT_TRUE(parseJson("[\"\xF0\x9F\x92\xA7 \xE2\x82\xAC \xC2\xB5\"]", "job.json").ok());
}

TEST(ParseJson, RefusesDuplicateKeysWithTheirPath) {
    EXPECT_EQ(errorOf(R"({"a": 1, "b": 2, "a": 3})").place, "a");
    const Error error = errorOf(R"({"site": {"zones": [{"n": 1}, [0, {"n": 1, "n": 2}]]}})");
    EXPECT_EQ(error.code, code::kDuplicateKey);
    EXPECT_EQ(error.place, "site.zones[1][1].n");
    // Escapes are resolved before keys are compared.
    EXPECT_EQ(errorOf(R"({"a": 1, "\u0061": 3})").code, code::kDuplicateKey);
    EXPECT_TRUE(parseJson(R"([{"a": 1}, {"a": 2, "b": {"a": 3}}])", "job.json").ok());
}

TEST(ParseJson, ReadsSixtyFourLevelsAndNoMore) {
    const auto nested = [](std::size_t depth) { return std::string(depth, '[') + std::string(depth, ']'); };
    EXPECT_TRUE(parseJson(nested(64), "job.json").ok());
    EXPECT_EQ(errorOf(nested(65)).code, code::kTooDeep);
    EXPECT_EQ(errorOf(nested(10'000)).code, code::kTooDeep);
    std::string objects;
    for (int i = 0; i < 10'000; ++i) {
        objects += "{\"a\":";
    }
    const Error error = errorOf(objects);
    EXPECT_EQ(error.code, code::kTooDeep);
    EXPECT_TRUE(error.place.starts_with("a.a.a."));
}

TEST(ParseJson, BuildsLargeObjectsInReasonableTime) {
    std::string text = "{";
    for (int i = 0; i < 100'000; ++i) {
        text += "\"k" + std::to_string(i) + "\":" + std::to_string(i) + (i < 99'999 ? "," : "}");
    }
    const auto document = parseJson(text, "job.json");
    ASSERT_TRUE(document.ok());
    EXPECT_EQ(document->size(), 100'000u);
}

TEST(PlaceOfKey, PutsUnusualKeysInBrackets) {
    EXPECT_EQ(placeOfKey("", "site"), "site");
    EXPECT_EQ(placeOfKey("site", "pump_level_m"), "site.pump_level_m");
    EXPECT_EQ(placeOfKey("site", "a.b"), "site[\"a.b\"]");
    EXPECT_EQ(placeOfKey("", "a \"b\""), "[\"a \\\"b\\\"\"]");
    EXPECT_LT(placeOfKey("site", std::string(100'000, 'k')).size(), 100u);
}

TEST(ReadJsonFile, SaysWhatIsNoFile) {
    const TemporaryFolder folder;
    EXPECT_EQ(readJsonFile(folder.file("none.json")).error().code, code::kNoSuchFile);
    EXPECT_EQ(readJsonFile(folder.file("none.json")).error().file, folder.file("none.json"));
    EXPECT_EQ(readJsonFile("").error().code, code::kNoSuchFile);
    EXPECT_EQ(readJsonFile(folder.path()).error().code, code::kIsFolder);
    EXPECT_EQ(readJsonFile("/dev/zero").error().code, code::kNotRegularFile);
}

TEST(ReadJsonFile, RefusesAPipeWithoutWaiting) {
    const TemporaryFolder folder;
    ASSERT_EQ(::mkfifo(folder.file("pipe.json").c_str(), 0600), 0);
    EXPECT_EQ(readJsonFile(folder.file("pipe.json")).error().code, code::kNotRegularFile);
}

TEST(ReadJsonFile, SaysWhyAFileCannotBeRead) {
    if (::geteuid() == 0) GTEST_SKIP() << "everything is readable to root";
    const TemporaryFolder folder;
    std::ofstream(folder.file("locked.json")) << "{}";
    ASSERT_EQ(::chmod(folder.file("locked.json").c_str(), 0), 0);
    EXPECT_EQ(readJsonFile(folder.file("locked.json")).error().code, code::kCannotRead);
}

TEST(ReadRegularFile, RefusesMoreThanItsLimit) {
    const TemporaryFolder folder;
    std::ofstream(folder.file("a.json")) << "0123456789";
    EXPECT_TRUE(readRegularFile(folder.file("a.json"), 10).ok());
    EXPECT_EQ(readRegularFile(folder.file("a.json"), 9).error().code, code::kFileTooLarge);
    // A sparse file costs no disk: one byte past 128 MB.
    std::ofstream(folder.file("b.json")) << "{}";
    std::filesystem::resize_file(folder.file("b.json"), kGreatestJsonBytes + 1);
    EXPECT_EQ(readJsonFile(folder.file("b.json")).error().code, code::kFileTooLarge);
}

TEST(ReadJsonFile, RefusesEveryBrokenFileByItsOwnCode) {
    const std::pair<const char*, std::string_view> expected[] = {
        {"empty.job.json", code::kEmptyFile},
        {"only-blanks.job.json", code::kEmptyFile},
        {"cut-off.job.json", code::kBrokenJson},
        {"trailing.job.json", code::kBrokenJson},
        {"missing-comma.job.json", code::kBrokenJson},
        {"not-a-number.job.json", code::kBrokenJson},
        {"too-large-number.job.json", code::kNumberTooLarge},
        {"duplicate-key.job.json", code::kDuplicateKey},
        {"invalid-utf8.job.json", code::kInvalidUtf8},
    };
    for (const auto& [name, wanted] : expected) {
        const auto document = readJsonFile(brokenPath(name));
        ASSERT_FALSE(document.ok()) << name;
        EXPECT_EQ(document.error().code, wanted) << name;
        EXPECT_EQ(document.error().file, brokenPath(name));
    }
}

TEST(DocumentFormat, IsEmptyWhereThereIsNone) {
    EXPECT_EQ(documentFormat(nlohmann::ordered_json::parse(R"({"format": "headmark-job"})")), "headmark-job");
    EXPECT_EQ(documentFormat(nlohmann::ordered_json::parse(R"({"format": 3})")), "");
    EXPECT_EQ(documentFormat(nlohmann::ordered_json::parse("[1]")), "");
}

} // namespace
} // namespace headmark
