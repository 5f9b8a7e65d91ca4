#pragma once
// A rule's figure edited in place, by point or comma; emptied, it goes back to the table's.

#include <QStyledItemDelegate>

namespace headmark {

class Desk;

class RulesDelegate : public QStyledItemDelegate {
    Q_OBJECT

  public:
    explicit RulesDelegate(Desk& desk, QObject* parent = nullptr);

    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
    QWidget* createEditor(QWidget* parent, const QStyleOptionViewItem& option,
                          const QModelIndex& index) const override;
    void setEditorData(QWidget* editor, const QModelIndex& index) const override;
    void setModelData(QWidget* editor, QAbstractItemModel* model, const QModelIndex& index) const override;

  private:
    Desk& desk_;
};

} // namespace headmark
