#include "analysis/core/csv.h"

#include "analysis/core/assertion.h"

#include <algorithm>
#include <charconv>
#include <string>

namespace headmark {

namespace {

std::vector<std::string> fieldsOf(std::string_view line) {
    std::vector<std::string> fields;
    for (;;) {
        const auto comma = line.find(',');
        fields.emplace_back(line.substr(0, comma));
        if (comma == std::string_view::npos) {
            return fields;
        }
        line.remove_prefix(comma + 1);
    }
}

// Cuts the first line off `text`; accepts both line ends.
std::string_view takeLine(std::string_view& text) {
    const auto end = text.find('\n');
    std::string_view line = text.substr(0, end);
    text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    if (line.ends_with('\r')) {
        line.remove_suffix(1);
    }
    return line;
}

} // namespace

CsvTable::CsvTable(std::string_view text) {
    while (!text.empty()) {
        const std::string_view line = takeLine(text);
        if (line.empty() || line.front() == '#') {
            continue;
        }
        std::vector<std::string> fields = fieldsOf(line);
        if (columns_.empty()) {
            columns_ = std::move(fields);
            continue;
        }
        HEADMARK_ASSERT(fields.size() == columns_.size(),
                        "a row has another number of fields than the header");
        rows_.push_back(std::move(fields));
    }
    HEADMARK_ASSERT(!columns_.empty(), "a table without a header");
}

const std::string& CsvTable::text(std::size_t row, std::string_view column) const {
    HEADMARK_ASSERT(row < rows_.size(), "row beyond the table's end");
    return rows_[row][columnIndex(column)];
}

double CsvTable::number(std::size_t row, std::string_view column, double otherwise) const {
    const std::string& field = text(row, column);
    if (field.empty()) {
        return otherwise;
    }
    // from_chars knows no locale: a decimal comma on the user's system must not matter here.
    double value = 0.0;
    const char* end = field.data() + field.size();
    const auto read = std::from_chars(field.data(), end, value);
    HEADMARK_ASSERT(read.ec == std::errc() && read.ptr == end, "a field that should be a number is none");
    return value;
}

bool CsvTable::empty(std::size_t row, std::string_view column) const { return text(row, column).empty(); }

std::size_t CsvTable::columnIndex(std::string_view column) const {
    const auto found = std::find(columns_.begin(), columns_.end(), column);
    HEADMARK_ASSERT(found != columns_.end(), "unknown column");
    return static_cast<std::size_t>(found - columns_.begin());
}

} // namespace headmark
