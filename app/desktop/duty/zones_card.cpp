#include "app/desktop/duty/zones_card.h"

#include "app/desktop/duty/duty_words.h"
#include "app/desktop/frame/theme.h"
#include "app/words/caution_words.h"

#include <QSignalBlocker>

#include <algorithm>

namespace headmark {

namespace {

constexpr std::size_t kMostNames = 3; // of zones in a name of a set

bool isIn(const std::vector<std::string>& names, const std::string& name) {
    return std::find(names.begin(), names.end(), name) != names.end();
}

QString zonesWords(int open) {
    return open == 1 ? ZonesCard::tr("1 zone open") : ZonesCard::tr("%1 zones open").arg(open);
}

// Where the menu does not list every set of the largest size; empty: it does.
QString moreSets(const ZonesAtOnceFinding& sets) {
    const auto listed = static_cast<long>(sets.bestSets.size());
    if (!sets.bestSetsCounted)
        return ZonesCard::tr("these are some of the sets of %1: too many to count, at least %2 in all")
            .arg(sets.bestSet)
            .arg(sets.bestSetsCount);
    return sets.bestSetsCount > listed
               ? ZonesCard::tr("these are %1 of %2 sets of %3")
                     .arg(QString::number(listed), QString::number(sets.bestSetsCount))
                     .arg(sets.bestSet)
               : QString();
}

// What the zone breaks, worst first as the answer lists it.
QString breaches(const CaseAnswer& answer, const std::string& zone, const Phrasing& phrasing) {
    QStringList labels;
    for (const Caution& c : answer.cautions) {
        const Fact* fact = c.stops ? findFact(c.values, "zone") : nullptr;
        const auto* name = fact ? std::get_if<std::string>(&fact->value) : nullptr;
        if (name && *name == zone) labels << cautionLabel(c.code, phrasing);
    }
    labels.removeDuplicates();
    return labels.isEmpty() ? ZonesCard::tr("outside its limits") : labels.join(QStringLiteral("; "));
}

} // namespace

ZonesCard::ZonesCard(Desk& desk, QWidget* parent)
    : Card(tr("Zones open"), parent), desk_(desk), list_(new QVBoxLayout), sign_(new SignMark),
      verdict_(wrappedLabel({})), sets_(new QToolButton), setsMenu_(new QMenu(sets_)),
      back_(quietButton(tr("As the case"))), keep_(quietButton(tr("Keep as a case"))) {
    sets_->setText(tr("Sets that work"));
    sets_->setToolTip(
        tr("The largest sets of zones worked out to run together at every water level and state "
           "of the filter; choosing one opens its valves."));
    sets_->setPopupMode(QToolButton::InstantPopup);
    sets_->setMenu(setsMenu_);
    sets_->setFocusPolicy(Qt::StrongFocus);
    sets_->setAutoRaise(true);
    addToTitle(sets_);
    auto* line = new QHBoxLayout;
    line->setSpacing(8);
    line->addWidget(sign_, 0, Qt::AlignTop);
    line->addWidget(verdict_, 1);
    content().addLayout(line);
    list_->setSpacing(2);
    content().addLayout(list_);
    auto* buttons = new QHBoxLayout;
    buttons->addWidget(back_);
    buttons->addWidget(keep_);
    buttons->addStretch(1);
    content().addLayout(buttons);
    back_->setToolTip(tr("Puts the valves back to what the case says."));
    keep_->setToolTip(
        tr("Adds a case with these zones open and the speed tried; its water and filter are those of "
           "the case shown."));
    connect(back_, &QPushButton::clicked, this, [this] { open(ofCase_); });
    connect(keep_, &QPushButton::clicked, this, &ZonesCard::keepAsked);
    clear();
}

void ZonesCard::clear() {
    names_.clear();
    setVisible(false);
}

void ZonesCard::addRow() {
    auto* row = new ZoneRow;
    row->setToolTip(tr("Opens or shuts this zone's valve here; the job keeps what it says."));
    QWidget* before = rows_.empty() ? static_cast<QWidget*>(sets_) : rows_.back();
    list_->addWidget(row);
    setTabOrder(before, row);
    setTabOrder(row, back_);
    connect(row, &ZoneRow::clicked, this, &ZonesCard::turned);
    rows_.push_back(row);
}

void ZonesCard::reset(const MadeCase& shown, const Site& site) {
    if (site.zones.empty() || shown.fillingEmptyMain) {
        clear();
        return;
    }
    names_.clear();
    ofCase_.clear();
    while (rows_.size() < site.zones.size())
        addRow();
    for (std::size_t z = 0; z < rows_.size(); ++z) {
        rows_[z]->setVisible(z < site.zones.size());
        if (z >= site.zones.size()) continue;
        const std::string& name = site.zones[z].name;
        names_.push_back(name);
        const bool isOpen = isIn(shown.setting.zonesOpen, name);
        if (isOpen) ofCase_.push_back(name);
        const QSignalBlocker quiet(rows_[z]);
        rows_[z]->setChecked(isOpen);
    }
    setVisible(true);
}

std::vector<std::string> ZonesCard::openNow() const {
    std::vector<std::string> zones;
    for (std::size_t z = 0; z < names_.size(); ++z) {
        if (rows_[z]->isChecked()) zones.push_back(names_[z]);
    }
    return zones;
}

std::optional<std::vector<std::string>> ZonesCard::tried() const {
    if (names_.empty()) return std::nullopt;
    std::vector<std::string> now = openNow();
    if (now == ofCase_) return std::nullopt;
    return now;
}

void ZonesCard::open(const std::vector<std::string>& zones) {
    for (std::size_t z = 0; z < names_.size(); ++z) {
        const QSignalBlocker quiet(rows_[z]);
        rows_[z]->setChecked(isIn(zones, names_[z]));
        rows_[z]->update();
    }
    turned();
}

// The valve turns with the click; figures follow with the answer.
void ZonesCard::turned() {
    back_->setEnabled(tried().has_value());
    emit changed();
}

void ZonesCard::setKeepable(bool keepable) { keep_->setEnabled(keepable); }

ZoneRow::Words ZonesCard::wordsOf(std::size_t zone, const CaseAnswer* answer, const Site& site) const {
    ZoneRow::Words words;
    words.name = QString::fromStdString(names_[zone]);
    if (!rows_[zone]->isChecked()) {
        words.flow = tr("shut");
        return words;
    }
    words.flow = tr("open");
    if (!answer) return words;
    const auto found = std::find_if(answer->zones.begin(), answer->zones.end(),
                                    [&](const ZoneAnswer& z) { return z.name == names_[zone]; });
    if (found == answer->zones.end()) return words;
    const DisplayUnits& units = desk_.units();
    words.flow = units.text(found->flow);
    const QString low = figureText(units.figure(found->lowest)),
                  high = figureText(units.figure(found->highest));
    words.pressure = low == high ? tr("emitters at %1").arg(units.text(found->lowest))
                                 : tr("emitters at %1")
                                       .arg(rangeText(units.figure(found->lowest),
                                                      units.figure(found->highest), units.pressureSymbol()));
    words.sign = found->withinLimits ? Sign::good : Sign::warning;
    words.verdict =
        found->withinLimits ? tr("within limits") : breaches(*answer, names_[zone], screenPhrasing(site));
    return words;
}

void ZonesCard::showVerdict(const CaseAnswer* answer, const Site& site) {
    QStringList parts;
    const auto open = static_cast<int>(openNow().size());
    parts << (open == 0 ? tr("Every valve shut") : zonesWords(open));
    if (answer)
        parts << verdictLine(*answer, desk_.units(), screenPhrasing(site));
    else
        parts << tr("no answer yet");
    QString words = parts.join(QStringLiteral(": "));
    if (answer && answer->serves && std::find(best_.begin(), best_.end(), openNow()) != best_.end())
        words += tr(" · one of the largest sets that work at every water level and state of the filter");
    verdict_->setText(words);
    sign_->setSign(answer ? verdictSign(*answer) : Sign::empty);
}

void ZonesCard::show(const CaseAnswer* answer, const Site& site) {
    if (names_.empty()) return;
    // An answer of other valves would put wrong figures beside these.
    const bool fits = answer && answer->setting.zonesOpen.size() == openNow().size() &&
                      std::all_of(answer->setting.zonesOpen.begin(), answer->setting.zonesOpen.end(),
                                  [now = openNow()](const std::string& name) { return isIn(now, name); });
    const CaseAnswer* of = fits ? answer : nullptr;
    for (std::size_t z = 0; z < names_.size(); ++z)
        rows_[z]->show(wordsOf(z, of, site));
    showVerdict(of, site);
    back_->setEnabled(tried().has_value());
}

QString ZonesCard::namesOf(const std::vector<std::string>& zones) const {
    QStringList parts;
    for (const std::string& name : zones)
        parts << QString::fromStdString(name);
    return listWords(parts, screenPhrasing());
}

QString ZonesCard::setName() const {
    const std::vector<std::string> now = openNow();
    if (now.empty()) return tr("every valve shut");
    if (now.size() > kMostNames) return zonesWords(static_cast<int>(now.size()));
    return namesOf(now);
}

void ZonesCard::showSets(const ZonesAtOnceFinding* sets) {
    const auto now = sets ? sets->bestSets : std::vector<std::vector<std::string>>{};
    sets_->setEnabled(!now.empty());
    if (now == best_) return;
    best_ = now;
    setsMenu_->clear();
    for (const auto& set : best_) {
        QString words = namesOf(set);
        setsMenu_->addAction(words.replace(QLatin1Char('&'), QStringLiteral("&&")), this,
                             [this, set] { open(set); });
    }
    if (!sets || best_.empty()) return;
    setsMenu_->addSeparator();
    QString note = sets->proven
                       ? tr("no set of more than %1 works").arg(sets->bestSet)
                       : tr("the largest found; up to %1 are not ruled out").arg(sets->bestSetAtMost);
    setsMenu_->addAction(note)->setEnabled(false);
    if (const QString more = moreSets(*sets); !more.isEmpty()) setsMenu_->addAction(more)->setEnabled(false);
}

} // namespace headmark
