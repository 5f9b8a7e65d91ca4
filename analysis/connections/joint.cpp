#include "analysis/connections/joint.h"

#include "analysis/core/assertion.h"
#include "analysis/core/csv.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <utility>
#include <vector>

namespace headmark::embedded {
std::string_view joint_rules_csv();
}

namespace headmark {

namespace {

// Bores and outside diameters that mean the same size; catalogue steps are far wider.
constexpr double kSameSize_mm = 0.6;

bool sameDiameter(const End& a, const End& b) {
    return std::abs(a.diameter_mm - b.diameter_mm) <= kSameSize_mm;
}

bool parallel(const End& end) {
    return end.form == ThreadForm::parallelG || end.form == ThreadForm::parallelRp;
}

std::string_view threadsCode(const End& a, const End& b, const JointUse& use) {
    if (a.male == b.male) return a.male ? "two-males" : "two-females";
    if (a.size != b.size) return "sizes-differ";
    const End& male = a.male ? a : b;
    const End& female = a.male ? b : a;
    const bool taperMale = male.form == ThreadForm::taperR;
    if (!taperMale && female.form == ThreadForm::taperRc) return "parallel-male-in-taper-female";
    if (!taperMale) {
        const bool washer = male.face == Face::washer || female.face == Face::washer;
        const bool faces = male.face != Face::none && female.face != Face::none;
        return washer && faces && parallel(female) ? "parallel-with-washer" : "parallel-without-washer";
    }
    if (female.face == Face::washer) return "taper-male-in-nut";
    if (male.body == Body::metal && female.body == Body::plastic) return "metal-taper-in-plain-plastic";
    if (!use.tape) return "taper-without-tape";
    if (female.form == ThreadForm::taperRc) return "taper-in-taper";
    return female.form == ThreadForm::parallelRp ? "taper-in-parallel" : "taper-in-fastening";
}

std::string_view hoseCode(const End& a, const End& b, const JointUse& use) {
    const End& hose = a.kind == EndKind::hose ? a : b;
    const End& other = a.kind == EndKind::hose ? b : a;
    if (other.kind != EndKind::tail) return "hose-without-tail";
    if (!sameDiameter(hose, other)) return "sizes-differ";
    if (use.clamp == Clamp::none) return "hose-without-clamp";
    if (use.clamp == Clamp::wormDrive)
        return use.suction ? "worm-clamp-on-suction" : "worm-clamp-under-pressure";
    return "tail-in-hose";
}

struct Pairing {
    EndKind pipe, socket;
    std::string_view code;
};
constexpr Pairing kPairings[] = {{EndKind::pePipe, EndKind::peSocket, "pipe-in-compression"},
                                 {EndKind::pvcPipe, EndKind::pvcSocket, "pipe-in-solvent-socket"},
                                 {EndKind::tube, EndKind::tubeSocket, "tube-in-compression"}};

std::string_view codeOf(const End& a, const End& b, const JointUse& use) {
    if (a.kind == EndKind::any || b.kind == EndKind::any) return "to-suit";
    if (a.kind == EndKind::hose || b.kind == EndKind::hose) return hoseCode(a, b, use);
    if (a.kind == EndKind::thread && b.kind == EndKind::thread) return threadsCode(a, b, use);
    if (a.kind == EndKind::flange && b.kind == EndKind::flange)
        return a.size == b.size ? "flanges" : "sizes-differ";
    for (const Pairing& pair : kPairings) {
        if ((a.kind == pair.pipe && b.kind == pair.socket) || (a.kind == pair.socket && b.kind == pair.pipe))
            return sameDiameter(a, b) ? pair.code : "sizes-differ";
    }
    return "ends-of-different-kind";
}

std::vector<JointRule> readRules() {
    const CsvTable table(embedded::joint_rules_csv());
    std::vector<JointRule> rules;
    for (std::size_t i = 0; i < table.rows(); ++i) {
        rules.push_back({table.text(i, "code"), table.text(i, "seal"), table.text(i, "remedy"),
                         table.text(i, "confidence"), table.text(i, "source"),
                         table.text(i, "right") == "yes"});
    }
    return rules;
}

const JointRule& ruleOf(std::string_view code) {
    const auto rules = jointRules();
    const auto found =
        std::find_if(rules.begin(), rules.end(), [&](const JointRule& r) { return r.code == code; });
    HEADMARK_ASSERT(found != rules.end(), "a joint verdict without a rule");
    return *found;
}

std::string millimetres(double value) {
    char text[32];
    std::snprintf(text, sizeof text, "%g mm", value);
    return text;
}

} // namespace

std::span<const JointRule> jointRules() {
    static const std::vector<JointRule> rules = readRules();
    return rules;
}

JointVerdict judgedJoint(const End& a, const End& b, const JointUse& use) {
    const JointRule& rule = ruleOf(codeOf(a, b, use));
    return {rule.right, rule.code, rule.seal, rule.remedy, rule.source};
}

bool joins(const End& a, const End& b, const JointUse& use) { return ruleOf(codeOf(a, b, use)).right; }

std::string endText(const End& end) {
    switch (end.kind) {
    case EndKind::thread:
        return std::string(threadFormName(end.form)) + " " + end.size + (end.male ? " male" : " female");
    case EndKind::tail:
        return "tail " + millimetres(end.diameter_mm);
    case EndKind::hose:
        return "hose " + millimetres(end.diameter_mm);
    case EndKind::peSocket:
        return "PE socket " + millimetres(end.diameter_mm);
    case EndKind::pePipe:
        return "PE pipe " + millimetres(end.diameter_mm);
    case EndKind::pvcSocket:
        return "PVC socket " + millimetres(end.diameter_mm);
    case EndKind::pvcPipe:
        return "PVC pipe " + millimetres(end.diameter_mm);
    case EndKind::tubeSocket:
        return "tube socket " + millimetres(end.diameter_mm);
    case EndKind::tube:
        return "tube " + millimetres(end.diameter_mm);
    case EndKind::flange:
        return "flange for " + end.size;
    case EndKind::plain:
        return "pipe of bore " + millimetres(end.diameter_mm);
    case EndKind::wall:
        return "tank wall";
    case EndKind::water:
        return "open";
    case EndKind::any:
        break;
    }
    return "to suit";
}

} // namespace headmark
