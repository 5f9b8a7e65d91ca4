#include "app/desktop/charts/table_editor.h"

#include "app/desktop/frame/card.h"
#include "app/desktop/frame/number_entry.h"
#include "app/desktop/frame/theme.h"
#include "app/words/error_words.h"

#include <QClipboard>
#include <QGuiApplication>
#include <QHeaderView>
#include <QKeyEvent>
#include <QStyledItemDelegate>

namespace headmark {

namespace {

// Cells are typed through the one number field of the program.
class FigureDelegate : public QStyledItemDelegate {
  public:
    using QStyledItemDelegate::QStyledItemDelegate;

    QWidget* createEditor(QWidget* parent, const QStyleOptionViewItem&, const QModelIndex&) const override {
        auto* entry = new NumberEntry(parent);
        entry->setRange({0.0, 1e6, true});
        return entry;
    }
    void setEditorData(QWidget* editor, const QModelIndex& index) const override {
        if (auto* entry = qobject_cast<NumberEntry*>(editor))
            entry->setText(index.data(Qt::EditRole).toString());
    }
    void setModelData(QWidget* editor, QAbstractItemModel* model, const QModelIndex& index) const override {
        const auto* entry = qobject_cast<NumberEntry*>(editor);
        if (entry && entry->complaint().isEmpty()) model->setData(index, entry->text(), Qt::EditRole);
    }

  protected:
    // Return takes the figure and goes on, see goOn(); the view itself would stay.
    bool eventFilter(QObject* editor, QEvent* event) override {
        const int key = event->type() == QEvent::KeyPress ? static_cast<QKeyEvent*>(event)->key() : 0;
        const bool isReturn = key == Qt::Key_Return || key == Qt::Key_Enter;
        if (!isReturn) return QStyledItemDelegate::eventFilter(editor, event);
        auto* entry = qobject_cast<NumberEntry*>(editor);
        if (!entry || !entry->complaint().isEmpty()) return true;
        emit commitData(entry);
        emit closeEditor(entry);
        if (auto* table = qobject_cast<QTableView*>(parent())) goOn(*table);
        return true;
    }

  private:
    // From a flow to its value, from a value to the flow of the next row: as a maker's table is read out.
    static void goOn(QTableView& table) {
        const QModelIndex at = table.currentIndex();
        const QModelIndex next = at.column() == 0 ? at.siblingAtColumn(1) : at.sibling(at.row() + 1, 0);
        if (next.isValid()) table.setCurrentIndex(next);
    }
};

} // namespace

TableEditor::TableEditor(Desk& desk, QWidget* parent)
    : QWidget(parent), desk_(desk), model_(new TableModel(desk, this)), table_(new QTableView(this)),
      name_(new QLineEdit(this)), said_(wrappedLabel({}, this)) {
    auto* layout = new QVBoxLayout(this);
    auto* card = new Card(tr("A table instead of a page"), this);
    layout->addWidget(card);
    auto* head = new QHBoxLayout;
    auto* nameLabel = new QLabel(tr("&Pump"), this);
    nameLabel->setBuddy(name_);
    name_->setAccessibleName(tr("Name of the pump"));
    name_->setObjectName(QStringLiteral("tablePumpName"));
    head->addWidget(nameLabel);
    head->addWidget(name_, 1);
    card->content().addLayout(head);
    card->content().addWidget(faintLabel(
        tr("Type flow and head as the maker's table gives them, at least two rows; efficiency, power "
           "and NPSH required where they are known. Return goes on to the next figure, Tab to the next "
           "column; "
           "rows copied from a spreadsheet can be pasted."),
        this));
    table_->setModel(model_);
    table_->setItemDelegate(new FigureDelegate(table_));
    table_->setObjectName(QStringLiteral("pumpTable"));
    table_->setAccessibleName(tr("Flow, head and what else is known of the pump"));
    table_->setEditTriggers(QAbstractItemView::AnyKeyPressed | QAbstractItemView::DoubleClicked |
                            QAbstractItemView::EditKeyPressed | QAbstractItemView::SelectedClicked);
    table_->horizontalHeader()->setSectionResizeMode(QHeaderView::Stretch);
    table_->verticalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    table_->setCornerButtonEnabled(false);
    table_->installEventFilter(this);
    card->content().addWidget(table_, 1);
    card->content().addWidget(said_);
    auto* drop = quietButton(tr("Delete the row"), this);
    connect(drop, &QPushButton::clicked, this, [this] { model_->removeRow(table_->currentIndex().row()); });
    auto* foot = new QHBoxLayout;
    foot->addWidget(drop);
    foot->addStretch(1);
    card->content().addLayout(foot);
    connect(name_, &QLineEdit::editingFinished, this, &TableEditor::rename);
    connect(&desk_.document, &Document::workspaceChanged, this, &TableEditor::follow);
    connect(&desk_.answers, &AnswerService::answered, this, &TableEditor::follow);
}

void TableEditor::show(std::optional<std::size_t> pump) {
    model_->show(pump);
    if (pump) table_->setCurrentIndex(model_->index(0, 0));
    follow();
}

void TableEditor::follow() {
    const auto pump = model_->pump();
    const auto& pumps = desk_.document.job().pumps;
    if (!pump || *pump >= pumps.size()) return;
    if (!(name_->hasFocus() && name_->isModified()))
        name_->setText(QString::fromStdString(pumps[*pump].name));
    // What stands in the way of this pump's curves.
    const std::string place = "pumps[" + std::to_string(*pump) + "]";
    QStringList said;
    for (const Error& error : desk_.answers.latest()->errors) {
        if (error.place.rfind(place, 0) != 0) continue;
        Error plain = error;
        plain.file.clear();
        said << sentence(plain);
    }
    said_->setText(said.join(QLatin1Char('\n')));
    said_->setVisible(!said.isEmpty());
    QPalette p = said_->palette();
    p.setColor(QPalette::WindowText, theme().danger);
    said_->setPalette(p);
}

void TableEditor::rename() {
    const auto pump = model_->pump();
    const std::string name = name_->text().trimmed().toStdString();
    name_->setModified(false);
    if (!pump || name.empty()) return follow();
    desk_.document.edit(tr("Rename a pump"), [&](Workspace& workspace) {
        if (*pump < workspace.job.pumps.size()) workspace.job.pumps[*pump].name = name;
    });
}

bool TableEditor::eventFilter(QObject* watched, QEvent* event) {
    if (watched != table_ || event->type() != QEvent::KeyPress) return QWidget::eventFilter(watched, event);
    auto* key = static_cast<QKeyEvent*>(event);
    if (key->matches(QKeySequence::Paste)) {
        const int refused = model_->paste(table_->currentIndex(), QGuiApplication::clipboard()->text());
        if (refused > 0)
            emit desk_.said(tr("%n of the pasted cells are no figures and were left out.", nullptr, refused),
                            true);
        return true;
    }
    if (key->key() == Qt::Key_Delete || key->key() == Qt::Key_Backspace) {
        if (table_->currentIndex().isValid())
            model_->setData(table_->currentIndex(), QString(), Qt::EditRole);
        return true;
    }
    return QWidget::eventFilter(watched, event);
}

} // namespace headmark
