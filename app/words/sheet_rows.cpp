#include "app/words/sheet_rows.h"

#include "app/words/part_words.h"

#include <QCoreApplication>

#include <algorithm>

namespace headmark {

namespace {

constexpr const char* kContext = "Sheet";

#define HM_WORDS(text) QT_TRANSLATE_NOOP("Sheet", text)

} // namespace

QString partNumbers(const std::vector<std::size_t>& parts) {
    QStringList numbers;
    for (const std::size_t part : parts)
        numbers << QString::number(part + 1);
    return numbers.join(QStringLiteral(", "));
}

std::vector<QStringList> billRows(const ConnectionSheet& sheet, const Phrasing& phrasing) {
    std::vector<QStringList> rows;
    for (const BillRow& row : billOf(sheet))
        rows.push_back({QString::number(row.count), billRowWords(row, phrasing), partNumbers(row.numbers)});
    return rows;
}

std::vector<JointKind> jointKinds(const ConnectionSheet& sheet, const Phrasing& phrasing) {
    std::vector<JointKind> kinds;
    for (const PlacedJoint& joint : sheet.joints) {
        const QString numbers = QStringLiteral("%1–%2").arg(joint.before + 1).arg(joint.after + 1);
        const auto same = std::find_if(kinds.begin(), kinds.end(), [&](const JointKind& kind) {
            return kind.verdict->code == joint.verdict.code;
        });
        if (same != kinds.end())
            same->between += QStringLiteral(", ") + numbers;
        else
            kinds.push_back({&joint.verdict, jointSentence(joint.verdict, phrasing), numbers});
    }
    return kinds;
}

std::vector<FirstStartRow> firstStartRows(const std::vector<CommissioningRow>& steps, const Phrasing& p) {
    std::vector<FirstStartRow> rows;
    for (const CommissioningRow& step : steps) {
        const CommissioningWords words = commissioningWords(step, p);
        const QString parts = step.parts.empty()
                                  ? QString()
                                  : p.text(kContext, HM_WORDS(" (part %1)")).arg(partNumbers(step.parts));
        rows.push_back({words.what + parts, words.expected, words.unit});
    }
    return rows;
}

QString blankWords(const FirstStartRow& row) {
    return row.unit.isEmpty() ? QStringLiteral("☐") : QStringLiteral("__________ %1").arg(row.unit);
}

} // namespace headmark
