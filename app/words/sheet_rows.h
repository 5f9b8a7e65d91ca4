#pragma once
// The rows of a connection sheet in words, for the terminal's page, the paper, the files and the screen
// alike.

#include "analysis/connections/bill.h"
#include "analysis/connections/commissioning.h"
#include "app/words/phrasing.h"

#include <QString>
#include <QStringList>

#include <vector>

namespace headmark {

// "7, 8, 11": parts as they are numbered on the drawing.
[[nodiscard]] QString partNumbers(const std::vector<std::size_t>& parts);

// Pieces, part, numbers.
[[nodiscard]] std::vector<QStringList> billRows(const ConnectionSheet& sheet, const Phrasing& phrasing);

// Joints that need the same, in the order in which they first stand.
struct JointKind {
    const JointVerdict* verdict = nullptr; // of the sheet
    QString sentence, between;             // "1–2, 4–5"
};
[[nodiscard]] std::vector<JointKind> jointKinds(const ConnectionSheet& sheet, const Phrasing& phrasing);

struct FirstStartRow {
    QString what, expected; // with the numbers of the parts concerned
    QString unit;           // of the blank; empty: a tick
};
[[nodiscard]] std::vector<FirstStartRow> firstStartRows(const std::vector<CommissioningRow>& steps,
                                                        const Phrasing& phrasing);
// "__________ kPa", or a box to tick.
[[nodiscard]] QString blankWords(const FirstStartRow& row);

} // namespace headmark
