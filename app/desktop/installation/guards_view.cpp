#include "app/desktop/installation/guards_view.h"

#include "app/desktop/installation/pump_facts_form.h"
#include "app/desktop/installation/rules_card.h"
#include "app/desktop/installation/source_facts_form.h"
#include "app/desktop/installation/study_card.h"
#include "app/words/error_words.h"

#include <QEvent>

namespace headmark {

namespace {

constexpr int kBeside_letters = 120; // width in letters from which the forms stand beside the studies
constexpr double kFormShare = 0.36;  // of that width

const PumpFindings* foundOf(const Answer& answer, int shown) {
    const auto pump = static_cast<std::size_t>(shown);
    if (!answer.findings || pump >= answer.findings->pumps.size()) return nullptr;
    return &answer.findings->pumps[pump];
}

bool saysSomething(const Study& study) { return !study.cautions.empty() || !study.figures.empty(); }

} // namespace

GuardsView::GuardsView(Desk& desk, QWidget* parent)
    : QWidget(parent), desk_(desk), page_(new QScrollArea), parts_(new QBoxLayout(QBoxLayout::LeftToRight)),
      studyColumn_(madeStudies()), formColumn_(madeForms()), rules_(new RulesCard(desk)) {
    auto* inner = new QWidget;
    auto* column = new QVBoxLayout(inner);
    column->setContentsMargins(12, 12, 12, 12);
    column->setSpacing(10);
    parts_->setSpacing(10);
    parts_->addWidget(studyColumn_, 1);
    parts_->addWidget(formColumn_);
    column->addLayout(parts_);
    column->addWidget(rules_);
    column->addStretch(1);
    page_->setWidget(inner);
    page_->setWidgetResizable(true);
    page_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    page_->setFocusPolicy(Qt::NoFocus);
    page_->viewport()->setAutoFillBackground(false);
    inner->setAutoFillBackground(false);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(page_);
    connectDesk();
}

QWidget* GuardsView::madeStudies() {
    auto* column = new QWidget;
    studyList_ = new QVBoxLayout(column);
    studyList_->setContentsMargins(0, 0, 0, 0);
    studyList_->setSpacing(10);
    state_ = faintLabel({});
    noticeCard_ = new Card;
    notice_ = wrappedLabel({});
    noticeButton_ = mainButton({});
    noticeCard_->content().addWidget(notice_);
    noticeCard_->content().addWidget(noticeButton_, 0, Qt::AlignLeft);
    studyList_->addWidget(state_);
    studyList_->addWidget(noticeCard_);
    studyList_->addStretch(1);
    connect(noticeButton_, &QPushButton::clicked, this, &GuardsView::goMend);
    return column;
}

QWidget* GuardsView::madeForms() {
    auto* column = new QWidget;
    auto* layout = new QVBoxLayout(column);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(10);
    pumpForm_ = new PumpFactsForm(desk_);
    sourceForm_ = new SourceFactsForm(desk_);
    pumpCard_ = new Card(tr("The pump"));
    pumpCard_->content().addWidget(pumpForm_);
    auto* sourceCard = new Card(tr("At the source"));
    sourceCard->content().addWidget(sourceForm_);
    layout->addWidget(pumpCard_);
    layout->addWidget(sourceCard);
    layout->addStretch(1);
    return column;
}

void GuardsView::connectDesk() {
    connect(&desk_.answers, &AnswerService::answered, this, &GuardsView::refresh);
    connect(&desk_, &Desk::shownChanged, this, &GuardsView::refresh);
    connect(&desk_, &Desk::unitsChanged, this, &GuardsView::refresh);
    connect(&desk_, &Desk::themeChanged, this, &GuardsView::refresh);
    connect(&desk_.document, &Document::workspaceChanged, this, &GuardsView::refreshForms);
}

void GuardsView::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    if (late_) refresh();
}

void GuardsView::refresh() {
    late_ = !isVisible();
    if (late_) return;
    refreshNotice();
    refreshStudies();
    refreshForms();
    fitWidth();
}

// What was typed is seen at once, before the answer to it.
void GuardsView::refreshForms() {
    late_ = late_ || !isVisible();
    if (!isVisible()) return;
    const auto& pumps = desk_.document.job().pumps;
    const auto shown = static_cast<std::size_t>(desk_.shown().pump);
    pumpCard_->setVisible(shown < pumps.size());
    if (shown < pumps.size()) {
        const QString name = QString::fromStdString(pumps[shown].name);
        pumpCard_->setTitle(pumps.size() > 1 && !name.isEmpty() ? tr("The pump: %1").arg(name)
                                                                : tr("The pump"));
        pumpForm_->refresh();
    }
    sourceForm_->refresh();
    rules_->refresh();
}

// What is missing, in a sentence, with the way to mend it.
void GuardsView::refreshNotice() {
    const auto answer = desk_.answers.latest();
    const PumpFindings* found = foundOf(*answer, desk_.shown().pump);
    QString words, button, state;
    if (!answer->errors.empty()) {
        words = sentences(answer->errors);
        const bool ofSite = answer->errors.front().place.rfind("site", 0) == 0;
        noticePlace_ = ofSite ? PlaceId::site : PlaceId::charts;
        button = ofSite ? tr("Go to the site") : tr("Go to the charts");
    } else if (desk_.document.job().pumps.empty()) {
        words = tr("With a pump it can be judged what would run it dry, overheat it or burst a pipe.");
        noticePlace_ = PlaceId::charts;
        button = tr("Add a pump");
    } else if (answer->stale) {
        state = found ? tr("Being worked out anew; this is of before your last change.")
                      : tr("Being worked out.");
    } else if (!found || found->installation.empty()) {
        words = tr("Of this site too little is known to judge what guards the pump; describe how the water "
                   "reaches it and where it goes.");
        noticePlace_ = PlaceId::site;
        button = tr("Go to the site");
    }
    notice_->setText(words);
    noticeButton_->setText(button);
    noticeButton_->setVisible(!button.isEmpty());
    noticeCard_->setVisible(!words.isEmpty());
    state_->setText(state);
    state_->setVisible(!state.isEmpty());
}

void GuardsView::refreshStudies() {
    const auto answer = desk_.answers.latest();
    const PumpFindings* found = foundOf(*answer, desk_.shown().pump);
    used_ = 0;
    const bool some = found && !answer->workspace.job.pumps.empty();
    for (const Study& study : some ? found->installation : std::vector<Study>{}) {
        if (!saysSomething(study)) continue;
        if (used_ == cards_.size()) {
            cards_.push_back(new StudyCard);
            studyList_->insertWidget(studyList_->count() - 1, cards_.back());
        }
        cards_[used_]->show(study, answer->workspace.job.site);
        cards_[used_]->setVisible(true);
        ++used_;
    }
    for (std::size_t i = used_; i < cards_.size(); ++i)
        cards_[i]->setVisible(false);
}

std::vector<StudyCard*> GuardsView::studies() const {
    return {cards_.begin(), cards_.begin() + static_cast<std::ptrdiff_t>(used_)};
}

StudyCard* GuardsView::study(std::string_view topic) const {
    for (StudyCard* card : studies()) {
        if (card->topic() == topic) return card;
    }
    return nullptr;
}

void GuardsView::goMend() {
    if (noticePlace_ == PlaceId::site)
        emit desk_.siteFormAsked(SiteForm::water);
    else
        emit desk_.placeAsked(noticePlace_);
}

void GuardsView::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    fitWidth();
}

void GuardsView::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::FontChange) fitWidth();
}

// Beside each other where there is room; else one below the other.
void GuardsView::fitWidth() {
    const bool beside = width() >= kBeside_letters * fontMetrics().averageCharWidth();
    parts_->setDirection(beside ? QBoxLayout::LeftToRight : QBoxLayout::TopToBottom);
    const int least = formColumn_->minimumSizeHint().width();
    formColumn_->setMinimumWidth(beside ? std::max(least, static_cast<int>(kFormShare * width())) : 0);
    formColumn_->setMaximumWidth(beside ? formColumn_->minimumWidth() : QWIDGETSIZE_MAX);
}

} // namespace headmark
