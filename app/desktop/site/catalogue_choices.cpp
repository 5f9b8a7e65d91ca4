#include "app/desktop/site/catalogue_choices.h"

#include "analysis/pipework/catalogue.h"
#include "app/desktop/site/item_words.h"

#include <QCoreApplication>
#include <QStringList>

#include <algorithm>

namespace headmark {

namespace {

struct Choices {
    Q_DECLARE_TR_FUNCTIONS(CatalogueChoices)
};

// A new item's figures, meant to be typed over.
const Length kNewLength = Length::fromMetres(10.0);
const GaugePressure kNewSet = GaugePressure::fromKilopascals(150.0);
// What the catalogue's fixed regulator needs above its set pressure: note of its row.
const Pressure kRegulatorLeastLoss = Pressure::fromKilopascals(35.0);

void add(std::vector<CatalogueChoice>& out, const RunItem& item, const QString& words, const QString& more) {
    out.push_back({words, (words + QLatin1Char(' ') + more).toLower(), item});
}

void addFreeValues(std::vector<CatalogueChoice>& out) {
    const QString free = Choices::tr("free values own");
    PipeItem pipe;
    pipe.kind.bore = Length::fromMillimetres(50.0);
    pipe.kind.roughness = Length::fromMillimetres(0.007); // smooth plastic, as the catalogue's pipes
    pipe.kind.hazenWilliamsC = 150.0;
    pipe.length = kNewLength;
    add(out, pipe, Choices::tr("Pipe by bore and roughness"), free);
    FittingItem byK;
    byK.k = 1.0;
    add(out, byK, Choices::tr("Fitting by loss coefficient k"), free);
    FittingItem byKv;
    byKv.kv_m3_h = 10.0;
    add(out, byKv, Choices::tr("Fitting or valve by Kv"), free);
    FilterItem filter;
    filter.loss = Pressure::fromKilopascals(20.0);
    filter.at = Flow::fromCubicMetresPerHour(8.0);
    filter.service = Pressure::fromKilopascals(35.0);
    add(out, filter, Choices::tr("Filter by its loss at a flow"), free);
    add(out, RegulatorItem{kNewSet, Pressure(), "", {}},
        Choices::tr("Pressure regulator by its set pressure"), free);
    add(out, TakeoffItem{"T1"}, Choices::tr("Take-off for zones"), Choices::tr("branch tee"));
}

void addPipes(std::vector<CatalogueChoice>& out) {
    for (const PipeRow& row : pipeRows()) {
        PipeItem pipe;
        pipe.kind = row.kind;
        pipe.length = kNewLength;
        add(out, pipe, Choices::tr("%1, %2").arg(pipeName(row.kind), pipeSize(row.kind)),
            QString::fromStdString(row.kind.code).replace(QLatin1Char('_'), QLatin1Char(' ')) +
                QLatin1Char(' ') + Choices::tr("pipe"));
    }
}

void addFittings(std::vector<CatalogueChoice>& out) {
    const FittingRow* before = nullptr;
    std::vector<CatalogueChoice> sized;
    for (const FittingRow& row : fittingRows()) {
        if (before && before->code == row.code) continue;
        before = &row;
        const QString code = QString::fromStdString(row.code).replace(QLatin1Char('_'), QLatin1Char(' '));
        if (row.code == "pressure_regulator_fixed") {
            const RegulatorItem regulator{kNewSet, kRegulatorLeastLoss, row.code, {}};
            add(out, regulator, itemName(regulator), code);
            continue;
        }
        FittingItem fitting;
        fitting.code = row.code;
        for (const SizeChoice& choice : sizeChoices(fitting)) {
            const bool asPipe = std::get<FittingItem>(choice.item).size.empty();
            const QString words = Choices::tr("%1, %2").arg(itemName(choice.item), choice.words);
            add(asPipe ? out : sized, choice.item, words, code);
        }
    }
    out.insert(out.end(), sized.begin(), sized.end());
}

void addFilters(std::vector<CatalogueChoice>& out) {
    for (const FilterRow& row : filterRows())
        add(out, row.item, Choices::tr("%1, %2").arg(itemName(row.item), QString::fromStdString(row.size)),
            QString::fromStdString(row.item.code).replace(QLatin1Char('_'), QLatin1Char(' ')) +
                QLatin1Char(' ') + Choices::tr("filter"));
}

// Whether the word begins one of the text's words: "1" finds "1" and "1-1/4", not "110".
bool holds(const QStringList& words, const QString& typed) {
    return std::any_of(words.begin(), words.end(), [&](const QString& word) {
        if (!word.startsWith(typed))
            return word.size() > typed.size() && typed.size() > 2 && word.contains(typed);
        const bool figureGoesOn =
            typed.back().isDigit() && word.size() > typed.size() && word[typed.size()].isDigit();
        return !figureGoesOn;
    });
}

} // namespace

const std::vector<CatalogueChoice>& catalogueChoices() {
    static const std::vector<CatalogueChoice> choices = [] {
        std::vector<CatalogueChoice> out;
        addPipes(out);
        addFilters(out);
        addFreeValues(out);
        addFittings(out);
        return out;
    }();
    return choices;
}

const std::vector<CatalogueChoice>& pipeChoices() {
    static const std::vector<CatalogueChoice> choices = [] {
        std::vector<CatalogueChoice> out;
        addPipes(out);
        return out;
    }();
    return choices;
}

std::vector<int> matching(const std::vector<CatalogueChoice>& choices, const QString& typed, int most) {
    const QStringList wanted = typed.toLower().simplified().split(QLatin1Char(' '), Qt::SkipEmptyParts);
    std::vector<int> found;
    for (std::size_t i = 0; i < choices.size() && static_cast<int>(found.size()) < most; ++i) {
        QString text = choices[i].searched;
        const QStringList words =
            text.replace(QLatin1Char(','), QLatin1Char(' ')).split(QLatin1Char(' '), Qt::SkipEmptyParts);
        if (std::all_of(wanted.begin(), wanted.end(),
                        [&](const QString& word) { return holds(words, word); }))
            found.push_back(static_cast<int>(i));
    }
    // An exact word first: "elbow 2" before "elbow 2-1/2".
    std::stable_sort(found.begin(), found.end(), [&](int a, int b) {
        const auto exact = [&](int i) {
            QString text = choices[static_cast<std::size_t>(i)].searched;
            const QStringList words =
                text.replace(QLatin1Char(','), QLatin1Char(' ')).split(QLatin1Char(' '), Qt::SkipEmptyParts);
            return std::count_if(wanted.begin(), wanted.end(),
                                 [&](const QString& w) { return words.contains(w); });
        };
        return exact(a) > exact(b);
    });
    return found;
}

} // namespace headmark
