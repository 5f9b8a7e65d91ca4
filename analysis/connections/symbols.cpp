#include "analysis/connections/symbols.h"

#include "analysis/core/assertion.h"

#include <algorithm>
#include <iterator>

namespace headmark {

namespace {

using Strokes = std::vector<Stroke>;

Stroke rectangle(double x, double halfLength, double halfAcross, bool filled = false) {
    return boxStroke({x - halfLength, -halfAcross, 2.0 * halfLength, 2.0 * halfAcross}, filled);
}
Stroke upright(double x, double half, bool heavy = false) {
    return lineStroke({{x, -half}, {x, half}}, false, heavy);
}
Stroke level(double x1, double x2, double y = 0.0, bool dashed = false) {
    return lineStroke({{x1, y}, {x2, y}}, dashed);
}

Strokes bowTie(double half, double across) {
    return {polygonStroke({{-half, -across}, {-half, across}, {0, 0}}),
            polygonStroke({{half, -across}, {half, across}, {0, 0}})};
}

Strokes with(Strokes strokes, Strokes more) {
    strokes.insert(strokes.end(), more.begin(), more.end());
    return strokes;
}

Strokes nipple() { return {rectangle(0, 2.0, 1.6), rectangle(0, 0.7, 2.2)}; }
Strokes reducer() { return {polygonStroke({{-2.5, -2.8}, {2.5, -1.4}, {2.5, 1.4}, {-2.5, 2.8}})}; }
Strokes socket() { return {rectangle(0, 2.5, 2.4), upright(0, 2.4)}; }
Strokes tail() {
    return {polygonStroke({{-3.5, -1.6},
                           {-1.0, -1.6},
                           {-1.0, -2.2},
                           {0.5, -1.4},
                           {0.5, -2.0},
                           {2.0, -1.2},
                           {2.0, -1.8},
                           {3.5, -1.0},
                           {3.5, 1.0},
                           {2.0, 1.8},
                           {2.0, 1.2},
                           {0.5, 2.0},
                           {0.5, 1.4},
                           {-1.0, 2.2},
                           {-1.0, 1.6},
                           {-3.5, 1.6}})};
}
Strokes tailNut() { return with(tail(), {rectangle(-2.4, 1.1, 2.8)}); }
Strokes hose() {
    Strokes strokes{level(-12, 12, -1.8), level(-12, 12, 1.8)};
    for (double x = -10.5; x < 11.0; x += 3.0)
        strokes.push_back(lineStroke({{x - 0.9, 1.8}, {x + 0.9, -1.8}}));
    return strokes;
}
Strokes pipe() { return {level(-12, 12, -1.4), level(-12, 12, 1.4)}; }
Strokes unionSymbol() { return {rectangle(0, 4.0, 1.8), rectangle(0, 1.6, 3.2), upright(0, 3.2)}; }
Strokes ballValve() {
    return with(bowTie(4.5, 2.8), {circleStroke({0, 0}, 1.3, true), lineStroke({{0, -1.3}, {0, -4.0}}),
                                   level(-0.2, 3.6, -4.0)});
}
Strokes gateValve() {
    return with(bowTie(4.5, 2.8), {lineStroke({{0, 0}, {0, -4.0}}), level(-1.8, 1.8, -4.0)});
}
Strokes globeValve() { return with(gateValve(), {circleStroke({0, 0}, 0.9, true)}); }
Strokes check() {
    return {rectangle(0, 4.5, 2.8), polygonStroke({{-3.0, -2.0}, {-3.0, 2.0}, {2.2, 0}}),
            upright(2.4, 2.2, true)};
}
Strokes basket(double x, double half) {
    Strokes strokes{boxStroke({x - half, -3.2, 2.0 * half, 6.4})};
    strokes[0].dashed = true;
    for (double at = x - half + 1.2; at < x + half - 0.4; at += 1.2)
        strokes.push_back(lineStroke({{at, -3.2}, {at, 3.2}}, true));
    return strokes;
}
Strokes footValve() {
    return with(basket(-3.2, 2.8),
                {rectangle(2.6, 3.0, 2.6), polygonStroke({{0.4, -1.8}, {0.4, 1.8}, {3.8, 0}}),
                 upright(4.0, 1.9, true)});
}
Strokes strainer() { return with(basket(0, 4.5), {}); }
Strokes floatingInlet() {
    return with(basket(-2.6, 3.2),
                {circleStroke({3.0, -4.4}, 2.4), level(0.6, 6.0), lineStroke({{3.0, -2.0}, {3.0, 0}})});
}
Strokes tankConnector() {
    return {rectangle(0, 4.0, 1.6), upright(-1.6, 4.0, true), upright(1.0, 4.0, true)};
}
Strokes filter() {
    return {boxStroke({-8.0, -3.6, 16.0, 3.6}), boxStroke({-5.0, 0.0, 10.0, 9.0}),
            lineStroke({{-2.5, 0.6}, {-2.5, 8.0}, {2.5, 8.0}, {2.5, 0.6}}, true)};
}
Strokes yStrainer() {
    return {rectangle(0, 4.5, 2.2), polygonStroke({{-0.5, 2.2}, {2.5, 2.2}, {5.0, 6.0}, {2.6, 7.2}}),
            lineStroke({{0.2, 2.2}, {3.6, 6.8}}, true)};
}
// Hanging ones: connection at the left end, body to the right of it.
Strokes gauge() {
    return {level(-6.5, -4.3), rectangle(-5.4, 0.6, 1.0), circleStroke({1.1, 0}, 5.2),
            lineStroke({{1.1, 0}, {3.9, -2.8}}), circleStroke({1.1, 0}, 0.5, true)};
}
Strokes airVent() {
    return {rectangle(0, 3.5, 2.2), lineStroke({{-1.6, 0}, {2.4, 0}}),
            polygonStroke({{1.2, -1.0}, {1.2, 1.0}, {2.8, 0}}, true)};
}
Strokes drain() {
    return with(bowTie(2.6, 1.8),
                {lineStroke({{2.6, 0}, {5.0, 0}}), polygonStroke({{3.8, -1.0}, {3.8, 1.0}, {5.2, 0}}, true),
                 lineStroke({{0, 0}, {0, -2.8}}), lineStroke({{-1.2, -2.8}, {1.2, -2.8}})});
}
Strokes plug() { return {rectangle(-0.6, 1.4, 1.6, true), rectangle(1.6, 0.8, 0.9)}; }
Strokes pressureSwitch() {
    return {level(-5.0, -3.0), boxStroke({-3.0, -4.0, 8.0, 8.0}), textStroke({1.0, 0}, "p", 3.0)};
}
Strokes relief() {
    return with(bowTie(2.6, 1.8),
                {lineStroke({{2.6, 0}, {5.0, 0}}), polygonStroke({{3.8, -1.0}, {3.8, 1.0}, {5.2, 0}}, true),
                 lineStroke({{0, 0}, {0, -1.0}, {-1.0, -1.5}, {1.0, -2.2}, {-1.0, -2.9}, {0, -3.4}})});
}
Strokes flowSwitch() {
    return {level(-5.0, -3.0), boxStroke({-3.0, -4.0, 8.0, 8.0}), textStroke({1.0, 0}, "F", 3.0)};
}
Strokes vessel() {
    return {level(-10.0, -8.0), boxStroke({-8.0, -6.0, 16.0, 12.0}), lineStroke({{0, -6.0}, {0, 6.0}}, true),
            textStroke({4.0, 0}, "N", 2.6)};
}
// The branch goes up, towards -y; a branch downwards is the same turned over.
Strokes tee() {
    return {lineStroke({{-4.0, -1.8},
                        {-1.6, -1.8},
                        {-1.6, -3.6},
                        {1.6, -3.6},
                        {1.6, -1.8},
                        {4.0, -1.8},
                        {4.0, 1.8},
                        {-4.0, 1.8},
                        {-4.0, -1.8}})};
}
Strokes elbow() { return {rectangle(0, 3.0, 3.0), arcStroke({-3.0, 3.0}, 3.0, -90.0, 90.0)}; }
Strokes flexible() {
    return {rectangle(0, 6.0, 2.2),
            lineStroke({{-4.5, 0}, {-3.0, -1.6}, {-1.5, 1.6}, {0, -1.6}, {1.5, 1.6}, {3.0, -1.6}, {4.5, 0}}),
            rectangle(-5.2, 0.8, 3.0), rectangle(5.2, 0.8, 3.0)};
}
Strokes adaptor() { return {rectangle(-1.6, 2.4, 2.8), rectangle(2.4, 1.6, 1.6)}; }
Strokes flange() {
    return {upright(-0.8, 3.6, true), upright(0.8, 3.6, true), level(-2.5, -0.8), level(0.8, 2.5)};
}
Strokes coupler() {
    return {rectangle(-2.6, 2.4, 2.0), rectangle(2.2, 2.8, 2.8), lineStroke({{2.0, -2.8}, {-1.6, -4.2}}),
            lineStroke({{2.0, 2.8}, {-1.6, 4.2}})};
}
Strokes meter() { return {circleStroke({0, 0}, 4.5), textStroke({0, 0}, "Q", 3.0)}; }
Strokes solenoid() {
    return with(bowTie(4.5, 2.8), {lineStroke({{0, 0}, {0, -2.6}}), boxStroke({-1.8, -5.4, 3.6, 2.8})});
}
Strokes regulator() {
    return with(bowTie(4.5, 2.8), {lineStroke({{0, 0}, {0, -2.4}}), arcStroke({0, -2.4}, 2.4, 180.0, 180.0),
                                   level(-2.4, 2.4, -2.4)});
}
Strokes generic() { return {rectangle(0, 4.0, 3.0), textStroke({0, 0}, "?", 3.0)}; }
Strokes pumpSymbol() {
    return {circleStroke({0, 0}, 9.0), polygonStroke({{-4.5, -7.8}, {-4.5, 7.8}, {9.0, 0}}),
            lineStroke({{-6.0, 12.0}, {6.0, 12.0}}, false, true), lineStroke({{-4.0, 8.1}, {-5.5, 12.0}}),
            lineStroke({{4.0, 8.1}, {5.5, 12.0}})};
}
Strokes levelSwitch() {
    return {lineStroke({{-4.0, -3.0}, {-1.0, -3.0}, {2.0, 0.6}}), circleStroke({2.8, 1.6}, 1.6, true)};
}
Strokes relay() {
    return {rectangle(0, 6.0, 4.0), lineStroke({{-4.0, 1.6}, {-1.0, 1.6}, {2.4, -1.8}}),
            level(2.4, 4.0, 1.6)};
}
Strokes rope() { return {lineStroke({{-5.0, 0}, {3.0, 0}}, true, true), circleStroke({4.2, 0}, 1.2)}; }
Strokes cable() {
    return {lineStroke({{-5.5, 0}, {-4.0, -1.6}, {-1.5, 1.6}, {1.0, -1.6}, {2.5, 0}}),
            rectangle(4.0, 1.5, 1.5)};
}
Strokes none() { return {}; }

struct Entry {
    std::string_view kind;
    SymbolSize size;
    Strokes (*strokes)();
};
constexpr Entry kSymbols[] = {{"none", {0, 0}, none},
                              {"nipple", {4, 4.4}, nipple},
                              {"reducer", {5, 5.6}, reducer},
                              {"socket", {5, 4.8}, socket},
                              {"tail", {7, 4.4}, tail},
                              {"tail_nut", {7, 5.6}, tailNut},
                              {"hose", {24, 3.6}, hose},
                              {"pipe", {24, 2.8}, pipe},
                              {"union", {8, 6.4}, unionSymbol},
                              {"ball_valve", {9, 8.0}, ballValve},
                              {"gate_valve", {9, 8.0}, gateValve},
                              {"globe_valve", {9, 8.0}, globeValve},
                              {"check", {9, 5.6}, check},
                              {"foot_valve", {12, 6.4}, footValve},
                              {"strainer", {9, 6.4}, strainer},
                              {"floating_inlet", {12, 13.6}, floatingInlet},
                              {"tank_connector", {8, 8.0}, tankConnector},
                              {"filter", {16, 18.0}, filter},
                              {"y_strainer", {10, 14.4}, yStrainer},
                              {"gauge", {13, 10.4}, gauge},
                              {"air_vent", {7, 4.4}, airVent},
                              {"drain", {10.4, 5.6}, drain},
                              {"plug", {5, 3.2}, plug},
                              {"pressure_switch", {10, 8.0}, pressureSwitch},
                              {"flow_switch", {10, 8.0}, flowSwitch},
                              {"vessel", {20, 12.0}, vessel},
                              {"relief", {10.4, 7.0}, relief},
                              {"rope", {11, 3.0}, rope},
                              {"cable", {11, 3.6}, cable},
                              {"tee", {8, 7.2}, tee},
                              {"elbow", {6, 6.0}, elbow},
                              {"flexible", {12, 6.0}, flexible},
                              {"adaptor", {8, 5.6}, adaptor},
                              {"flange", {5, 7.2}, flange},
                              {"coupler", {10, 8.4}, coupler},
                              {"meter", {9, 9.0}, meter},
                              {"solenoid", {9, 10.8}, solenoid},
                              {"regulator", {9, 9.6}, regulator},
                              {"generic", {8, 6.0}, generic},
                              {"pump", {18, 24.0}, pumpSymbol},
                              {"level_switch", {9, 6.4}, levelSwitch},
                              {"relay", {12, 8.0}, relay}};

const Entry* entryOf(std::string_view kind) {
    const auto found = std::find_if(std::begin(kSymbols), std::end(kSymbols),
                                    [&](const Entry& e) { return e.kind == kind; });
    return found == std::end(kSymbols) ? nullptr : found;
}

} // namespace

bool knownSymbol(std::string_view kind) { return entryOf(kind) != nullptr; }

SymbolSize symbolSize(std::string_view kind) {
    const Entry* entry = entryOf(kind);
    HEADMARK_ASSERT(entry, "a symbol that nobody drew");
    return entry->size;
}

std::vector<Stroke> symbolStrokes(std::string_view kind, bool mirrored) {
    const Entry* entry = entryOf(kind);
    HEADMARK_ASSERT(entry, "a symbol that nobody drew");
    Strokes strokes = entry->strokes();
    if (!mirrored) return strokes;
    for (Stroke& stroke : strokes) {
        for (DrawPoint& point : stroke.points)
            point.x = -point.x;
        if (stroke.kind == StrokeKind::arc) stroke.from_deg = 180.0 - stroke.from_deg - stroke.sweep_deg;
    }
    return strokes;
}

} // namespace headmark
