#include "app/desktop/installation/rules_model.h"

#include "analysis/pipework/rule_list.h"
#include "app/desktop/site/item_words.h"
#include "app/words/phrasing.h"

#include <QCoreApplication>
#include <QFont>

#include <algorithm>

namespace headmark {

namespace {

// The table's own words, in the user's language where they are translated.
QString tableWords(const std::string& text) { return QCoreApplication::translate("Limits", text.c_str()); }

QString unitWords(const std::string& unit) {
    if (unit == "-") return {};
    if (unit == "C") return QStringLiteral("°C");
    if (unit == "1/h") return RulesModel::tr("an hour");
    return tableWords(unit).replace(QStringLiteral("m3"), QStringLiteral("m³"));
}

} // namespace

RulesModel::RulesModel(Desk& desk, QObject* parent)
    : QAbstractTableModel(parent), desk_(desk), rows_(judgingRows()),
      own_(desk.document.job().limits.rules.own()) {}

int RulesModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(rows_.size());
}

int RulesModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : int{kColumns}; }

bool RulesModel::isSet(int row) const { return own_.contains(rowAt(row).code); }

int RulesModel::setCount() const {
    return static_cast<int>(std::ranges::count_if(
        judgingCodes(), [&](std::string_view code) { return own_.contains(std::string(code)); }));
}

bool RulesModel::goesBySize(int row) const {
    return std::ranges::count_if(rows_, [&](const LimitRow* r) { return r->code == rowAt(row).code; }) > 1;
}

double RulesModel::valueOf(int row) const {
    const auto set = own_.find(rowAt(row).code);
    return set != own_.end() ? set->second : *rowAt(row).value;
}

QString RulesModel::words(int row, int column) const {
    const LimitRow& limit = rowAt(row);
    switch (column) {
    case kRule:
        return capitalised(tableWords(limit.quantity));
    case kValue: {
        const QString unit = unitWords(limit.unit), figure = exactFigure(valueOf(row));
        return unit.isEmpty() ? figure : tr("%1 %2").arg(figure, unit);
    }
    case kHoldsFor:
        return tableWords(limit.appliesTo);
    case kSource:
        return QString::fromStdString(Rules(own_).source(limit.code));
    default:
        return {};
    }
}

QString RulesModel::tip(int row, int column) const {
    const QString shown = words(row, column);
    if (column != kValue) return shown;
    QStringList lines{shown};
    if (isSet(row))
        lines << tr("Set in the job; the table has %1. Delete goes back to it.")
                     .arg(exactFigure(*rowAt(row).value));
    else
        lines << tr("Type a figure to set it in this job.");
    if (goesBySize(row)) lines << tr("A figure set in the job holds for every size alike.");
    return lines.join(QLatin1Char('\n'));
}

QVariant RulesModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid()) return {};
    const int row = index.row(), column = index.column();
    switch (role) {
    case Qt::DisplayRole:
        return words(row, column);
    case Qt::ToolTipRole:
        return tip(row, column);
    case kFigureRole:
        return valueOf(row);
    case Qt::FontRole:
        if (isSet(row) && column != kHoldsFor) {
            QFont font;
            font.setWeight(QFont::DemiBold);
            return font;
        }
        return {};
    case Qt::TextAlignmentRole:
        return QVariant(Qt::AlignVCenter | Qt::AlignLeft);
    default:
        return {};
    }
}

QVariant RulesModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal || (role != Qt::DisplayRole && role != Qt::ToolTipRole)) return {};
    switch (section) {
    case kRule:
        return tr("Rule");
    case kValue:
        return tr("Figure");
    case kHoldsFor:
        return tr("Holds for");
    case kSource:
        return tr("Source");
    default:
        return {};
    }
}

Qt::ItemFlags RulesModel::flags(const QModelIndex& index) const {
    const Qt::ItemFlags usual = Qt::ItemIsEnabled | Qt::ItemIsSelectable;
    return index.column() == kValue ? usual | Qt::ItemIsEditable : usual;
}

bool RulesModel::setData(const QModelIndex& index, const QVariant& value, int role) {
    if (role != Qt::EditRole || index.column() != kValue) return false;
    const LimitRow& limit = rowAt(index.row());
    const QString name = capitalised(tableWords(limit.quantity));
    desk_.document.edit(value.isValid() ? tr("Set the rule: %1").arg(name)
                                        : tr("Go back to the table's rule: %1").arg(name),
                        [&](Workspace& w) {
                            auto own = w.job.limits.rules.own();
                            if (value.isValid())
                                own[limit.code] = value.toDouble();
                            else
                                own.erase(limit.code);
                            w.job.limits.rules = Rules(std::move(own));
                        });
    refresh();
    return true;
}

void RulesModel::refresh() {
    const auto& now = desk_.document.job().limits.rules.own();
    if (now == own_) return;
    own_ = now;
    emit dataChanged(index(0, 0), index(rowCount() - 1, kColumns - 1));
}

} // namespace headmark
