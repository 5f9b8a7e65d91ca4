// Of run_model.h: what is edited in the table, and what the answer says of each row.

#include "app/desktop/site/item_words.h"
#include "app/desktop/site/run_edits.h"
#include "app/desktop/site/run_model.h"
#include "app/desktop/site/shown_case.h"
#include "app/desktop/site/site_words.h"
#include "app/words/caution_words.h"

#include <cmath>

namespace headmark {

QVariant RunModel::figureOf(const Row& row, int column) const {
    if (column != kSetting && column != kCount) return {};
    const Site& site = desk_.document.job().site;
    const DisplayUnits& units = desk_.units();
    if (column == kCount) {
        if (row.kind == Kind::emitters) {
            const Zone& zone = site.zones.at(static_cast<std::size_t>(row.spot.zone));
            return zone.emitters.count ? QVariant(*zone.emitters.count) : QVariant();
        }
        const RunItem* item = itemAt(site, row.spot);
        const auto* fitting = item ? std::get_if<FittingItem>(item) : nullptr;
        return fitting ? QVariant(fitting->count) : QVariant();
    }
    switch (row.kind) {
    case Kind::source:
        return site.source ? QVariant(units.figure(site.source->usual)) : QVariant();
    case Kind::pump:
        return units.figure(site.pumpLevel);
    case Kind::tankReturn:
        return site.tankReturn ? QVariant(units.figure(site.tankReturn->pipe.length)) : QVariant();
    case Kind::emitters:
        return units.figure(site.zones.at(static_cast<std::size_t>(row.spot.zone)).level);
    case Kind::outlet:
        return site.end ? QVariant(units.figure(site.end->level)) : QVariant();
    default:
        break;
    }
    const RunItem* item = itemAt(site, row.spot);
    if (!item) return {};
    if (const auto* pipe = std::get_if<PipeItem>(item)) return units.figure(pipe->length);
    if (const auto* regulator = std::get_if<RegulatorItem>(item)) return units.figure(regulator->set);
    const auto* fitting = std::get_if<FittingItem>(item);
    if (fitting && fitting->k) return *fitting->k;
    if (fitting && fitting->kv_m3_h) return *fitting->kv_m3_h;
    return {};
}

bool RunModel::setData(const QModelIndex& index, const QVariant& value, int role) {
    if (!index.isValid() || role != Qt::EditRole) return false;
    const Row row = rowAt(index.row());
    if (index.column() == kSetting || index.column() == kCount)
        return setFigure(row, index.column(), value.toDouble());
    const RunItem* item = itemAt(desk_.document.job().site, row.spot);
    if (!item) return false;
    if (index.column() == kItem && std::holds_alternative<TakeoffItem>(*item)) {
        if (!renameTakeoff(desk_.document, row.spot, value.toString()))
            say(tr("Another take-off is called %1; each needs a name of its own.").arg(value.toString()));
        return true;
    }
    if (index.column() == kSize) {
        const std::vector<SizeChoice> choices = sizeChoices(*item);
        const auto at = static_cast<std::size_t>(value.toInt());
        if (at >= choices.size()) return false;
        replaceItem(desk_.document, row.spot, choices[at].item,
                    tr("Change the size of %1").arg(itemName(*item)));
        return true;
    }
    return false;
}

bool RunModel::setFigure(const Row& row, int column, double figure) {
    const DisplayUnits units = desk_.units();
    Document& document = desk_.document;
    const auto level = [&](const QString& step, auto&& of) {
        document.edit(step, [&](Workspace& w) { of(w.job.site) = units.levelFrom(figure); });
        return true;
    };
    const auto zone = static_cast<std::size_t>(std::max(0, row.spot.zone));
    switch (row.kind) {
    case Kind::source:
        document.edit(tr("Change the water level"),
                      [&](Workspace& w) { moveUsualLevel(w.job.site, units.levelFrom(figure)); });
        return true;
    case Kind::pump:
        return level(tr("Change the pump's level"), [](Site& s) -> Level& { return s.pumpLevel; });
    case Kind::outlet:
        return level(tr("Change the outlet's level"), [](Site& s) -> Level& { return s.end->level; });
    case Kind::emitters:
        if (column == kSetting)
            return level(tr("Change the zone's level"),
                         [&](Site& s) -> Level& { return s.zones[zone].level; });
        document.edit(tr("Change the number of emitters"), [&](Workspace& w) {
            w.job.site.zones[zone].emitters.count = static_cast<int>(std::lround(figure));
        });
        return true;
    case Kind::tankReturn:
        document.edit(tr("Change the length of the tank return"),
                      [&](Workspace& w) { w.job.site.tankReturn->pipe.length = units.lengthFrom(figure); });
        return true;
    case Kind::heading:
        return false;
    case Kind::item:
        break;
    }
    const RunItem* item = itemAt(document.job().site, row.spot);
    if (!item) return false;
    const QString name = itemName(*item);
    RunItem changed = *item;
    if (auto* pipe = std::get_if<PipeItem>(&changed)) {
        pipe->length = units.lengthFrom(figure);
        replaceItem(document, row.spot, changed, tr("Change the length of %1").arg(name));
    } else if (auto* regulator = std::get_if<RegulatorItem>(&changed)) {
        regulator->set = units.pressureFrom(figure);
        replaceItem(document, row.spot, changed, tr("Change the set pressure"));
    } else if (auto* fitting = std::get_if<FittingItem>(&changed)) {
        if (column == kCount) {
            fitting->count = static_cast<int>(std::lround(figure));
            replaceItem(document, row.spot, changed, tr("Change the count of %1").arg(name));
        } else if (fitting->k || fitting->kv_m3_h) {
            (fitting->k ? fitting->k : fitting->kv_m3_h) = figure;
            replaceItem(document, row.spot, changed, tr("Change the loss of %1").arg(name));
        }
    }
    return true;
}

void RunModel::say(const QString& sentence) { emit desk_.said(sentence, true); }

void RunModel::readAnswer() {
    computed_.clear();
    notes_.clear();
    const auto answer = desk_.answers.latest();
    if (!answer) return;
    const DisplayUnits& units = desk_.units();
    for (const LongSectionItem& item : answer->shownSection) {
        Computed c;
        c.flow = figureText(units.figure(Flow::fromCubicMetresPerSecond(item.flow_m3_s)));
        if (item.velocity_m_s > 0.0) c.velocity = figureText(item.velocity_m_s, 2);
        const double loss = units.figure(Head::fromMetres(item.loss_m));
        c.loss = loss < 0.0 ? QLatin1Char('+') + figureText(-loss, 1) : figureText(loss, loss < 0.1 ? 2 : 1);
        c.headLeft = figureText(units.figure(Head::fromMetres(item.energyAfter_m)), 1);
        computed_[item.place] = c;
    }
    readZones();
    readNotes();
}

void RunModel::readZones() {
    const auto answer = desk_.answers.latest();
    if (!answer->shownCase) return;
    const Site& site = desk_.document.job().site;
    for (const ZoneAnswer& zone : answer->shownCase->zones) {
        for (std::size_t z = 0; z < site.zones.size(); ++z) {
            if (site.zones[z].name != zone.name) continue;
            const std::string place = placeOf({RunPart::zone, static_cast<int>(z), -1});
            computed_[place] = {figureText(desk_.units().figure(zone.flow)), {}, {}, {}};
            take(place, {tr("%1 at the emitters").arg(desk_.units().text(zone.lowest)),
                         tr("From %1 at the worst emitter to %2 at the best.")
                             .arg(desk_.units().text(zone.lowest), desk_.units().text(zone.highest)),
                         -1});
        }
    }
}

void RunModel::take(const std::string& place, const Note& note) {
    Note& kept = notes_[place];
    if (kept.words.isEmpty() || note.gravity > kept.gravity) {
        const QString before = kept.sentence;
        kept.words = note.words;
        kept.gravity = note.gravity;
        kept.sentence = before.isEmpty() ? note.sentence : note.sentence + QStringLiteral("\n\n") + before;
    } else {
        kept.sentence += QStringLiteral("\n\n") + note.sentence;
    }
}

void RunModel::readNotes() {
    const auto answer = desk_.answers.latest();
    const Phrasing phrasing = screenPhrasing(desk_.document.job().site);
    if (answer->shownCase) {
        for (const Caution& caution : answer->shownCase->cautions) {
            const auto spot = spotOf(caution.place);
            if (!spot) continue;
            QString whole = cautionSentence(caution, phrasing);
            if (const QString remedy = remedySentence(caution, phrasing); !remedy.isEmpty())
                whole += QLatin1Char('\n') + remedy;
            take(rowPlace(*spot),
                 {cautionLabel(caution.code, phrasing), whole, static_cast<int>(caution.severity)});
        }
    }
    for (const Error& error : siteErrors(*answer)) {
        if (const auto spot = spotOf(error.place))
            take(rowPlace(*spot), {tr("impossible"), siteSentence(error, desk_.document.job().site), 3});
    }
}

} // namespace headmark
