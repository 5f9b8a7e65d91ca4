#include "app/desktop/frame/answer_strip.h"

#include "app/desktop/frame/theme.h"
#include "app/words/caution_words.h"
#include "app/words/error_words.h"

#include <QHBoxLayout>
#include <QPainter>

#include <algorithm>

namespace headmark {

namespace {

// In steps, so that the window is not laid out anew for every digit while something is dragged.
int stepped(int width_px) {
    constexpr int kStep_px = 16;
    return (width_px + kStep_px - 1) / kStep_px * kStep_px;
}

} // namespace

StripFigure::StripFigure(const QString& caption, QWidget* parent)
    : QAbstractButton(parent), caption_(caption) {
    setFocusPolicy(Qt::StrongFocus);
    setCursor(Qt::PointingHandCursor);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    show({}, {});
}

void StripFigure::show(const QString& figure, const QString& explanation, std::optional<Bar> bar) {
    const QSize wanted = sizeHint(), least = minimumSizeHint();
    figure_ = figure.isEmpty() ? QStringLiteral("–") : figure;
    explanation_ = explanation;
    bar_ = bar;
    setAccessibleName(tr("%1: %2. %3").arg(caption_, figure_, explanation_));
    setToolTip(explanation_.isEmpty() ? QString() : tr("%1. Click for the working.").arg(explanation_));
    if (sizeHint() != wanted || minimumSizeHint() != least) updateGeometry();
    update();
}

void StripFigure::setStale(bool stale) {
    if (stale == stale_) return;
    stale_ = stale;
    update();
}

QSize StripFigure::sizeHint() const {
    const QFontMetrics small(smallFont()), large(figureFont());
    const int wide = std::max({small.horizontalAdvance(caption_), large.horizontalAdvance(figure_),
                               small.horizontalAdvance(explanation_)});
    return {stepped(wide + 24), 2 * small.height() + large.height() + 18};
}

QSize StripFigure::minimumSizeHint() const {
    const QFontMetrics small(smallFont()), large(figureFont());
    return {stepped(std::max(small.horizontalAdvance(caption_), large.horizontalAdvance(figure_)) + 20),
            sizeHint().height()};
}

void StripFigure::paintBar(QPainter& painter, const QRectF& where) const {
    const Theme& t = theme();
    const double h = 9.0;
    const QRectF track(where.left(), where.center().y() - h / 2, where.width(), h);
    painter.setPen(Qt::NoPen);
    painter.setBrush(QColor(0, 0, 0, 90));
    painter.drawRoundedRect(track, h / 2, h / 2);
    const auto x = [&](double share) { return track.left() + std::clamp(share, 0.0, 1.0) * track.width(); };
    painter.setBrush(QColor(0x3e, 0x9d, 0x84));
    painter.drawRoundedRect(QRectF(QPointF(x(bar_->from), track.top()), QPointF(x(bar_->to), track.bottom())),
                            h / 2, h / 2);
    painter.setBrush(t.stripText);
    const double m = x(bar_->mark);
    painter.drawRect(QRectF(m - 1, track.top() - 3, 2, h + 6));
    painter.drawPolygon(
        QPolygonF({{m, track.top() - 2}, {m - 5, track.top() - 8}, {m + 5, track.top() - 8}}));
}

void StripFigure::paintEvent(QPaintEvent*) {
    const Theme& t = theme();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    if (hasFocus() || underMouse()) {
        painter.setPen(hasFocus() ? QPen(t.stripText, 1.5) : Qt::NoPen);
        painter.setBrush(QColor(255, 255, 255, underMouse() ? 16 : 0));
        painter.drawRoundedRect(QRectF(rect()).adjusted(2, 2, -2, -2), 6, 6);
    }
    const QFontMetrics small(smallFont()), large(figureFont());
    QRect box = rect().adjusted(10, 6, -10, -6);
    painter.setFont(smallFont());
    painter.setPen(t.stripFaint);
    painter.drawText(box, Qt::AlignLeft | Qt::AlignTop,
                     small.elidedText(caption_, Qt::ElideRight, box.width()));
    const QRect middle(box.left(), box.top() + small.height() + 2, box.width(), large.height());
    if (bar_) {
        paintBar(painter, QRectF(middle).adjusted(2, 2, -2, 2));
    } else {
        painter.setFont(figureFont());
        painter.setPen(stale_ ? t.stripFaint : t.stripText);
        painter.drawText(middle, Qt::AlignLeft | Qt::AlignVCenter,
                         large.elidedText(figure_, Qt::ElideRight, middle.width()));
    }
    painter.setFont(smallFont());
    painter.setPen(stale_ ? t.stripFaint : bar_ ? t.stripText : t.stripFaint);
    painter.drawText(box, Qt::AlignLeft | Qt::AlignBottom,
                     small.elidedText(explanation_, Qt::ElideRight, box.width()));
}

namespace {

// Where a band lies on the strip's bar, which reaches from no flow to 1.5 times the best flow.
constexpr double kBarReach = 1.5;

QString bandWords(Band band) {
    switch (band) {
    case Band::preferred:
        return AnswerStrip::tr("preferred");
    case Band::allowable:
        return AnswerStrip::tr("allowable");
    case Band::outside:
        return AnswerStrip::tr("outside");
    case Band::unknown:
        break;
    }
    return AnswerStrip::tr("not known");
}

QString percent(double share) { return AnswerStrip::tr("%1 %").arg(figureText(100.0 * share, 0)); }

} // namespace

AnswerStrip::AnswerStrip(Desk& desk, QWidget* parent)
    : QWidget(parent), desk_(desk), flow_(new StripFigure(tr("Duty flow"))),
      head_(new StripFigure(tr("Duty head"))), band_(new StripFigure(tr("Efficiency band"))),
      zones_(new StripFigure(tr("Zones at once"))), npsh_(new StripFigure(tr("NPSH margin"))),
      energy_(new StripFigure(tr("Energy"))),
      cautions_(new StripFigure(tr("Cautions"))), all_{flow_, head_,   band_,    zones_,
                                                       npsh_, energy_, cautions_} {
    auto* layout = new QHBoxLayout(this);
    layout->setContentsMargins(12, 6, 12, 6);
    layout->setSpacing(4);
    for (StripFigure* f : all_)
        layout->addWidget(f, f == band_ ? 3 : 2);
    setAccessibleName(tr("Answer"));
    const std::pair<StripFigure*, const char*> codes[] = {
        {flow_, "duty"},           {head_, "duty"},     {band_, "efficiency"},  {zones_, "zones-at-once"},
        {npsh_, "npsh-available"}, {energy_, "energy"}, {cautions_, "cautions"}};
    for (const auto& [figure, code] : codes) {
        connect(figure, &StripFigure::clicked, this,
                [this, asked = QString::fromLatin1(code)] { emit desk_.workingAsked(asked); });
    }
    connect(&desk_.answers, &AnswerService::answered, this, &AnswerStrip::refresh);
    connect(&desk_, &Desk::unitsChanged, this, &AnswerStrip::refresh);
    refresh();
}

void AnswerStrip::blank(const QString& why) {
    for (StripFigure* f : all_)
        f->show({}, {});
    flow_->show({}, why);
}

void AnswerStrip::showNeed() {
    const auto answer = desk_.answers.latest();
    blank({});
    for (StripFigure* f : {band_, zones_, npsh_, energy_, cautions_})
        f->setVisible(false); // not known without a pump: their room is left to what is
    if (answer->needs.empty()) {
        flow_->show({}, answer->errors.empty() ? tr("nothing to answer yet")
                                               : tr("the site is not complete yet"));
        return;
    }
    // The case that asks for the most: flow times head.
    const auto most =
        std::max_element(answer->needs.begin(), answer->needs.end(), [](const Need& a, const Need& b) {
            return a.flow.inCubicMetresPerSecond() * a.head.inMetres() <
                   b.flow.inCubicMetresPerSecond() * b.head.inMetres();
        });
    flow_->show(desk_.units().text(most->flow), tr("needed: %1").arg(QString::fromStdString(most->caseName)));
    head_->show(desk_.units().text(most->head), tr("needed at the pump; add a chart or a table"));
}

void AnswerStrip::showCase(const CaseAnswer& a) {
    for (StripFigure* f : all_)
        f->setVisible(true);
    const DisplayUnits& u = desk_.units();
    if (!a.duty) {
        blank(tr("no duty point on the chart"));
        showCautions(a);
        return;
    }
    const auto delivered = [&](auto low, auto high) {
        return tr("as delivered %1 to %2").arg(figureText(u.figure(low)), figureText(u.figure(high)));
    };
    const bool both = a.deliveredLow && a.deliveredHigh;
    flow_->show(u.text(a.duty->flow),
                both ? delivered(a.deliveredLow->flow, a.deliveredHigh->flow) : QString());
    head_->show(u.text(a.duty->head),
                both ? delivered(a.deliveredLow->head, a.deliveredHigh->head) : QString());
    if (a.efficiency && a.efficiency->atDuty) {
        const BandLimits& limits = a.efficiency->limits;
        const StripFigure::Bar bar{limits.preferredLow / kBarReach, limits.preferredHigh / kBarReach,
                                   a.efficiency->shareOfBestFlow / kBarReach};
        band_->show({},
                    tr("%1 here, best %2: %3")
                        .arg(percent(a.efficiency->atDuty->inShare()), percent(a.efficiency->best.inShare()),
                             bandWords(a.efficiency->band)),
                    bar);
    } else {
        band_->show({}, tr("no efficiency curve"));
    }
    if (a.npsh && a.npsh->margin) {
        npsh_->show(u.text(*a.npsh->margin), tr("available %1, required %2")
                                                 .arg(figureText(u.figure(a.npsh->available)),
                                                      figureText(u.figure(*a.npsh->required))));
    } else if (a.npsh) {
        npsh_->show({}, tr("available %1, required not known").arg(u.text(a.npsh->available)));
    } else {
        npsh_->show({}, tr("not judged"));
    }
    if (a.power && a.power->kilowattHoursPerCubicMetre) {
        energy_->show(tr("%1 kWh/m³").arg(figureText(*a.power->kilowattHoursPerCubicMetre)),
                      a.power->input
                          ? tr("%1 kW from the supply").arg(figureText(a.power->input->inKilowatts()))
                          : QString());
    } else {
        energy_->show({}, tr("no power curve or motor"));
    }
    showZones();
    showCautions(a);
}

void AnswerStrip::showZones() {
    const auto answer = desk_.answers.latest();
    const auto pump = static_cast<std::size_t>(desk_.shown().pump);
    const auto total = answer->workspace.job.site.zones.size();
    if (!answer->findings || pump >= answer->findings->pumps.size() ||
        !answer->findings->pumps[pump].zonesAtOnce) {
        zones_->show({}, total == 0      ? tr("no zones on this site")
                         : answer->stale ? tr("being worked out")
                                         : QString());
        return;
    }
    const ZonesAtOnceFinding& z = *answer->findings->pumps[pump].zonesAtOnce;
    const QString best = z.bestSet > z.anySet ? tr("any %1; some sets of %2").arg(z.anySet).arg(z.bestSet)
                         : z.anySet > 0       ? tr("any %1 together").arg(z.anySet)
                                              : tr("none works alone in every state");
    zones_->show(tr("%1 of %2").arg(z.bestSet).arg(total),
                 z.proven ? best : tr("%1; at most %2").arg(best).arg(z.bestSetAtMost));
}

void AnswerStrip::showCautions(const CaseAnswer& a) {
    int notes = 0, warnings = 0, dangers = 0;
    for (const Caution& c : a.cautions)
        ++(c.severity == Severity::danger ? dangers : c.severity == Severity::warning ? warnings : notes);
    const auto words = [](int count, const QString& one, const QString& several) {
        return count == 1 ? one : several.arg(count);
    };
    const QString dangerWords = words(dangers, tr("1 danger"), tr("%1 dangers"));
    const QString warningWords = words(warnings, tr("1 warning"), tr("%1 warnings"));
    const QString noteWords = words(notes, tr("1 note"), tr("%1 notes"));
    QStringList others;
    if (dangers > 0 && warnings > 0) others << warningWords;
    if (notes > 0 && dangers + warnings > 0) others << noteWords;
    const QString most = dangers > 0    ? dangerWords
                         : warnings > 0 ? warningWords
                         : notes > 0    ? noteWords
                                        : tr("none");
    const QString verdict = a.serves ? tr("serves") : tr("does not serve");
    cautions_->show(most, others.isEmpty() ? verdict
                                           : tr("%1; %2").arg(others.join(QStringLiteral(", ")), verdict));
}

void AnswerStrip::refresh() {
    const auto answer = desk_.answers.latest();
    if (!desk_.document.isOpen()) {
        blank({});
    } else if (answer->shownCase) {
        showCase(*answer->shownCase);
    } else {
        showNeed();
    }
    for (StripFigure* f : {zones_})
        f->setStale(answer->stale);
}

void AnswerStrip::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), theme().strip);
}

} // namespace headmark
