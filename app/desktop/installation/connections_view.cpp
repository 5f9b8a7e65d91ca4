#include "app/desktop/installation/connections_view.h"

#include "analysis/connections/assembly.h"
#include "app/desktop/frame/screen_phrasing.h"
#include "app/desktop/frame/theme.h"
#include "app/words/part_words.h"

#include <QScrollBar>

#include <algorithm>

namespace headmark {

namespace {

constexpr int kBeside_letters = 130; // width of the page in letters from which the column stands beside
constexpr double kColumnShare = 0.32;

QString numberedHtml(const QStringList& steps) {
    QString html = QStringLiteral("<ol style='margin-left:-16px;color:%1'>").arg(theme().text.name());
    for (const QString& step : steps)
        html += QStringLiteral("<li style='margin-bottom:4px'>%1</li>").arg(step.toHtmlEscaped());
    return html + QStringLiteral("</ol>");
}

} // namespace

ConnectionsView::ConnectionsView(Desk& desk, QWidget* parent)
    : QWidget(parent), desk_(desk), drawingArea_(new QScrollArea), drawing_(new SheetDrawing),
      drawingCard_(new Card(tr("From the source to the main"))),
      cautionsCard_(new Card(tr("Missing or wrong"))), partsCard_(new Card(tr("Parts"))),
      assemblyCard_(new Card(tr("Order of assembly"))), parts_(new PartsTable), part_(new PartCard(desk)),
      form_(new SheetForm(desk)), threads_(new ThreadFinder), assembly_(new FlowText),
      countLosses_(plainButton(tr("Count these losses in the run"))),
      beside_(new QBoxLayout(QBoxLayout::LeftToRight)), column_(new QWidget),
      abovePart_(new QSpacerItem(0, 0)), rows_(new CautionRows) {
    drawingArea_->setWidget(drawing_);
    drawingArea_->setFrameShape(QFrame::NoFrame);
    drawingArea_->setFocusPolicy(Qt::NoFocus);
    drawingArea_->setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    drawingArea_->setAlignment(Qt::AlignHCenter);
    drawingArea_->viewport()->setAutoFillBackground(false);
    drawing_->setAutoFillBackground(false);
    drawingCard_->content().addWidget(drawingArea_);
    countLosses_->setToolTip(tr(
        "Puts the parts that only the sheet has into the run, so that the duty point counts their losses."));
    cautionsCard_->content().addWidget(rows_);
    cautionsCard_->content().addWidget(countLosses_, 0, Qt::AlignLeft);
    partsCard_->content().addWidget(parts_);
    assembly_->setAccessibleName(tr("Order of assembly"));
    assemblyCard_->content().addWidget(assembly_);
    auto* choices = new Card(tr("Made for"));
    choices->content().addWidget(form_);

    auto* columnLayout = new QVBoxLayout(column_);
    columnLayout->setContentsMargins(0, 0, 0, 0);
    columnLayout->setSpacing(10);
    columnLayout->addItem(abovePart_);
    for (QWidget* card :
         {static_cast<QWidget*>(part_), static_cast<QWidget*>(choices), static_cast<QWidget*>(threads_)})
        columnLayout->addWidget(card);
    columnLayout->addStretch(1);
    auto* main = new QVBoxLayout;
    main->setSpacing(10);
    for (Card* card : {cautionsCard_, partsCard_, assemblyCard_})
        main->addWidget(card);
    main->addStretch(1);
    beside_->setSpacing(10);
    beside_->addLayout(main, 1);
    beside_->addWidget(column_);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(12, 12, 12, 12);
    layout->setSpacing(10);
    layout->addWidget(drawingCard_);
    layout->addLayout(beside_, 1);

    connect(drawing_, &SheetDrawing::partChosen, this, [this](int part) { choose(part, false); });
    connect(parts_, &PartsTable::partChosen, this, [this](int part) { choose(part, true); });
    connect(countLosses_, &QPushButton::clicked, this, &ConnectionsView::count);
    part_->show({}, std::nullopt, true);
}

void ConnectionsView::show(const ConnectionFinding& finding, const Site& site, bool stale) {
    sheet_ = finding.sheet;
    stale_ = stale;
    drawing_->show(sheet_, stale);
    parts_->show(sheet_);
    showCautions(sheet_.findings, site);
    part_->show(sheet_, drawing_->selected(), stale);
    if (drawing_->selected()) parts_->select(static_cast<int>(*drawing_->selected()));
    form_->refresh();
    QStringList steps;
    for (const AssemblyStep& step : assemblyOf(sheet_))
        steps << assemblySentence(step, screenPhrasing(site));
    assembly_->showHtml(numberedHtml(steps));
    fitWidth();
}

void ConnectionsView::showCautions(const Cautions& cautions, const Site& site) {
    rows_->show(cautions, screenPhrasing(site));
    const bool uncounted = std::any_of(cautions.begin(), cautions.end(), [](const Caution& caution) {
        return caution.remedy == "add-sheet-parts-to-run";
    });
    countLosses_->setVisible(uncounted);
    countLosses_->setEnabled(!stale_);
    cautionsCard_->setVisible(!cautions.empty());
}

void ConnectionsView::choose(int part, bool inList) {
    const auto index = static_cast<std::size_t>(part);
    drawing_->select(index);
    parts_->select(part);
    part_->show(sheet_, index, stale_);
    // A row far down the list has the part beside it; one chosen on the drawing, under the drawing.
    const bool beside = inList && beside_->direction() == QBoxLayout::LeftToRight;
    const int row = parts_->viewport()->mapTo(this, QPoint(0, parts_->rowViewportPosition(part))).y();
    abovePart_->changeSize(0, beside ? std::max(0, row - column_->y()) : 0);
    column_->layout()->invalidate();
    const QRect box = drawing_->boxOf(index).toRect();
    drawingArea_->ensureVisible(box.center().x(), box.center().y(), box.width(), box.height());
}

void ConnectionsView::count() {
    const ConnectionSheet sheet = sheet_;
    desk_.document.edit(tr("Count the sheet's losses"),
                        [&](Workspace& w) { w.job.site = withSheetLosses(w.job.site, sheet); });
}

void ConnectionsView::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    fitWidth();
}

void ConnectionsView::fitWidth() {
    const bool wide = width() >= kBeside_letters * fontMetrics().averageCharWidth();
    beside_->setDirection(wide ? QBoxLayout::LeftToRight : QBoxLayout::TopToBottom);
    const int least = column_->minimumSizeHint().width();
    column_->setMinimumWidth(wide ? std::max(least, static_cast<int>(kColumnShare * width())) : 0);
    column_->setMaximumWidth(wide ? column_->minimumWidth() : QWIDGETSIZE_MAX);
    drawing_->fitTo(drawingArea_->viewport()->width());
    const bool scrolls = drawing_->width() > drawingArea_->viewport()->width();
    drawingArea_->setFixedHeight(drawing_->height() +
                                 (scrolls ? drawingArea_->horizontalScrollBar()->sizeHint().height() : 0));
}

} // namespace headmark
