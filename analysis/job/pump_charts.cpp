#include "analysis/job/pump_charts.h"

#include "analysis/chart/chart_codes.h"
#include "analysis/chart/iso_efficiency.h"
#include "analysis/job/json_document.h"
#include "analysis/units/unit_factors.h"

#include <algorithm>
#include <set>

namespace headmark {

namespace {

constexpr int kLooks = 200; // over a curve's range, ends included

std::string placeOfReading(std::size_t pump, std::size_t reading) {
    return placeOfItem(placeOfKey(placeOfItem("pumps", pump), "readings"), reading);
}

Fact flowFact(double flow_m3_s) { return {"flow_m3_h", flow_m3_s / factor::kCubicMetrePerHour_m3_s}; }

Error inReading(Error error, const std::string& readingFile, const std::string& place,
                const std::string& namedAt) {
    error.file = readingFile;
    if (error.place.empty()) error.place = place;
    error.facts.push_back({"named_at", namedAt});
    return error;
}

// Cautions of a chart as the job's findings carry them.
void carry(Cautions from, const std::string& readingPlace, Severity least, Cautions& to) {
    for (Caution& caution : from) {
        caution.place = caution.place.empty() ? readingPlace : readingPlace + "." + caution.place;
        caution.severity = std::max(caution.severity, least);
        caution.stops = false;
        to.push_back(std::move(caution));
    }
}

// The first flow at which the curve is not above zero.
std::optional<double> firstNotPositive(const PolynomialCurve& curve) {
    for (int i = 0; i <= kLooks; ++i) {
        const double flow = curve.least_m3_s() + (curve.greatest_m3_s() - curve.least_m3_s()) * i / kLooks;
        if (curve.at(flow) <= 0.0) return flow;
    }
    return std::nullopt;
}

double leastOf(const PolynomialCurve& curve) {
    double least = std::min(curve.at(curve.least_m3_s()), curve.at(curve.greatest_m3_s()));
    for (const double flow : curve.turningPoints())
        least = std::min(least, curve.at(flow));
    return least;
}

// Where the head rises after it has fallen, and by how much.
std::optional<Caution> risesAgain(const ReadLine& line) {
    const PolynomialCurve& curve = line.fit->curve;
    std::vector<double> turns = curve.turningPoints();
    turns.push_back(curve.greatest_m3_s());
    double before_m = curve.at(curve.least_m3_s());
    for (std::size_t i = 0; i + 1 < turns.size(); ++i) {
        const double here_m = curve.at(turns[i]), next_m = curve.at(turns[i + 1]);
        if (here_m < before_m && next_m > here_m) {
            return Caution{"head-rises-again",
                           Severity::warning,
                           "",
                           {{"line", line.name}, flowFact(turns[i]), {"rise_m", next_m - here_m}},
                           "look-at-the-line",
                           {},
                           "a pump's head falls with flow beyond its top; common practice, no source"};
        }
        before_m = here_m;
    }
    return std::nullopt;
}

Result<Cautions> judgeHead(const ReadLine& line) {
    const PolynomialCurve& curve = line.fit->curve;
    const double span = curve.greatest_m3_s() - curve.least_m3_s();
    if (curve.flowOfMaximum() > curve.greatest_m3_s() - 1e-9 * span) {
        return Error{"head-not-falling", "", "", {{"line", line.name}, flowFact(curve.greatest_m3_s())}};
    }
    Cautions cautions;
    if (const auto zero = firstNotPositive(curve)) {
        const bool atTheFoot = *zero > curve.greatest_m3_s() - 0.1 * span &&
                               leastOf(curve) >= -kForgivenDip * curve.at(curve.flowOfMaximum());
        if (!atTheFoot) {
            return Error{"line-not-positive",
                         "",
                         "",
                         {{"line", line.name}, {"quantity", std::string("head")}, flowFact(*zero)}};
        }
        cautions.push_back({"head-reaches-zero",
                            Severity::note,
                            "",
                            {{"line", line.name}, flowFact(*zero)},
                            "",
                            {},
                            "rule of this program"});
    }
    if (auto rises = risesAgain(line)) cautions.push_back(std::move(*rises));
    return cautions;
}

std::string fileOf(const Job& job, const ReadingUse& use) { return pathFrom(job.folder, use.path); }

// Once for each reading that a curve comes from: what is to be said of its pins.
void carryMappingCautions(const ChosenLines& chosen, const std::vector<ChartBook::Charted>& charts,
                          std::size_t pump, Cautions& to) {
    std::set<std::size_t> said;
    for (const auto& [quantity, at] : chosen) {
        if (said.insert(at.reading).second) {
            carry(charts[at.reading].lines->mappingCautions, placeOfReading(pump, at.reading), Severity::note,
                  to);
        }
    }
}

// All of the pump's lines of equal efficiency that could be read, with what is said of doubtful ones; the
// place of the first reading with one.
void addIsoEfficiency(const Pump& pump, const std::vector<ChartBook::Charted>& charts, std::size_t pumpIndex,
                      ChartedCurves& charted) {
    if (charted.curves.contains(CurveQuantity::efficiency) || pump.curves.contains(CurveQuantity::efficiency))
        return;
    std::vector<const ReadLine*> iso;
    std::string place;
    for (std::size_t r = 0; r < charts.size(); ++r) {
        for (std::size_t l = 0; l < charts[r].lines->lines.size(); ++l) {
            const ReadLine& line = charts[r].lines->lines[l];
            if (line.quantity != LineQuantity::isoEfficiency || charts[r].lines->unread.contains(l)) continue;
            if (iso.empty()) place = placeOfReading(pumpIndex, r);
            iso.push_back(&line);
            if (line.trust == Trust::doubtful)
                carry(line.cautions, placeOfReading(pumpIndex, r), Severity::note, charted.cautions);
        }
    }
    if (!iso.empty()) takeIsoLines(iso, place, charted);
}

// Lines that could not be read and that this pump does not use: the answer stands without them.
void noteUnreadLines(const ChosenLines& chosen, const std::vector<ChartBook::Charted>& charts,
                     std::size_t pump, Cautions& to) {
    for (std::size_t r = 0; r < charts.size(); ++r) {
        for (const auto& [line, error] : charts[r].lines->unread) {
            const bool used = std::any_of(chosen.begin(), chosen.end(), [&, l = line](const auto& choice) {
                return choice.second.reading == r && choice.second.line == l;
            });
            if (used) continue;
            to.push_back({"line-not-read",
                          Severity::note,
                          placeOfReading(pump, r) + "." + placeOfItem("lines", line),
                          {{"line", charts[r].lines->lines[line].name}, {"error", error.code}},
                          "mend-or-drop-the-line",
                          {},
                          "rule of this program"});
        }
    }
}

// A line with its cautions; errors lack file and place.
Result<void> addLine(CurveQuantity quantity, const ReadLine& line, const std::string& readingPlace,
                     const std::string& linePlace, ChartedCurves& charted) {
    HEADMARK_ASSERT(line.fit.has_value(), "a line that is a curve of a pump has a fit");
    auto judged = judgeLine(quantity, line);
    if (!judged) return judged.error();
    const bool doubtfulHead = quantity == CurveQuantity::head && line.trust == Trust::doubtful;
    Cautions ofLine = line.cautions;
    // Of a droop every case speaks by itself ("curve-droops").
    std::erase_if(ofLine, [](const Caution& c) { return c.code == code::kHeadDrooping; });
    carry(std::move(ofLine), readingPlace, doubtfulHead ? Severity::warning : Severity::note,
          charted.cautions);
    for (Caution& caution : *judged)
        caution.place = linePlace;
    carry(std::move(*judged), readingPlace, Severity::note, charted.cautions);
    charted.curves.emplace(quantity, line.fit->curve);
    if (quantity == CurveQuantity::power) charted.powerAtMotorInput = line.powerAtMotorInput;
    return {};
}

} // namespace

Result<Cautions> judgeLine(CurveQuantity quantity, const ReadLine& line) {
    if (quantity == CurveQuantity::head) return judgeHead(line);
    if (quantity == CurveQuantity::power) {
        if (const auto zero = firstNotPositive(line.fit->curve)) {
            return Error{"line-not-positive",
                         "",
                         "",
                         {{"line", line.name}, {"quantity", std::string("power")}, flowFact(*zero)}};
        }
    }
    return Cautions{};
}

void takeIsoLines(const std::vector<const ReadLine*>& isoLines, const std::string& place,
                  ChartedCurves& charted) {
    std::vector<IsoCrossing> crossings;
    if (const auto head = charted.curves.find(CurveQuantity::head); head != charted.curves.end()) {
        for (const ReadLine* line : isoLines) {
            const std::vector<IsoCrossing> ofLine = isoCrossings(head->second, *line);
            crossings.insert(crossings.end(), ofLine.begin(), ofLine.end());
        }
    }
    const auto fit = efficiencyFrom(crossings);
    if (!fit) {
        charted.cautions.push_back({"iso-lines-not-used",
                                    Severity::note,
                                    place,
                                    {{"lines", static_cast<std::int64_t>(isoLines.size())},
                                     {"crossings", static_cast<std::int64_t>(crossings.size())}},
                                    "click-more-iso-lines",
                                    {},
                                    "rule of this program"});
        return;
    }
    charted.curves.emplace(CurveQuantity::efficiency, fit->curve);
    charted.cautions.push_back({"efficiency-from-iso-lines",
                                Severity::note,
                                place,
                                {{"crossings", static_cast<std::int64_t>(crossings.size())}},
                                "",
                                {},
                                "rule of this program"});
}

Result<PumpReadings> openReadings(const Job& job, std::size_t pump, ChartBook& book) {
    PumpReadings readings;
    for (const ReadingUse& use : job.pumps[pump].readings) {
        ChartBook::Opened opened = book.open(fileOf(job, use));
        if (!opened.reading)
            return inReading(opened.errors.front(), fileOf(job, use), "",
                             placeOfReading(pump, readings.size()));
        readings.push_back(std::move(opened.reading));
    }
    return readings;
}

Result<ChartedCurves> chartedCurves(const Job& job, std::size_t pump, ChartBook& book) {
    const auto& uses = job.pumps[pump].readings;
    const auto readings = openReadings(job, pump, book);
    if (!readings) return readings.error();
    const auto chosen = chooseLines(job.pumps[pump], *readings, placeOfItem("pumps", pump));
    if (!chosen) return chosen.error();

    std::vector<ChartBook::Charted> charts;
    for (const ReadingUse& use : uses) {
        charts.push_back(book.chart(fileOf(job, use)));
        if (!charts.back().lines) {
            return inReading(charts.back().errors.front(), fileOf(job, use), "",
                             placeOfReading(pump, charts.size() - 1));
        }
    }
    ChartedCurves charted;
    carryMappingCautions(*chosen, charts, pump, charted.cautions);
    noteUnreadLines(*chosen, charts, pump, charted.cautions);
    for (const auto& [quantity, at] : *chosen) {
        const std::string readingPlace = placeOfReading(pump, at.reading);
        const std::string linePlace = placeOfItem("lines", at.line);
        const ChartLines& chart = *charts[at.reading].lines;
        if (const auto unread = chart.unread.find(at.line); unread != chart.unread.end())
            return inReading(unread->second, fileOf(job, uses[at.reading]), linePlace, readingPlace);
        const ReadLine& line = chart.lines[at.line];
        if (auto added = addLine(quantity, line, readingPlace, linePlace, charted); !added)
            return inReading(added.error(), fileOf(job, uses[at.reading]), linePlace, readingPlace);
    }
    addIsoEfficiency(job.pumps[pump], charts, pump, charted);
    return charted;
}

} // namespace headmark
