#include "app/desktop/installation/sheet_pages.h"

#include "analysis/connections/schematic.h"
#include "app/desktop/frame/screen_phrasing.h"
#include "app/desktop/installation/strokes_painter.h"
#include "app/words/caution_words.h"
#include "app/words/part_words.h"
#include "app/words/safety_words.h"
#include "app/words/sheet_rows.h"

#include <QAbstractTextDocumentLayout>
#include <QCoreApplication>
#include <QPageLayout>
#include <QTextDocument>

#include <algorithm>

namespace headmark {

namespace {

struct Words {
    Q_DECLARE_TR_FUNCTIONS(SheetPages)
};

QString cell(const QString& text) { return QStringLiteral("<td>%1</td>").arg(text.toHtmlEscaped()); }

QString heading(const QString& text) { return QStringLiteral("<h3>%1</h3>").arg(text.toHtmlEscaped()); }

QString tableOf(const QStringList& headings, const std::vector<QStringList>& rows) {
    QString html = QStringLiteral("<table width='100%' cellspacing='0' cellpadding='3' border='1' "
                                  "style='border-collapse:collapse;border-color:#888'><thead><tr>");
    for (const QString& title : headings)
        html += QStringLiteral("<th align='left'>%1</th>").arg(title.toHtmlEscaped());
    html += QStringLiteral("</tr></thead>");
    for (const QStringList& row : rows) {
        html += QStringLiteral("<tr>");
        for (const QString& text : row)
            html += cell(text);
        html += QStringLiteral("</tr>");
    }
    return html + QStringLiteral("</table>");
}

QString listOf(const QStringList& items, bool numbered) {
    QString html = numbered ? QStringLiteral("<ol>") : QStringLiteral("<ul>");
    for (const QString& item : items)
        html += QStringLiteral("<li>%1</li>").arg(item.toHtmlEscaped());
    return html + (numbered ? QStringLiteral("</ol>") : QStringLiteral("</ul>"));
}

QString cautionsHtml(const Cautions& cautions, const Phrasing& phrasing) {
    QStringList items;
    for (const Severity severity : {Severity::danger, Severity::warning, Severity::note}) {
        for (const Caution& caution : cautions) {
            if (caution.severity != severity) continue;
            items << severityWords(severity, phrasing) + QStringLiteral(": ") +
                         cautionSentence(caution, phrasing) + QLatin1Char(' ') +
                         remedySentence(caution, phrasing);
        }
    }
    return items.isEmpty() ? QString() : heading(Words::tr("Missing or wrong")) + listOf(items, false);
}

QString partsHtml(const ConnectionSheet& sheet, const Phrasing& phrasing) {
    std::vector<QStringList> rows;
    for (std::size_t i = 0; i < sheet.parts.size(); ++i)
        rows.push_back({QString::number(i + 1), placedPartWords(sheet.parts[i], phrasing),
                        partPurpose(sheet.parts[i].purpose, phrasing)});
    return heading(Words::tr("Parts, in the order the water meets them")) +
           tableOf({Words::tr("No."), Words::tr("Part"), Words::tr("What it is for")}, rows);
}

QString jointsHtml(const ConnectionSheet& sheet, const Phrasing& phrasing) {
    std::vector<QStringList> rows;
    for (const JointKind& kind : jointKinds(sheet, phrasing)) {
        const QString words =
            kind.verdict->right
                ? kind.sentence
                : Words::tr("Wrong: %1 %2").arg(kind.sentence, jointRemedy(*kind.verdict, phrasing));
        rows.push_back({words, kind.between});
    }
    return heading(Words::tr("Joints")) + tableOf({Words::tr("How"), Words::tr("Between")}, rows);
}

QString billHtml(const ConnectionSheet& sheet, const Phrasing& phrasing) {
    return heading(Words::tr("List of parts")) +
           tableOf({Words::tr("Pieces"), Words::tr("Part"), Words::tr("Numbers")}, billRows(sheet, phrasing));
}

QString assemblyHtml(const ConnectionSheet& sheet, const Phrasing& phrasing) {
    QStringList steps;
    for (const AssemblyStep& step : assemblyOf(sheet))
        steps << assemblySentence(step, phrasing);
    return heading(Words::tr("Order of assembly")) + listOf(steps, true);
}

QString firstStartHtml(const std::vector<CommissioningRow>& steps, const Phrasing& phrasing) {
    std::vector<QStringList> rows;
    for (const FirstStartRow& row : firstStartRows(steps, phrasing))
        rows.push_back({row.what, row.expected, blankWords(row)});
    return QStringLiteral("<div style='page-break-before:always'>") +
           heading(Words::tr("First start: read and write down")) +
           tableOf({Words::tr("What"), Words::tr("Expected"), Words::tr("Read")}, rows) +
           QStringLiteral("<p>%1</p></div>")
               .arg(Words::tr("Date and name: ______________________________").toHtmlEscaped());
}

void paintDrawing(QPainter& painter, const QRectF& room, const ConnectionSheet& sheet,
                  const Phrasing& phrasing) {
    const Schematic drawing = schematicOf(sheet);
    if (drawing.width <= 0.0 || drawing.height <= 0.0) return;
    const double scale = std::min(room.width() / drawing.width, room.height() / drawing.height);
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.translate(room.topLeft());
    painter.scale(scale, scale);
    paintStrokes(painter, drawing.strokes(), Qt::black, phrasing);
    painter.restore();
}

QString titleOf(const PumpFindings& pump, const Job& job) {
    const QString title = QString::fromStdString(job.title), name = QString::fromStdString(pump.name);
    return title.isEmpty() ? Words::tr("Connection sheet: %1").arg(name)
                           : Words::tr("Connection sheet: %1, %2").arg(title, name);
}

constexpr double kMargin_mm = 15.0;
constexpr double kBodyPoints = 9.0;

} // namespace

QString sheetHtml(const PumpFindings& pump, const Job& job) {
    const Phrasing phrasing = screenPhrasing(job.site);
    const ConnectionSheet& sheet = pump.connections->sheet;
    return cautionsHtml(sheet.findings, phrasing) + partsHtml(sheet, phrasing) + jointsHtml(sheet, phrasing) +
           billHtml(sheet, phrasing) + assemblyHtml(sheet, phrasing) +
           firstStartHtml(pump.connections->commissioning, phrasing) + heading(Words::tr("Always")) +
           listOf(usualCautions(phrasing), false);
}

void paintSheet(QPagedPaintDevice& device, const PumpFindings& pump, const Job& job) {
    device.setPageLayout(QPageLayout(QPageSize(QPageSize::A4), QPageLayout::Landscape,
                                     QMarginsF(kMargin_mm, kMargin_mm, kMargin_mm, kMargin_mm),
                                     QPageLayout::Millimeter));
    QPainter painter(&device);
    const double dpi = device.logicalDpiX();
    QFont title = painter.font();
    title.setPointSizeF(14.0);
    title.setWeight(QFont::DemiBold);
    painter.setFont(title);
    const QRectF page(0, 0, device.width(), device.height());
    painter.drawText(page, Qt::AlignLeft | Qt::AlignTop, titleOf(pump, job));
    QFont body = painter.font();
    body.setPointSizeF(kBodyPoints);
    body.setWeight(QFont::Normal);
    painter.setFont(body);
    paintDrawing(painter, page.adjusted(0, dpi * 0.5, 0, 0), pump.connections->sheet,
                 screenPhrasing(job.site));

    device.setPageOrientation(QPageLayout::Portrait);
    device.newPage();
    QTextDocument document;
    document.documentLayout()->setPaintDevice(&device);
    document.setDefaultFont(body);
    document.setDocumentMargin(0.0);
    document.setHtml(sheetHtml(pump, job));
    const QSizeF paper(device.width(), device.height());
    document.setPageSize(paper);
    for (int i = 0; i < document.pageCount(); ++i) {
        if (i > 0) device.newPage();
        painter.save();
        const QRectF visible(0, i * paper.height(), paper.width(), paper.height());
        painter.translate(0, -visible.top());
        painter.setClipRect(visible);
        QAbstractTextDocumentLayout::PaintContext context;
        context.palette.setColor(QPalette::Text, Qt::black);
        context.clip = visible;
        document.documentLayout()->draw(&painter, context);
        painter.restore();
    }
}

} // namespace headmark
