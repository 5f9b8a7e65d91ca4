#include "app/desktop/site/zone_pairs_edit.h"

#include "app/desktop/frame/card.h"
#include "app/desktop/frame/screen_phrasing.h"
#include "app/desktop/frame/theme.h"
#include "app/desktop/site/controller_edits.h"

#include <QSignalBlocker>

#include <algorithm>

namespace headmark {

namespace {

enum Relation { kTogether, kApart };

QComboBox* combo(const QString& name) {
    auto* box = new QComboBox;
    box->setAccessibleName(name);
    box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    box->setMinimumContentsLength(8);
    return box;
}

QString namesOf(const std::vector<std::string>& zones) {
    QStringList names;
    for (const std::string& zone : zones)
        names << QString::fromStdString(zone);
    return listWords(names, screenPhrasing());
}

bool holdsBoth(const std::vector<std::vector<std::string>>& lists, const std::vector<std::string>& pair) {
    return std::any_of(lists.begin(), lists.end(), [&](const std::vector<std::string>& list) {
        return std::all_of(pair.begin(), pair.end(), [&](const std::string& name) {
            return std::find(list.begin(), list.end(), name) != list.end();
        });
    });
}

} // namespace

ZonePairsEdit::ZonePairsEdit(Desk& desk, QWidget* parent)
    : QWidget(parent), desk_(desk), list_(new QVBoxLayout), chooser_(new QWidget),
      first_(combo(tr("One zone"))), relation_(combo(tr("How they run"))),
      second_(combo(tr("The other zone"))), add_(plainButton(tr("Add the pair"))),
      complaint_(wrappedLabel({})) {
    relation_->addItems({tr("runs together with"), tr("never runs with")});
    auto* chooser = new QVBoxLayout(chooser_);
    chooser->setContentsMargins(0, 0, 0, 0);
    chooser->setSpacing(4);
    for (QWidget* field : std::initializer_list<QWidget*>{first_, relation_, second_, complaint_})
        chooser->addWidget(field);
    chooser->addWidget(add_, 0, Qt::AlignLeft);
    complaint_->hide();
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(6);
    list_->setSpacing(2);
    layout->addLayout(list_);
    layout->addWidget(chooser_);
    for (QComboBox* box : {first_, relation_, second_})
        connect(box, &QComboBox::activated, this, [this] {
            touched_ = true;
            look();
        });
    connect(add_, &QPushButton::clicked, this, &ZonePairsEdit::addPair);
}

void ZonePairsEdit::addRow() {
    const std::size_t index = rows_.size();
    Row row{new QWidget, wrappedLabel({}), quietButton(tr("Remove"))};
    auto* line = new QHBoxLayout(row.box);
    line->setContentsMargins(0, 0, 0, 0);
    line->addWidget(row.words, 1);
    line->addWidget(row.remove, 0, Qt::AlignTop);
    list_->addWidget(row.box);
    connect(row.remove, &QPushButton::clicked, this, [this, index] { remove(index); });
    rows_.push_back(row);
}

void ZonePairsEdit::fillNames() {
    QStringList names;
    for (const Zone& zone : desk_.document.job().site.zones)
        names << QString::fromStdString(zone.name);
    for (QComboBox* box : {first_, second_}) {
        QStringList now;
        for (int i = 0; i < box->count(); ++i)
            now << box->itemText(i);
        if (now == names) continue;
        const QSignalBlocker quiet(box);
        const int index = box->currentIndex();
        box->clear();
        box->addItems(names);
        const int wanted = index >= 0 ? index : box == second_ ? 1 : 0;
        box->setCurrentIndex(std::min(wanted, static_cast<int>(names.size()) - 1));
    }
}

void ZonePairsEdit::refresh() {
    const Site& site = desk_.document.job().site;
    setVisible(site.zones.size() > 1);
    fillNames();
    listed_.clear();
    QStringList words;
    if (site.controller) {
        const auto take = [&](const auto& lists, bool together) {
            for (std::size_t i = 0; i < lists.size(); ++i) {
                listed_.push_back({together, i});
                words << (together ? tr("%1 run together") : tr("%1 never run together"))
                             .arg(namesOf(lists[i]));
            }
        };
        take(site.controller->together, true);
        take(site.controller->apart, false);
    }
    while (rows_.size() < listed_.size())
        addRow();
    for (std::size_t i = 0; i < rows_.size(); ++i) {
        rows_[i].box->setVisible(i < listed_.size());
        if (i >= listed_.size()) continue;
        const QString& said = words[static_cast<qsizetype>(i)];
        rows_[i].words->setText(said);
        rows_[i].remove->setAccessibleName(tr("Remove: %1").arg(said));
    }
    look();
}

std::vector<std::string> ZonePairsEdit::chosen() const {
    const auto& zones = desk_.document.job().site.zones;
    std::vector<std::string> pair;
    for (const int i : {std::min(first_->currentIndex(), second_->currentIndex()),
                        std::max(first_->currentIndex(), second_->currentIndex())}) {
        if (i >= 0 && i < static_cast<int>(zones.size()))
            pair.push_back(zones[static_cast<std::size_t>(i)].name);
    }
    return pair;
}

QString ZonePairsEdit::objection() const {
    const std::vector<std::string> pair = chosen();
    if (pair.size() < 2 || pair[0] == pair[1]) return tr("A pair needs two different zones.");
    const auto& c = desk_.document.job().site.controller;
    if (!c) return {};
    if (holdsBoth(c->together, pair)) return tr("These two run together already.");
    if (holdsBoth(c->apart, pair)) return tr("These two are said never to run together.");
    return {};
}

void ZonePairsEdit::look() {
    const QString why = objection();
    add_->setEnabled(why.isEmpty());
    const bool say = touched_ && !why.isEmpty();
    complaint_->setText(say ? why : QString());
    complaint_->setVisible(say);
    QPalette colours = complaint_->palette();
    colours.setColor(QPalette::WindowText, theme().danger);
    complaint_->setPalette(colours);
}

void ZonePairsEdit::addPair() {
    if (!objection().isEmpty()) return;
    const std::vector<std::string> pair = chosen();
    const bool together = relation_->currentIndex() == kTogether;
    touched_ = false;
    desk_.document.edit(
        together ? tr("Let two zones run together") : tr("Keep two zones apart"), [&](Workspace& w) {
            editController(w, [&](Controller& c) { (together ? c.together : c.apart).push_back(pair); });
        });
    refresh();
}

void ZonePairsEdit::remove(std::size_t row) {
    if (row >= listed_.size()) return;
    const Listed which = listed_[row];
    desk_.document.edit(tr("Remove a pair of zones"), [&](Workspace& w) {
        editController(w, [&](Controller& c) {
            auto& lists = which.together ? c.together : c.apart;
            lists.erase(lists.begin() + static_cast<std::ptrdiff_t>(which.index));
        });
    });
    refresh();
}

std::vector<QPushButton*> ZonePairsEdit::removeButtons() const {
    std::vector<QPushButton*> buttons;
    for (std::size_t i = 0; i < listed_.size(); ++i)
        buttons.push_back(rows_[i].remove);
    return buttons;
}

QStringList ZonePairsEdit::lists() const {
    QStringList words;
    for (std::size_t i = 0; i < listed_.size(); ++i)
        words << rows_[i].words->text();
    return words;
}

} // namespace headmark
