#include "app/desktop/duty/interval_card.h"

#include "app/desktop/duty/duty_words.h"
#include "app/desktop/frame/theme.h"

namespace headmark {

namespace {

QStringList readingLines(const CaseAnswer& a, const DisplayUnits& u) {
    QStringList lines;
    const auto heads = [&](const Interval95<Head>& i) {
        return rangeText(u.figure(i.low), u.figure(i.high), u.headSymbol());
    };
    const auto powers = [](const Interval95<Power>& i) {
        return rangeText(i.low.inKilowatts(), i.high.inKilowatts(), QStringLiteral("kW"));
    };
    if (a.duty->flow95)
        lines << IntervalCard::tr("duty flow %1")
                     .arg(rangeText(u.figure(a.duty->flow95->low), u.figure(a.duty->flow95->high),
                                    u.flowSymbol()));
    if (a.duty->head95) lines << IntervalCard::tr("duty head %1").arg(heads(*a.duty->head95));
    if (a.efficiency && a.efficiency->atDuty95)
        lines << IntervalCard::tr("efficiency %1")
                     .arg(rangeText(a.efficiency->atDuty95->low.inPercent(),
                                    a.efficiency->atDuty95->high.inPercent(), QStringLiteral("%")));
    if (a.power && a.power->shaft95)
        lines << IntervalCard::tr("shaft power %1").arg(powers(*a.power->shaft95));
    if (a.power && a.power->input95)
        lines << IntervalCard::tr("power from the supply %1").arg(powers(*a.power->input95));
    if (a.npsh && a.npsh->available95)
        lines << IntervalCard::tr("NPSH available %1").arg(heads(*a.npsh->available95));
    if (a.npsh && a.npsh->margin95) lines << IntervalCard::tr("NPSH margin %1").arg(heads(*a.npsh->margin95));
    return lines;
}

QString deliveredText(const CaseAnswer& a, const DisplayUnits& u) {
    if (!a.deliveredLow || !a.deliveredHigh)
        return IntervalCard::tr("Not both ends of the maker's tolerance have a duty point.");
    return IntervalCard::tr("flow %1\nhead %2")
        .arg(rangeText(u.figure(a.deliveredLow->flow), u.figure(a.deliveredHigh->flow), u.flowSymbol()),
             rangeText(u.figure(a.deliveredLow->head), u.figure(a.deliveredHigh->head), u.headSymbol()));
}

} // namespace

IntervalCard::IntervalCard(QWidget* parent)
    : Card(tr("How well this is known"), parent),
      readingTitle_(new QLabel(tr("From reading and site, 95 %"))), reading_(wrappedLabel({})),
      deliveredTitle_(new QLabel(tr("As delivered, within the maker's tolerance"))),
      delivered_(wrappedLabel({})) {
    for (QLabel* title : {readingTitle_, deliveredTitle_}) {
        title->setWordWrap(true);
        title->setObjectName(QStringLiteral("faint"));
    }
    readingTitle_->setToolTip(tr("What pins, ink, pipe lengths, roughness and levels leave open."));
    deliveredTitle_->setToolTip(tr("Pumps of one type differ; the maker's standard says by how much."));
    for (QWidget* part : {static_cast<QWidget*>(readingTitle_), static_cast<QWidget*>(reading_),
                          static_cast<QWidget*>(deliveredTitle_), static_cast<QWidget*>(delivered_)})
        content().addWidget(part);
}

void IntervalCard::show(const CaseAnswer* answer, const DisplayUnits& units, bool beingWorkedOut) {
    const bool known = answer && answer->duty;
    setVisible(known);
    if (!known) return;
    const QStringList lines = readingLines(*answer, units);
    QString reading = lines.join(QLatin1Char('\n'));
    if (beingWorkedOut)
        reading = tr("being worked out…");
    else if (lines.isEmpty())
        reading = tr("not known for this case");
    reading_->setText(reading);
    delivered_->setText(deliveredText(*answer, units));
}

} // namespace headmark
