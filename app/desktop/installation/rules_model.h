#pragma once
// The rules of the trade that this job is judged by, a row each: what it limits, its figure, what it holds
// for, on whose authority. A figure set in the job takes the table's place in every row of its code; an empty
// one gives it back.

#include "app/desktop/frame/desk.h"

#include <QAbstractTableModel>

#include <map>
#include <string>
#include <vector>

namespace headmark {

struct LimitRow;

class RulesModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    enum Column { kRule, kValue, kHoldsFor, kSource, kColumns };
    enum Role { kFigureRole = Qt::UserRole };

    explicit RulesModel(Desk& desk, QObject* parent = nullptr);

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
    Qt::ItemFlags flags(const QModelIndex& index) const override;
    // Of a value: a double sets it, an invalid variant goes back to the table's.
    bool setData(const QModelIndex& index, const QVariant& value, int role = Qt::EditRole) override;

    void refresh(); // after the job changed
    [[nodiscard]] const LimitRow& rowAt(int row) const { return *rows_[static_cast<std::size_t>(row)]; }
    [[nodiscard]] bool isSet(int row) const;
    [[nodiscard]] int setCount() const; // rules set in the job

  private:
    [[nodiscard]] double valueOf(int row) const;
    [[nodiscard]] QString words(int row, int column) const;
    [[nodiscard]] QString tip(int row, int column) const;
    [[nodiscard]] bool goesBySize(int row) const; // several rows of one code

    Desk& desk_;
    std::vector<const LimitRow*> rows_;
    std::map<std::string, double> own_; // as shown
};

} // namespace headmark
