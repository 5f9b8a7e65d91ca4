// `headmark-cli read`, and `duty` on pumps given by charts, as processes: on a drawn chart of known truth,
// and on every kind of wrong chart.
#include "tests/support/process.h"

#include <QBuffer>
#include <QImage>
#include <QPainter>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <cmath>
#include <filesystem>

namespace headmark::test {
namespace {

using Json = nlohmann::json;

#if defined(__SANITIZE_ADDRESS__)
constexpr double kLimitSeconds = 20.0;
#else
constexpr double kLimitSeconds = 5.0;
#endif

// The chart: 0 to 16 m3/h over x = 100 to 900, 0 to 50 m over y = 700 to 100, head 40 - 0.1 Q^2 to 15 m3/h.
double xOf(double flow) { return 100.0 + 50.0 * flow; }
double yOf(double head) { return 700.0 - 12.0 * head; }
double truth(double flow) { return 40.0 - 0.1 * flow * flow; }

QImage chart() {
    QImage image(1000, 800, QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.translate(0.5, 0.5); // the centre of the first pixel is (0, 0)
    painter.setPen(QPen(QColor(205, 205, 205), 1.0));
    for (int i = 0; i <= 16; i += 2)
        painter.drawLine(QPointF(xOf(i), yOf(0)), QPointF(xOf(i), yOf(50)));
    for (int i = 0; i <= 50; i += 10)
        painter.drawLine(QPointF(xOf(0), yOf(i)), QPointF(xOf(16), yOf(i)));
    painter.setPen(QPen(Qt::black, 3.0));
    QPolygonF curve;
    for (int i = 0; i <= 300; ++i)
        curve << QPointF(xOf(i * 0.05), yOf(truth(i * 0.05)));
    painter.drawPolyline(curve);
    return image;
}

std::string pngBytes() {
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    EXPECT_TRUE(chart().save(&buffer, "PNG"));
    return bytes.toStdString();
}

Json pin(double flow, double head) {
    return {{"px", {xOf(flow), yOf(head)}}, {"flow", flow}, {"value", head}};
}

Json readingJson() {
    Json reading{{"format", "headmark-reading"}, {"version", 1}};
    reading["chart"] = {{"path", "page.png"}};
    reading["printed_units"] = {{"flow", "m3/h"}, {"head", "m"}};
    reading["pins"] = Json::array({pin(0, 0), pin(16, 0), pin(0, 50), pin(16, 50)});
    reading["lines"] =
        Json::array({{{"name", "H"}, {"quantity", "head"}, {"follow_from", {{xOf(7), yOf(truth(7))}}}}});
    return reading;
}

Json jobJson() {
    Json job{{"format", "headmark-job"}, {"version", 1}};
    job["pumps"] = Json::array({{{"name", "P"}, {"readings", {{{"path", "a.reading.json"}}}}}});
    job["site"] = {{"system", {{"static_head_m", 10.0}, {"resistance_m_per_m3_h_2", 0.2}}}};
    return job;
}

void expectRefused(const ProcessResult& r, const std::vector<std::string>& words) {
    EXPECT_EQ(r.status, 2) << r.messages;
    EXPECT_TRUE(r.out.empty());
    EXPECT_LT(r.seconds, kLimitSeconds);
    for (const std::string& word : words)
        EXPECT_NE(r.messages.find(word), std::string::npos) << word << "\n" << r.messages;
}

class ReadProcess : public testing::Test {
  protected:
    ReadProcess() { folder_.write("page.png", pngBytes()); }
    std::string reading(const Json& json) const { return folder_.write("a.reading.json", json.dump()); }
    std::string job(const Json& json) const { return folder_.write("site.job.json", json.dump()); }
    // Both `read` and `duty` refuse it, naming the reading file and these words.
    void expectBothRefuse(const Json& json, std::vector<std::string> words) const {
        words.push_back("a.reading.json");
        expectRefused(runProcess({HEADMARK_CLI, "read", reading(json)}), words);
        words.push_back("pumps[0].readings[0]");
        expectRefused(runProcess({HEADMARK_CLI, "duty", job(jobJson())}), words);
    }

    TemporaryFolder folder_;
};

TEST_F(ReadProcess, CurveOfADrawnChartIsTheOneDrawn) {
    const ProcessResult r = runProcess({HEADMARK_CLI, "read", reading(readingJson())});
    ASSERT_EQ(r.status, 0) << r.messages;
    const Json lines = Json::parse(r.out, nullptr, false);
    ASSERT_FALSE(lines.is_discarded());
    EXPECT_EQ(lines["format"], "headmark-lines");
    EXPECT_EQ(lines["mapping"]["model"], "upright");
    const Json& fit = lines["lines"][0]["fit"];
    const Json& range = fit["flow_range_m3_h"];
    EXPECT_LT(range[0].get<double>(), 0.3);
    EXPECT_GT(range[1].get<double>(), 14.7);
    for (double flow = 0.5; flow <= 14.5; flow += 1.0) {
        double head = 0.0;
        for (std::size_t k = 0; k < fit["coefficients"].size(); ++k)
            head += fit["coefficients"][k].get<double>() * std::pow(flow, static_cast<double>(k));
        EXPECT_NEAR(head, truth(flow), 0.06); // 0.7 px, a pin's sigma, is 0.058 m
    }
}

TEST_F(ReadProcess, DutyOnAReadingMeetsTheCurvesCrossingWithTheReadingsInterval) {
    const std::string readingFile = reading(readingJson());
    const ProcessResult r = runProcess({HEADMARK_CLI, "duty", job(jobJson())});
    ASSERT_EQ(r.status, 0) << r.messages;
    const Json duty = Json::parse(r.out, nullptr, false)["pumps"][0]["cases"][0]["duty"];
    ASSERT_TRUE(duty.is_object());
    // 40 - 0.1 Q^2 = 10 + 0.2 Q^2: Q = 10 m3/h at 30 m
    EXPECT_NEAR(duty["flow_m3_h"].get<double>(), 10.0, 0.03);
    EXPECT_NEAR(duty["head_m"].get<double>(), 30.0, 0.08);
    // The system curve is exact, so what is left open comes from the chart.
    const double low = duty["flow_95_m3_h"][0], high = duty["flow_95_m3_h"][1];
    // A fiftieth of a pixel, 0.0017 m at 0.7 px = 0.058 m, is 0.0003 m3/h on curves that part by 6 m per m3/h:
    // nobody knows a drawn line better, and 95 % are four sigmas wide.
    EXPECT_GT(high - low, 0.001);
    EXPECT_LT(high - low, 0.1);
    EXPECT_LT(low, 10.0);
    EXPECT_GT(high, 10.0);
    EXPECT_EQ(runProcess({HEADMARK_CLI, "check", readingFile}).status, 0);
}

TEST_F(ReadProcess, TwoPumpsMayStandOnOneReading) {
    const std::string readingFile = reading(readingJson());
    Json two = jobJson();
    two["pumps"].push_back(
        {{"name", "Q"}, {"readings", {{{"path", "a.reading.json"}, {"lines", {{"head", "H"}}}}}}});
    const ProcessResult r = runProcess({HEADMARK_CLI, "duty", job(two)});
    ASSERT_EQ(r.status, 0) << r.messages;
    const Json found = Json::parse(r.out, nullptr, false);
    EXPECT_EQ(found["pumps"][0]["cases"][0]["duty"], found["pumps"][1]["cases"][0]["duty"]);
    EXPECT_FALSE(readingFile.empty());
}

TEST_F(ReadProcess, TableSaysMappingTrustAndCurve) {
    const ProcessResult r = runProcess({HEADMARK_CLI, "read", reading(readingJson()), "--table"});
    ASSERT_EQ(r.status, 0) << r.messages;
    for (const char* word : {"Mapping upright", "Worst of 4 pins", "H: head", "trust:", "± 95 %", "degree"})
        EXPECT_NE(r.out.find(word), std::string::npos) << word << "\n" << r.out;
}

TEST_F(ReadProcess, AClickOnBarePaperIsSaid) {
    Json wrong = readingJson();
    wrong["lines"][0]["follow_from"] = {{xOf(3), yOf(15)}};
    expectBothRefuse(wrong, {"lines[0].follow_from[0]", "bare paper", "click on the line itself"});
}

TEST_F(ReadProcess, AClickOffThePageIsSaid) {
    Json wrong = readingJson();
    wrong["lines"][0]["follow_from"] = {{5000.0, 100.0}};
    expectBothRefuse(wrong, {"lines[0].follow_from[0]", "5000", "1000 by 800"});
}

TEST_F(ReadProcess, PinsInARowAreSaid) {
    Json wrong = readingJson();
    wrong["pins"] = Json::array({pin(0, 0), pin(16, 0), {{"px", {500.0, yOf(0)}}, {"value", 50}}});
    expectBothRefuse(wrong, {"pins"});
}

TEST_F(ReadProcess, PinsOnOneFlowAreSaid) {
    Json wrong = readingJson();
    wrong["pins"] = Json::array({pin(0, 0), pin(0, 50)});
    expectBothRefuse(wrong, {"pins", "two different flows"});
}

TEST_F(ReadProcess, ALogarithmicAxisWithZeroIsSaid) {
    Json wrong = readingJson();
    wrong["scales"] = {{"flow", "log10"}};
    expectBothRefuse(wrong, {"pins[0].flow", "logarithmic"});
}

TEST_F(ReadProcess, AnUnknownUnitIsSaid) {
    Json wrong = readingJson();
    wrong["printed_units"]["flow"] = "gal/min";
    expectBothRefuse(wrong, {"printed_units.flow", "gal/min", "US gal/min"});
}

TEST_F(ReadProcess, BrokenBase64IsSaid) {
    Json wrong = readingJson();
    wrong["chart"] = {{"media_type", "image/png"}, {"base64", "iVBORw0KGgo*"}};
    expectBothRefuse(wrong, {"chart.base64", "character 12"});
}

TEST_F(ReadProcess, ATruncatedPictureIsSaid) {
    const std::string whole = pngBytes();
    folder_.write("page.png", whole.substr(0, whole.size() / 2));
    expectBothRefuse(readingJson(), {"chart.path", "page.png", "cut off"});
}

TEST_F(ReadProcess, AnEmptyPictureIsSaid) {
    folder_.write("page.png", "");
    expectBothRefuse(readingJson(), {"chart.path", "page.png", "empty"});
}

TEST_F(ReadProcess, AMissingPictureIsSaid) {
    std::filesystem::remove(folder_.file("page.png"));
    expectBothRefuse(readingJson(), {"chart.path", "page.png", "no such file"});
}

TEST_F(ReadProcess, TextNamedAsAPictureIsSaid) {
    folder_.write("page.png", "<svg xmlns='http://www.w3.org/2000/svg'/>");
    expectBothRefuse(readingJson(), {"chart.path", "page.png", "no picture of a known kind"});
}

TEST_F(ReadProcess, APictureOfAnotherKindThanSaidIsSaid) {
    Json wrong = readingJson();
    const std::string base64 = QByteArray::fromStdString(pngBytes()).toBase64().toStdString();
    wrong["chart"] = {{"media_type", "image/jpeg"}, {"base64", base64}};
    expectBothRefuse(wrong, {"chart", "image/jpeg"});
}

// 200 megapixels of one bit: a small file, and far too much once unpacked.
TEST_F(ReadProcess, AGiganticPictureIsSaid) {
    QImage image(20000, 10000, QImage::Format_Mono);
    image.fill(1);
    ASSERT_TRUE(image.save(QString::fromStdString(folder_.file("page.png")), "PNG"));
    expectBothRefuse(readingJson(), {"chart.path", "page.png", "20000 by 10000", "200 megapixels"});
}

TEST_F(ReadProcess, APdfPageThatIsNotThereIsSaid) {
    folder_.write("page.pdf", "%PDF-1.4\n1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj\n"
                              "2 0 obj<</Type/Pages/Kids[3 0 R]/Count 1>>endobj\n"
                              "3 0 obj<</Type/Page/Parent 2 0 R/MediaBox[0 0 200 200]>>endobj\n"
                              "trailer<</Root 1 0 R>>\n%%EOF\n");
    Json wrong = readingJson();
    wrong["chart"] = {{"path", "page.pdf"}, {"page", 3}};
    expectBothRefuse(wrong, {"chart.page", "page 3"});
}

TEST_F(ReadProcess, CheckLooksAtReadingsOfAJobWithoutTheirPictures) {
    std::filesystem::remove(folder_.file("page.png"));
    const std::string jobFile = job(jobJson());
    expectRefused(runProcess({HEADMARK_CLI, "check", jobFile}), {"a.reading.json", "pumps[0].readings[0]"});
    const std::string readingFile = reading(readingJson());
    EXPECT_EQ(runProcess({HEADMARK_CLI, "check", jobFile}).status, 0);
    Json wrongLine = jobJson();
    wrongLine["pumps"][0]["readings"][0]["lines"] = {{"head", "upper"}};
    expectRefused(runProcess({HEADMARK_CLI, "check", job(wrongLine)}),
                  {"site.job.json", "pumps[0].readings[0].lines.head", "\"upper\"", "H"});
    EXPECT_FALSE(readingFile.empty());
}

TEST_F(ReadProcess, TwoHeadLinesWithoutAChoiceAreBothNamed) {
    Json two = readingJson();
    two["lines"].push_back(two["lines"][0]);
    two["lines"][1]["name"] = "lower";
    const std::string readingFile = reading(two);
    expectRefused(runProcess({HEADMARK_CLI, "duty", job(jobJson())}),
                  {"site.job.json", "pumps[0].readings[0].lines.head", "H, lower"});
    EXPECT_FALSE(readingFile.empty());
}

TEST_F(ReadProcess, UnknownCommandsListRead) {
    const ProcessResult r = runProcess({HEADMARK_CLI, "paint", "x"});
    EXPECT_EQ(r.status, 2);
    EXPECT_NE(r.messages.find("it has read, duty, sheet and check"), std::string::npos) << r.messages;
}

} // namespace
} // namespace headmark::test
