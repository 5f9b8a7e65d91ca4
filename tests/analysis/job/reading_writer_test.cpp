#include "analysis/job/reading_writer.h"

#include "analysis/job/base64.h"
#include "analysis/job/reading_reader.h"
#include "job_documents.h"

namespace headmark {
namespace {

Reading readingOf(const Json& document) {
    auto read = readReadingDocument(document, "chart.json");
    EXPECT_TRUE(read.reading);
    return read.reading.value_or(Reading());
}

TEST(ReadingWriter, GivesBackEveryValueOfTheFile) {
    const Json original = jobJson("full.reading.json");
    const Json written = readingDocument(readingOf(original));
    for (const Node& node : nodesOf(original)) {
        if (node.value->is_structured()) continue;
        const auto pointer = pointerOf(node.place);
        // Left is the axis that need not be named; colours are written in small letters.
        if (node.place.ends_with(".axis") && *node.value == "left") continue;
        ASSERT_TRUE(written.contains(pointer)) << node.place;
        if (node.place.ends_with(".ink")) {
            EXPECT_EQ(written.at(pointer), "#1f77b4");
        } else {
            EXPECT_EQ(written.at(pointer), *node.value) << node.place;
        }
    }
}

TEST(ReadingWriter, WritesWhatReadsAsTheSameReading) {
    const Reading first = readingOf(jobJson("full.reading.json"));
    const auto document = parseJson(writeReading(first), "chart.json");
    ASSERT_TRUE(document);
    const Reading second = readingOf(*document);
    EXPECT_EQ(writeReading(second), writeReading(first));
    EXPECT_EQ(second.pins, first.pins);
    EXPECT_EQ(second.lines, first.lines);
    EXPECT_EQ(second.printedUnits, first.printedUnits);
    EXPECT_EQ(second.mapping, first.mapping);
    EXPECT_EQ(second.extras, first.extras);
    EXPECT_EQ(second.chart.page, first.chart.page);
    EXPECT_EQ(second.chart.dpi, first.chart.dpi);
}

TEST(ReadingWriter, KeepsKeysOfTheUsersOwnWhereTheyStood) {
    Json document = jobJson("full.reading.json");
    document["pins"][1]["x_read by"] = "second look";
    document["chart"]["x_shelf"] = 4;
    const Json written = readingDocument(readingOf(document));
    EXPECT_EQ(written["x_note"], document["x_note"]);
    EXPECT_EQ(written["pins"][1]["x_read by"], "second look");
    EXPECT_EQ(written["chart"]["x_shelf"], 4);
}

TEST(ReadingWriter, CarriesAnEmbeddedPictureByteForByte) {
    std::string bytes;
    for (int i = 0; i < 1000; ++i)
        bytes.push_back(static_cast<char>(i * 37 % 256));
    Reading reading = readingOf(jobJson("full.reading.json"));
    reading.chart = {};
    reading.chart.mediaType = "image/png";
    reading.chart.bytes = std::make_shared<const std::string>(bytes);
    const Json written = readingDocument(reading);
    EXPECT_FALSE(written["chart"].contains("path"));
    const Reading again = readingOf(written);
    ASSERT_TRUE(again.chart.bytes);
    EXPECT_EQ(*again.chart.bytes, bytes);
    EXPECT_EQ(again.chart.mediaType, "image/png");
}

TEST(ReadingWriter, LeavesOutWhatTheQuantityHasNoUseFor) {
    Reading reading = readingOf(jobJson("full.reading.json"));
    for (ChartLine& line : reading.lines) {
        line.powerAtMotorInput = true;
        line.levelShare = 0.6;
        line.degree = 1;
    }
    EXPECT_TRUE(readReadingDocument(readingDocument(reading), "chart.json").reading);
}

TEST(ReadingWriter, ReplacesTextThatIsNoUtf8) {
    Reading reading = readingOf(jobJson("full.reading.json"));
    reading.lines[0].name = "caf\xE9";
    const auto document = parseJson(writeReading(reading), "chart.json");
    ASSERT_TRUE(document);
    EXPECT_EQ(readingOf(*document).lines[0].name, "caf\xEF\xBF\xBD");
}

// RFC 4648 section 10.
TEST(Base64, EncodesThePublishedExamples) {
    EXPECT_EQ(encodeBase64(""), "");
    EXPECT_EQ(encodeBase64("f"), "Zg==");
    EXPECT_EQ(encodeBase64("fo"), "Zm8=");
    EXPECT_EQ(encodeBase64("foo"), "Zm9v");
    EXPECT_EQ(encodeBase64("foob"), "Zm9vYg==");
    EXPECT_EQ(encodeBase64("fooba"), "Zm9vYmE=");
    EXPECT_EQ(encodeBase64("foobar"), "Zm9vYmFy");
}

} // namespace
} // namespace headmark
