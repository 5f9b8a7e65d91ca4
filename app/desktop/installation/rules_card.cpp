#include "app/desktop/installation/rules_card.h"

#include "app/desktop/installation/rules_delegate.h"

#include <QHeaderView>
#include <QKeyEvent>

namespace headmark {

namespace {

// Shares of the table's width.
constexpr double kShares[RulesModel::kColumns] = {0.33, 0.18, 0.19, 0.30};

} // namespace

RulesCard::RulesCard(Desk& desk, QWidget* parent)
    : Card(tr("Rules of the trade"), parent), desk_(desk), model_(new RulesModel(desk, this)),
      table_(new QTableView), show_(quietButton({})), back_(quietButton(tr("Back to the table's"))),
      summary_(faintLabel({})),
      about_(
          wrappedLabel(tr("What this installation is judged by. Where your own experience or a maker's sheet "
                          "says otherwise, type your figure: it holds for this job, and its cautions name "
                          "the job as their source."))) {
    show_->setCheckable(true);
    addToTitle(show_);
    content().addWidget(summary_);
    content().addWidget(about_);
    makeTable();
    back_->setToolTip(tr("The figure set in the job goes; the table's holds again (Delete)."));
    content().addWidget(back_, 0, Qt::AlignLeft);
    connect(show_, &QPushButton::toggled, this, &RulesCard::unfold);
    connect(back_, &QPushButton::clicked, this, &RulesCard::giveBack);
    unfold(false);
    refresh();
}

void RulesCard::makeTable() {
    table_->setModel(model_);
    table_->setItemDelegate(new RulesDelegate(desk_, table_));
    table_->setAccessibleName(tr("Rules of the trade"));
    table_->setSelectionMode(QAbstractItemView::SingleSelection);
    table_->setSelectionBehavior(QAbstractItemView::SelectRows);
    table_->setEditTriggers(QAbstractItemView::DoubleClicked | QAbstractItemView::EditKeyPressed |
                            QAbstractItemView::AnyKeyPressed | QAbstractItemView::SelectedClicked);
    table_->setTabKeyNavigation(false); // Tab leaves the table
    table_->setShowGrid(false);
    table_->setWordWrap(true);
    table_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    table_->setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff); // the page scrolls
    table_->verticalHeader()->hide();
    table_->verticalHeader()->setMinimumSectionSize(1);
    table_->horizontalHeader()->setHighlightSections(false);
    table_->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    table_->horizontalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    table_->installEventFilter(this);
    table_->viewport()->installEventFilter(this);
    content().addWidget(table_);
    connect(table_->selectionModel(), &QItemSelectionModel::currentRowChanged, this, &RulesCard::enable);
    connect(model_, &QAbstractItemModel::dataChanged, this, [this] { refresh(); });
}

void RulesCard::unfold(bool open) {
    show_->setText(open ? tr("Hide them") : tr("Show them"));
    show_->setAccessibleName(open ? tr("Hide the rules of the trade") : tr("Show the rules of the trade"));
    for (QWidget* widget :
         {static_cast<QWidget*>(about_), static_cast<QWidget*>(table_), static_cast<QWidget*>(back_)})
        widget->setVisible(open);
    if (!open) return;
    fit();
    enable();
}

void RulesCard::refresh() {
    model_->refresh();
    const int set = model_->setCount();
    summary_->setText(set == 0 ? tr("All figures are the table's.")
                               : tr("Set in this job: %1. All other figures are the table's.").arg(set));
    fit();
    enable();
}

void RulesCard::enable() {
    const QModelIndex at = table_->currentIndex();
    back_->setEnabled(at.isValid() && model_->isSet(at.row()));
}

void RulesCard::fit() {
    if (table_->isHidden()) return;
    const int width = table_->viewport()->width();
    int left = width;
    for (int column = 0; column < RulesModel::kColumns; ++column) {
        const bool last = column == RulesModel::kColumns - 1;
        const int own = last ? left : static_cast<int>(kShares[column] * width);
        table_->setColumnWidth(column, own);
        left -= own;
    }
    table_->resizeRowsToContents();
    table_->setFixedHeight(table_->horizontalHeader()->sizeHint().height() +
                           table_->verticalHeader()->length() + 2 * table_->frameWidth());
}

void RulesCard::giveBack() {
    const QModelIndex at = table_->currentIndex();
    if (!at.isValid() || !model_->isSet(at.row())) return;
    model_->setData(at.siblingAtColumn(RulesModel::kValue), QVariant());
}

bool RulesCard::eventFilter(QObject* watched, QEvent* event) {
    if (watched == table_->viewport() && event->type() == QEvent::Resize) fit();
    if (watched == table_ && event->type() == QEvent::KeyPress) {
        const auto* key = static_cast<QKeyEvent*>(event);
        if (key->key() == Qt::Key_Delete) {
            giveBack();
            return true;
        }
    }
    return Card::eventFilter(watched, event);
}

} // namespace headmark
