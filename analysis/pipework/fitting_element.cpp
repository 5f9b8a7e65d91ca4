#include "analysis/pipework/fitting_element.h"

#include "analysis/core/assertion.h"
#include "analysis/pipework/catalogue.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <numbers>

namespace headmark {

namespace {

constexpr double kGravity_m_s2 = factor::kStandardGravity_m_s2;
constexpr double kDefaultReducerAngle_deg = 45.0;
constexpr double kGentlestRuleEnds_deg = 45.0; // Crane TP-410: the conical rules change here
// A hose tail of unknown bore: notes of fittings.csv.
constexpr std::string_view kUsualHoseTail = "b=0.80";

// K v^2/(2g) as coefficient of q^2.
double quadraticOfK(double k, double bore_m) {
    const double area_m2 = boreArea_m2(bore_m);
    return k / (2.0 * kGravity_m_s2 * area_m2 * area_m2);
}

// 1 bar at Kv, taken as head of water of 1000 kg/m3 whatever the real density (definition of Kv).
double quadraticOfKv(double kv_m3_h) {
    const double perFlow = factor::kHour_s / kv_m3_h;
    return factor::kBar_Pa / factor::kMetreOfWater_Pa * perFlow * perFlow;
}

// K1/Re on v^2/(2g), Re = 4 q/(pi D nu): the loss is K1 pi D nu q/(8 g A^2).
double linearOfK1(double k1, double bore_m, double viscosity_m2_s) {
    const double area_m2 = boreArea_m2(bore_m);
    return k1 * std::numbers::pi * bore_m * viscosity_m2_s / (8.0 * kGravity_m_s2 * area_m2 * area_m2);
}

// "1-1/4" is 1.25.
double nominalInches(std::string_view size) {
    const auto whole = [](std::string_view text) {
        double value = 0.0;
        std::from_chars(text.data(), text.data() + text.size(), value);
        return value;
    };
    double inches = 0.0;
    if (const auto dash = size.find('-'); dash != std::string_view::npos) {
        inches = whole(size.substr(0, dash));
        size.remove_prefix(dash + 1);
    }
    const auto slash = size.find('/');
    if (slash == std::string_view::npos) {
        return inches + whole(size);
    }
    return inches + whole(size.substr(0, slash)) / whole(size.substr(slash + 1));
}

std::string dnText(int dn) { return std::to_string(dn) + " mm"; }

// The thread of a written size: "1-1/4", or "32 mm" by its DN.
const ThreadRow* findThread(std::string_view size) {
    for (const ThreadRow& thread : threadRows()) {
        if (thread.designation == size || (thread.dn != 0 && dnText(thread.dn) == size)) {
            return &thread;
        }
    }
    return nullptr;
}

// fT of the size, or of the size nearest by DN that has one; of two equally near the smaller, with more loss.
double nearestTurbulentFrictionFactor(const ThreadRow& wanted) {
    double best = 0.0;
    int nearest = 0;
    for (const ThreadRow& thread : threadRows()) {
        const double friction = turbulentFrictionFactor(thread.designation);
        const int distance = std::abs(thread.dn - wanted.dn);
        if (friction > 0.0 && (best == 0.0 || distance < nearest)) {
            best = friction;
            nearest = distance;
        }
    }
    return best;
}

std::optional<double> smallerBore(const Neighbours& around) {
    if (around.before_m && around.after_m) {
        return std::min(*around.before_m, *around.after_m);
    }
    return around.usual_m();
}

// What the item itself says about its bore: in figures, or by its thread size.
std::optional<double> ownBore(const FittingItem& fitting, const ThreadRow* thread) {
    if (fitting.bore) {
        return fitting.bore->inMetres();
    }
    if (thread != nullptr && thread->steelTubeBore_mm > 0.0) {
        return thread->steelTubeBore_mm * 1e-3;
    }
    return std::nullopt;
}

std::optional<double> neighbouringBore(std::string_view basis, const Neighbours& around) {
    if (basis == "smaller bore") {
        return smallerBore(around);
    }
    if (basis == "branch bore" && around.after_m) {
        return around.after_m;
    }
    if (basis == "hose bore") {
        if (around.insideAfter_m && around.hoseAfter) {
            return around.insideAfter_m;
        }
        if (around.insideBefore_m && around.hoseBefore) {
            return around.insideBefore_m;
        }
    }
    return around.usual_m();
}

Error errorAt(std::string code, std::size_t index, std::string_view what, Facts facts) {
    return {std::move(code), "", "[" + std::to_string(index) + "]." + std::string(what), std::move(facts)};
}

Error noSuchSize(std::size_t index, const FittingItem& fitting, std::string size,
                 std::vector<std::string> known) {
    return errorAt("no-such-size", index, "fitting",
                   {{"code", fitting.code}, {"size", std::move(size)}, {"sizes", std::move(known)}});
}

std::vector<const FittingRow*> rowsOf(std::string_view code) {
    std::vector<const FittingRow*> rows;
    for (const FittingRow& row : fittingRows()) {
        if (row.code == code) {
            rows.push_back(&row);
        }
    }
    return rows;
}

// Sizes the user may write for these rows: the table's, or every thread size where it has none.
std::vector<std::string> sizesKnown(const std::vector<const FittingRow*>& rows) {
    std::vector<std::string> sizes;
    if (rows.size() > 1) {
        for (const FittingRow* row : rows) {
            sizes.push_back(row->size);
        }
        return sizes;
    }
    for (const ThreadRow& thread : threadRows()) {
        if (thread.steelTubeBore_mm > 0.0) {
            sizes.push_back(thread.designation);
        }
    }
    return sizes;
}

const FittingRow* rowOfSize(const std::vector<const FittingRow*>& rows, const std::string& size,
                            const ThreadRow* thread) {
    for (const FittingRow* row : rows) {
        const bool byDn = thread != nullptr && thread->dn != 0 && row->size == dnText(thread->dn);
        const bool byThread = thread != nullptr && row->size == thread->designation;
        if (row->size == size || byThread || byDn) {
            return row;
        }
    }
    return nullptr;
}

// Loss coefficients of the two-bore formulas (notes column of fittings.csv, Crane TP-410), on the smaller
// bore.
double reducerK(std::string_view code, double ratio, double angle_deg) {
    const double open = 1.0 - ratio * ratio;
    const double sine = std::sin(0.5 * angle_deg * std::numbers::pi / 180.0);
    const bool gentle = angle_deg <= kGentlestRuleEnds_deg;
    if (code == "contraction_sudden") {
        return 0.5 * open;
    }
    if (code == "contraction_conical") {
        return gentle ? 0.8 * sine * open : 0.5 * open * std::sqrt(sine);
    }
    if (code == "expansion_sudden") {
        return open * open;
    }
    HEADMARK_ASSERT(code == "expansion_conical", "a formula fitting without a formula");
    return gentle ? 2.6 * sine * open * open : open * open;
}

Element blankFitting(const FittingItem& fitting, std::size_t index) {
    Element element;
    element.kind = ElementKind::fitting;
    element.item = index;
    element.code = fitting.code;
    return element;
}

// Where one neighbour is missing (a run's end), the item's own bore or size stands in for it.
Result<Element> reducerElement(const FittingItem& fitting, std::size_t index, const Neighbours& around,
                               std::optional<double> own_m) {
    const std::optional<double> before_m = around.before_m ? around.before_m : own_m;
    const std::optional<double> after_m = around.after_m ? around.after_m : own_m;
    if (!before_m || !after_m) {
        return noBore(index, "fitting", fitting.code);
    }
    Element element = blankFitting(fitting, index);
    element.bore_m = std::min(*before_m, *after_m);
    const double ratio = element.bore_m / std::max(*before_m, *after_m);
    const double k = reducerK(fitting.code, ratio, fitting.angle_deg.value_or(kDefaultReducerAngle_deg));
    element.quadratic_s2_m5 = fitting.count * quadraticOfK(k, element.bore_m);
    return element;
}

Result<Element> freeFittingElement(const FittingItem& fitting, std::size_t index, const Neighbours& around,
                                   const ThreadRow* thread) {
    const std::optional<double> own_m = ownBore(fitting, thread);
    const std::optional<double> bore_m = own_m ? own_m : around.usual_m();
    Element element = blankFitting(fitting, index);
    element.bore_m = bore_m.value_or(0.0);
    if (thread != nullptr) {
        element.nominalSize = thread->designation;
    }
    if (fitting.kv_m3_h) {
        element.quadratic_s2_m5 = fitting.count * quadraticOfKv(*fitting.kv_m3_h);
        return element;
    }
    HEADMARK_ASSERT(fitting.k.has_value(), "a fitting without code, k or kv");
    if (!bore_m) {
        return noBore(index, "fitting", "");
    }
    element.quadratic_s2_m5 = fitting.count * quadraticOfK(*fitting.k, *bore_m);
    return element;
}

// Fills the loss terms of one piece from its row; bore and nominal size are set already.
void setLossOf(const FittingRow& row, const ThreadRow* thread, const ElementContext& context,
               Element& element) {
    element.crack_m = row.crackHead_m;
    switch (row.model) {
    case LossModel::kConstant:
        element.quadratic_s2_m5 = quadraticOfK(row.k, element.bore_m);
        return;
    case LossModel::ldMultiple:
        element.quadratic_s2_m5 =
            quadraticOfK(row.ld * nearestTurbulentFrictionFactor(*thread), element.bore_m);
        return;
    case LossModel::darby3k: {
        const double turbulent = row.ki * (1.0 + row.kd / std::pow(nominalInches(element.nominalSize), 0.3));
        element.quadratic_s2_m5 = quadraticOfK(turbulent, element.bore_m);
        element.linear_s_m2 = linearOfK1(row.k1, element.bore_m, context.viscosity.inSquareMetresPerSecond());
        return;
    }
    case LossModel::kvTable:
        element.quadratic_s2_m5 = quadraticOfKv(row.kv_m3_h);
        return;
    case LossModel::formula:
        HEADMARK_ASSERT(false, "formula fittings are made from two bores");
    }
}

Result<Element> catalogueFittingElement(const FittingItem& fitting, std::size_t index,
                                        const Neighbours& around, const ElementContext& context) {
    const std::vector<const FittingRow*> rows = rowsOf(fitting.code);
    if (rows.empty()) {
        return errorAt("unknown-fitting", index, "fitting", {{"code", fitting.code}});
    }
    const FittingRow& first = *rows.front();
    const ThreadRow* thread = findThread(fitting.size);
    if (!fitting.size.empty() && thread == nullptr && rowOfSize(rows, fitting.size, nullptr) == nullptr) {
        return noSuchSize(index, fitting, fitting.size, sizesKnown(rows));
    }
    const std::optional<double> own_m = ownBore(fitting, thread);
    if (first.model == LossModel::formula) {
        return reducerElement(fitting, index, around, own_m);
    }
    const std::optional<double> bore_m = own_m ? own_m : neighbouringBore(first.velocityBasis, around);
    const bool tableOfSizes = rows.size() > 1;
    const bool hoseTail = first.velocityBasis == "hose bore";
    const bool boreNeeded = first.model != LossModel::kvTable || (tableOfSizes && thread == nullptr);
    if (boreNeeded && !bore_m) {
        return noBore(index, "fitting", fitting.code);
    }

    Element element = blankFitting(fitting, index);
    element.bore_m = bore_m.value_or(0.0);
    const bool nominalNeeded = first.model == LossModel::ldMultiple || first.model == LossModel::darby3k ||
                               (tableOfSizes && !hoseTail);
    if (thread == nullptr && nominalNeeded) {
        thread = findThread(nominalSizeOfBore(Length::fromMetres(element.bore_m)));
    }
    if (thread != nullptr) {
        element.nominalSize = thread->designation;
    }
    if (hoseTail) {
        element.nominalSize = fitting.size.empty() ? std::string(kUsualHoseTail) : fitting.size;
    }
    const FittingRow* row = tableOfSizes ? rowOfSize(rows, element.nominalSize, thread) : &first;
    if (row == nullptr) {
        return noSuchSize(index, fitting, element.nominalSize, sizesKnown(rows));
    }
    setLossOf(*row, thread, context, element);
    element.quadratic_s2_m5 *= fitting.count;
    element.linear_s_m2 *= fitting.count;
    element.crack_m *= fitting.count;
    return element;
}

} // namespace

Error noBore(std::size_t index, std::string_view what, const std::string& code) {
    return errorAt("no-bore", index, what, {{"code", code}});
}

Result<Element> fittingElement(const FittingItem& fitting, std::size_t index, const Neighbours& around,
                               const ElementContext& context) {
    if (!fitting.code.empty()) {
        return catalogueFittingElement(fitting, index, around, context);
    }
    const ThreadRow* thread = findThread(fitting.size);
    if (!fitting.size.empty() && thread == nullptr) {
        return noSuchSize(index, fitting, fitting.size, sizesKnown({}));
    }
    return freeFittingElement(fitting, index, around, thread);
}

} // namespace headmark
