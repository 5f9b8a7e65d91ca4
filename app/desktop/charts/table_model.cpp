#include "app/desktop/charts/table_model.h"

#include "app/desktop/charts/chart_words.h"

#include <QLocale>

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

constexpr CurveQuantity kQuantities[] = {CurveQuantity::head, CurveQuantity::efficiency, CurveQuantity::power,
                                         CurveQuantity::npshRequired};

bool sameFlow(double a, double b) { return std::abs(a - b) <= 1e-9 * std::max(std::abs(a), std::abs(b)); }

bool samePoints(const CurvePoints& a, const CurvePoints& b) {
    return std::equal(a.points.begin(), a.points.end(), b.points.begin(), b.points.end(),
                      [](const CurvePoints::At& p, const CurvePoints::At& q) {
                          return p.flow == q.flow && p.value == q.value;
                      });
}

} // namespace

TableModel::TableModel(Desk& desk, QObject* parent) : QAbstractTableModel(parent), desk_(desk) {
    connect(&desk.document, &Document::workspaceChanged, this, &TableModel::follow);
    connect(&desk, &Desk::unitsChanged, this, [this] { show(pump_); });
}

void TableModel::show(std::optional<std::size_t> pump) {
    beginResetModel();
    pump_ = pump;
    rows_ = rowsOfPump();
    endResetModel();
}

// Undone, or changed elsewhere: then the table is the document's again. Rows being typed stay.
void TableModel::follow() {
    if (!pump_) return;
    const auto& pumps = desk_.document.job().pumps;
    if (*pump_ >= pumps.size()) return show(std::nullopt);
    const auto mine = curvesOfRows();
    const auto& theirs = pumps[*pump_].curves;
    const bool same =
        std::equal(mine.begin(), mine.end(), theirs.begin(), theirs.end(), [](const auto& a, const auto& b) {
            return a.first == b.first && samePoints(a.second, b.second);
        });
    if (!same) show(pump_);
}

std::vector<TableModel::Row> TableModel::rowsOfPump() const {
    std::vector<Row> rows;
    const auto& pumps = desk_.document.job().pumps;
    if (!pump_ || *pump_ >= pumps.size()) return rows;
    for (const auto& [quantity, curve] : pumps[*pump_].curves) {
        const auto column = static_cast<std::size_t>(quantity) + 1;
        for (const CurvePoints::At& point : curve.points) {
            const double flow = point.flow.inCubicMetresPerSecond();
            auto row = std::find_if(rows.begin(), rows.end(),
                                    [&](const Row& r) { return sameFlow(*r[0], flow) && !r[column]; });
            if (row == rows.end()) {
                rows.emplace_back();
                row = rows.end() - 1;
                (*row)[0] = flow;
            }
            (*row)[column] = point.value;
        }
    }
    std::stable_sort(rows.begin(), rows.end(), [](const Row& a, const Row& b) { return *a[0] < *b[0]; });
    return rows;
}

std::map<CurveQuantity, CurvePoints> TableModel::curvesOfRows() const {
    std::map<CurveQuantity, CurvePoints> curves;
    const auto& pumps = desk_.document.job().pumps;
    for (const CurveQuantity quantity : kQuantities) {
        CurvePoints curve;
        if (pump_ && *pump_ < pumps.size()) { // degree and error were given elsewhere: they stay
            const auto before = pumps[*pump_].curves.find(quantity);
            if (before != pumps[*pump_].curves.end()) curve = before->second;
        }
        curve.points.clear();
        const auto column = static_cast<std::size_t>(quantity) + 1;
        for (const Row& row : rows_) {
            if (row[0] && row[column])
                curve.points.push_back({Flow::fromCubicMetresPerSecond(*row[0]), *row[column]});
        }
        std::stable_sort(curve.points.begin(), curve.points.end(),
                         [](const auto& a, const auto& b) { return a.flow < b.flow; });
        if (!curve.points.empty()) curves.emplace(quantity, std::move(curve));
    }
    return curves;
}

void TableModel::store() {
    if (!pump_) return;
    const auto curves = curvesOfRows();
    const std::size_t pump = *pump_;
    desk_.document.edit(tr("Type the pump's table"), [&](Workspace& workspace) {
        if (pump < workspace.job.pumps.size()) workspace.job.pumps[pump].curves = curves;
    });
}

double TableModel::shown(int column, double value) const {
    switch (column) {
    case 0:
        return desk_.units().figure(Flow::fromCubicMetresPerSecond(value));
    case 2:
        return Efficiency::fromShare(value).inPercent();
    case 3:
        return Power::fromWatts(value).inKilowatts();
    default:
        return desk_.units().figure(Head::fromMetres(value));
    }
}

double TableModel::stored(int column, double figure) const {
    switch (column) {
    case 0:
        return desk_.units().flowFrom(figure).inCubicMetresPerSecond();
    case 2:
        return Efficiency::fromPercent(figure).inShare();
    case 3:
        return Power::fromKilowatts(figure).inWatts();
    default:
        return desk_.units().headFrom(figure).inMetres();
    }
}

int TableModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() || !pump_ ? 0 : static_cast<int>(rows_.size()) + 1;
}

int TableModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : kColumns; }

QVariant TableModel::data(const QModelIndex& index, int role) const {
    if (role == Qt::TextAlignmentRole) return QVariant(Qt::AlignRight | Qt::AlignVCenter);
    if ((role != Qt::DisplayRole && role != Qt::EditRole) || !index.isValid()) return {};
    const auto row = static_cast<std::size_t>(index.row());
    if (row >= rows_.size()) return {};
    const auto& cell = rows_[row][static_cast<std::size_t>(index.column())];
    return cell ? printedFigure(shown(index.column(), *cell)) : QVariant();
}

QVariant TableModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (role != Qt::DisplayRole && role != Qt::ToolTipRole) return {};
    if (orientation == Qt::Vertical) return QString::number(section + 1);
    const DisplayUnits& units = desk_.units();
    switch (section) {
    case 0:
        return tr("Flow, %1").arg(units.flowSymbol());
    case 1:
        return tr("Head, %1").arg(units.headSymbol());
    case 2:
        return tr("Efficiency, %");
    case 3:
        return tr("Power, kW");
    default:
        return tr("NPSH required, %1").arg(units.headSymbol());
    }
}

Qt::ItemFlags TableModel::flags(const QModelIndex& index) const {
    return index.isValid() ? Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemIsEditable : Qt::NoItemFlags;
}

bool TableModel::setData(const QModelIndex& index, const QVariant& value, int role) {
    if (role != Qt::EditRole || !index.isValid()) return false;
    const QString text = value.toString();
    const auto figure = parsedFigure(text);
    if (!figure && !text.trimmed().isEmpty()) return false;
    const auto row = static_cast<std::size_t>(index.row());
    const bool isNew = row >= rows_.size();
    if (isNew && !figure) return false;
    if (isNew) {
        beginInsertRows({}, index.row() + 1, index.row() + 1);
        rows_.emplace_back();
        endInsertRows();
    }
    rows_[row][static_cast<std::size_t>(index.column())] =
        figure ? std::optional<double>(stored(index.column(), *figure)) : std::nullopt;
    emit dataChanged(index, index);
    store();
    return true;
}

int TableModel::paste(const QModelIndex& from, const QString& text) {
    int refused = 0;
    const int first = from.isValid() ? from.row() : static_cast<int>(rows_.size());
    const int left = from.isValid() ? from.column() : 0;
    beginResetModel();
    auto row = static_cast<std::size_t>(std::min(first, static_cast<int>(rows_.size())));
    for (const QString& line : text.split(QLatin1Char('\n'))) {
        if (line.trimmed().isEmpty()) continue;
        if (row >= rows_.size()) rows_.emplace_back();
        int column = left;
        const QLatin1Char separator(line.contains(QLatin1Char('\t')) ? '\t' : ';');
        for (const QString& cell : line.split(separator)) {
            if (column >= kColumns) break;
            const auto figure = parsedFigure(cell);
            if (figure) {
                rows_[row][static_cast<std::size_t>(column)] = stored(column, *figure);
            } else if (!cell.trimmed().isEmpty()) {
                ++refused;
            }
            ++column;
        }
        ++row;
    }
    endResetModel();
    store();
    return refused;
}

void TableModel::removeRow(int row) {
    if (row < 0 || row >= static_cast<int>(rows_.size())) return;
    beginRemoveRows({}, row, row);
    rows_.erase(rows_.begin() + row);
    endRemoveRows();
    store();
}

} // namespace headmark
