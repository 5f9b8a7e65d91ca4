#pragma once
// How the run's rows look and are edited in place: figures through NumberEntry, items by the catalogue's
// search, sizes from a list.

#include <QStyledItemDelegate>

namespace headmark {

class Desk;

class RunDelegate : public QStyledItemDelegate {
    Q_OBJECT

  public:
    explicit RunDelegate(Desk& desk, QObject* parent = nullptr);

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
    QWidget* createEditor(QWidget* parent, const QStyleOptionViewItem& option,
                          const QModelIndex& index) const override;
    void setEditorData(QWidget* editor, const QModelIndex& index) const override;
    void setModelData(QWidget* editor, QAbstractItemModel* model, const QModelIndex& index) const override;

  private:
    QWidget* itemEditor(QWidget* parent, const QModelIndex& index) const;
    Desk& desk_;
};

} // namespace headmark
