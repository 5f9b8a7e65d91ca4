#include "app/desktop/installation/study_card.h"

#include "app/desktop/duty/working_html.h"
#include "app/desktop/frame/screen_phrasing.h"
#include "app/desktop/frame/theme.h"
#include "app/desktop/installation/study_words.h"
#include "app/words/working_words.h"

#include <QUrl>

#include <map>

namespace headmark {

namespace {

constexpr std::size_t kFewest = 3; // figures of one kind that are folded together

QString groupAnchor(const std::string& code) { return QStringLiteral("all@") + QString::fromStdString(code); }

} // namespace

StudyCard::StudyCard(QWidget* parent) : Card({}, parent), rows_(new CautionRows), figures_(new FlowText) {
    content().addWidget(rows_);
    content().addWidget(figures_);
    connect(figures_, &QTextBrowser::anchorClicked, this,
            [this](const QUrl& url) { follow(url.fragment(QUrl::FullyDecoded)); });
}

void StudyCard::show(const Study& study, const Site& site) {
    if (study.topic != study_.topic) unfolded_.clear();
    study_ = study;
    site_ = site;
    const Phrasing phrasing = screenPhrasing(site_);
    title_ = topicTitle(study_.topic, phrasing);
    setTitle(title_);
    setAccessibleName(title_);
    figures_->setAccessibleName(tr("Figures of: %1").arg(title_));
    rows_->show(study_.cautions, phrasing);
    write(phrasing);
}

QString StudyCard::groupHtml(const std::string& code, const Phrasing& phrasing) const {
    std::vector<const WorkingStep*> steps;
    for (const WorkingStep& step : study_.figures) {
        if (step.code == code) steps.push_back(&step);
    }
    const QString anchor = groupAnchor(code);
    const bool open = unfolded_.count(anchor) > 0;
    const QString title = tr("%1 (%2)").arg(groupTitle(*steps.front(), phrasing)).arg(steps.size());
    QString html = foldHtml(anchor, open, title, groupRange(steps, phrasing));
    if (!open) return html;
    for (const WorkingStep* step : steps) {
        const QString own = stepAnchor(*step);
        html += stepHtml(*step, own, unfolded_.count(own) > 0, phrasing, 1, figureWords(*step, phrasing));
    }
    return html;
}

// A kind of many stands where its first figure would.
void StudyCard::write(const Phrasing& phrasing) {
    std::map<std::string, std::size_t> count;
    for (const WorkingStep& step : study_.figures)
        ++count[step.code];
    QString html;
    std::set<std::string> written;
    for (const WorkingStep& step : study_.figures) {
        if (count[step.code] >= kFewest) {
            if (written.insert(step.code).second) html += groupHtml(step.code, phrasing);
            continue;
        }
        const QString anchor = stepAnchor(step);
        html += stepHtml(step, anchor, unfolded_.count(anchor) > 0, phrasing, 0, figureWords(step, phrasing));
    }
    figures_->setVisible(!html.isEmpty());
    figures_->showHtml(html);
}

void StudyCard::follow(const QString& anchor) {
    if (unfolded_.erase(anchor) == 0) unfolded_.insert(anchor);
    write(screenPhrasing(site_));
}

} // namespace headmark
