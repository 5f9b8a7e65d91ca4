#include "app/desktop/installation/study_card.h"

#include "app/desktop/duty/cautions_card.h"
#include "app/desktop/duty/working_html.h"
#include "app/desktop/frame/screen_phrasing.h"
#include "app/desktop/frame/theme.h"
#include "app/desktop/installation/study_words.h"
#include "app/words/working_words.h"

#include <QUrl>

#include <algorithm>
#include <map>

namespace headmark {

namespace {

constexpr std::size_t kFewest = 3; // figures of one kind that are folded together

QString groupAnchor(const std::string& code) { return QStringLiteral("all@") + QString::fromStdString(code); }

} // namespace

StudyCard::StudyCard(QWidget* parent) : Card({}, parent), list_(new QVBoxLayout), figures_(new FlowText) {
    list_->setSpacing(4);
    content().addLayout(list_);
    content().addWidget(figures_);
    connect(figures_, &QTextBrowser::anchorClicked, this,
            [this](const QUrl& url) { follow(url.fragment(QUrl::FullyDecoded)); });
}

void StudyCard::show(const Study& study, const Site& site) {
    if (study.topic != study_.topic) unfolded_.clear();
    study_ = study;
    site_ = site;
    std::stable_sort(study_.cautions.begin(), study_.cautions.end(),
                     [](const Caution& a, const Caution& b) { return a.severity > b.severity; });
    const Phrasing phrasing = screenPhrasing(site_);
    title_ = topicTitle(study_.topic, phrasing);
    setTitle(title_);
    setAccessibleName(title_);
    figures_->setAccessibleName(tr("Figures of: %1").arg(title_));
    showCautions(phrasing);
    write(phrasing);
}

void StudyCard::showCautions(const Phrasing& phrasing) {
    used_ = study_.cautions.size();
    while (rows_.size() < used_) {
        rows_.push_back(new CautionRow);
        list_->addWidget(rows_.back());
    }
    for (std::size_t i = 0; i < rows_.size(); ++i) {
        rows_[i]->setVisible(i < used_);
        if (i < used_) rows_[i]->show(CautionRow::wordsOf(study_.cautions[i], phrasing));
    }
}

std::vector<QString> StudyCard::cautions() const {
    std::vector<QString> said;
    for (std::size_t i = 0; i < used_; ++i)
        said.push_back(rows_[i]->sentence());
    return said;
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
