#pragma once
// Plain text filled into lines of a given width.

#include <QString>
#include <QStringList>

#include <vector>

namespace headmark {

// Breaks at spaces; a word longer than the line is cut. At least one line.
[[nodiscard]] QStringList wrapped(const QString& text, int columns);

// One column of a table; text stands left, figures right.
struct TextColumn {
    QStringList heading; // lines from the top
    int width = 0;
    bool figures = true;
};

class TextPage {
  public:
    explicit TextPage(int columns) : columns_(columns) {}

    void title(const QString& text, QChar underline);
    void blank() { lines_ << QString(); }
    void paragraph(const QString& text, int indent = 0);
    void item(const QString& text, int indent = 0); // with a leading hyphen, further lines under its text
    // Columns stand two blanks apart; a cell too long for its column goes on in the next line.
    void table(const std::vector<TextColumn>& columns, const std::vector<QStringList>& rows);

    [[nodiscard]] QString text() const; // with a final newline

  private:
    void row(const std::vector<TextColumn>& columns, const QStringList& cells);

    int columns_;
    QStringList lines_;
};

} // namespace headmark
