// `headmark-cli duty` as a process on a pump whose chart prints head curves and lines of equal efficiency,
// and no other curve. The page is drawn by the page maker from the laws below, which are the truth here.
//   full impeller    H = 40 - 0.1 Q^2, eta = 0.64 . 4 q (1 - q), q = Q/20: best at 10 m3/h
//   cut to ratio r   H = 40 r^2 - 0.1 Q^2, eta = (1 - 0.9 (1 - r)) eta_full(Q/r): best at 10 r
#include "tests/pages/furniture.h"
#include "tests/pages/sheet.h"
#include "tests/support/process.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <span>
#include <sstream>

namespace headmark::test {
namespace {

using Json = nlohmann::json;
using namespace headmark::pages;

constexpr double kDpi = 200.0, kLeastRatio = 0.8;
constexpr std::array kRatios = {1.0, 0.96, 0.88, kLeastRatio};
constexpr std::array kAll = {"60", "55", "50 left", "50 right", "40 left"}; // lines of equal efficiency

double headAt(double ratio, double flow) { return 40.0 * ratio * ratio - 0.1 * flow * flow; }
double efficiencyAt(double ratio, double flow) {
    const double q = flow / (20.0 * ratio);
    return (1.0 - 0.9 * (1.0 - ratio)) * 0.64 * 4.0 * q * (1.0 - q);
}

// The flow below or above the best one at which the impeller has this efficiency, by the quadratic formula:
// 4 q (1 - q) = s, q = (1 -+ sqrt(1 - s))/2.
double flowOfEfficiency(double ratio, double level, double side) {
    const double s = level / (0.64 * (1.0 - 0.9 * (1.0 - ratio)));
    return 20.0 * ratio * 0.5 * (1.0 + side * std::sqrt(std::max(1.0 - s, 0.0)));
}

ChartCurve curve(const std::string& name, LineQuantity quantity) {
    ChartCurve c;
    c.name = name;
    c.quantity = quantity;
    return c;
}

// A line of equal efficiency from the largest impeller down, left of the best flow or right of it, or both as
// one line that turns where the best efficiency of an impeller has fallen to the level.
ChartCurve isoLine(const std::string& name) {
    const double level = 0.01 * std::stod(name);
    const bool left = name.find("right") == std::string::npos, right = name.find("left") == std::string::npos;
    ChartCurve line = curve(name, LineQuantity::isoEfficiency);
    constexpr int kSteps = 200;
    const double end = left && right ? 1.0 - (1.0 - level / 0.64) / 0.9 : kLeastRatio;
    const auto go = [&](double side, int from, int to) {
        for (int k = from; k != to; k += from < to ? 1 : -1) {
            const double r = 1.0 - (1.0 - end) * k / kSteps, flow = flowOfEfficiency(r, level, side);
            line.places.emplace_back(flow, headAt(r, flow));
        }
    };
    if (left) go(-1.0, 0, kSteps);
    if (right) go(1.0, kSteps - 1, -1);
    const auto byFlow = std::minmax_element(line.places.begin(), line.places.end());
    line.flowFrom = byFlow.first->first;
    line.flowTo = byFlow.second->first;
    line.label = QString("%1 %").arg(std::lround(100.0 * level));
    line.line_pt = 0.6;
    line.truth = [](double) { return 0.0; };
    return line;
}

Chart chartOfThePump() {
    Chart chart;
    chart.frame = QRectF(64, 120, 312, 300);
    chart.flow = axisTo(15.6, 2, "Q [m3/h]");
    chart.left = axisTo(41.0, 2, "H [m]");
    chart.units.flow = "m3/h";
    chart.units.head = "m";
    for (const double r : kRatios) {
        ChartCurve head = curve("impeller " + std::to_string(std::lround(200 * r)), LineQuantity::head);
        head.label = QString::number(std::lround(200 * r));
        head.truth = [r](double flow) { return headAt(r, flow); };
        head.flowTo = 15.0 * r;
        chart.curves.push_back(head);
    }
    for (const char* name : kAll)
        chart.curves.push_back(isoLine(name));
    return chart;
}

class IsoEfficiencyProcess : public testing::Test {
  protected:
    IsoEfficiencyProcess() {
        ensureGuiApplication();
        Sheet sheet;
        sheet.size_pt = {kA5Width_pt, kA5Height_pt};
        sheet.charts = {chartOfThePump()};
        sheet.furniture = [](QPainter& painter) {
            Dice dice(7);
            drawTable(painter, QRectF(40, 500, 340, 40), sizeRows({"W1", "W2"}, dice), "DejaVu Sans", 7,
                      QColor(225, 225, 225));
        };
        EXPECT_TRUE(renderSheet(sheet, kDpi).save(QString::fromStdString(folder_.file("page.png"))));
        tellTruth(sheet.charts[0], kDpi, nominalPixels(kDpi), page_);
    }

    // A reading of the head curves and of the lines of equal efficiency with these names.
    void writeReading(std::span<const char* const> isoNames) const {
        Json reading{{"format", "headmark-reading"}, {"version", 1}, {"chart", {{"path", "page.png"}}}};
        reading["printed_units"] = {{"flow", "m3/h"}, {"head", "m"}};
        for (const MadePin& pin : page_.pins)
            reading["pins"].push_back(
                {{"px", {pin.at.x_px, pin.at.y_px}}, {"flow", pin.flow}, {"value", pin.value}});
        for (const MadeLine& line : page_.lines) {
            const bool iso = line.quantity == LineQuantity::isoEfficiency;
            if (iso && std::find(isoNames.begin(), isoNames.end(), line.name) == isoNames.end()) continue;
            Json read{{"name", line.name}, {"quantity", iso ? "iso_efficiency" : "head"}};
            read["follow_from"] = {{line.middle.x_px, line.middle.y_px}};
            if (iso) read["level_share"] = 0.01 * std::stod(line.name);
            if (line.name.size() == 2) // a line that turns back: a click on either side
                read["follow_from"] = {clearPlace(line, 0.25), clearPlace(line, 0.75)};
            reading["lines"].push_back(read);
        }
        folder_.write("chart.reading.json", reading.dump());
    }

    // The first place from that share of the line on where other lines are 15 px off or more.
    Json clearPlace(const MadeLine& line, double share) const {
        const auto isClear = [&](const PixelPoint& at) {
            return std::all_of(page_.lines.begin(), page_.lines.end(), [&](const MadeLine& other) {
                return other.name == line.name ||
                       std::all_of(other.path.begin(), other.path.end(), [&](const PixelPoint& p) {
                           return std::hypot(p.x_px - at.x_px, p.y_px - at.y_px) >= 15.0;
                       });
            });
        };
        const auto from =
            line.path.begin() + static_cast<std::ptrdiff_t>(share * static_cast<double>(line.path.size()));
        const auto found = std::find_if(from, line.path.end(), isClear);
        return {found->x_px, found->y_px};
    }

    // The answer for an impeller on a site whose curve, 10 m + k Q^2, meets its head at this flow.
    ProcessResult duty(double ratio, double flow, const std::vector<std::string>& more = {}) const {
        Json job{{"format", "headmark-job"}, {"version", 1}};
        job["pumps"] = {
            {{"name", "P"},
             {"readings",
              {{{"path", "chart.reading.json"},
                {"lines", {{"head", "impeller " + std::to_string(std::lround(200 * ratio))}}}}}}}};
        const double k = (headAt(ratio, flow) - 10.0) / (flow * flow);
        job["site"] = {{"system", {{"static_head_m", 10.0}, {"resistance_m_per_m3_h_2", k}}}};
        std::vector<std::string> command = {HEADMARK_CLI, "duty", folder_.write("site.job.json", job.dump())};
        command.insert(command.end(), more.begin(), more.end());
        constexpr double kLimitSeconds = 200.0; // nine lines in a sanitized build on a busy machine
        return runProcess(command, {}, kLimitSeconds);
    }

    Json onlyCase(const ProcessResult& r) const {
        EXPECT_EQ(r.status, 0) << r.messages;
        const Json found = Json::parse(r.out, nullptr, false);
        return found.is_discarded() ? Json() : found["pumps"][0]["cases"][0];
    }

    TemporaryFolder folder_;
    MadePage page_;
};

const Json* cautionOf(const Json& answer, const std::string& code) {
    for (const Json& caution : answer["cautions"])
        if (caution["code"] == code) return &caution;
    return nullptr;
}

// The words of a text with every run of blanks and line ends as one blank.
std::string oneLine(const std::string& text) {
    std::istringstream words(text);
    std::string all;
    for (std::string word; words >> word;)
        all += word + " ";
    return all;
}

struct Asked {
    double ratio, flow;
    const char* band;
};

// Bands: 70 to 120 % of the best flow, 10 r m3/h, are preferred, 50 to 125 % allowable.
TEST_F(IsoEfficiencyProcess, DutyEfficiencyAndBandAreThoseThePageWasDrawnFrom) {
    writeReading(kAll);
    for (const Asked& asked :
         {Asked{1.0, 9.0, "preferred"}, Asked{1.0, 6.0, "allowable"}, Asked{1.0, 4.3, "outside"},
          Asked{0.96, 10.0, "preferred"}, Asked{0.96, 5.5, "allowable"}, Asked{0.88, 7.0, "preferred"}}) {
        SCOPED_TRACE(std::to_string(asked.ratio) + " at " + std::to_string(asked.flow));
        const Json answer = onlyCase(duty(asked.ratio, asked.flow));
        ASSERT_TRUE(answer["duty"].is_object() && answer["efficiency"].is_object()) << answer;
        const Json& efficiency = answer["efficiency"];
        EXPECT_NEAR(answer["duty"]["flow_m3_h"].get<double>(), asked.flow, 0.005 * asked.flow);
        EXPECT_NEAR(answer["duty"]["head_m"].get<double>(), headAt(asked.ratio, asked.flow), 0.15);
        const double truth = efficiencyAt(asked.ratio, asked.flow);
        EXPECT_NEAR(efficiency["at_duty_share"].get<double>(), truth, 0.005);
        const double low = efficiency["at_duty_95_share"][0], high = efficiency["at_duty_95_share"][1];
        EXPECT_NEAR(truth, 0.5 * (low + high), 0.75 * (high - low)); // three sigma
        EXPECT_NEAR(efficiency["best_flow_m3_h"].get<double>(), 10.0 * asked.ratio, 0.2 * asked.ratio);
        EXPECT_EQ(efficiency["band"], asked.band);
        EXPECT_NE(cautionOf(answer, "efficiency-from-iso-lines"), nullptr);
    }
}

constexpr std::array kTooFew = {"60", "40 left"}; // three places on the largest impeller

TEST_F(IsoEfficiencyProcess, TooFewPlacesLeaveEfficiencyOpenAndSaySo) {
    writeReading(kTooFew);
    const Json answer = onlyCase(duty(1.0, 9.0));
    EXPECT_NEAR(answer["duty"]["flow_m3_h"].get<double>(), 9.0, 0.045);
    EXPECT_TRUE(answer["efficiency"].is_null());
    EXPECT_TRUE(answer["power"].is_null() || answer["power"]["shaft_kW"].is_null()) << answer["power"];
    const Json* caution = cautionOf(answer, "iso-lines-not-used");
    ASSERT_NE(caution, nullptr);
    EXPECT_EQ((*caution)["values"]["lines"], 2);
    EXPECT_EQ((*caution)["values"]["crossings"], 3);
    const std::string table = duty(1.0, 9.0, {"--table"}).out;
    for (const char* words : {"meet its head curve in 3 places", "Click more of the chart's lines"})
        EXPECT_NE(oneLine(table).find(words), std::string::npos) << words << "\n" << table;
}

TEST_F(IsoEfficiencyProcess, ALineThatCannotBeReadIsNamedAndTheOthersServe) {
    writeReading(kAll);
    Json reading = Json::parse(readText(folder_.file("chart.reading.json")));
    // bare paper above all curves, in the corner far from any
    const PixelPoint bare = page_.pixelFromAxis(14.5, 43.7, ValueAxis::left);
    reading["lines"].push_back({{"name", "stray"},
                                {"quantity", "iso_efficiency"},
                                {"level_share", 0.3},
                                {"follow_from", {{bare.x_px, bare.y_px}}}});
    folder_.write("chart.reading.json", reading.dump());
    const Json answer = onlyCase(duty(1.0, 9.0));
    EXPECT_NEAR(answer["efficiency"]["at_duty_share"].get<double>(), efficiencyAt(1.0, 9.0), 0.005);
    const Json* caution = cautionOf(answer, "line-not-read");
    ASSERT_NE(caution, nullptr);
    EXPECT_EQ((*caution)["values"]["line"], "stray");
}

} // namespace
} // namespace headmark::test
