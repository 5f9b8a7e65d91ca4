#include "tests/pages/statistics/hard_statistics.h"

#include "tests/pages/dice.h"
#include "tests/pages/hard_pages.h"

#include <algorithm>
#include <cmath>
#include <iomanip>
#include <iterator>
#include <map>
#include <set>

namespace headmark::pages {

namespace {

constexpr double kCloseRms = 0.01, kCloseCovered = 0.90;
constexpr double kFineRms = 0.0025, kFineCovered = 0.95, kFinePast = 0.02;

double quantileOf(std::vector<double> values, double share) {
    if (values.empty()) return 0.0;
    const auto at =
        values.begin() + static_cast<std::ptrdiff_t>(share * static_cast<double>(values.size() - 1));
    std::nth_element(values.begin(), at, values.end());
    return *at;
}

std::string kindOf(const HardDraw& draw) {
    const Comparison& c = draw.read;
    if (!c.read) return "refused: " + c.refusal;
    std::string kind;
    if (c.rms > kFineRms) kind += c.rms > kCloseRms ? " FAR" : " off";
    if (c.covered < kFineCovered) kind += " short";
    if (c.pastEnds > kFinePast) kind += " past";
    if (kind.empty()) kind = " fine";
    return kind.substr(1) + (draw.isSure() ? "" : " (doubtful)");
}

} // namespace

bool HardDraw::isClose() const { return read.read && read.rms <= kCloseRms && read.covered >= kCloseCovered; }

bool HardDraw::isFine() const {
    return read.read && read.rms <= kFineRms && read.covered >= kFineCovered && read.pastEnds <= kFinePast;
}

bool HardDraw::isSure() const { return read.read && read.trust == Trust::sure; }

double HardSummary::share(std::size_t of) const {
    return draws == 0 ? 0.0 : static_cast<double>(of) / static_cast<double>(draws);
}

std::vector<HardDraw> redrawHardPage(const std::string& name, int draws) {
    const MadePage page = makeHardPage(name);
    std::vector<HardDraw> all;
    for (const MadeLine& line : page.lines) {
        if (line.quantity == LineQuantity::isoEfficiency) continue;
        Dice dice(page.name + "/" + line.name);
        std::mt19937 random(static_cast<std::mt19937::result_type>(dice.next()));
        for (int k = 0; k < draws; ++k) {
            const Reading reading = readingOf(page, line, RedrawOptions{}, random);
            all.push_back({name, page.pageClass, line.name, line.style, reading.lines[0].followFrom[0],
                           compare(page, line, reading)});
        }
    }
    return all;
}

HardSummary summaryOf(const std::vector<HardDraw>& draws, const std::string& pageClass) {
    HardSummary s;
    std::vector<double> ratios, sigmas;
    double squares = 0.0;
    std::size_t held = 0, places = 0;
    for (const HardDraw& draw : draws) {
        if (!pageClass.empty() && draw.pageClass != pageClass) continue;
        ++s.draws;
        s.found += draw.read.read ? 1 : 0;
        s.sure += draw.isSure() ? 1 : 0;
        s.close += draw.isClose() ? 1 : 0;
        s.fine += draw.isFine() ? 1 : 0;
        s.sureButWrong += draw.isSure() && draw.read.rms > kCloseRms ? 1 : 0;
        s.sureButShort += draw.isSure() && draw.read.rms <= kCloseRms && !draw.isClose() ? 1 : 0;
        s.doubtfulButRight += !draw.isSure() && draw.isClose() ? 1 : 0;
        if (draw.read.read) ratios.push_back(draw.read.rms / draw.read.floor);
        if (!draw.isClose()) continue;
        sigmas.insert(sigmas.end(), draw.read.sigmas.begin(), draw.read.sigmas.end());
        for (std::size_t i = 0; i < draw.read.errors.size(); ++i) {
            squares += draw.read.errors[i] * draw.read.errors[i];
            held += draw.read.held[i] ? 1 : 0;
            ++places;
        }
    }
    s.medianRatio = quantileOf(ratios, 0.5);
    s.highRatio = quantileOf(ratios, 0.9);
    if (places == 0) return s;
    s.heldShare = static_cast<double>(held) / static_cast<double>(places);
    s.sigmaToError = quantileOf(sigmas, 0.5) / std::sqrt(squares / static_cast<double>(places));
    return s;
}

namespace {

constexpr const char* kTableHead = "lines  found   sure  close   fine  ratio    p90  sure-but-wrong  "
                                   "sure-but-short  doubtful-though-right  held  "
                                   "sigma/error\n";

void printRow(const std::string& name, const HardSummary& s, std::ostream& out) {
    const auto percent = [&](std::size_t of) { return 100.0 * s.share(of); };
    out << std::left << std::setw(11) << name << std::right << std::setw(6) << s.draws << std::setprecision(1)
        << std::setw(7) << percent(s.found) << std::setw(7) << percent(s.sure) << std::setw(7)
        << percent(s.close) << std::setw(7) << percent(s.fine) << std::setprecision(2) << std::setw(7)
        << s.medianRatio << std::setw(7) << s.highRatio << std::setw(16) << s.sureButWrong << std::setw(16)
        << s.sureButShort << std::setprecision(1) << std::setw(23) << percent(s.doubtfulButRight)
        << std::setw(6) << 100.0 * s.heldShare << std::setprecision(2) << std::setw(13) << s.sigmaToError
        << '\n';
}

} // namespace

std::string pageStyleOf(const HardDraw& draw) { return draw.page.substr(0, draw.page.find('-')); }

std::vector<HardDraw> ofPageStyle(const std::vector<HardDraw>& draws, const std::string& style) {
    std::vector<HardDraw> of;
    std::copy_if(draws.begin(), draws.end(), std::back_inserter(of),
                 [&](const HardDraw& draw) { return pageStyleOf(draw) == style; });
    return of;
}

void printHardTable(const std::vector<HardDraw>& draws, std::ostream& out) {
    const auto flags = out.flags();
    const auto precision = out.precision();
    std::set<std::string> classes{""}, styles;
    for (const HardDraw& draw : draws) {
        classes.insert(draw.pageClass);
        styles.insert(pageStyleOf(draw));
    }
    out << std::fixed << "class      " << kTableHead;
    for (const std::string& pageClass : classes)
        printRow(pageClass.empty() ? "all" : pageClass, summaryOf(draws, pageClass), out);
    out << "style      " << kTableHead;
    for (const std::string& style : styles)
        printRow(style, summaryOf(ofPageStyle(draws, style), ""), out);
    out.flags(flags);
    out.precision(precision);
}

namespace {

// The draws of one line, or of all.
struct OneLine {
    std::vector<double> sigmas;
    double squares = 0.0;

    void take(const Comparison& c) {
        sigmas.insert(sigmas.end(), c.sigmas.begin(), c.sigmas.end());
        for (const double error : c.errors)
            squares += error * error;
    }
    [[nodiscard]] double sigmaToError() const {
        return quantileOf(sigmas, 0.5) / std::sqrt(squares / static_cast<double>(sigmas.size()));
    }
};

double shareOf(std::size_t yes, std::size_t all) {
    return all == 0 ? 0.0 : static_cast<double>(yes) / static_cast<double>(all);
}

} // namespace

Honesty honestyOf(const std::vector<HardDraw>& draws, const std::string& pageClass) {
    std::map<std::string, OneLine> lines;
    std::size_t samples = 0, within = 0, places = 0, held = 0, readings = 0, wholly = 0;
    OneLine all;
    for (const HardDraw& draw : draws) {
        if (!draw.isClose() || (!pageClass.empty() && draw.pageClass != pageClass)) continue;
        const Comparison& c = draw.read;
        OneLine& line = lines[draw.page + "/" + draw.line];
        line.take(c);
        all.take(c);
        constexpr double kWithin = 2.0;
        within += static_cast<std::size_t>(std::count_if(
            c.sampleOffs.begin(), c.sampleOffs.end(), [](double off) { return std::abs(off) <= kWithin; }));
        samples += c.sampleOffs.size();
        const auto here = static_cast<std::size_t>(std::count(c.held.begin(), c.held.end(), true));
        held += here;
        places += c.held.size();
        wholly += c.whollyHeld ? 1 : 0;
        ++readings;
    }
    std::vector<double> ratios;
    for (const auto& [name, line] : lines)
        ratios.push_back(line.sigmaToError());
    if (lines.empty()) return {};
    return {lines.size(),       shareOf(within, samples), shareOf(held, places), shareOf(wholly, readings),
            all.sigmaToError(), quantileOf(ratios, 0.5)};
}

namespace {

void printHonestRow(const std::string& name, const Honesty& h, std::ostream& out) {
    out << std::left << std::setw(11) << name << std::right << std::setw(6) << h.lines << std::setprecision(1)
        << std::setw(24) << 100.0 * h.samplesWithin << std::setw(21) << 100.0 * h.placesHeld << std::setw(16)
        << 100.0 * h.whollyHeld << std::setprecision(2) << std::setw(13) << h.sigmaToError << std::setw(10)
        << h.ofLines << '\n';
}

} // namespace

void printHonesty(const std::vector<HardDraw>& draws, std::ostream& out) {
    const auto flags = out.flags();
    const auto precision = out.precision();
    out << "            lines  samples within 2 sigma  places in 95 % band  wholly in band  sigma/error  by "
           "lines\n"
        << std::fixed;
    std::set<std::string> classes{""}, styles;
    for (const HardDraw& draw : draws) {
        classes.insert(draw.pageClass);
        styles.insert(pageStyleOf(draw));
    }
    for (const std::string& pageClass : classes)
        printHonestRow(pageClass.empty() ? "all" : pageClass, honestyOf(draws, pageClass), out);
    for (const std::string& style : styles)
        printHonestRow(style, honestyOf(ofPageStyle(draws, style), ""), out);
    out.flags(flags);
    out.precision(precision);
}

void printFailures(const std::vector<HardDraw>& draws, std::ostream& out) {
    const auto flags = out.flags();
    const auto precision = out.precision();
    out << std::fixed << std::setprecision(2);
    for (const HardDraw& draw : draws) {
        const Comparison& c = draw.read;
        if (draw.isFine() && draw.isSure()) continue;
        out << std::left << std::setw(28) << draw.page << std::setw(14) << draw.line << std::setw(9)
            << draw.style << std::setw(24) << kindOf(draw) << std::right << " rms " << 100.0 * c.rms
            << " floor " << 100.0 * c.floor << " covered " << std::setprecision(0) << 100.0 * c.covered
            << " past " << 100.0 * c.pastEnds << " click " << draw.click.x_px << ',' << draw.click.y_px;
        if (c.astray) out << " astray " << c.astray->x_px << ',' << c.astray->y_px;
        for (const std::string& code : c.cautions)
            out << ' ' << code;
        out << std::setprecision(2) << '\n';
    }
    out.flags(flags);
    out.precision(precision);
}

} // namespace headmark::pages
