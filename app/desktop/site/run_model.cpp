#include "app/desktop/site/run_model.h"

#include "app/desktop/frame/theme.h"
#include "app/desktop/site/item_words.h"
#include "app/desktop/site/run_edits.h"

#include <QMimeData>

namespace headmark {

namespace {

const QString kMime = QStringLiteral("application/x-headmark-run-item");

bool isFigureColumn(int column) { return column >= RunModel::kCount && column <= RunModel::kHeadLeft; }

} // namespace

RunModel::RunModel(Desk& desk, QObject* parent) : QAbstractTableModel(parent), desk_(desk) {
    rows_ = wantedRows();
    readAnswer();
}

int RunModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(rows_.size());
}

int RunModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : int{kColumns}; }

std::vector<RunModel::Row> RunModel::wantedRows() const {
    const Site& site = desk_.document.job().site;
    std::vector<Row> rows;
    const auto items = [&](const Run& run, RunPart part, int zone) {
        for (int i = 0; i < static_cast<int>(run.size()); ++i)
            rows.push_back({Kind::item, {part, zone, i}});
    };
    rows.push_back({Kind::source, {RunPart::source, -1, -1}});
    rows.push_back({Kind::heading, {RunPart::suction, -1, -1}});
    items(site.suction, RunPart::suction, -1);
    rows.push_back({Kind::pump, {RunPart::pump, -1, -1}});
    if (site.tankReturn) rows.push_back({Kind::tankReturn, {RunPart::tankReturn, -1, -1}});
    rows.push_back({Kind::heading, {RunPart::delivery, -1, -1}});
    items(site.delivery, RunPart::delivery, -1);
    for (int z = 0; z < static_cast<int>(site.zones.size()); ++z) {
        rows.push_back({Kind::heading, {RunPart::branch, z, -1}});
        items(site.zones[static_cast<std::size_t>(z)].branch, RunPart::branch, z);
        rows.push_back({Kind::emitters, {RunPart::zone, z, -1}});
    }
    if (site.end) rows.push_back({Kind::outlet, {RunPart::outlet, -1, -1}});
    return rows;
}

void RunModel::refresh() {
    const std::vector<Row> wanted = wantedRows();
    if (wanted != rows_) {
        beginResetModel();
        rows_ = wanted;
        readAnswer();
        endResetModel();
        return;
    }
    readAnswer();
    if (!rows_.empty()) emit dataChanged(index(0, 0), index(rowCount() - 1, kColumns - 1));
    emit headerDataChanged(Qt::Horizontal, 0, kColumns - 1);
}

int RunModel::rowOf(const RunSpot& spot) const {
    for (int i = 0; i < static_cast<int>(rows_.size()); ++i) {
        if (rowAt(i).spot == spot) return i;
    }
    return -1;
}

QVariant RunModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || index.row() >= rowCount()) return {};
    const Row& row = rowAt(index.row());
    // A view may ask between an edit that took the zone away (closing the job) and the refresh after it.
    if (row.spot.zone >= static_cast<int>(desk_.document.job().site.zones.size())) return {};
    const int column = index.column();
    switch (role) {
    case Qt::DisplayRole:
        return described(row, column);
    case Qt::EditRole:
        if (const QVariant figure = figureOf(row, column); figure.isValid()) return figure;
        return described(row, column);
    case kFigureRole:
        return figureOf(row, column);
    case kHeadingRole:
        return row.kind == Kind::heading;
    case kGravityRole: {
        const auto note = notes_.find(placeOf(row.spot));
        return note == notes_.end() ? -1 : note->second.gravity;
    }
    case Qt::ToolTipRole:
    case Qt::AccessibleDescriptionRole:
        return tip(row, column);
    case Qt::TextAlignmentRole:
        return static_cast<int>((isFigureColumn(column) ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
    default:
        return {};
    }
}

QString RunModel::headingWords(const Row& row) const {
    if (row.spot.part == RunPart::suction) return tr("Suction, from the water to the pump");
    if (row.spot.part == RunPart::delivery) return tr("Delivery, from the pump on");
    const Zone& zone = desk_.document.job().site.zones.at(static_cast<std::size_t>(row.spot.zone));
    const QString name = QString::fromStdString(zone.name);
    return zone.takeoff.empty() ? tr("%1, from the end of the delivery").arg(name)
                                : tr("%1, from %2").arg(name, QString::fromStdString(zone.takeoff));
}

QString RunModel::described(const Row& row, int column) const {
    if (row.kind == Kind::heading) return column == kItem ? headingWords(row) : QString();
    if (column == kNote) {
        const auto note = notes_.find(placeOf(row.spot));
        return note == notes_.end() ? QString() : note->second.words;
    }
    if (column >= kFlow) {
        const auto found = computed_.find(placeOf(row.spot));
        if (found == computed_.end()) return {};
        const Computed& c = found->second;
        return column == kFlow       ? c.flow
               : column == kVelocity ? c.velocity
               : column == kLoss     ? c.loss
                                     : c.headLeft;
    }
    const Site& site = desk_.document.job().site;
    const DisplayUnits& units = desk_.units();
    const auto level = [&](Level at) {
        return tr("at %1 %2").arg(exactFigure(units.figure(at)), units.lengthSymbol());
    };
    switch (row.kind) {
    case Kind::source:
        if (column == kItem) return sourceName(site.source ? site.source->kind : std::string());
        return column == kSetting && site.source ? level(site.source->usual) : QString();
    case Kind::pump: {
        const auto& pumps = desk_.document.job().pumps;
        const auto shown = static_cast<std::size_t>(std::max(0, desk_.shown().pump));
        if (column == kItem)
            return shown < pumps.size() ? tr("Pump %1").arg(QString::fromStdString(pumps[shown].name))
                                        : tr("Pump");
        return column == kSetting ? level(site.pumpLevel) : QString();
    }
    case Kind::tankReturn:
        if (!site.tankReturn) return {};
        if (column == kItem) return tr("Return to the tank");
        return column == kSize      ? pipeSize(site.tankReturn->pipe.kind)
               : column == kSetting ? itemSetting(site.tankReturn->pipe, units)
                                    : QString();
    case Kind::emitters: {
        const Zone& zone = site.zones.at(static_cast<std::size_t>(row.spot.zone));
        if (column == kItem) return emittersWords(zone, units);
        if (column == kSetting) return level(zone.level);
        return column == kCount && zone.emitters.count ? QString::number(*zone.emitters.count) : QString();
    }
    case Kind::outlet:
        if (column == kItem) return tr("Outlet");
        return column == kSetting && site.end ? level(site.end->level) : QString();
    default:
        break;
    }
    const RunItem* item = itemAt(site, row.spot);
    if (!item) return {};
    if (column == kItem) return itemName(*item);
    if (column == kSize) return itemSize(*item);
    if (column == kSetting) return itemSetting(*item, units);
    const auto* fitting = std::get_if<FittingItem>(item);
    return fitting && fitting->count != 1 ? QString::number(fitting->count) : QString();
}

QString RunModel::headingTip(int section) {
    switch (section) {
    case kVelocity:
        return tr("Velocity of the water in the item.");
    case kHeadLeft:
        return tr(
            "Height of the energy line after the item, above the site's zero level. Pressure is what it "
            "stands above the pipe.");
    case kLoss:
        return tr("Head the item takes from the water; the pump adds with a plus.");
    case kNote:
        return tr("What is to be watched at this item. Rest on it to read the whole sentence.");
    default:
        return {};
    }
}

QVariant RunModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal) return {};
    const DisplayUnits& units = desk_.units();
    if (role == Qt::TextAlignmentRole)
        return static_cast<int>((isFigureColumn(section) ? Qt::AlignRight : Qt::AlignLeft) |
                                Qt::AlignVCenter);
    if (role == Qt::ToolTipRole) { // the head itself too: its column may be narrower
        const QString head = headerData(section, orientation, Qt::DisplayRole).toString();
        const QString words = headingTip(section);
        return words.isEmpty() ? head : head + QLatin1Char('\n') + words;
    }
    if (role != Qt::DisplayRole) return {};
    switch (section) {
    case kItem:
        return tr("Item");
    case kSize:
        return tr("Size");
    case kSetting:
        return tr("Length, setting");
    case kCount:
        return tr("Count");
    case kFlow:
        return tr("Flow %1").arg(units.flowSymbol());
    case kVelocity:
        return tr("m/s");
    case kLoss:
        return tr("Loss %1").arg(units.headSymbol());
    case kHeadLeft:
        return tr("Left %1").arg(units.headSymbol());
    default:
        return tr("Note");
    }
}

Qt::ItemFlags RunModel::flags(const QModelIndex& index) const {
    if (!index.isValid()) return Qt::ItemIsDropEnabled;
    const Row& row = rowAt(index.row());
    Qt::ItemFlags flags = Qt::ItemIsEnabled | Qt::ItemIsSelectable;
    if (row.kind == Kind::item) flags |= Qt::ItemIsDragEnabled;
    if (row.kind != Kind::heading && figureOf(row, index.column()).isValid()) flags |= Qt::ItemIsEditable;
    if (row.kind == Kind::item && index.column() == kItem) flags |= Qt::ItemIsEditable;
    if (row.kind == Kind::item && index.column() == kSize) {
        const RunItem* item = itemAt(desk_.document.job().site, row.spot);
        if (item && !sizeChoices(*item).empty()) flags |= Qt::ItemIsEditable;
    }
    return flags;
}

QString RunModel::tip(const Row& row, int column) const {
    const auto note = notes_.find(placeOf(row.spot));
    if (column == kNote && note != notes_.end())
        return note->second.words + QLatin1Char('\n') + note->second.sentence;
    if (column == kItem || column == kSize || column == kSetting) return described(row, column);
    return {};
}

QStringList RunModel::mimeTypes() const { return {kMime}; }

QMimeData* RunModel::mimeData(const QModelIndexList& indexes) const {
    if (indexes.isEmpty()) return nullptr;
    auto* data = new QMimeData;
    data->setData(kMime, QByteArray::number(indexes.first().row()));
    return data;
}

bool RunModel::dropMimeData(const QMimeData* data, Qt::DropAction action, int row, int,
                            const QModelIndex& parent) {
    if (!data || action != Qt::MoveAction || !data->hasFormat(kMime)) return false;
    const int from = data->data(kMime).toInt();
    int to = row >= 0 ? row : parent.isValid() ? parent.row() : rowCount();
    if (from < 0 || from >= rowCount() || rowAt(from).kind != Kind::item) return false;
    RunSpot target;
    if (to < rowCount() && rowAt(to).kind == Kind::item) {
        target = rowAt(to).spot;
    } else { // before something that is no item: at the end of the run above it
        int above = to - 1;
        while (above >= 0 && !runAt(desk_.document.job().site, rowAt(above).spot))
            --above;
        if (above < 0) return false;
        target = rowAt(above).spot;
        target.index = -1;
        if (rowAt(above).kind == Kind::heading && runAt(desk_.document.job().site, target)) target.index = 0;
    }
    emit dropped(moveItem(desk_.document, rowAt(from).spot, target));
    return false; // the edit did the whole; the view has nothing to remove
}

} // namespace headmark
