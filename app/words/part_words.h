#pragma once
// The words of the connection sheet, its order of assembly and the commissioning sheet: names of parts, what
// each is for, how joints are sealed or why they are wrong, steps and rows. All in the phrasing's language.

#include "analysis/connections/assembly.h"
#include "analysis/connections/bill.h"
#include "analysis/connections/commissioning.h"
#include "analysis/connections/connection_sheet.h"
#include "app/words/caution_words_parts.h"
#include "app/words/error_words_parts.h"
#include "app/words/phrasing.h"

#include <QString>

#include <span>
#include <string_view>
#include <vector>

namespace headmark {

// "Hexagon nipple, galvanised"; an unknown code is given back as it is.
[[nodiscard]] QString partName(std::string_view part, const Phrasing& phrasing);
// "Hexagon nipple, galvanised, 1-1/2", "Hose, PVC hose wire or rigid helix 2 in (51 mm bore), 7.0 m".
[[nodiscard]] QString placedPartWords(const PlacedPart& part, const Phrasing& phrasing);
// "1-1/2", "2 to hose of 51 mm", "63 mm to 2".
[[nodiscard]] QString partSizeWords(const PlacedPart& part, const Phrasing& phrasing);
// The row of the list of parts without its count: "Hexagon nipple, galvanised, 1-1/2".
[[nodiscard]] QString billRowWords(const BillRow& row, const Phrasing& phrasing);
// One sentence; `purpose` of a placed part.
[[nodiscard]] QString partPurpose(std::string_view purpose, const Phrasing& phrasing);
// "brass", of the catalogue's column `material`; empty for "any".
[[nodiscard]] QString materialWords(std::string_view material, const Phrasing& phrasing);

// How it is sealed, or why it is wrong; and what to do instead (empty when right).
[[nodiscard]] QString jointSentence(const JointVerdict& verdict, const Phrasing& phrasing);
[[nodiscard]] QString jointRemedy(const JointVerdict& verdict, const Phrasing& phrasing);

// The step's sentence with the numbers of its parts: "Screw up the parts 7 to 15 on the pump's inlet ...".
[[nodiscard]] QString assemblySentence(const AssemblyStep& step, const Phrasing& phrasing);

struct CommissioningWords {
    QString what;     // what to do
    QString expected; // "about 420 kPa"; empty where nothing is known
    QString unit;     // of the blank; empty: a tick
};
[[nodiscard]] CommissioningWords commissioningWords(const CommissioningRow& row, const Phrasing& phrasing);

// "level electrodes", of what stops a pump before it runs dry as jobs name it ("electrode").
[[nodiscard]] QString deviceWords(std::string_view device, const Phrasing& phrasing);

// Captions of the drawing: "inlet", "outlet", "to-main", "to-tank".
[[nodiscard]] QString captionWords(std::string_view caption, const Phrasing& phrasing);

// Findings of the sheet, for caution_words; errors of sheet and swaps, for error_words.
[[nodiscard]] std::span<const CautionEntry> partCautionRows();
[[nodiscard]] std::span<const RemedyEntry> partRemedyRows();
[[nodiscard]] std::span<const ErrorEntry> partErrorEntries();

// The codes that have words.
[[nodiscard]] std::vector<std::string_view> wordedParts();
[[nodiscard]] std::vector<std::string_view> wordedPurposes();
[[nodiscard]] std::vector<std::string_view> wordedJoints();
[[nodiscard]] std::vector<std::string_view> wordedJointRemedies();
[[nodiscard]] std::vector<std::string_view> wordedSteps();
[[nodiscard]] std::vector<std::string_view> wordedCommissioningRows();

struct PartNameRow {
    std::string_view code;
    const char* name;
};
// Of every part of the catalogue; in part_name_words.cpp.
[[nodiscard]] std::span<const PartNameRow> partNameRows();

} // namespace headmark
