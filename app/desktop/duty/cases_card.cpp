#include "app/desktop/duty/cases_card.h"

#include "app/desktop/duty/case_edits.h"
#include "app/desktop/duty/duty_words.h"
#include "app/desktop/frame/dialogs.h"
#include "app/desktop/frame/theme.h"

#include <QKeyEvent>
#include <QMenu>

#include <algorithm>

namespace headmark {

namespace {

const CaseAnswer* answerOf(const Answer& answer, const Shown& shown, const MadeCase& setting) {
    if (!answer.findings) return nullptr;
    const auto pump = static_cast<std::size_t>(shown.pump);
    if (pump >= answer.findings->pumps.size()) return nullptr;
    for (const CaseAnswer& a : answer.findings->pumps[pump].cases) {
        if (a.name == setting.setting.name && a.fillingEmptyMain == setting.fillingEmptyMain) return &a;
    }
    return nullptr;
}

} // namespace

std::vector<CaseEntry> caseEntries(const Answer& answer, const Shown& shown) {
    std::vector<CaseEntry> entries;
    if (!answer.prepared) return entries;
    const auto& cases = answer.prepared->cases();
    for (std::size_t i = 0; i < cases.size(); ++i) {
        CaseEntry entry{cases[i], answerOf(answer, shown, cases[i])};
        // The quick answer is newer than a stale whole.
        const bool quick = static_cast<int>(i) == answer.shown.caseIndex && answer.shown.pump == shown.pump &&
                           answer.shownCase;
        if (quick && (answer.stale || !entry.answer)) entry.answer = &*answer.shownCase;
        entries.push_back(entry);
    }
    return entries;
}

CasesCard::CasesCard(Desk& desk, QWidget* parent)
    : Card(tr("Cases"), parent), desk_(desk), grid_(new QGridLayout),
      none_(faintLabel(tr("Cases appear once the site has a zone, an end or a known system curve."))),
      add_(new QToolButton), more_(new QToolButton), proposed_(quietButton({})), form_(new CaseForm) {
    makeMenu();
    addToTitle(add_);
    addToTitle(more_);
    grid_->setSpacing(6);
    grid_->setColumnStretch(0, 1);
    content().addWidget(none_);
    content().addLayout(grid_);
    content().addWidget(proposed_, 0, Qt::AlignLeft);
    content().addWidget(form_);
    form_->hide();
    proposed_->setToolTip(tr(
        "The largest sets of zones that may run together, at low water with the filter due for cleaning."));
    connect(proposed_, &QPushButton::clicked, this, &CasesCard::addProposed);
    connect(form_, &CaseForm::confirmed, this, &CasesCard::take);
    connect(form_, &CaseForm::cancelled, this, &CasesCard::closeForm);
    refresh();
}

void CasesCard::makeMenu() {
    add_->setText(tr("Add"));
    add_->setToolTip(tr("Describe another case: which zones, which water, which filter, which speed."));
    add_->setAccessibleName(tr("Add a case"));
    more_->setText(tr("Edit"));
    more_->setToolTip(tr("Change, rename, duplicate or delete the case shown."));
    more_->setAccessibleName(tr("Edit the case shown"));
    more_->setPopupMode(QToolButton::InstantPopup);
    for (QToolButton* button : {add_, more_}) {
        button->setFocusPolicy(Qt::StrongFocus);
        button->setAutoRaise(true);
    }
    auto* menu = new QMenu(more_);
    change_ = menu->addAction(tr("Change…"), this, [this] { openForm(false); });
    rename_ = menu->addAction(tr("Rename…"), this, &CasesCard::rename);
    duplicate_ = menu->addAction(tr("Duplicate"), this, &CasesCard::duplicate);
    delete_ = menu->addAction(tr("Delete"), this, &CasesCard::remove);
    more_->setMenu(menu);
    connect(add_, &QToolButton::clicked, this, [this] { openForm(true); });
}

std::size_t CasesCard::current() const { return static_cast<std::size_t>(desk_.shown().caseIndex); }

std::vector<MadeCase> CasesCard::settings() const {
    std::vector<MadeCase> all;
    for (const CaseEntry& entry : entries_)
        all.push_back(entry.setting);
    return all;
}

std::vector<MadeCase> CasesCard::drawn() const {
    std::vector<MadeCase> cases;
    if (current() < entries_.size()) cases.push_back(entries_[current()].setting);
    for (std::size_t i = 0; i < entries_.size(); ++i) {
        if (i != current() && ticked_.count(entries_[i].setting.setting.name) > 0)
            cases.push_back(entries_[i].setting);
    }
    return cases;
}

void CasesCard::addRow() {
    const std::size_t index = rows_.size();
    Row row{new CaseCard, new QCheckBox};
    row.tick->setToolTip(tr("Draw this case's system curve as well"));
    const int at = static_cast<int>(index);
    grid_->addWidget(row.card, at, 0);
    grid_->addWidget(row.tick, at, 1);
    // Chosen by key or click alike; setChecked() from refresh() does not come here.
    connect(row.card, &CaseCard::clicked, this, [this, index] { choose(index); });
    connect(row.tick, &QCheckBox::clicked, this, [this, index](bool on) {
        if (index >= entries_.size()) return;
        const std::string& name = entries_[index].setting.setting.name;
        if (on)
            ticked_.insert(name);
        else
            ticked_.erase(name);
        emit drawnChanged();
    });
    rows_.push_back(row);
}

void CasesCard::refreshRow(std::size_t index) {
    const CaseEntry& entry = entries_[index];
    Row& row = rows_[index];
    const Site& site = answer_->workspace.job.site;
    const QString name = QString::fromStdString(entry.setting.setting.name);
    if (entry.answer)
        row.card->show(name, verdictLine(*entry.answer, desk_.units(), screenPhrasing(site)),
                       verdictSign(*entry.answer));
    else
        row.card->show(name, caseWords(entry.setting, site), Sign::empty);
    row.card->setToolTip(capitalised(caseWords(entry.setting, site)));
    const bool shown = index == current();
    row.card->setChecked(shown);
    row.tick->setChecked(shown || ticked_.count(entry.setting.setting.name) > 0);
    row.tick->setEnabled(!shown);
    row.tick->setAccessibleName(tr("Draw the system curve of %1").arg(name));
}

void CasesCard::refresh() {
    answer_ = desk_.answers.latest();
    entries_ = caseEntries(*answer_, desk_.shown());
    while (rows_.size() < entries_.size())
        addRow();
    for (std::size_t i = 0; i < rows_.size(); ++i) {
        const bool used = i < entries_.size();
        if (used) refreshRow(i);
        rows_[i].card->setVisible(used);
        rows_[i].tick->setVisible(used);
    }
    none_->setVisible(entries_.empty());
    const auto sets = static_cast<int>(proposedSets().size());
    proposed_->setText(sets == 1 ? tr("Add the set of zones that works")
                                 : tr("Add the %1 sets that work").arg(sets));
    proposed_->setVisible(sets > 0);
    add_->setEnabled(!entries_.empty());
    const bool editable = current() < entries_.size() && !entries_[current()].setting.fillingEmptyMain;
    for (QAction* action : {change_, rename_, duplicate_, delete_})
        action->setEnabled(editable);
    more_->setEnabled(editable);
}

void CasesCard::showTried(const std::optional<CaseAnswer>& tried) {
    if (!tried) {
        refresh();
        return;
    }
    if (current() >= entries_.size()) return;
    const Phrasing phrasing = screenPhrasing(answer_->workspace.job.site);
    rows_[current()].card->show(QString::fromStdString(entries_[current()].setting.setting.name),
                                tr("tried: %1").arg(verdictLine(*tried, desk_.units(), phrasing)),
                                verdictSign(*tried));
}

void CasesCard::showCase(int index) {
    Shown shown = desk_.shown();
    shown.caseIndex = index;
    desk_.show(shown);
}

void CasesCard::choose(std::size_t index) {
    if (index < entries_.size()) showCase(static_cast<int>(index));
}

void CasesCard::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape && form_->isVisible()) {
        closeForm();
        return;
    }
    Card::keyPressEvent(event);
}

void CasesCard::openForm(bool isNew) {
    if (current() >= entries_.size() && !isNew) return;
    formIsNew_ = isNew;
    Case from = current() < entries_.size() ? entries_[current()].setting.setting : Case{};
    if (isNew) from.name = freeCaseName(settings(), tr("new case").toStdString());
    form_->show();
    form_->start(answer_->workspace.job.site, from, isNew ? tr("Add this case") : tr("Change it"));
}

void CasesCard::closeForm() {
    form_->hide();
    (formIsNew_ ? add_ : more_)->setFocus();
}

void CasesCard::take(const Case& described) {
    closeForm();
    if (formIsNew_)
        add(described);
    else
        showChanged([&] { return changeCase(desk_.document, settings(), current(), described); });
}

void CasesCard::add(const Case& described) {
    showChanged([&] { return addCase(desk_.document, settings(), described); });
}

void CasesCard::showChanged(const std::function<int()>& edit) {
    const bool takesOver = !desk_.document.job().casesGiven;
    showCase(edit());
    if (takesOver)
        emit desk_.said(tr("The cases made for this site are now your own, to change or to delete."), false);
}

// Sets of zones that the whole answer found to work together, where the job names no cases of its own.
std::vector<Case> CasesCard::proposedSets() const {
    std::vector<Case> sets;
    const auto pump = static_cast<std::size_t>(desk_.shown().pump);
    if (!answer_ || !answer_->prepared || answer_->workspace.job.casesGiven || answer_->stale ||
        !answer_->findings || pump >= answer_->findings->pumps.size())
        return sets;
    for (const CaseAnswer& a : answer_->findings->pumps[pump].cases) {
        const bool listed = std::any_of(entries_.begin(), entries_.end(), [&](const CaseEntry& entry) {
            return entry.setting.setting.name == a.name;
        });
        if (!listed && !a.fillingEmptyMain) sets.push_back(a.setting);
    }
    return sets;
}

void CasesCard::addProposed() {
    const std::vector<Case> sets = proposedSets();
    if (!sets.empty()) showCase(addCases(desk_.document, settings(), sets));
}

void CasesCard::rename() {
    if (current() >= entries_.size()) return;
    Case renamed = entries_[current()].setting.setting;
    const QString name = dialogs().askText(this, tr("Rename the case"), tr("Its new name:"),
                                           QString::fromStdString(renamed.name));
    if (name.isEmpty()) return;
    ticked_.erase(renamed.name);
    renamed.name = name.toStdString();
    showCase(changeCase(desk_.document, settings(), current(), renamed));
}

void CasesCard::duplicate() {
    if (current() < entries_.size()) showCase(duplicateCase(desk_.document, settings(), current()));
}

void CasesCard::remove() {
    if (current() < entries_.size()) showCase(deleteCase(desk_.document, settings(), current()));
}

} // namespace headmark
