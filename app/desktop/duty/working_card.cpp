#include "app/desktop/duty/working_card.h"

#include "app/desktop/duty/duty_words.h"
#include "app/desktop/duty/working_html.h"
#include "app/desktop/frame/theme.h"

#include <QUrl>

#include <algorithm>
#include <map>

namespace headmark {

namespace {

const QString kZones = QStringLiteral("zones-at-once");
const QString kAll = QStringLiteral("all-steps");

// The steps that a figure of the answer strip rests on, the nearest first.
const std::map<QString, QStringList>& stepsBehind() {
    static const std::map<QString, QStringList> behind{
        {"duty",
         {"duty-on-curve", "system-head", "known-system", "pressure-at-zone", "delivered-low",
          "delivered-high"}},
        {"efficiency", {"share-of-best-flow", "hydraulic-power", "shaft-power"}},
        {"npsh-available", {"npsh-available", "npsh-margin"}},
        {"npsh-margin", {"npsh-margin", "npsh-available"}},
        {"energy", {"energy-per-volume", "input-power", "shaft-power"}},
        {kZones, {kZones}},
    };
    return behind;
}

// Steps of single pipes and fittings: many, and looked at last.
bool isDetail(const WorkingStep& step) {
    static const QStringList details{
        "velocity",     "reynolds",        "friction",    "friction-hazen-williams",
        "fitting-loss", "fitting-loss-kv", "filter-loss", "filter-loss-service"};
    return details.contains(QString::fromStdString(step.code));
}

} // namespace

WorkingCard::WorkingCard(QWidget* parent) : Card(tr("Working"), parent), text_(new FlowText) {
    text_->setAccessibleName(tr("How the figures came about"));
    content().addWidget(text_);
    connect(text_, &QTextBrowser::anchorClicked, this,
            [this](const QUrl& url) { follow(url.fragment(QUrl::FullyDecoded)); });
}

void WorkingCard::show(const std::optional<CaseAnswer>& answer, const Site& site) {
    steps_ = answer ? answer->working : Working{};
    site_ = site;
    write();
}

void WorkingCard::showZonesAtOnce(const QString& words) {
    zonesAtOnce_ = words;
    write();
}

void WorkingCard::refreshTheme() { write(); }

void WorkingCard::write() {
    const Phrasing phrasing = screenPhrasing(site_);
    const auto stepOf = [&](const WorkingStep& step, const QString& anchor) {
        return stepHtml(step, anchor, unfolded_.count(anchor) > 0, phrasing);
    };
    QString main, details;
    int detailCount = 0;
    for (const WorkingStep& step : steps_) {
        const QString anchor = stepAnchor(step);
        if (!isDetail(step)) {
            main += stepOf(step, anchor);
            continue;
        }
        ++detailCount;
        if (all_) details += stepOf(step, anchor);
    }
    if (!zonesAtOnce_.isEmpty()) {
        const bool open = unfolded_.count(kZones) > 0;
        main += foldHtml(kZones, open, tr("Zones at once"), {});
        if (open) main += indentedHtml(zonesAtOnce_, theme().text);
    }
    if (detailCount > 0)
        main +=
            foldHtml(kAll, all_, tr("Pipes, fittings and filters (%n step(s))", nullptr, detailCount), {});
    if (main.isEmpty())
        main =
            indentedHtml(tr("Each figure's working stands here once there is a duty point."), theme().faint);
    text_->showHtml(main + details);
}

void WorkingCard::follow(const QString& anchor) {
    if (anchor == kAll)
        all_ = !all_;
    else if (unfolded_.count(anchor) > 0)
        unfolded_.erase(anchor);
    else
        unfolded_.insert(anchor);
    write();
}

int WorkingCard::unfold(const QString& code) {
    const auto behind = stepsBehind().find(code);
    const QStringList wanted = behind != stepsBehind().end() ? behind->second : QStringList{code};
    QString first;
    for (const QString& step : wanted) {
        if (step == kZones && !zonesAtOnce_.isEmpty()) {
            unfolded_.insert(kZones);
            first = kZones;
        }
        for (const WorkingStep& s : steps_) {
            if (QString::fromStdString(s.code) != step) continue;
            const QString anchor = stepAnchor(s);
            all_ = all_ || isDetail(s);
            unfolded_.insert(anchor);
            if (first.isEmpty()) first = anchor;
        }
    }
    write();
    if (first.isEmpty()) return -1;
    text_->setFocus();
    return text_->y() + std::max(0, text_->topOf(anchorLink(first)));
}

} // namespace headmark
