#include "app/desktop/charts/sheets_card.h"

#include "app/desktop/charts/chart_words.h"
#include "app/desktop/charts/flow_layout.h"

#include <QFileInfo>

#include <algorithm>

namespace headmark {

namespace {

constexpr int kPath = Qt::UserRole, kPump = Qt::UserRole + 1;
constexpr int kMostRows = 6, kRowGap_px = 1;

QString sheetTitle(const ChartSheet& sheet) {
    return QFileInfo(QString::fromStdString(sheet.path)).fileName().section(QLatin1Char('.'), 0, 0);
}

QString linesWords(const ChartSheet& sheet) {
    QStringList quantities;
    for (const ChartLine& line : sheet.reading->lines) {
        const QString words = quantityWords(line.quantity).toLower();
        if (!quantities.contains(words)) quantities << words;
    }
    if (quantities.isEmpty()) return SheetsCard::tr("no line read yet");
    return quantities.join(QStringLiteral(", ")).replace(QStringLiteral("npsh"), QStringLiteral("NPSH"));
}

} // namespace

SheetsCard::SheetsCard(ChartSession& session, QWidget* parent)
    : Card(tr("Charts of this job"), parent), session_(session), list_(new QListWidget(this)) {
    list_->setObjectName(QStringLiteral("sheets"));
    list_->setAccessibleName(tr("Charts and tables of this job"));
    list_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    list_->setTextElideMode(Qt::ElideRight);
    list_->setSpacing(kRowGap_px);
    content().addWidget(list_);
    auto* buttons = new FlowLayout;
    auto* open = plainButton(tr("Open a page"), this);
    open->setToolTip(tr("A picture or a PDF with the pump's chart; it can also be dropped on the view."));
    auto* paste = quietButton(tr("Paste a picture"), this);
    auto* table = quietButton(tr("Type a table instead"), this);
    another_ = quietButton(tr("Another chart on this page"), this);
    another_->setToolTip(tr("A page often holds two charts, each with axes and pins of its own."));
    remove_ = quietButton(tr("Remove"), this);
    for (QPushButton* button : {open, paste, table, another_, remove_})
        buttons->addWidget(button);
    content().addLayout(buttons);
    connect(open, &QPushButton::clicked, this, &SheetsCard::openAsked);
    connect(paste, &QPushButton::clicked, this, &SheetsCard::pasteAsked);
    connect(table, &QPushButton::clicked, this, &SheetsCard::tableAsked);
    connect(another_, &QPushButton::clicked, this, &SheetsCard::anotherOnPage);
    connect(remove_, &QPushButton::clicked, this, &SheetsCard::removeChosen);
    connect(list_, &QListWidget::currentRowChanged, this, &SheetsCard::take);
    connect(&session_, &ChartSession::changed, this, &SheetsCard::follow);
    connect(&session_, &ChartSession::sheetChanged, this, &SheetsCard::follow);
    follow();
}

void SheetsCard::setTable(std::optional<std::size_t> pump) {
    table_ = pump;
    follow();
}

void SheetsCard::follow() {
    if (session_.isDragging()) return;
    filling_ = true;
    list_->clear();
    const Workspace& workspace = session_.desk.document.workspace();
    for (const ChartSheet& sheet : workspace.charts) {
        auto* item = new QListWidgetItem(tr("%1: %2").arg(sheetTitle(sheet), linesWords(sheet)), list_);
        item->setData(kPath, QString::fromStdString(sheet.path));
        item->setToolTip(item->text());
        if (!table_ && sheet.path == session_.path()) list_->setCurrentItem(item);
    }
    for (std::size_t p = 0; p < workspace.job.pumps.size(); ++p) {
        const Pump& pump = workspace.job.pumps[p];
        const bool typed = !pump.curves.empty() || pump.readings.empty();
        if (!typed) continue;
        auto* item = new QListWidgetItem(tr("%1: typed table").arg(QString::fromStdString(pump.name)), list_);
        item->setData(kPump, static_cast<int>(p));
        if (table_ == p) list_->setCurrentItem(item);
    }
    const int rows = std::clamp(list_->count(), 1, kMostRows);
    const int row = std::max(list_->sizeHintForRow(0), list_->fontMetrics().height() + 4);
    list_->setFixedHeight(rows * (row + 2 * kRowGap_px) + 6);
    list_->setVisible(list_->count() > 0);
    another_->setVisible(!table_ && !session_.path().empty());
    remove_->setVisible(list_->currentItem() != nullptr);
    filling_ = false;
}

void SheetsCard::take() {
    const QListWidgetItem* item = list_->currentItem();
    if (filling_ || !item) return;
    const QVariant pump = item->data(kPump);
    if (pump.isValid()) {
        emit tableChosen(static_cast<std::size_t>(pump.toInt()));
        return;
    }
    const std::string path = item->data(kPath).toString().toStdString();
    session_.open(path);
    emit chartChosen();
}

void SheetsCard::removeChosen() {
    Document& document = session_.desk.document;
    if (table_) {
        const std::size_t pump = *table_;
        document.edit(tr("Remove a table"), [pump](Workspace& workspace) {
            auto& pumps = workspace.job.pumps;
            if (pump >= pumps.size()) return;
            pumps[pump].curves.clear();
            if (pumps[pump].readings.empty()) pumps.erase(pumps.begin() + static_cast<std::ptrdiff_t>(pump));
        });
        emit chartChosen();
        return;
    }
    const std::string path = session_.path();
    document.edit(tr("Remove a chart"), [&path](Workspace& workspace) { removeSheet(workspace, path); });
}

void SheetsCard::anotherOnPage() {
    const auto reading = session_.reading();
    if (!reading) return;
    auto fresh = std::make_shared<Reading>();
    fresh->chart = reading->chart;
    fresh->printedUnits = reading->printedUnits;
    std::string path;
    session_.desk.document.edit(tr("Read another chart on the page"), [&](Workspace& workspace) {
        path = freeChartPath(workspace, reading->chart.path.empty() ? "chart" : reading->chart.path);
        workspace.charts.push_back({path, fresh});
    });
    session_.open(path);
}

} // namespace headmark
