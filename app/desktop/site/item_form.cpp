#include "app/desktop/site/item_form.h"

#include "analysis/pipework/catalogue.h"
#include "app/desktop/frame/card.h"
#include "app/desktop/frame/theme.h"
#include "app/desktop/site/item_words.h"
#include "app/desktop/site/run_edits.h"

namespace headmark {

namespace {

// Where the catalogue's figures of the item come from.
QString sourceOfItem(const RunItem& item) {
    const std::string* source = nullptr;
    if (const auto* pipe = std::get_if<PipeItem>(&item)) {
        if (const PipeRow* row = findPipe(pipe->kind.code)) source = &row->source;
    } else if (const auto* fitting = std::get_if<FittingItem>(&item)) {
        if (const FittingRow* row = findFitting(fitting->code)) source = &row->source;
    } else if (const auto* filter = std::get_if<FilterItem>(&item)) {
        if (const FilterRow* row = findFilter(filter->code)) source = &row->source;
    }
    return source ? ItemForm::tr("Figures from: %1").arg(QString::fromStdString(*source)) : QString();
}

} // namespace

ItemForm::ItemForm(Desk& desk, QWidget* parent)
    : FieldForm(desk, parent), desk_(desk), name_(wrappedLabel({})), says_(faintLabel({})) {
    name_->setFont(titleFont());
    addWidget(name_);
    addPipeFields();
    addFittingFields();
    addFilterFields();
    addRegulatorFields();
    addWidget(says_);
}

void ItemForm::addPipeFields() {
    const auto pipe = [this](const Workspace& w) { return item<PipeItem>(w) != nullptr; };
    const auto free = [this](const Workspace& w) {
        return item<PipeItem>(w) && item<PipeItem>(w)->kind.code.empty();
    };
    add(Number{tr("Length"),
               tr("Change the length of the pipe"),
               Quantity::length,
               {},
               range::kPipeLength_m,
               false,
               [this](const Workspace& w) -> Figure { return item<PipeItem>(w)->length.inMetres(); },
               [this](Workspace& w, Figure f) { item<PipeItem>(w).length = Length::fromMetres(*f); },
               {},
               pipe});
    add(Number{tr("Its far end at"),
               tr("Change the level of the pipe's end"),
               Quantity::level,
               {},
               range::kLevel_m,
               true,
               [this](const Workspace& w) -> Figure {
                   const auto& rise = item<PipeItem>(w)->riseTo;
                   return rise ? Figure(rise->inMetres()) : Figure();
               },
               [this](Workspace& w, Figure f) {
                   item<PipeItem>(w).riseTo = f ? std::optional(Level::fromMetres(*f)) : std::nullopt;
               },
               tr("For the drawing, air locks and pressure checks; the head to lift comes from water and "
                  "emitters alone."),
               pipe});
    add(Number{tr("Bore"),
               tr("Change the bore"),
               Quantity::plain,
               tr("mm"),
               range::kBore_mm,
               false,
               [this](const Workspace& w) -> Figure { return item<PipeItem>(w)->kind.bore.inMillimetres(); },
               [this](Workspace& w, Figure f) { item<PipeItem>(w).kind.bore = Length::fromMillimetres(*f); },
               {},
               free});
    add(Number{
        tr("Roughness"), tr("Change the roughness"), Quantity::plain, tr("mm"), range::kRoughness_mm, false,
        [this](const Workspace& w) -> Figure { return item<PipeItem>(w)->kind.roughness.inMillimetres(); },
        [this](Workspace& w, Figure f) { item<PipeItem>(w).kind.roughness = Length::fromMillimetres(*f); },
        tr("0.007 mm for smooth plastic, 0.15 mm for galvanised steel."), free});
    add(Number{tr("Hazen-Williams C"),
               tr("Change the pipe's C"),
               Quantity::plain,
               {},
               range::kHazenWilliams,
               true,
               [this](const Workspace& w) -> Figure { return item<PipeItem>(w)->kind.hazenWilliamsC; },
               [this](Workspace& w, Figure f) { item<PipeItem>(w).kind.hazenWilliamsC = f; },
               tr("Used where friction goes by Hazen and Williams."),
               free});
    add(Number{tr("Rated"),
               tr("Change the pipe's rating"),
               Quantity::pressure,
               {},
               range::kRating_kPa,
               true,
               [this](const Workspace& w) -> Figure {
                   const auto& rating = item<PipeItem>(w)->kind.rating;
                   return rating ? Figure(rating->inKilopascals()) : Figure();
               },
               [this](Workspace& w, Figure f) {
                   item<PipeItem>(w).kind.rating =
                       f ? std::optional(Pressure::fromKilopascals(*f)) : std::nullopt;
               },
               {},
               free});
}

void ItemForm::addFittingFields() {
    const auto fitting = [this](const Workspace& w) { return item<FittingItem>(w) != nullptr; };
    const auto byK = [this](const Workspace& w) { return item<FittingItem>(w) && item<FittingItem>(w)->k; };
    const auto byKv = [this](const Workspace& w) {
        return item<FittingItem>(w) && item<FittingItem>(w)->kv_m3_h;
    };
    const auto conical = [this](const Workspace& w) {
        return item<FittingItem>(w) && item<FittingItem>(w)->code.find("conical") != std::string::npos;
    };
    add(Number{tr("Count"),
               tr("Change the count"),
               Quantity::plain,
               {},
               range::kCount,
               false,
               [this](const Workspace& w) -> Figure { return item<FittingItem>(w)->count; },
               [this](Workspace& w, Figure f) { item<FittingItem>(w).count = static_cast<int>(*f); },
               {},
               fitting});
    add(Number{tr("Loss coefficient k"),
               tr("Change the loss coefficient"),
               Quantity::plain,
               {},
               range::kLossCoefficient,
               false,
               [this](const Workspace& w) -> Figure { return item<FittingItem>(w)->k; },
               [this](Workspace& w, Figure f) { item<FittingItem>(w).k = f; },
               tr("Loss in velocity heads of its bore."),
               byK});
    add(Number{tr("Kv"), tr("Change the Kv"), Quantity::plain, tr("m³/h"), range::kKv_m3_h, false,
               [this](const Workspace& w) -> Figure { return item<FittingItem>(w)->kv_m3_h; },
               [this](Workspace& w, Figure f) { item<FittingItem>(w).kv_m3_h = f; },
               tr("The flow that takes 1 bar."), byKv});
    add(Number{tr("Bore"), tr("Change the bore"), Quantity::plain, tr("mm"), range::kBore_mm, true,
               [this](const Workspace& w) -> Figure {
                   const auto& bore = item<FittingItem>(w)->bore;
                   return bore ? Figure(bore->inMillimetres()) : Figure();
               },
               [this](Workspace& w, Figure f) {
                   item<FittingItem>(w).bore = f ? std::optional(Length::fromMillimetres(*f)) : std::nullopt;
               },
               tr("Empty: by its size, or as the pipe beside it."), fitting});
    add(Number{tr("Angle of the cone"),
               tr("Change the angle"),
               Quantity::plain,
               tr("°"),
               range::kAngle_deg,
               true,
               [this](const Workspace& w) -> Figure { return item<FittingItem>(w)->angle_deg; },
               [this](Workspace& w, Figure f) { item<FittingItem>(w).angle_deg = f; },
               {},
               conical});
}

void ItemForm::addFilterFields() {
    const auto free = [this](const Workspace& w) {
        return item<FilterItem>(w) && item<FilterItem>(w)->code.empty();
    };
    add(Number{tr("Clean loss"),
               tr("Change the filter's loss"),
               Quantity::pressure,
               {},
               range::kFilterLoss_kPa,
               false,
               [this](const Workspace& w) -> Figure { return item<FilterItem>(w)->loss.inKilopascals(); },
               [this](Workspace& w, Figure f) { item<FilterItem>(w).loss = Pressure::fromKilopascals(*f); },
               {},
               free});
    add(Number{
        tr("at a flow of"),
        tr("Change the filter's flow"),
        Quantity::flow,
        {},
        range::kFilterFlow_m3_h,
        false,
        [this](const Workspace& w) -> Figure { return item<FilterItem>(w)->at.inCubicMetresPerHour(); },
        [this](Workspace& w, Figure f) { item<FilterItem>(w).at = Flow::fromCubicMetresPerHour(*f); },
        {},
        free});
    add(Number{tr("Exponent"),
               tr("Change the filter's exponent"),
               Quantity::plain,
               {},
               range::kFilterExponent,
               false,
               [this](const Workspace& w) -> Figure { return item<FilterItem>(w)->exponent; },
               [this](Workspace& w, Figure f) { item<FilterItem>(w).exponent = *f; },
               tr("2: twice the flow, four times the loss."),
               free});
    add(Number{
        tr("Cleaned at"),
        tr("Change when the filter is cleaned"),
        Quantity::pressure,
        {},
        range::kFilterLoss_kPa,
        false,
        [this](const Workspace& w) -> Figure { return item<FilterItem>(w)->service.inKilopascals(); },
        [this](Workspace& w, Figure f) { item<FilterItem>(w).service = Pressure::fromKilopascals(*f); },
        tr("The difference between its gauges at which it is cleaned."),
        free});
    add(Number{tr("Greatest flow"),
               tr("Change the filter's greatest flow"),
               Quantity::flow,
               {},
               range::kFilterFlow_m3_h,
               true,
               [this](const Workspace& w) -> Figure {
                   const auto& most = item<FilterItem>(w)->greatestFlow;
                   return most ? Figure(most->inCubicMetresPerHour()) : Figure();
               },
               [this](Workspace& w, Figure f) {
                   item<FilterItem>(w).greatestFlow =
                       f ? std::optional(Flow::fromCubicMetresPerHour(*f)) : std::nullopt;
               },
               {},
               free});
}

void ItemForm::addRegulatorFields() {
    add(Number{
        tr("Set to"),
        tr("Change the set pressure"),
        Quantity::pressure,
        {},
        range::kSetPressure_kPa,
        false,
        [this](const Workspace& w) -> Figure { return item<RegulatorItem>(w)->set.inKilopascals(); },
        [this](Workspace& w, Figure f) { item<RegulatorItem>(w).set = GaugePressure::fromKilopascals(*f); },
        tr("The pressure after it is at most this."),
        [this](const Workspace& w) { return item<RegulatorItem>(w) != nullptr; }});
    add(Text{tr("Name"),
             [this](const Workspace& w) { return QString::fromStdString(item<TakeoffItem>(w)->name); },
             [this](const QString& name) {
                 if (renameTakeoff(desk_.document, spot_, name)) return true;
                 emit desk_.said(tr("Every take-off needs a name of its own."), true);
                 return false;
             },
             tr("Zones leave the delivery run at a take-off."),
             [this](const Workspace& w) { return item<TakeoffItem>(w) != nullptr; }});
}

void ItemForm::setSpot(const RunSpot& spot) {
    spot_ = spot;
    update();
}

void ItemForm::update() {
    const RunItem* found = itemAt(desk_.document.job().site, spot_);
    name_->setText(found ? itemName(*found) : tr("No item chosen"));
    QString says = tr("Choose a row of the run or a thing in the drawing; its figures are edited here.");
    if (found) {
        const QString size = itemSize(*found);
        const QString from = sourceOfItem(*found);
        says = size.isEmpty() || from.isEmpty() ? size + from : size + QLatin1Char('\n') + from;
    }
    says_->setText(says);
    refresh();
}

} // namespace headmark
