#pragma once
// A pump's curves as a table to type: flow, head, and where known efficiency, power and NPSH required, in the
// user's units. A row counts for a curve once its flow and that value stand in it; the last row is empty, to
// go on in.

#include "app/desktop/frame/desk.h"

#include <QAbstractTableModel>

#include <array>
#include <map>
#include <optional>
#include <vector>

namespace headmark {

class TableModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    static constexpr int kColumns = 5;
    TableModel(Desk& desk, QObject* parent);

    void show(std::optional<std::size_t> pump);
    [[nodiscard]] std::optional<std::size_t> pump() const { return pump_; }
    // Rows of tab- or semicolon-separated figures, from a cell on. How many figures were no figures.
    int paste(const QModelIndex& from, const QString& text);
    void removeRow(int row);

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role) override;
    [[nodiscard]] Qt::ItemFlags flags(const QModelIndex& index) const override;

  private:
    using Row = std::array<std::optional<double>, kColumns>; // flow in m3/s, then SI of each quantity
    void follow();
    void store();
    [[nodiscard]] std::vector<Row> rowsOfPump() const;
    [[nodiscard]] std::map<CurveQuantity, CurvePoints> curvesOfRows() const;
    [[nodiscard]] double shown(int column, double value) const;
    [[nodiscard]] double stored(int column, double figure) const;

    Desk& desk_;
    std::optional<std::size_t> pump_;
    std::vector<Row> rows_; // without the empty last one
};

} // namespace headmark
