#include "app/desktop/site/item_words.h"

#include "analysis/irrigation/emitter_catalogue.h"
#include "analysis/pipework/catalogue.h"

#include <QCoreApplication>

#include <cmath>

namespace headmark {

namespace {

struct Items {
    Q_DECLARE_TR_FUNCTIONS(Items)
};

QString fromText(const std::string& text) { return QString::fromStdString(text); }

QString capital(QString text) {
    if (!text.isEmpty()) text[0] = text[0].toUpper();
    return text;
}

QString fittingName(const FittingItem& fitting) {
    if (const FittingRow* row = findFitting(fitting.code)) return capital(fromText(row->description));
    if (fitting.kv_m3_h) return Items::tr("Fitting by its Kv");
    return Items::tr("Fitting by its k");
}

QString filterName(const FilterItem& filter) {
    const FilterRow* row = findFilter(filter.code);
    if (!row) return Items::tr("Filter by its loss");
    return row->type.find("filter") == std::string::npos
               ? capital(Items::tr("%1 filter").arg(fromText(row->type)))
               : capital(fromText(row->type));
}

QString regulatorName(const RegulatorItem& regulator) {
    if (const FittingRow* row = findFitting(regulator.code)) return capital(fromText(row->description));
    return Items::tr("Pressure regulator");
}

QString millimetres(Length length) { return Items::tr("%1 mm").arg(exactFigure(length.inMillimetres())); }

} // namespace

int enoughDecimals(double figure) {
    for (int decimals = 0; decimals < 6; ++decimals) {
        const double scaled = figure * std::pow(10.0, decimals);
        if (std::abs(scaled - std::round(scaled)) <= 1e-7 * std::max(1.0, std::abs(scaled))) return decimals;
    }
    return 6;
}

QString exactFigure(double figure) { return figureText(figure, enoughDecimals(figure)); }

QString pipeName(const PipeKind& kind) {
    const PipeRow* row = findPipe(kind.code);
    if (!row) return kind.bore.inMetres() > 0.0 ? Items::tr("Pipe by its bore") : Items::tr("Pipe");
    const bool hose = kind.code.starts_with("suction_hose");
    const QString material = fromText(row->material);
    return capital(hose || material.contains(QLatin1String("hose")) ? material
                                                                    : Items::tr("%1 pipe").arg(material));
}

QString pipeSize(const PipeKind& kind) {
    const PipeRow* row = findPipe(kind.code);
    const QString bore =
        millimetres(Length::fromMillimetres(std::round(kind.bore.inMillimetres() * 10.0) / 10.0));
    return row ? fromText(row->designation) : Items::tr("bore %1").arg(bore);
}

QString itemName(const RunItem& item) {
    if (const auto* pipe = std::get_if<PipeItem>(&item)) return pipeName(pipe->kind);
    if (const auto* fitting = std::get_if<FittingItem>(&item)) return fittingName(*fitting);
    if (const auto* filter = std::get_if<FilterItem>(&item)) return filterName(*filter);
    if (const auto* regulator = std::get_if<RegulatorItem>(&item)) return regulatorName(*regulator);
    return Items::tr("Take-off %1").arg(fromText(std::get<TakeoffItem>(item).name));
}

QString itemSize(const RunItem& item) {
    if (const auto* pipe = std::get_if<PipeItem>(&item)) return pipeSize(pipe->kind);
    if (const auto* fitting = std::get_if<FittingItem>(&item)) {
        if (fitting->bore) return Items::tr("bore %1").arg(millimetres(*fitting->bore));
        return fitting->size.empty() ? Items::tr("as the pipe") : fromText(fitting->size);
    }
    if (const auto* filter = std::get_if<FilterItem>(&item)) {
        const FilterRow* row = findFilter(filter->code);
        return row ? fromText(row->size) : QString();
    }
    if (const auto* regulator = std::get_if<RegulatorItem>(&item)) return fromText(regulator->size);
    return {};
}

QString itemSetting(const RunItem& item, const DisplayUnits& units) {
    if (const auto* pipe = std::get_if<PipeItem>(&item))
        return Items::tr("%1 %2").arg(exactFigure(units.figure(pipe->length)), units.lengthSymbol());
    if (const auto* fitting = std::get_if<FittingItem>(&item)) {
        if (fitting->k) return Items::tr("k %1").arg(exactFigure(*fitting->k));
        if (fitting->kv_m3_h) return Items::tr("Kv %1").arg(exactFigure(*fitting->kv_m3_h));
        return {};
    }
    if (const auto* filter = std::get_if<FilterItem>(&item)) {
        if (filter->service.inPascals() <= 0.0) return {};
        return Items::tr("clean at %1").arg(units.text(GaugePressure() + filter->service));
    }
    if (const auto* regulator = std::get_if<RegulatorItem>(&item))
        return Items::tr("%1 %2").arg(exactFigure(units.figure(regulator->set)), units.pressureSymbol());
    return {};
}

QString sourceName(const std::string& kind) {
    const SourceKindRow* row = findSourceKind(kind);
    return row ? capital(fromText(row->name)) : Items::tr("Water");
}

QString emittersWords(const Zone& zone, const DisplayUnits& units) {
    const Emitters& e = zone.emitters;
    if (e.whole) return Items::tr("Whole zone, %1").arg(units.text(e.law.nominal));
    const EmitterRow* row = findEmitterType(e.type);
    const QString one =
        row ? fromText(row->name)
            : Items::tr("emitter of %1 l/h").arg(exactFigure(e.law.nominal.inLitresPerHour()));
    if (zone.laterals) return Items::tr("%n lateral(s), %1", nullptr, zone.laterals->count).arg(one);
    if (e.metres) return Items::tr("%1 of %2").arg(units.text(*e.metres), one);
    return capital(one);
}

std::vector<SizeChoice> sizeChoices(const RunItem& item) {
    std::vector<SizeChoice> choices;
    if (const auto* pipe = std::get_if<PipeItem>(&item)) {
        const PipeRow* mine = findPipe(pipe->kind.code);
        for (const PipeRow& row : pipeRows()) {
            if (!mine || row.material != mine->material) continue;
            PipeItem other = *pipe;
            other.kind = row.kind;
            choices.push_back({pipeSize(row.kind), other});
        }
    } else if (const auto* fitting = std::get_if<FittingItem>(&item)) {
        const FittingRow* mine = findFitting(fitting->code);
        const bool tabled = mine && mine->model == LossModel::kvTable;
        const auto add = [&](const std::string& size) {
            FittingItem other = *fitting;
            other.size = size;
            other.bore.reset();
            choices.push_back({size.empty() ? Items::tr("as the pipe") : fromText(size), other});
        };
        add("");
        for (const FittingRow& row : fittingRows()) {
            if (mine && row.code == fitting->code && !row.size.empty()) add(row.size);
        }
        for (const ThreadRow& thread : threadRows()) {
            if (!tabled && thread.steelTubeBore_mm > 0.0) add(thread.designation);
        }
    } else if (const auto* filter = std::get_if<FilterItem>(&item)) {
        const FilterRow* mine = findFilter(filter->code);
        for (const FilterRow& row : filterRows()) {
            if (mine && row.type == mine->type) choices.push_back({fromText(row.size), row.item});
        }
    }
    return choices;
}

} // namespace headmark
