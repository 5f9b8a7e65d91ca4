#include "analysis/job/cautions_json.h"
#include "analysis/job/connection_finding.h"

namespace headmark {

namespace {

using Json = nlohmann::ordered_json;

const char* lineName(SheetLine line) {
    switch (line) {
    case SheetLine::inlet:
        return "inlet";
    case SheetLine::pump:
        return "pump";
    case SheetLine::outlet:
        return "outlet";
    case SheetLine::main:
        return "main";
    case SheetLine::control:
        break;
    }
    return "control";
}

const char* originName(PartOrigin origin) {
    return origin == PartOrigin::run ? "run" : origin == PartOrigin::adapter ? "adapter" : "added";
}

Json numbersJson(const std::vector<std::size_t>& parts) {
    Json list = Json::array();
    for (const std::size_t part : parts)
        list.push_back(part + 1);
    return list;
}

Json partJson(const PlacedPart& part, std::size_t index, const Wording& wording) {
    const Wording::PartText text = wording.partText(part);
    return {{"number", index + 1},
            {"part", part.part},
            {"name", text.name},
            {"size", text.size},
            {"line", lineName(part.line)},
            {"origin", originName(part.origin)},
            {"count", part.count},
            {"length_m", part.length ? finiteJson(part.length->inMetres()) : Json(nullptr)},
            {"branch_of", part.branchOf ? Json(*part.branchOf + 1) : Json(nullptr)},
            {"place", part.place},
            {"item", part.item},
            {"slot", part.slot},
            {"purpose", text.purpose}};
}

Json jointJson(const PlacedJoint& joint, const Wording& wording) {
    return {{"before", joint.before + 1},    {"after", joint.after + 1},
            {"code", joint.verdict.code},    {"right", joint.verdict.right},
            {"seal", joint.verdict.seal},    {"text", wording.jointText(joint.verdict)},
            {"source", joint.verdict.source}};
}

Json billJson(const BillRow& row, const Wording& wording) {
    return {{"part", row.part},
            {"text", wording.billText(row)},
            {"count", row.count},
            {"length_m", row.length ? finiteJson(row.length->inMetres()) : Json(nullptr)},
            {"numbers", numbersJson(row.numbers)}};
}

Json commissioningJson(const CommissioningRow& row, const Wording& wording) {
    const Wording::CommissioningText text = wording.commissioningText(row);
    return {{"code", row.code},
            {"text", text.what},
            {"expected", factsJson(row.expected)},
            {"expected_text", text.expected},
            {"why", row.why},
            {"reading", row.unitKey},
            {"parts", numbersJson(row.parts)}};
}

} // namespace

Json connectionJson(const ConnectionFinding& finding, const Wording& wording) {
    const ConnectionSheet& sheet = finding.sheet;
    Json doc{{"parts", Json::array()},    {"joints", Json::array()},        {"bill", Json::array()},
             {"assembly", Json::array()}, {"commissioning", Json::array()}, {"cautions", Json::array()}};
    for (std::size_t i = 0; i < sheet.parts.size(); ++i)
        doc["parts"].push_back(partJson(sheet.parts[i], i, wording));
    for (const PlacedJoint& joint : sheet.joints)
        doc["joints"].push_back(jointJson(joint, wording));
    for (const BillRow& row : billOf(sheet))
        doc["bill"].push_back(billJson(row, wording));
    for (const AssemblyStep& step : assemblyOf(sheet))
        doc["assembly"].push_back(
            {{"code", step.code}, {"text", wording.stepText(step)}, {"parts", numbersJson(step.parts)}});
    for (const CommissioningRow& row : finding.commissioning)
        doc["commissioning"].push_back(commissioningJson(row, wording));
    doc["cautions"] = cautionsJson(sheet.findings, wording);
    return doc;
}

std::string sheetJson(const PumpFindings& pump, const Wording& wording) {
    Json doc{{"format", "headmark-connection-sheet"}, {"version", 1}, {"pump", pump.name}};
    doc["sheet"] = pump.connections ? connectionJson(*pump.connections, wording) : Json(nullptr);
    return doc.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

} // namespace headmark
