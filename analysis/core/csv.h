#pragma once
// The plain CSV of the catalogues: comma separated, one header line, no quoting; '#' lines are comments.

#include <string>
#include <string_view>
#include <vector>

namespace headmark {

class CsvTable {
  public:
    // Asserts on a row whose number of fields differs from the header's (a broken embedded table).
    explicit CsvTable(std::string_view text);

    [[nodiscard]] std::size_t rows() const { return rows_.size(); }
    // Asserts on an unknown column.
    [[nodiscard]] const std::string& text(std::size_t row, std::string_view column) const;
    // Empty field: `otherwise`. Asserts on text that is not a number.
    [[nodiscard]] double number(std::size_t row, std::string_view column, double otherwise = 0.0) const;
    [[nodiscard]] bool empty(std::size_t row, std::string_view column) const;

  private:
    [[nodiscard]] std::size_t columnIndex(std::string_view column) const;
    std::vector<std::string> columns_;
    std::vector<std::vector<std::string>> rows_;
};

} // namespace headmark
