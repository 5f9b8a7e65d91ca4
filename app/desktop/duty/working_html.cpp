#include "app/desktop/duty/working_html.h"

#include "app/desktop/frame/theme.h"
#include "app/words/working_words.h"

#include <QCoreApplication>
#include <QUrl>

namespace headmark {

namespace {

constexpr int kIndent_px = 16;
constexpr int kShort_letters = 24;

// A figure is not parted from its unit at the end of a line; longer words may be.
QString unparted(QString result) {
    return result.size() > kShort_letters ? result : result.replace(QLatin1Char(' '), QChar::Nbsp);
}

struct WorkingHtml {
    Q_DECLARE_TR_FUNCTIONS(WorkingHtml)
};

} // namespace

QString stepAnchor(const WorkingStep& step) {
    return QString::fromStdString(step.place.empty() ? step.code : step.code + "@" + step.place);
}

QString anchorLink(const QString& anchor) {
    return QString::fromLatin1(QUrl::toPercentEncoding(anchor, "@[]")); // names of cases hold anything
}

QString foldHtml(const QString& anchor, bool open, const QString& title, const QString& result, int level) {
    return QStringLiteral("<p style='margin:5px 0 1px %1px'><a href='#%2' "
                          "style='text-decoration:none;color:%3'>%4 %5</a>%6</p>")
        .arg(QString::number(level * kIndent_px), anchorLink(anchor), theme().text.name(),
             open ? QStringLiteral("▾") : QStringLiteral("▸"), title.toHtmlEscaped(),
             result.isEmpty() ? QString()
                              : QStringLiteral(": <b>%1</b>").arg(unparted(result).toHtmlEscaped()));
}

QString indentedHtml(const QString& text, const QColor& color, int level) {
    return QStringLiteral("<p style='margin:1px 0 1px %1px;color:%2'>%3</p>")
        .arg(QString::number((level + 1) * kIndent_px), color.name(),
             text.toHtmlEscaped().replace(QLatin1Char('\n'), QStringLiteral("<br>")));
}

QString stepHtml(const WorkingStep& step, const QString& anchor, bool open, const Phrasing& phrasing,
                 int level, const QString& result) {
    const WorkingWords words = workingWords(step, phrasing);
    QString html = foldHtml(anchor, open, words.title, result.isEmpty() ? words.result : result, level);
    if (!open) return html;
    const Theme& t = theme();
    if (!words.formula.isEmpty()) html += indentedHtml(words.formula, t.text, level);
    if (!words.with.isEmpty()) html += indentedHtml(WorkingHtml::tr("= %1").arg(words.with), t.text, level);
    html += indentedHtml(WorkingHtml::tr("= %1").arg(words.result), t.text, level);
    if (!words.source.isEmpty())
        html += indentedHtml(WorkingHtml::tr("Source: %1").arg(words.source), t.faint, level);
    return html;
}

} // namespace headmark
