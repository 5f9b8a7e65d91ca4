#include "analysis/chart/chart_reader.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

namespace headmark {
namespace {

// An invented chart on white paper: 0 to 14 m3/h over 100 to 800 px, 0 to 50 m over 600 to 100 px, two head
// lines three pixels wide and nothing else.
constexpr int kWidth = 900, kHeight = 700;

double upperHead(double flow) { return 45.0 - 0.12 * flow * flow; }
double lowerHead(double flow) { return 33.0 - 0.09 * flow * flow; }
double xOf(double flow) { return 100.0 + 50.0 * flow; }
double yOf(double head) { return 600.0 - 10.0 * head; }

void draw(Page& page, double (*head)(double)) {
    for (int x = 100; x <= 780; ++x) {
        const double flow = (x - 100.0) / 50.0, y = yOf(head(flow));
        const double slope = (yOf(head(flow + 0.01)) - y) / 0.5;
        for (int row = 0; row < kHeight; ++row) {
            const double distance = std::abs(row - y) / std::hypot(1.0, slope);
            const double ink = std::clamp(2.0 - distance, 0.0, 1.0); // half the width, smoothed over a pixel
            auto& pixel = page.grey[static_cast<std::size_t>(row * kWidth + x)];
            pixel = std::min(pixel, static_cast<std::uint8_t>(std::lround(255.0 * (1.0 - ink))));
        }
    }
}

std::shared_ptr<const Page> chartPage() {
    static const auto made = [] {
        auto page = std::make_shared<Page>();
        page->width = kWidth;
        page->height = kHeight;
        page->grey.assign(static_cast<std::size_t>(kWidth * kHeight), 255);
        draw(*page, upperHead);
        draw(*page, lowerHead);
        return page;
    }();
    return made;
}

class OnePage final : public PageSource {
  public:
    Result<std::shared_ptr<const Page>> open(const ChartPage&) override { return chartPage(); }
};

ChartLine lineAt(const std::string& name, double flow, double head) {
    ChartLine line;
    line.name = name;
    line.followFrom = {{xOf(flow), yOf(head)}};
    return line;
}

Reading twoLines() {
    Reading reading;
    reading.printedUnits.flow = "m3/h";
    reading.pins = {{{100, 600}, 0.0, 0.0, ValueAxis::left, {}},
                    {{800, 600}, 14.0, {}, ValueAxis::left, {}},
                    {{100, 100}, {}, 50.0, ValueAxis::left, {}},
                    {{800, 100}, 14.0, 50.0, ValueAxis::left, {}}};
    reading.lines = {lineAt("upper", 6.0, upperHead(6.0)), lineAt("lower", 6.0, lowerHead(6.0))};
    return reading;
}

ChartReader::Outcome freshly(const Reading& reading) { return ChartReader(chartPage()).read(reading); }

void expectSame(const ChartReader::Outcome& a, const ChartReader::Outcome& b) {
    ASSERT_EQ(a.chart.has_value(), b.chart.has_value());
    EXPECT_EQ(a.errors, b.errors);
    if (!a.chart) return;
    EXPECT_EQ(a.chart->unread, b.chart->unread);
    EXPECT_EQ(a.chart->mapping.rms_px(), b.chart->mapping.rms_px());
    ASSERT_EQ(a.chart->lines.size(), b.chart->lines.size());
    for (std::size_t i = 0; i < a.chart->lines.size(); ++i) {
        const ReadLine &x = a.chart->lines[i], &y = b.chart->lines[i];
        EXPECT_EQ(x.name, y.name);
        EXPECT_EQ(x.trust, y.trust);
        ASSERT_EQ(x.samples.size(), y.samples.size());
        for (std::size_t k = 0; k < x.samples.size(); ++k) {
            EXPECT_EQ(x.samples[k].flow_m3_s, y.samples[k].flow_m3_s);
            EXPECT_EQ(x.samples[k].value, y.samples[k].value);
            EXPECT_EQ(x.samples[k].sigma, y.samples[k].sigma);
        }
        ASSERT_EQ(x.fit.has_value(), y.fit.has_value());
        if (x.fit) {
            EXPECT_EQ(x.fit->curve.coefficients(), y.fit->curve.coefficients());
        }
        ASSERT_EQ(x.cautions.size(), y.cautions.size());
        for (std::size_t k = 0; k < x.cautions.size(); ++k)
            EXPECT_EQ(x.cautions[k].place, y.cautions[k].place);
    }
}

TEST(ChartReader, ReadsTheLinesThatWereDrawn) {
    const auto outcome = freshly(twoLines());
    ASSERT_TRUE(outcome.chart);
    EXPECT_TRUE(outcome.errors.empty());
    for (const double flow : {0.5, 3.0, 7.0, 11.0, 13.5}) {
        // A tenth of a pixel is 0.01 m.
        EXPECT_NEAR(outcome.chart->lines[0].fit->curve.at(flow / 3600.0), upperHead(flow), 0.02);
        EXPECT_NEAR(outcome.chart->lines[1].fit->curve.at(flow / 3600.0), lowerHead(flow), 0.02);
    }
}

TEST(ChartReader, GivesWhatReadChartGives) {
    OnePage pages;
    const auto chart = readChart(twoLines(), pages);
    ASSERT_TRUE(chart);
    expectSame(freshly(twoLines()), {*chart, {}});
}

TEST(ChartReader, ForgetsWhatItReadBefore) {
    ChartReader reader(chartPage());
    Reading reading = twoLines();
    std::mt19937 random(4);
    const auto pick = [&](int below) {
        return static_cast<std::size_t>(random()) % static_cast<std::size_t>(below);
    };
    const auto shift = [&] { return std::uniform_real_distribution<>(-1.0, 1.0)(random); };
    for (int step = 0; step < 12; ++step) {
        switch (pick(6)) {
        case 0:
        case 1:
            reading.pins[pick(4)].at.x_px += shift();
            break;
        case 2:
            std::swap(reading.lines[0], reading.lines[1]);
            break;
        case 3:
            reading.lines[pick(2)].followFrom[0].y_px += shift();
            break;
        case 4:
            reading.lines[pick(2)].spots.push_back({xOf(9.0), yOf(upperHead(9.0)) + shift()});
            break;
        default:
            reading.lines[pick(2)].spots.clear();
        }
        expectSame(reader.read(reading), freshly(reading));
    }
}

// The same with a pale grid every 2 m3/h and 10 m.
std::shared_ptr<const Page> griddedPage() {
    auto page = std::make_shared<Page>(*chartPage());
    const auto rule = [&](int x, int y) {
        auto& pixel = page->grey[static_cast<std::size_t>(y * kWidth + x)];
        pixel = std::min(pixel, std::uint8_t{150});
    };
    for (int x = 100; x <= 800; ++x) {
        for (int y = 100; y <= 600; ++y) {
            if (x % 100 == 0 || y % 100 == 0) rule(x, y);
        }
    }
    return page;
}

TEST(ChartReader, ReadsQuicklyWhileAPinIsDraggedAndAnewAsIfItNeverWas) {
    const auto page = griddedPage();
    ChartReader reader(page);
    Reading reading = twoLines();
    EXPECT_FALSE(reader.read(reading, GridLook::asKnown).provisional); // no grid is known as yet
    for (int step = 1; step <= 5; ++step) {
        reading.pins[3].at.x_px = 800.0 + 0.5 * step;
        const auto quick = reader.read(reading, GridLook::asKnown);
        EXPECT_TRUE(quick.provisional);
        ASSERT_TRUE(quick.chart);
        // 2.5 px of 700 are 0.05 m3/h at most, and the line falls by 1.44 m per m3/h at 6 m3/h: 0.07 m.
        EXPECT_NEAR(quick.chart->lines[0].fit->curve.at(6.0 / 3600.0), upperHead(6.0), 0.09);
    }
    const auto anew = reader.read(reading);
    EXPECT_FALSE(anew.provisional);
    expectSame(anew, ChartReader(page).read(reading));
}

TEST(ChartReader, LooksForTheGridAnewWhereAPinWentFar) {
    const auto page = griddedPage();
    ChartReader reader(page);
    Reading reading = twoLines();
    (void)reader.read(reading);
    // To the right end of another chart's corner: 200 px are more than a twentieth of the diagonal of 860 px.
    reading.pins[1].at.x_px = reading.pins[3].at.x_px = 600.0;
    reading.pins[1].flow = reading.pins[3].flow = 10.0; // as the grid says there
    const auto far = reader.read(reading, GridLook::asKnown);
    EXPECT_FALSE(far.provisional);
    expectSame(far, ChartReader(page).read(reading));
}

TEST(ChartReader, SaysEachLinesErrorByItself) {
    Reading reading = twoLines();
    reading.lines.insert(reading.lines.begin() + 1, lineAt("nothing there", 6.0, 5.0));
    ChartLine without;
    without.name = "no click as yet";
    reading.lines.push_back(without);
    const auto outcome = freshly(reading);
    ASSERT_TRUE(outcome.chart);
    ASSERT_EQ(outcome.chart->lines.size(), 4u);
    EXPECT_FALSE(outcome.chart->lines[0].samples.empty());
    EXPECT_TRUE(outcome.chart->lines[1].samples.empty());
    EXPECT_FALSE(outcome.chart->lines[2].samples.empty());
    ASSERT_EQ(outcome.errors.size(), 2u);
    EXPECT_EQ(outcome.errors[0].code, "click-on-paper");
    EXPECT_EQ(outcome.errors[0].place, "lines[1].follow_from[0]");
    EXPECT_EQ(outcome.errors[1].code, "one-of-needed");
    EXPECT_EQ(outcome.errors[1].place, "lines[3]");
    EXPECT_EQ(outcome.chart->unread.at(1), outcome.errors[0]);

    OnePage pages;
    const auto chart = readChart(reading, pages);
    ASSERT_FALSE(chart);
    EXPECT_EQ(chart.error(), outcome.errors[0]);
}

TEST(ChartReader, HasNoChartWithoutAMapping) {
    Reading reading = twoLines();
    reading.pins.resize(1);
    const auto outcome = freshly(reading);
    EXPECT_FALSE(outcome.chart);
    ASSERT_EQ(outcome.errors.size(), 1u);
    EXPECT_EQ(outcome.errors[0].code, "too-few-pinned");
    reading.pins.clear();
    EXPECT_EQ(freshly(reading).errors.at(0).code, "too-few-pinned");
    reading = twoLines();
    reading.printedUnits.flow.clear();
    EXPECT_EQ(freshly(reading).errors.at(0).code, "missing-key");
}

// While the right axis is being pinned the left one's lines stay.
TEST(ChartReader, ReadsOnWhileTheOtherAxisIsBeingPinned) {
    const auto before = freshly(twoLines());
    Reading reading = twoLines();
    reading.pins.push_back({{800, 350}, {}, 40.0, ValueAxis::right, {}});
    const auto during = freshly(reading);
    ASSERT_TRUE(during.chart);
    EXPECT_EQ(during.chart->lines[0].samples.size(), before.chart->lines[0].samples.size());
    ASSERT_EQ(during.errors.size(), 1u);
    EXPECT_EQ(during.errors[0].code, "too-few-pinned");
    EXPECT_EQ(during.errors[0].place, "pins");

    reading.lines[1].axis = ValueAxis::right;
    const auto withLine = freshly(reading);
    ASSERT_TRUE(withLine.chart);
    EXPECT_FALSE(withLine.chart->lines[0].samples.empty());
    ASSERT_EQ(withLine.errors.size(), 1u);
    EXPECT_EQ(withLine.chart->unread.at(1).code, "too-few-pinned");
}

TEST(ChartReader, PassesOverPinsWithoutAFigure) {
    Reading reading = twoLines();
    reading.pins.push_back({{400, 300}, {}, {}, ValueAxis::left, {}});
    const auto outcome = freshly(reading);
    ASSERT_TRUE(outcome.chart);
    EXPECT_EQ(outcome.chart->lines[0].fit->curve.coefficients(),
              freshly(twoLines()).chart->lines[0].fit->curve.coefficients());
}

TEST(ChartReader, CompletesItsCautions) {
    Reading reading = twoLines();
    reading.pins[3].at.x_px += 40.0;
    reading.pins[3].at.y_px += 25.0;
    reading.mapping = MappingModel::upright;
    const auto outcome = freshly(reading);
    ASSERT_TRUE(outcome.chart);
    ASSERT_FALSE(outcome.chart->mappingCautions.empty());
    EXPECT_FALSE(outcome.chart->mappingCautions[0].remedy.empty());
    EXPECT_FALSE(outcome.chart->mappingCautions[0].source.empty());
}

} // namespace
} // namespace headmark
