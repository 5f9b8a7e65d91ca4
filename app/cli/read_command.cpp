#include "app/cli/read_command.h"

#include "analysis/job/chart_book.h"
#include "analysis/job/lines_json.h"
#include "app/pages/file_pages.h"
#include "app/words/english_wording.h"
#include "app/words/lines_table.h"

namespace headmark {

int ReadCommand::run(const Arguments& arguments) {
    FilePages pages;
    ChartBook book(pages);
    const auto opened = book.open(arguments.input);
    if (!opened.reading) return refuse(opened.errors);
    const auto chart = book.chart(arguments.input);
    if (!chart.lines) return refuse(chart.errors);
    // Whoever asks for the lines asks for all of them.
    std::vector<Error> unread;
    for (const auto& [line, error] : chart.lines->unread)
        unread.push_back(error);
    if (!unread.empty()) return refuse(unread);
    if (!arguments.table) return deliver(arguments, linesJson(*chart.lines, EnglishWording()));
    const QString title = QString::fromStdString(arguments.input);
    return deliver(arguments, linesTable(*chart.lines, *opened.reading, title).toStdString());
}

} // namespace headmark
