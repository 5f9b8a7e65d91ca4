#include "app/desktop/duty/working_card.h"

#include "app/desktop/duty/duty_words.h"
#include "app/desktop/frame/theme.h"
#include "app/words/working_words.h"

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

QString anchorOf(const WorkingStep& step) {
    return QString::fromStdString(step.place.empty() ? step.code : step.code + "@" + step.place);
}

QString fold(const QString& anchor, bool open, const QString& title, const QString& result) {
    return QStringLiteral(
               "<p style='margin:5px 0 1px 0'><a href='#%1' style='text-decoration:none;color:%2'>%3 "
               "%4</a>%5</p>")
        .arg(anchor.toHtmlEscaped(), theme().text.name(), open ? QStringLiteral("▾") : QStringLiteral("▸"),
             title.toHtmlEscaped(),
             result.isEmpty() ? QString() : QStringLiteral(": <b>%1</b>").arg(result.toHtmlEscaped()));
}

QString indented(const QString& text, const QColor& color) {
    return QStringLiteral("<p style='margin:1px 0 1px 16px;color:%1'>%2</p>")
        .arg(color.name(), text.toHtmlEscaped().replace(QLatin1Char('\n'), QStringLiteral("<br>")));
}

} // namespace

WorkingCard::WorkingCard(QWidget* parent) : Card(tr("Working"), parent), text_(new FlowText) {
    text_->setAccessibleName(tr("How the figures came about"));
    content().addWidget(text_);
    connect(text_, &QTextBrowser::anchorClicked, this,
            [this](const QUrl& url) { follow(url.fragment(QUrl::FullyDecoded)); });
}

QString WorkingCard::stepHtml(const WorkingStep& step, const QString& anchor) const {
    const Phrasing phrasing = screenPhrasing(site_);
    const WorkingWords words = workingWords(step, phrasing);
    const bool open = unfolded_.count(anchor) > 0;
    QString html = fold(anchor, open, words.title, words.result);
    if (!open) return html;
    const Theme& t = theme();
    if (!words.formula.isEmpty()) html += indented(words.formula, t.text);
    if (!words.with.isEmpty()) html += indented(tr("= %1").arg(words.with), t.text);
    html += indented(tr("= %1").arg(words.result), t.text);
    if (!words.source.isEmpty()) html += indented(tr("Source: %1").arg(words.source), t.faint);
    return html;
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
    QString main, details;
    int detailCount = 0;
    for (const WorkingStep& step : steps_) {
        const QString anchor = anchorOf(step);
        if (!isDetail(step)) {
            main += stepHtml(step, anchor);
            continue;
        }
        ++detailCount;
        if (all_) details += stepHtml(step, anchor);
    }
    if (!zonesAtOnce_.isEmpty()) {
        const bool open = unfolded_.count(kZones) > 0;
        main += fold(kZones, open, tr("Zones at once"), {});
        if (open) main += indented(zonesAtOnce_, theme().text);
    }
    if (detailCount > 0)
        main += fold(kAll, all_, tr("Pipes, fittings and filters (%n step(s))", nullptr, detailCount), {});
    if (main.isEmpty())
        main = indented(tr("Each figure's working stands here once there is a duty point."), theme().faint);
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
            const QString anchor = anchorOf(s);
            all_ = all_ || isDetail(s);
            unfolded_.insert(anchor);
            if (first.isEmpty()) first = anchor;
        }
    }
    write();
    if (first.isEmpty()) return -1;
    text_->setFocus();
    return text_->y() + std::max(0, text_->topOf(first));
}

} // namespace headmark
