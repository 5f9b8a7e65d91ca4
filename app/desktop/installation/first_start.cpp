#include "app/desktop/installation/first_start.h"

#include "app/desktop/frame/screen_phrasing.h"
#include "app/desktop/frame/theme.h"
#include "app/words/sheet_rows.h"

namespace headmark {

namespace {

enum Column { kWhat, kExpected, kRead };
constexpr double kWhatShare = 0.6;

} // namespace

FirstStart::FirstStart(QWidget* parent)
    : WholeTable({tr("What"), tr("Expected"), tr("Read")}, kWhat, kWhatShare, parent) {
    setAccessibleName(tr("What to do and read at the first start"));
    setSelectionMode(QAbstractItemView::NoSelection);
    setFocusPolicy(Qt::NoFocus); // read, not worked in
}

void FirstStart::show(const std::vector<CommissioningRow>& steps) {
    const auto rows = firstStartRows(steps, screenPhrasing());
    setRowCount(static_cast<int>(rows.size()));
    for (int row = 0; row < rowCount(); ++row) {
        const FirstStartRow& words = rows[static_cast<std::size_t>(row)];
        put(row, kWhat, words.what, theme().text);
        put(row, kExpected, words.expected, theme().text);
        put(row, kRead, blankWords(words), theme().faint);
    }
    fit();
}

} // namespace headmark
