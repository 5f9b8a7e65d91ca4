#include "app/desktop/charts/curve_card.h"

#include "app/desktop/charts/chart_words.h"
#include "app/desktop/frame/theme.h"

#include <QLocale>

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

constexpr double kNormal95 = 1.959963984540054; // two-sided 95 % of the normal distribution
constexpr int kHighestDegree = 6;

QString superscript(int power) {
    static const QString digits = QStringLiteral("⁰¹²³⁴⁵⁶⁷⁸⁹");
    return power < 10 ? QString(digits[power]) : QString::number(power);
}

} // namespace

CurveCard::CurveCard(ChartSession& session, QWidget* parent)
    : Card({}, parent), session_(session), facts_(new QWidget(this)), flow_(new NumberEntry(this)),
      flowUnit_(new QLabel(this)), more_(quietButton({}, this)), details_(new QWidget(this)) {
    auto* form = new QFormLayout(facts_);
    form->setContentsMargins(0, 0, 0, 0);
    form->setRowWrapPolicy(QFormLayout::WrapLongRows);
    form->setFieldGrowthPolicy(QFormLayout::AllNonFixedFieldsGrow);
    start_ = addRow(*form);
    auto* ask = new QWidget(facts_);
    auto* line = new QHBoxLayout(ask);
    line->setContentsMargins(0, 0, 0, 0);
    flow_->setAccessibleName(tr("Flow at which the line is read off"));
    flow_->setToolTip(tr("A flow of your choice; the line's value there stands below."));
    flow_->setObjectName(QStringLiteral("flowAsked"));
    line->addStretch(1);
    line->addWidget(flow_);
    line->addWidget(flowUnit_);
    form->addRow(faintLabel(tr("At a flow of"), facts_), ask);
    at_ = addRow(*form);
    end_ = addRow(*form);
    shape_ = addRow(*form);
    error_ = addRow(*form);
    content().addWidget(facts_);
    more_->setCheckable(true);
    more_->setToolTip(tr("The fitted polynomial and its degree, the residuals, the mapping and its pins."));
    content().addWidget(more_, 0, Qt::AlignLeft);
    buildDetails();
    content().addWidget(details_);
    details_->hide();
    connect(more_, &QPushButton::toggled, this, [this](bool on) {
        details_->setVisible(on);
        follow();
    });
    connect(flow_, &NumberEntry::entered, this, [this](std::optional<double> figure) {
        if (figure) flow_m3_s_ = session_.desk.units().flowFrom(*figure).inCubicMetresPerSecond();
        follow();
    });
    connect(&session_, &ChartSession::changed, this, &CurveCard::follow);
    connect(&session_, &ChartSession::chosenChanged, this, &CurveCard::follow);
    connect(&session_.desk, &Desk::unitsChanged, this, &CurveCard::follow);
    follow();
}

CurveCard::Row CurveCard::addRow(QFormLayout& form) {
    Row row{faintLabel({}, facts_), wrappedLabel({}, facts_)};
    row.figure->setAlignment(Qt::AlignRight);
    form.addRow(row.name, row.figure);
    return row;
}

void CurveCard::set(const Row& row, const QString& name, const QString& figure) {
    row.name->setText(name);
    row.figure->setText(figure);
    row.name->setVisible(!figure.isEmpty());
    row.figure->setVisible(!figure.isEmpty());
}

void CurveCard::buildDetails() {
    auto* layout = new QVBoxLayout(details_);
    layout->setContentsMargins(0, 0, 0, 0);
    auto* line = new QHBoxLayout;
    auto* name = new QLabel(tr("&Degree"), details_);
    degree_ = new QSpinBox(details_);
    degree_->setRange(0, kHighestDegree);
    degree_->setSpecialValueText(tr("chosen by the fit"));
    // The box asks for room for its figures only.
    degree_->setMinimumWidth(degree_->fontMetrics().horizontalAdvance(degree_->specialValueText()) +
                             4 * degree_->fontMetrics().height());
    degree_->setAccessibleName(tr("Degree of the fitted polynomial"));
    degree_->setKeyboardTracking(false);
    name->setBuddy(degree_);
    line->addWidget(name);
    line->addWidget(degree_);
    line->addStretch(1);
    layout->addLayout(line);
    polynomial_ = wrappedLabel({}, details_);
    residuals_ = wrappedLabel({}, details_);
    mapping_ = wrappedLabel({}, details_);
    pins_ = faintLabel({}, details_);
    for (QLabel* label : {polynomial_, residuals_, mapping_, pins_})
        layout->addWidget(label);
    connect(degree_, &QSpinBox::valueChanged, this, [this](int degree) {
        session_.changeLine(session_.chosen().index, tr("Choose the degree"), [degree](ChartLine& of) {
            of.degree = degree == 0 ? std::nullopt : std::optional<int>(degree);
        });
    });
}

void CurveCard::follow() {
    if (session_.isDragging()) return;
    const auto reading = session_.reading();
    const ChartPart chosen = session_.chosen();
    const ReadLine* read = chosen.isOfLine() ? session_.readLine(chosen.index) : nullptr;
    setVisible(reading && read && read->fit);
    if (!reading || !read || !read->fit) return;
    setTitle(QString::fromStdString(reading->lines[chosen.index].name));
    followFacts(*read, read->fit->curve);
    followAtFlow(*read, read->fit->curve);
    more_->setText(more_->isChecked() ? tr("Details ▾") : tr("Details ▸"));
    if (!more_->isChecked()) return;
    const QSignalBlocker quiet(degree_);
    degree_->setValue(reading->lines[chosen.index].degree.value_or(0));
    followDetails(*read, *read->fit);
}

void CurveCard::followFacts(const ReadLine& read, const PolynomialCurve& curve) {
    const DisplayUnits& units = session_.desk.units();
    const auto flowWords = [&](double flow) { return units.text(Flow::fromCubicMetresPerSecond(flow)); };
    const bool isHead = read.quantity == LineQuantity::head;
    const QString startName = isHead ? tr("Shut-off head") : tr("At no flow");
    if (curve.contains(0.0)) {
        set(start_, startName, valueWords(read.quantity, curve.at(0.0), units));
    } else {
        set(start_, startName, tr("not printed: the line begins at %1").arg(flowWords(curve.least_m3_s())));
    }
    set(end_, tr("End of the printed curve"),
        tr("%1 at %2")
            .arg(flowWords(curve.greatest_m3_s()),
                 valueWords(read.quantity, curve.at(curve.greatest_m3_s()), units)));
    set(shape_, isHead ? tr("Shape") : tr("Greatest"), shapeWords(read, curve));
}

void CurveCard::followAtFlow(const ReadLine& read, const PolynomialCurve& curve) {
    const DisplayUnits& units = session_.desk.units();
    // Until a flow is asked for: the middle of the line.
    const double flow = flow_m3_s_.value_or(0.5 * (curve.least_m3_s() + curve.greatest_m3_s()));
    flow_->setFigure(units.figure(Flow::fromCubicMetresPerSecond(flow)));
    flowUnit_->setText(units.flowSymbol());
    const bool inside = curve.contains(flow);
    set(at_, tr("%1 there").arg(quantityWords(read.quantity)),
        inside ? valueWords(read.quantity, curve.at(flow), units) : tr("outside the printed curve"));
    set(error_, tr("Reading error there"), inside ? errorWords(read, curve, flow) : QString());
}

QString CurveCard::shapeWords(const ReadLine& read, const PolynomialCurve& curve) const {
    const DisplayUnits& units = session_.desk.units();
    const double top = curve.flowOfMaximum();
    if (read.quantity != LineQuantity::head) {
        return tr("%1 at %2")
            .arg(valueWords(read.quantity, curve.at(top), units),
                 units.text(Flow::fromCubicMetresPerSecond(top)));
    }
    const bool droops = std::any_of(read.cautions.begin(), read.cautions.end(),
                                    [](const Caution& c) { return c.code == "head-drooping"; });
    if (!droops) return tr("falls all the way: one flow for each head");
    return tr("droops: highest at %1, two flows for some heads")
        .arg(units.text(Flow::fromCubicMetresPerSecond(top)));
}

QString CurveCard::errorWords(const ReadLine& read, const PolynomialCurve& curve, double flow_m3_s) const {
    const DisplayUnits& units = session_.desk.units();
    const QString reading =
        tr("± %1 (95 %)").arg(valueWords(read.quantity, kNormal95 * curve.sigmaAt(flow_m3_s), units));
    if (read.quantity != LineQuantity::head) return reading;
    const Workspace& workspace = session_.desk.document.workspace();
    const auto owners = ownersOf(workspace, session_.path(), session_.chosen().index);
    if (owners.empty()) return reading;
    const Pump& pump = workspace.job.pumps[owners.front()];
    const double share =
        pump.deliveredHeadShare.value_or(deliveredShareFor(pump.motor ? pump.motor->rated : std::nullopt));
    const Head allowed = share * Head::fromMetres(curve.at(flow_m3_s));
    return tr("%1; the maker allows ± %2").arg(reading, units.text(allowed));
}

QString CurveCard::polynomialWords(const ReadLine& read, const PolynomialCurve& curve) const {
    const DisplayUnits& units = session_.desk.units();
    const double unit_m3_s = units.flowFrom(1.0).inCubicMetresPerSecond();
    const bool isHead = read.quantity == LineQuantity::head || read.quantity == LineQuantity::npshRequired;
    const auto shown = [&](double c) {
        if (isHead) return units.figure(Head::fromMetres(c));
        if (read.quantity == LineQuantity::efficiency) return Efficiency::fromShare(c).inPercent();
        return Power::fromWatts(c).inKilowatts();
    };
    const QString unit = isHead                                      ? units.headSymbol()
                         : read.quantity == LineQuantity::efficiency ? QStringLiteral("%")
                                                                     : QStringLiteral("kW");
    const Eigen::VectorXd coefficients = curve.monomial(unit_m3_s);
    QLocale locale;
    locale.setNumberOptions(QLocale::OmitGroupSeparator);
    QString words;
    for (Eigen::Index k = 0; k < coefficients.size(); ++k) {
        const double c = shown(coefficients[k]);
        constexpr int kDigits = 5;
        const QString figure = locale.toString(std::abs(c), 'g', kDigits);
        if (k == 0) {
            words = (c < 0.0 ? QStringLiteral("−") : QString()) + figure;
            continue;
        }
        words += (c < 0.0 ? QStringLiteral(" − ") : QStringLiteral(" + ")) + figure + QStringLiteral(" Q") +
                 (k > 1 ? superscript(static_cast<int>(k)) : QString());
    }
    return tr("%1 in %2 = %3, with Q in %4")
        .arg(quantityWords(read.quantity), unit, words, units.flowSymbol());
}

void CurveCard::followDetails(const ReadLine& read, const SampleFit& fit) {
    const DisplayUnits& units = session_.desk.units();
    polynomial_->setText(
        tr("Degree %1. %2.").arg(QString::number(fit.curve.degree()), polynomialWords(read, fit.curve)));
    residuals_->setText(tr("%1 samples; off the curve by %2 in the root mean square, %3 at most.")
                            .arg(QString::number(read.samples.size()),
                                 valueWords(read.quantity, fit.rms, units),
                                 valueWords(read.quantity, fit.greatestResidual, units)));
    const ChartMapping* mapping = session_.mapping();
    const auto reading = session_.reading();
    if (!mapping || !reading) return;
    QString model = tr("upright: two scales, two offsets");
    if (mapping->model() == MappingModel::affine) model = tr("affine: turned or sheared");
    if (mapping->model() == MappingModel::perspective) model = tr("perspective: taken at an angle");
    mapping_->setText(tr("Mapping %1; the pins are off by %2 px in the root mean square.")
                          .arg(model, figureText(mapping->rms_px(), 2)));
    QStringList pins;
    const auto& residuals = mapping->pinResiduals_px();
    for (std::size_t i = 0; i < std::min(residuals.size(), reading->pins.size()); ++i)
        pins << tr("%1: %2 px").arg(pinName(i, *reading), figureText(residuals[i], 2));
    pins_->setText(pins.join(QLatin1Char('\n')));
}

} // namespace headmark
