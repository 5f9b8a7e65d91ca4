#include "analysis/connections/bill.h"

#include "analysis/pipework/catalogue.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <numbers>

namespace headmark {

namespace {

constexpr double kTurns = 8.0; // common practice, no source; narrow threads take fewer, plastic ones more

bool same(const BillRow& row, const PlacedPart& part) {
    return row.part == part.part && row.size == part.size && row.item == part.item &&
           row.main == (part.line == SheetLine::main);
}

// Items of catalogue pipes and filters tell them apart; a fitting's code only says which loss it carries.
bool keepsItem(const PlacedPart& part) { return findPipe(part.item) || findFilter(part.item); }

void addPart(std::vector<BillRow>& rows, const PlacedPart& placed, std::size_t index) {
    PlacedPart part = placed;
    if (!keepsItem(part)) part.item.clear();
    auto row = std::find_if(rows.begin(), rows.end(), [&](const BillRow& r) { return same(r, part); });
    if (row == rows.end()) {
        rows.push_back({part.part, part.size, part.item, 0, {}, {}, part.line == SheetLine::main});
        row = std::prev(rows.end());
        if (part.length) row->length = Length{};
    }
    row->count += part.count;
    if (part.length && row->length) row->length = *row->length + *part.length;
    row->numbers.push_back(index);
}

void addSeal(std::vector<BillRow>& rows, const char* part, const std::string& size, int count = 1) {
    const auto row = std::find_if(rows.begin(), rows.end(),
                                  [&](const BillRow& r) { return r.part == part && r.size.a == size; });
    if (row != rows.end()) {
        row->count += count;
        return;
    }
    rows.push_back({part, {size, {}}, {}, count, {}, {}, false});
}

std::string millimetres(double value) {
    char text[32];
    std::snprintf(text, sizeof text, "%g", value);
    return text;
}

double majorDiameter_m(const std::string& size) {
    for (const ThreadRow& row : threadRows()) {
        if (row.designation == size) return row.majorDiameter_mm / 1000.0;
    }
    return 0.0;
}

class Seals {
  public:
    explicit Seals(const ConnectionSheet& sheet) : sheet_(sheet) {
        for (const PlacedJoint& joint : sheet.joints)
            add(joint);
        for (const PlacedPart& part : sheet.parts) {
            if (part.row().group == "union" && part.row().seal == "face_washer")
                addSeal(rows_, "face_washer", part.size.a, part.count);
        }
        if (tape_m_ > 0.0) rows_.push_back({"tape_ptfe", {}, {}, 1, Length::fromMetres(tape_m_), {}, false});
        if (cement_) rows_.push_back({"solvent_cement", {}, {}, 1, {}, {}, false});
    }

    std::vector<BillRow> rows() { return std::move(rows_); }

  private:
    void add(const PlacedJoint& joint) {
        const End& a = sheet_.parts[joint.before].ends[joint.endBefore];
        const End& b = sheet_.parts[joint.after].ends[joint.endAfter];
        const std::string& seal = joint.verdict.seal;
        if (seal == "tape") tape_m_ += kTurns * std::numbers::pi * majorDiameter_m(a.size);
        if (seal == "face-washer") addSeal(rows_, "face_washer", a.size);
        if (seal == "gasket") addSeal(rows_, "flange_gasket", a.size);
        if (seal == "cement") cement_ = true;
        if (seal == "clamp")
            addSeal(rows_, "clamp_heavy_band",
                    millimetres(a.kind == EndKind::hose ? a.diameter_mm : b.diameter_mm));
    }

    const ConnectionSheet& sheet_;
    std::vector<BillRow> rows_;
    double tape_m_ = 0.0;
    bool cement_ = false;
};

} // namespace

std::vector<BillRow> billOf(const ConnectionSheet& sheet) {
    std::vector<BillRow> rows;
    for (std::size_t i = 0; i < sheet.parts.size(); ++i)
        addPart(rows, sheet.parts[i], i);
    std::stable_partition(rows.begin(), rows.end(), [](const BillRow& row) { return !row.main; });
    for (BillRow& row : Seals(sheet).rows())
        rows.push_back(std::move(row));
    return rows;
}

} // namespace headmark
