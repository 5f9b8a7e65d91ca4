#include "app/words/text_page.h"

#include <algorithm>

namespace headmark {

namespace {

constexpr int kHanging = 2; // "- "

// Figures stand right, words left.
QString cell(const QString& text, const TextColumn& column) {
    return column.figures ? text.rightJustified(column.width) : text.leftJustified(column.width);
}

// A figure and its unit stay on one line.
QStringList wordsOf(const QString& text) {
    static const QStringList units{"m", "m/s", "m³/h", "mm", "kPa", "kW", "kWh/m³", "%", "mA"};
    QStringList words;
    QString printable = text.simplified();
    // A name from a file must not steer the terminal.
    printable.removeIf([](QChar c) { return c.category() == QChar::Other_Control; });
    for (const QString& word : printable.split(QLatin1Char(' '))) {
        QString bare = word;
        while (!bare.isEmpty() && QStringLiteral(".,;:)]").contains(bare.back()))
            bare.chop(1);
        const bool afterFigure = !words.isEmpty() && !words.back().isEmpty() && words.back().back().isDigit();
        if (afterFigure && units.contains(bare)) {
            words.back() += QLatin1Char(' ') + word;
        } else {
            words << word;
        }
    }
    return words;
}

QString withoutEndBlanks(QString line) {
    while (line.endsWith(QLatin1Char(' ')))
        line.chop(1);
    return line;
}

} // namespace

QStringList wrapped(const QString& text, int columns) {
    QStringList lines;
    QString line;
    for (QString word : wordsOf(text)) {
        if (!line.isEmpty() && line.size() + 1 + word.size() <= columns) {
            line += QLatin1Char(' ') + word;
            continue;
        }
        if (!line.isEmpty()) lines << line;
        while (word.size() > columns) {
            lines << word.left(columns);
            word = word.mid(columns);
        }
        line = word;
    }
    if (!line.isEmpty() || lines.isEmpty()) lines << line;
    return lines;
}

void TextPage::title(const QString& text, QChar underline) {
    const QStringList parts = wrapped(text, columns_);
    qsizetype longest = 0;
    for (const QString& part : parts)
        longest = std::max(longest, part.size());
    lines_ << parts << QString(longest, underline);
}

void TextPage::paragraph(const QString& text, int indent) {
    for (const QString& line : wrapped(text, columns_ - indent)) {
        lines_ << QString(indent, QLatin1Char(' ')) + line;
    }
}

void TextPage::item(const QString& text, int indent) {
    QString lead = QString(indent, QLatin1Char(' ')) + QStringLiteral("- ");
    for (const QString& line : wrapped(text, columns_ - indent - kHanging)) {
        lines_ << lead + line;
        lead = QString(indent + kHanging, QLatin1Char(' '));
    }
}

void TextPage::table(const std::vector<TextColumn>& columns, const std::vector<QStringList>& rows) {
    qsizetype headings = 0;
    for (const TextColumn& c : columns)
        headings = std::max(headings, c.heading.size());
    for (qsizetype i = 0; i < headings; ++i) {
        QStringList cells;
        for (const TextColumn& c : columns)
            cells << c.heading.value(i);
        row(columns, cells);
    }
    for (const QStringList& cells : rows)
        row(columns, cells);
}

void TextPage::row(const std::vector<TextColumn>& columns, const QStringList& cells) {
    std::vector<QStringList> parts;
    qsizetype height = 1;
    for (std::size_t c = 0; c < columns.size(); ++c) {
        parts.push_back(wrapped(cells.value(static_cast<qsizetype>(c)), columns[c].width));
        height = std::max(height, parts.back().size());
    }
    for (qsizetype i = 0; i < height; ++i) {
        QString line;
        for (std::size_t c = 0; c < columns.size(); ++c) {
            if (c > 0) line += QStringLiteral("  ");
            line += cell(parts[c].value(i), columns[c]);
        }
        lines_ << withoutEndBlanks(line);
    }
}

QString TextPage::text() const { return lines_.join(QLatin1Char('\n')) + QLatin1Char('\n'); }

} // namespace headmark
