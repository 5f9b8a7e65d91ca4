#include "app/desktop/site/catalogue_edit.h"

#include <QAbstractItemView>
#include <QFocusEvent>
#include <QKeyEvent>

namespace headmark {

CatalogueEdit::CatalogueEdit(const std::vector<CatalogueChoice>& choices, QWidget* parent)
    : QLineEdit(parent), choices_(choices), found_(new QStandardItemModel(this)),
      list_(new QCompleter(this)) {
    list_->setModel(found_);
    list_->setCompletionMode(QCompleter::UnfilteredPopupCompletion);
    list_->setMaxVisibleItems(12);
    list_->setWidget(this); // not setCompleter: that would put the words into the line while looking
    connect(this, &QLineEdit::textEdited, this, &CatalogueEdit::look);
    connect(list_, qOverload<const QModelIndex&>(&QCompleter::activated), this, &CatalogueEdit::choose);
}

void CatalogueEdit::setShown(const QString& words) {
    shown_ = words;
    if (!hasFocus()) setText(words);
    if (tip_.isEmpty()) tip_ = toolTip();
    setToolTip(tip_.isEmpty() ? words : words + QLatin1Char('\n') + tip_); // where the line is too short
}

void CatalogueEdit::look(const QString& typed) {
    found_->clear();
    for (const int index : matching(choices_, typed)) {
        auto* item = new QStandardItem(choices_[static_cast<std::size_t>(index)].words);
        item->setData(index, Qt::UserRole);
        found_->appendRow(item);
    }
    if (found_->rowCount() == 0) {
        auto* item = new QStandardItem(tr("The catalogue has nothing of these words."));
        item->setEnabled(false);
        found_->appendRow(item);
    }
    const int content = list_->popup()->sizeHintForColumn(0) + 32;
    QRect where = rect();
    where.setWidth(std::max(width(), content));
    list_->complete(where);
}

void CatalogueEdit::choose(const QModelIndex& index) {
    const QVariant which = index.data(Qt::UserRole);
    if (!which.isValid()) return;
    chosen_ = which.toInt();
    setText(choices_[static_cast<std::size_t>(chosen_)].words);
    emit chosen(chosen_);
}

void CatalogueEdit::focusInEvent(QFocusEvent* event) {
    QLineEdit::focusInEvent(event);
    if (event->reason() != Qt::PopupFocusReason) selectAll();
}

void CatalogueEdit::focusOutEvent(QFocusEvent* event) {
    QLineEdit::focusOutEvent(event);
    if (event->reason() != Qt::PopupFocusReason && !list_->popup()->isVisible()) setText(shown_);
}

// Return takes the first that was found; Down opens the list.
void CatalogueEdit::keyPressEvent(QKeyEvent* event) {
    const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    if (enter && list_->popup()->isVisible()) {
        const QModelIndex current = list_->popup()->currentIndex();
        list_->popup()->hide();
        choose(current.isValid() ? current : list_->completionModel()->index(0, 0));
        return;
    }
    if (event->key() == Qt::Key_Down && !list_->popup()->isVisible()) {
        look(isModified() ? text() : QString());
        return;
    }
    QLineEdit::keyPressEvent(event);
}

} // namespace headmark
