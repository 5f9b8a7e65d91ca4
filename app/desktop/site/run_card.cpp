#include "app/desktop/site/run_card.h"

#include "app/desktop/frame/theme.h"
#include "app/desktop/site/run_delegate.h"
#include "app/desktop/site/run_edits.h"

#include <QHeaderView>
#include <QKeyEvent>
#include <QSignalBlocker>

namespace headmark {

RunCard::RunCard(Desk& desk, QWidget* parent)
    : Card(tr("The run, source to emitters"), parent), desk_(desk), model_(new RunModel(desk, this)),
      table_(new QTableView), search_(new CatalogueEdit(catalogueChoices())) {
    makeTable();
    makeButtons();
    connect(model_, &RunModel::dropped, this, &RunCard::select);
    connect(model_, &QAbstractItemModel::modelReset, this, [this] {
        spanHeadings();
        select(wanted_);
    });
    connect(table_->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
            [this](const QModelIndex& current) {
                if (!current.isValid()) return;
                wanted_ = model_->rowAt(current.row()).spot;
                enable();
                emit selectionMoved(wanted_);
            });
    spanHeadings();
    enable();
}

void RunCard::makeTable() {
    table_->setModel(model_);
    table_->setItemDelegate(new RunDelegate(desk_, table_));
    table_->setAccessibleName(tr("The run, source to emitters"));
    table_->setSelectionBehavior(QAbstractItemView::SelectRows);
    table_->setSelectionMode(QAbstractItemView::SingleSelection);
    table_->setEditTriggers(QAbstractItemView::DoubleClicked | QAbstractItemView::EditKeyPressed |
                            QAbstractItemView::AnyKeyPressed | QAbstractItemView::SelectedClicked);
    table_->setDragDropMode(QAbstractItemView::InternalMove);
    table_->setDragDropOverwriteMode(false);
    table_->setDropIndicatorShown(true);
    table_->setShowGrid(false);
    table_->setWordWrap(false);
    table_->verticalHeader()->hide();
    table_->verticalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    table_->horizontalHeader()->setHighlightSections(false);
    table_->horizontalHeader()->setTextElideMode(Qt::ElideRight);
    table_->horizontalHeader()->setMinimumSectionSize(24);
    table_->setHorizontalScrollMode(QAbstractItemView::ScrollPerPixel);
    table_->setMinimumHeight(QFontMetrics(font()).height() * 3);
    table_->installEventFilter(this);
    content().addWidget(table_, 1);
}

void RunCard::makeButtons() {
    sayWhereInserted();
    search_->setAccessibleName(tr("Insert an item by typing its words"));
    search_->setMinimumWidth(QFontMetrics(font()).averageCharWidth() * 12);
    connect(search_, &CatalogueEdit::chosen, this, [this](int index) { insertChosen(index, insertBefore_); });
    auto* line = new QHBoxLayout;
    line->setSpacing(4);
    line->addWidget(search_, 1);
    const auto button = [&](const QString& text, const QString& tip, auto act) {
        auto* made = quietButton(text);
        made->setToolTip(tip);
        connect(made, &QPushButton::clicked, this, act);
        line->addWidget(made);
        return made;
    };
    before_ = button(tr("Before"), tr("Put what is inserted before the row instead of after it."), [this] {
        insertBefore_ = before_->isChecked();
        sayWhereInserted();
        search_->setFocus();
    });
    before_->setCheckable(true);
    duplicate_ = button(tr("Duplicate"), tr("A second item like this one, after it (Ctrl+D)."),
                        [this] { select(duplicateItem(desk_.document, wanted_)); });
    remove_ = button(tr("Remove"), tr("Take the item out of the run (Delete)."),
                     [this] { select(removeItem(desk_.document, wanted_)); });
    up_ = button(QStringLiteral("↑"), tr("One place towards the water (Alt+Up)."),
                 [this] { select(nudgeItem(desk_.document, wanted_, -1)); });
    up_->setAccessibleName(tr("Move towards the water"));
    down_ = button(QStringLiteral("↓"), tr("One place away from the water (Alt+Down)."),
                   [this] { select(nudgeItem(desk_.document, wanted_, 1)); });
    down_->setAccessibleName(tr("Move away from the water"));
    content().addLayout(line);
}

void RunCard::sayWhereInserted() {
    const QString words = insertBefore_ ? tr("Insert before the row: type a pipe, fitting, filter …")
                                        : tr("Insert after the row: type a pipe, fitting, filter …");
    search_->setPlaceholderText(words);
    search_->setToolTip(
        tr("%1\nType a few words, such as \"63 pe100\" or \"solenoid 1\", and choose with Return.")
            .arg(words));
}

void RunCard::insertChosen(int index, bool before) {
    const CatalogueChoice& choice = catalogueChoices()[static_cast<std::size_t>(index)];
    RunSpot spot = wanted_;
    const bool heading = spot.index < 0 && (spot.part == RunPart::suction || spot.part == RunPart::delivery ||
                                            spot.part == RunPart::branch);
    const RunSpot made = insertItem(desk_.document, spot, choice.item, before || heading);
    search_->clear();
    select(made);
    table_->setFocus();
    const QModelIndex setting = model_->index(model_->rowOf(made), RunModel::kSetting);
    if (model_->flags(setting).testFlag(Qt::ItemIsEditable)) {
        table_->setCurrentIndex(setting);
        table_->edit(setting); // the figure of a new item is the next thing to say
    }
}

void RunCard::refresh() {
    model_->refresh();
    fitColumns();
    enable();
}

void RunCard::select(const RunSpot& spot) {
    wanted_ = spot;
    const int row = model_->rowOf(spot);
    if (row >= 0 && table_->currentIndex().row() != row) {
        const int column = std::max(0, table_->currentIndex().column());
        table_->setCurrentIndex(
            model_->index(row, model_->rowAt(row).kind == RunModel::Kind::heading ? 0 : column));
    }
    if (row >= 0) table_->scrollTo(model_->index(row, 0));
    enable();
}

RunSpot RunCard::selected() const { return wanted_; }

void RunCard::enable() {
    const bool item = itemAt(desk_.document.job().site, wanted_) != nullptr;
    const bool removable =
        item || (wanted_.part == RunPart::tankReturn && desk_.document.job().site.tankReturn);
    duplicate_->setEnabled(item);
    remove_->setEnabled(removable);
    up_->setEnabled(item);
    down_->setEnabled(item);
}

void RunCard::spanHeadings() {
    table_->clearSpans();
    for (int row = 0; row < model_->rowCount(); ++row) {
        if (model_->rowAt(row).kind == RunModel::Kind::heading)
            table_->setSpan(row, 0, 1, RunModel::kColumns);
    }
}

// Items and notes share what the figures leave. Where that is too little, the figures that the long section
// shows as well go first; then sizes and settings are shortened, their tips say them whole. Nothing ever
// reaches out of sight.
void RunCard::fitColumns() {
    QHeaderView* header = table_->horizontalHeader();
    const int letter = QFontMetrics(table_->font()).averageCharWidth();
    const int narrowest = 18 * letter, wanted = narrowest * 5 / 3;
    int left = table_->viewport()->width();
    for (int column = RunModel::kSize; column < RunModel::kNote; ++column) {
        table_->showColumn(column);
        table_->resizeColumnToContents(column);
        left -= header->sectionSize(column);
    }
    for (const int column : {RunModel::kHeadLeft, RunModel::kFlow, RunModel::kLoss, RunModel::kVelocity}) {
        if (left >= wanted) break;
        left += header->sectionSize(column);
        table_->hideColumn(column);
    }
    for (const int column : {RunModel::kSetting, RunModel::kSize}) {
        const int given = std::min(wanted - left, header->sectionSize(column) - 9 * letter);
        if (given <= 0) continue;
        header->resizeSection(column, header->sectionSize(column) - given);
        left += given;
    }
    const int item = std::max(std::min(narrowest, left * 2 / 3), left * 3 / 5);
    header->resizeSection(RunModel::kItem, item);
    header->resizeSection(RunModel::kNote, std::max(header->minimumSectionSize(), left - item));
}

void RunCard::resizeEvent(QResizeEvent* event) {
    Card::resizeEvent(event);
    fitColumns();
}

bool RunCard::eventFilter(QObject* watched, QEvent* event) {
    if (watched != table_ || (event->type() != QEvent::KeyPress && event->type() != QEvent::ShortcutOverride))
        return Card::eventFilter(watched, event);
    auto* key = static_cast<QKeyEvent*>(event);
    const bool alt = key->modifiers() == Qt::AltModifier;
    const bool control = key->modifiers() == Qt::ControlModifier;
    QPushButton* button = nullptr;
    if (alt && key->key() == Qt::Key_Up) button = up_;
    if (alt && key->key() == Qt::Key_Down) button = down_;
    if (control && key->key() == Qt::Key_D) button = duplicate_;
    if (key->modifiers() == Qt::NoModifier && key->key() == Qt::Key_Delete) button = remove_;
    const bool insert = key->modifiers() == Qt::NoModifier && key->key() == Qt::Key_Insert;
    if (!button && !insert) return Card::eventFilter(watched, event);
    if (event->type() == QEvent::ShortcutOverride) {
        event->accept();
        return true;
    }
    if (insert) search_->setFocus(Qt::ShortcutFocusReason);
    if (button && button->isEnabled()) button->click();
    return true;
}

} // namespace headmark
