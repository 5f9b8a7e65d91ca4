#include "analysis/chart/rulings.h"
#include "analysis/chart/median.h"

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

constexpr double kSameWay = 0.2;         // sine of the greatest angle between a way and a ruling beside it
constexpr double kDirectionShare = 0.02; // of the frame, over which it has one direction
constexpr double kStation_px = 18.0;
constexpr int kFewestStations = 16, kMostStations = 72;
// Beyond the corners, as shares: pins may lie inside the frame, or be off by a little.
constexpr double kBeyond = 0.02, kBeyond_px = 28.0;
constexpr double kLeastDarkness = 0.05; // faint grids stand out by a little more
constexpr double kMostWidth_px = 14.0;
constexpr double kInRow_px = 1.2;      // from one station to the next, off the way so far
constexpr int kMostMissed = 4;         // stations
constexpr double kLeastSeen = 0.4;     // of the stations
constexpr double kLeastSpan = 0.8;     // of the frame
constexpr double kBendsAlike_px = 2.5; // over the frame, against the neighbours
constexpr double kCurlChanges = 0.008; // px of bend per px between neighbours
constexpr double kRim_px = 12.0;       // from the corners' line

struct Bump {
    double at_px = 0.0, width_px = 0.0, darkness = 0.0;
    double inkedMost = 0.0, inkedLeast = 0.0; // along a short way of the ruling, which may be dashed
    PagePoint place;
    double share = 0.0; // of the frame
};

struct Chain {
    std::vector<int> stations;
    std::vector<Bump> bumps;
    double slope = 0.0; // px per station
    double at_px = 0.0; // at its last station, evened out
    bool open = true;

    [[nodiscard]] double foretold(int station) const { return at_px + slope * (station - stations.back()); }
};

// How closely a station is looked at.
struct Sight {
    int aside = 1; // places to each side along the rulings that are averaged
    double leastDarkness = kLeastDarkness, leastNoises = 0.0;
    double leastSeen = kLeastSeen;
};
// A grid printed so faintly that noise hides it from a quick look: longer averages, bumps that stand out from
// the noise, seen more often.
constexpr Sight kFaint{6, 0.012, 3.5, 0.5};
constexpr std::size_t kFewRulings = 5;

double apartAlong_px(int aside) { return aside <= 2 ? 4.0 : 2.0; }

// The ink seen along a station, averaged a little along the rulings.
std::vector<double> inkAlong(const InkField& field, PagePoint from, PagePoint step, int count,
                             PagePoint ruling, int aside) {
    const double apart_px = apartAlong_px(aside);
    std::vector<double> ink(static_cast<std::size_t>(count));
    for (int i = 0; i < count; ++i) {
        const PagePoint at = from + i * step;
        double sum = 0.0;
        for (int a = -aside; a <= aside; ++a) {
            const PagePoint q = at + apart_px * a * ruling;
            sum += field.at(q.x, q.y);
        }
        ink[static_cast<std::size_t>(i)] = sum / (2.0 * aside + 1.0);
    }
    return ink;
}

void lookForDashes(const InkField& field, Bump& bump, PagePoint ruling, int aside) {
    bump.inkedLeast = 1.0;
    for (int a = -aside; a <= aside; ++a) {
        const PagePoint q = bump.place + apartAlong_px(aside) * a * ruling;
        const double ink = field.at(q.x, q.y);
        bump.inkedMost = std::max(bump.inkedMost, ink);
        bump.inkedLeast = std::min(bump.inkedLeast, ink);
    }
}

// One sigma of the noise between samples two pixels apart, from the median of their second differences, whose
// variance is six times as great.
double noiseOf(const std::vector<double>& ink, double step_px) {
    const auto apart = static_cast<std::size_t>(2.0 / step_px);
    std::vector<double> differences;
    for (std::size_t i = apart; i + apart < ink.size(); i += 2)
        differences.push_back(ink[i - apart] - 2.0 * ink[i] + ink[i + apart]);
    return normalSpreadOf(std::move(differences)) / std::sqrt(6.0);
}

// Every bump that stands out from both sides within a few pixels.
std::vector<Bump> bumpsIn(const std::vector<double>& ink, double step_px, double least) {
    std::vector<Bump> bumps;
    const auto reach = static_cast<std::size_t>(8.0 / step_px);
    const auto half = static_cast<std::ptrdiff_t>(reach);
    for (std::size_t i = reach; i + reach < ink.size(); ++i) {
        if (ink[i] < least || ink[i] < ink[i - 1] || ink[i] <= ink[i + 1]) continue;
        const auto here = ink.begin() + static_cast<std::ptrdiff_t>(i);
        const double base =
            std::max(*std::min_element(here - half, here), *std::min_element(here, here + half));
        const double darkness = ink[i] - base;
        if (darkness < least) continue;
        const double level = base + 0.5 * darkness;
        std::size_t left = i, right = i;
        while (left > i - reach && ink[left] > level)
            --left;
        while (right < i + reach && ink[right] > level)
            ++right;
        double sum = 0.0, moment = 0.0;
        // The first moment of the whole stroke: cut off by a floor or too near, it leans to the pixels'
        // middles.
        const double floor = base + 0.03 * darkness;
        constexpr std::size_t kTail = 3;
        std::size_t first = left, last = right;
        while (first > 0 && left - first < kTail && ink[first - 1] < ink[first])
            --first;
        while (last + 1 < ink.size() && last - right < kTail && ink[last + 1] < ink[last])
            ++last;
        for (std::size_t k = first; k <= last; ++k) {
            const double weight = std::max(ink[k] - floor, 0.0);
            sum += weight;
            moment += weight * static_cast<double>(k);
        }
        Bump bump;
        bump.at_px = moment / sum * step_px;
        bump.width_px = static_cast<double>(right - left - 1) * step_px;
        bump.darkness = darkness;
        if (bump.width_px <= kMostWidth_px) bumps.push_back(bump);
    }
    return bumps;
}

void link(std::vector<Chain>& chains, int station, const std::vector<Bump>& bumps) {
    std::vector<bool> taken(bumps.size(), false);
    for (Chain& chain : chains) {
        if (!chain.open) continue;
        const int missed = station - chain.stations.back();
        const double at = chain.foretold(station);
        // Of a chain of one bump the direction is not known yet.
        const double tolerance = chain.bumps.size() == 1 ? 2.0 : kInRow_px + 0.3 * (missed - 1);
        std::size_t best = bumps.size();
        double nearest = tolerance;
        auto from = std::lower_bound(bumps.begin(), bumps.end(), at - tolerance,
                                     [](const Bump& b, double least) { return b.at_px < least; });
        for (; from != bumps.end() && from->at_px <= at + tolerance; ++from) {
            const auto k = static_cast<std::size_t>(from - bumps.begin());
            if (taken[k] || std::abs(from->at_px - at) >= nearest) continue;
            nearest = std::abs(from->at_px - at);
            best = k;
        }
        if (best == bumps.size()) {
            chain.open = missed <= kMostMissed;
            continue;
        }
        taken[best] = true;
        // Evened out over several stations: a pump's line that crosses at a shallow angle does not carry a
        // ruling away.
        constexpr double kTurns = 0.15, kMoves = 0.5;
        const double off = bumps[best].at_px - at;
        const bool second = chain.bumps.size() == 1;
        chain.slope += (second ? 0.6 : kTurns) * off / missed;
        chain.at_px = at + (second ? 1.0 : kMoves) * off;
        chain.stations.push_back(station);
        chain.bumps.push_back(bumps[best]);
    }
    for (std::size_t k = 0; k < bumps.size(); ++k)
        if (!taken[k]) chains.push_back({{station}, {bumps[k]}, 0.0, bumps[k].at_px, true});
}

// Rise over the whole frame, and the bow of its middle, from the means of its thirds.
struct Bend {
    double at = 0.0, rise = 0.0, bow = 0.0;
};

Bend bendOf(const Chain& chain) {
    const std::size_t third = chain.bumps.size() / 3;
    const auto mean = [&](std::size_t from, std::size_t to) {
        double sum = 0.0;
        for (std::size_t k = from; k < to; ++k)
            sum += chain.bumps[k].at_px;
        return sum / static_cast<double>(to - from);
    };
    const double first = mean(0, third), middle = mean(third, chain.bumps.size() - third),
                 last = mean(chain.bumps.size() - third, chain.bumps.size());
    return {middle, 1.5 * (last - first), middle - 0.5 * (first + last)};
}

// Those that bend as the neighbours do.
std::vector<Chain> alike(const std::vector<Chain>& chains, double across_px) {
    std::vector<Bend> bends;
    for (const Chain& chain : chains)
        bends.push_back(bendOf(chain));
    std::vector<Chain> kept;
    constexpr std::size_t kNeighbours = 6;
    for (std::size_t k = 0; k < chains.size(); ++k) {
        std::vector<std::size_t> order;
        for (std::size_t j = 0; j < chains.size(); ++j)
            if (j != k) order.push_back(j);
        std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
            return std::abs(bends[a].at - bends[k].at) < std::abs(bends[b].at - bends[k].at);
        });
        if (order.size() > kNeighbours) order.resize(kNeighbours);
        std::vector<double> rises, bows;
        for (const std::size_t j : order) {
            rises.push_back(bends[j].rise);
            bows.push_back(bends[j].bow);
        }
        const double rise = rises.empty() ? 0.0 : medianOf(rises), bow = bows.empty() ? 0.0 : medianOf(bows);
        // Curl changes over the chart; the frame stands at its rim, with neighbours to one side or none.
        double away = 0.0;
        if (!order.empty()) away = std::abs(bends[order[order.size() / 2]].at - bends[k].at);
        const double allowed = kBendsAlike_px + kCurlChanges * away;
        const bool atRim = std::abs(bends[k].at) < kRim_px || std::abs(bends[k].at - across_px) < kRim_px;
        const bool alikeBent =
            std::abs(bends[k].rise - rise) <= 2.0 * allowed && std::abs(bends[k].bow - bow) <= allowed;
        const bool frame = atRim && std::abs(bends[k].rise) + std::abs(bends[k].bow) < 2.0 * kRim_px;
        if (alikeBent || frame) kept.push_back(chains[k]);
    }
    return kept;
}

// Its place at every station: seen, between two that were, or on from the last two.
Ruling rulingOf(const Chain& chain, int stations, bool upright) {
    Ruling ruling;
    ruling.upright = upright;
    ruling.places.resize(static_cast<std::size_t>(stations));
    ruling.seen.assign(static_cast<std::size_t>(stations), false);
    std::vector<double> widths, darks, inkedMost, inkedLeast;
    double sum = 0.0;
    std::size_t k = 0;
    for (int i = 0; i < stations; ++i) {
        while (k + 1 < chain.stations.size() && chain.stations[k + 1] <= i)
            ++k;
        const bool seen = chain.stations[k] == i;
        ruling.seen[static_cast<std::size_t>(i)] = seen;
        // Between two that were seen, or on from the last two.
        const std::size_t a = std::min(k, chain.stations.size() - 2);
        const double share = static_cast<double>(i - chain.stations[a]) /
                             static_cast<double>(chain.stations[a + 1] - chain.stations[a]);
        ruling.places[static_cast<std::size_t>(i)] =
            seen ? chain.bumps[k].place
                 : chain.bumps[a].place + share * (chain.bumps[a + 1].place - chain.bumps[a].place);
        if (!seen) continue;
        widths.push_back(chain.bumps[k].width_px);
        darks.push_back(chain.bumps[k].darkness);
        inkedMost.push_back(chain.bumps[k].inkedMost);
        inkedLeast.push_back(chain.bumps[k].inkedLeast);
        sum += chain.bumps[k].share;
    }
    ruling.width_px = medianOf(widths);
    ruling.darkness = medianOf(darks);
    // Rulings that cross a solid one make it darker in places, but nowhere is it bare.
    constexpr double kBare = 0.35;
    const bool dashed = medianOf(inkedLeast) < kBare * ruling.darkness;
    ruling.inkedMost = dashed ? std::max(medianOf(inkedMost), ruling.darkness) : ruling.darkness;
    ruling.at = sum / static_cast<double>(widths.size());
    return ruling;
}

} // namespace

std::size_t Ruling::seenCount() const {
    return static_cast<std::size_t>(std::count(seen.begin(), seen.end(), true));
}

PagePoint Rulings::Frame::at(double p, double q) const {
    const double w = to[6] * p + to[7] * q + 1.0;
    return {(to[0] * p + to[1] * q + to[2]) / w, (to[3] * p + to[4] * q + to[5]) / w};
}

std::array<PagePoint, 2> Rulings::Frame::waysAt(double p, double q) const {
    constexpr double kHalf = 0.5 * kDirectionShare;
    return {at(p + kHalf, q) - at(p - kHalf, q), at(p, q + kHalf) - at(p, q - kHalf)};
}

std::array<double, 2> Rulings::Frame::from(PagePoint at) const {
    const double m11 = to[0] - to[6] * at.x, m12 = to[1] - to[7] * at.x, r1 = at.x - to[2];
    const double m21 = to[3] - to[6] * at.y, m22 = to[4] - to[7] * at.y, r2 = at.y - to[5];
    const double determinant = m11 * m22 - m12 * m21;
    if (std::abs(determinant) < 1e-9) return {-1e9, -1e9};
    return {(r1 * m22 - r2 * m12) / determinant, (r2 * m11 - r1 * m21) / determinant};
}

// The square to a quadrilateral: Heckbert, Fundamentals of Texture Mapping and Image Warping (1989), 2.2.3.
Rulings::Frame Rulings::frameOf(const ChartCorners& c) {
    const PagePoint &p00 = c[0], &p10 = c[1], &p01 = c[2], &p11 = c[3];
    const PagePoint sum = p00 - p10 + p11 - p01, d1 = p10 - p11, d2 = p01 - p11;
    const double determinant = d1.x * d2.y - d2.x * d1.y;
    const bool flat = std::abs(determinant) < 1e-9;
    const double g = flat ? 0.0 : (sum.x * d2.y - d2.x * sum.y) / determinant;
    const double h = flat ? 0.0 : (d1.x * sum.y - sum.x * d1.y) / determinant;
    Frame frame;
    frame.corners = c;
    frame.to = {p10.x - p00.x + g * p10.x,
                p01.x - p00.x + h * p01.x,
                p00.x,
                p10.y - p00.y + g * p10.y,
                p01.y - p00.y + h * p01.y,
                p00.y,
                g,
                h};
    return frame;
}

std::vector<Ruling> Rulings::findWay(const InkField& field, bool upright, bool faint) const {
    const Sight sight = faint ? kFaint : Sight{};
    const auto at = [&](double along, double across) {
        return upright ? frame_.at(across, along) : frame_.at(along, across);
    };
    const double span_px = length(at(1.0, 0.5) - at(0.0, 0.5));
    const double across_px = length(at(0.5, 1.0) - at(0.5, 0.0));
    const int stations = std::clamp(static_cast<int>(span_px / kStation_px), kFewestStations, kMostStations);
    const double beyond = std::max(kBeyond, kBeyond_px / across_px);
    std::vector<Chain> chains;
    constexpr double kStep_px = 0.5;
    for (int i = 0; i < stations; ++i) {
        const double along = (i + 0.5) / stations;
        const PagePoint from = at(along, -beyond), to = at(along, 1.0 + beyond);
        const double reach = length(to - from);
        const PagePoint unit = (1.0 / reach) * (to - from);
        const PagePoint ahead = at(along + 0.01, 0.5) - at(along - 0.01, 0.5);
        const auto ink = inkAlong(field, from, kStep_px * unit, static_cast<int>(reach / kStep_px),
                                  (1.0 / length(ahead)) * ahead, sight.aside);
        double least = sight.leastDarkness;
        if (sight.leastNoises > 0.0) least = std::max(least, sight.leastNoises * noiseOf(ink, kStep_px));
        std::vector<Bump> bumps = bumpsIn(ink, kStep_px, least);
        for (Bump& bump : bumps) {
            bump.place = from + bump.at_px * unit;
            lookForDashes(field, bump, (1.0 / length(ahead)) * ahead, sight.aside);
            bump.share = frame_.from(bump.place)[upright ? 0 : 1];
            bump.at_px = bump.share * across_px;
        }
        std::sort(bumps.begin(), bumps.end(), [](const Bump& a, const Bump& b) { return a.at_px < b.at_px; });
        link(chains, i, bumps);
    }
    std::erase_if(chains, [&](const Chain& chain) {
        return static_cast<double>(chain.stations.size()) < sight.leastSeen * stations ||
               chain.stations.back() - chain.stations.front() + 1 < kLeastSpan * stations;
    });
    chains = alike(chains, across_px);
    std::vector<Ruling> found;
    for (const Chain& chain : chains)
        found.push_back(rulingOf(chain, stations, upright));
    return found;
}

Rulings Rulings::find(const InkField& field, const ChartCorners& corners) {
    Rulings found;
    // Pins far off the page, or figures far beyond it, span no chart on it.
    const double roomX = 0.5 * field.region().width, roomY = 0.5 * field.region().height;
    const bool onPage = std::all_of(corners.begin(), corners.end(), [&](PagePoint c) {
        return c.x > field.region().x - roomX && c.x < field.region().x + 3.0 * roomX &&
               c.y > field.region().y - roomY && c.y < field.region().y + 3.0 * roomY;
    });
    constexpr double kLeastChart_px = 40.0;
    if (!onPage || length(corners[1] - corners[0]) < kLeastChart_px ||
        length(corners[2] - corners[0]) < kLeastChart_px)
        return found;
    found.frame_ = frameOf(corners);
    for (const bool upright : {false, true}) {
        std::vector<Ruling> way = found.findWay(field, upright, false);
        if (way.size() < kFewRulings) {
            std::vector<Ruling> closer = found.findWay(field, upright, true);
            if (closer.size() > way.size()) way = std::move(closer);
        }
        found.all_.insert(found.all_.end(), way.begin(), way.end());
        if (!upright) found.levels_ = found.all_.size();
    }
    const auto byPlace = [](const Ruling& a, const Ruling& b) { return a.at < b.at; };
    const auto levelsEnd = found.all_.begin() + static_cast<std::ptrdiff_t>(found.levels_);
    std::sort(found.all_.begin(), levelsEnd, byPlace);
    std::sort(levelsEnd, found.all_.end(), byPlace);
    return found;
}

bool Rulings::runsLikeOne(PagePoint at, PagePoint along, double sine) const {
    const auto [p, q] = frame_.from(at);
    const auto [level, erect] = frame_.waysAt(p, q);
    const auto sineTo = [&](PagePoint way) {
        return std::abs(along.x * way.y - along.y * way.x) / std::max(length(way), 1e-9);
    };
    return sineTo(level) < sine || sineTo(erect) < sine;
}

bool Rulings::covers(PagePoint at) const {
    if (all_.empty()) return false;
    constexpr double kEdge_px = 0.5; // of the raster
    const auto [p, q] = frame_.from(at);
    for (const PagePoint& way : frame_.waysAt(p, q)) {
        constexpr double kReach_px = 8.0; // of half the widest ruling
        for (const RulingBeside& b : beside(at, (1.0 / length(way)) * way, kReach_px))
            if (std::abs(b.offset_px) <= 0.5 * b.width_px + kEdge_px) return true;
    }
    return false;
}

bool Rulings::enclose(PagePoint at) const {
    if (width_px() <= 0.0) return true;
    constexpr double kEdge = 0.005;
    const auto [p, q] = frame_.from(at);
    return std::min(p, q) >= -kEdge && std::max(p, q) <= 1.0 + kEdge;
}

bool Rulings::runsAsRuling(const std::vector<PagePoint>& way) const {
    if (all_.empty()) return false;
    constexpr double kLeastShare = 0.5, kWithin_px = 1.2;
    constexpr double kCurl = 0.0035; // of the frame's width: paper lies as it lies
    for (const bool upright : {false, true}) {
        const double across_px = length(upright ? frame_.at(1.0, 0.5) - frame_.at(0.0, 0.5)
                                                : frame_.at(0.5, 1.0) - frame_.at(0.5, 0.0));
        const double within = 2.0 * std::max(kWithin_px, kCurl * width_px()) / across_px;
        double least = 0.0, most = 0.0, from = 0.0;
        bool running = false;
        for (const PagePoint& point : way) {
            const auto [p, q] = frame_.from(point);
            const double here = upright ? p : q, share = upright ? q : p;
            const double low = running ? std::min(least, here) : here;
            const double high = running ? std::max(most, here) : here;
            if (!running || high - low > within) {
                least = most = here;
                from = share;
                running = true;
                continue;
            }
            least = low;
            most = high;
            if (std::abs(share - from) > kLeastShare) return true;
        }
    }
    return false;
}

std::vector<RulingBeside> Rulings::beside(PagePoint at, PagePoint along, double reach_px) const {
    std::vector<RulingBeside> found;
    if (all_.empty()) return found;
    const auto [p, q] = frame_.from(at);
    const PagePoint normal{-along.y, along.x};
    const auto [level, erect] = frame_.waysAt(p, q);
    for (const bool upright : {false, true}) {
        const PagePoint way = upright ? erect : level, other = upright ? level : erect;
        const double sine = (along.x * way.y - along.y * way.x) / length(way);
        if (std::abs(sine) > kSameWay) continue;
        const double here = upright ? p : q, share = upright ? q : p;
        // The frame's share that `reach_px` spans, with room for curl.
        const double reach = kDirectionShare * (reach_px + 12.0) / length(other);
        const auto first = all_.begin() + static_cast<std::ptrdiff_t>(upright ? levels_ : 0);
        const auto last = upright ? all_.end() : all_.begin() + static_cast<std::ptrdiff_t>(levels_);
        auto r =
            std::lower_bound(first, last, here - reach, [](const Ruling& a, double v) { return a.at < v; });
        for (; r != last && r->at <= here + reach; ++r) {
            const auto n = static_cast<double>(r->places.size());
            const double station = share * n - 0.5;
            constexpr double kPastFrame = 0.06; // axes and frames stand out a little beyond the pins
            if (station < -kPastFrame * n || station > (1.0 + kPastFrame) * n) continue;
            const auto k = static_cast<std::size_t>(std::clamp(station, 0.0, n - 2.0));
            const PagePoint from = r->places[k], step = r->places[k + 1] - from;
            const double across = normal.x * step.y - normal.y * step.x;
            if (std::abs(across) < 1e-9) continue;
            const PagePoint to = from - at;
            const double offset = (to.x * step.y - to.y * step.x) / across;
            if (std::abs(offset) <= reach_px)
                found.push_back({offset, r->width_px, r->darkness, r->inkedMost});
        }
    }
    return found;
}

} // namespace headmark
