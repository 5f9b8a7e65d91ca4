#include "app/desktop/installation/source_facts_form.h"

#include "app/desktop/frame/screen_phrasing.h"
#include "app/desktop/installation/form_labels.h"
#include "app/desktop/installation/guards_ranges.h"
#include "app/desktop/installation/ordered_pair_edit.h"
#include "app/words/part_words.h"

#include <algorithm>

namespace headmark {

namespace {

constexpr std::string_view kDevices[] = {"float", "electrode", "flow-switch", "pressure-switch",
                                         "under-current"};

QStringList deviceChoices() {
    QStringList words{SourceFactsForm::tr("not said")};
    for (const std::string_view device : kDevices)
        words << deviceWords(device, screenPhrasing());
    return words;
}

// Where nothing was said of the source, its levels are not said by this either.
WaterSource& sourceOf(Workspace& workspace) {
    auto& source = workspace.job.site.source;
    if (!source) {
        source.emplace();
        source->levelsGiven = false;
    }
    return *source;
}

std::optional<double> metres(const std::optional<Level>& level) {
    return level ? std::optional<double>(level->inMetres()) : std::nullopt;
}

std::optional<Level> levelOf(const std::optional<double>& figure) {
    return figure ? std::optional<Level>(Level::fromMetres(*figure)) : std::nullopt;
}

OrderedPairEdit::About levelFields() {
    using Pair = OrderedPairEdit::Pair;
    OrderedPairEdit::About about;
    about.fields = {
        {{SourceFactsForm::tr("Floor at"), SourceFactsForm::tr("The bottom of tank or bed below the mouth.")},
         {SourceFactsForm::tr("Mouth at"),
          SourceFactsForm::tr("The upper edge of the suction's open end, on the zero of all levels; a "
                              "floating inlet has none.")}}};
    about.step = SourceFactsForm::tr("Change the levels at the suction's mouth");
    about.quantity = Quantity::level;
    about.range = range::kLevel_m;
    about.notAscending = SourceFactsForm::tr("The mouth must be above the floor.");
    about.get = [](const Workspace& w) -> Pair {
        const auto& source = w.job.site.source;
        return source ? Pair{metres(source->floor), metres(source->mouth)} : Pair{};
    };
    about.set = [](Workspace& w, const Pair& pair) {
        if (!w.job.site.source && !pair[0] && !pair[1]) return;
        WaterSource& source = sourceOf(w);
        source.floor = levelOf(pair[0]);
        source.mouth = levelOf(pair[1]);
    };
    return about;
}

} // namespace

std::span<const std::string_view> dryRunDevices() { return kDevices; }

SourceFactsForm::SourceFactsForm(Desk& desk, QWidget* parent)
    : FieldForm(desk, parent), levels_(new OrderedPairEdit(desk, levelFields())) {
    addWidget(levels_);
    add(Choice{tr("Against dry running"), tr("Change what stops a dry pump"), deviceChoices(),
               [](const Workspace& w) {
                   const auto& source = w.job.site.source;
                   const auto at = std::ranges::find(kDevices, source ? source->dryRunDevice : std::string());
                   return at == std::end(kDevices) ? 0 : static_cast<int>(at - std::begin(kDevices)) + 1;
               },
               [](Workspace& w, int index) {
                   if (index == 0 && !w.job.site.source) return;
                   sourceOf(w).dryRunDevice = index > 0 ? std::string(kDevices[index - 1]) : std::string();
               },
               tr("What stops the pump before it runs dry.")});
    add(Number{tr("A zone valve shuts in"), tr("Change the closing time"), Quantity::plain, tr("s"),
               range::kValveClosing_s, true,
               [](const Workspace& w) -> Figure {
                   const auto& closing = w.job.site.valveClosing;
                   return closing ? Figure(closing->inSeconds()) : Figure();
               },
               [](Workspace& w, Figure f) {
                   w.job.site.valveClosing =
                       f ? std::optional<Duration>(Duration::fromSeconds(*f)) : std::nullopt;
               },
               tr("The time in which it takes the last of the flow away; empty: the trade's figure.")});
}

void SourceFactsForm::refresh() {
    FieldForm::refresh();
    alignLabels(*this);
    levels_->refresh();
}

} // namespace headmark
