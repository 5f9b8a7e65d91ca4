#include "app/desktop/installation/part_card.h"

#include "analysis/job/connection_finding.h"
#include "app/desktop/frame/screen_phrasing.h"
#include "app/desktop/frame/theme.h"
#include "app/words/error_words.h"
#include "app/words/part_words.h"

#include <QSignalBlocker>

namespace headmark {

namespace {

// "To 12 (Tee ...): taper male in parallel female, with tape."
QString jointWords(const ConnectionSheet& sheet, const PlacedJoint& joint, std::size_t part,
                   const Phrasing& phrasing) {
    const std::size_t other = joint.before == part ? joint.after : joint.before;
    QString words =
        PartCard::tr("To %1, %2: %3")
            .arg(other + 1)
            .arg(partName(sheet.parts[other].part, phrasing), jointSentence(joint.verdict, phrasing));
    const QString remedy = jointRemedy(joint.verdict, phrasing);
    if (!joint.verdict.right) words = PartCard::tr("Wrong. %1").arg(words);
    return remedy.isEmpty() ? words : words + QLatin1Char(' ') + remedy;
}

// The runs of the answer are those of the job, so that an index means the same item.
bool sameRuns(const Site& a, const Site& b) {
    return a.suction.size() == b.suction.size() && a.delivery.size() == b.delivery.size();
}

} // namespace

PartCard::PartCard(Desk& desk, QWidget* parent)
    : Card(tr("The chosen part"), parent), desk_(desk), name_(wrappedLabel({})), purpose_(wrappedLabel({})),
      joints_(wrappedLabel({})), swapLabel_(faintLabel(tr("Instead"))), alternatives_(new QComboBox) {
    alternatives_->setAccessibleName(tr("Another part instead"));
    alternatives_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    alternatives_->setMinimumContentsLength(8);
    swapLabel_->setBuddy(alternatives_);
    for (QWidget* widget :
         {static_cast<QWidget*>(name_), static_cast<QWidget*>(purpose_), static_cast<QWidget*>(joints_),
          static_cast<QWidget*>(swapLabel_), static_cast<QWidget*>(alternatives_)})
        content().addWidget(widget);
    connect(alternatives_, &QComboBox::activated, this, [this](int index) {
        const QString code = alternatives_->itemData(index).toString();
        if (!code.isEmpty()) swap(code.toStdString());
    });
}

QString PartCard::words() const {
    return QStringList{name_->text(), purpose_->text(), joints_->text()}.join(QLatin1Char('\n'));
}

void PartCard::show(const ConnectionSheet& sheet, std::optional<std::size_t> part, bool stale) {
    const Phrasing phrasing = screenPhrasing();
    const bool chosen = part && *part < sheet.parts.size();
    sheet_ = sheet;
    part_ = chosen ? part : std::nullopt;
    for (QLabel* label : {purpose_, joints_, swapLabel_})
        label->setVisible(chosen);
    alternatives_->setVisible(chosen);
    if (!chosen) {
        name_->setText(tr("Click a part on the drawing or in the list."));
        return;
    }
    const PlacedPart& placed = sheet.parts[*part];
    QString name = QStringLiteral("%1  %2").arg(*part + 1).arg(placedPartWords(placed, phrasing));
    const QString material = materialWords(placed.row().material, phrasing);
    if (!material.isEmpty() && !name.contains(material)) name += tr(" (%1)").arg(material);
    name_->setText(name);
    purpose_->setText(partPurpose(placed.purpose, phrasing));
    QStringList joints;
    for (const PlacedJoint& joint : sheet.joints) {
        if (joint.before == *part || joint.after == *part)
            joints << jointWords(sheet, joint, *part, phrasing);
    }
    joints_->setText(joints.join(QLatin1Char('\n')));
    joints_->setVisible(!joints.isEmpty());

    const auto answer = desk_.answers.latest();
    const auto pump = static_cast<std::size_t>(desk_.shown().pump);
    const QSignalBlocker quiet(alternatives_);
    alternatives_->clear();
    alternatives_->addItem(partName(placed.part, phrasing), QString());
    if (!stale && answer->prepared && pump < answer->prepared->pumps()) {
        for (const std::string& code : alternativesTo(sheetInputOf(*answer->prepared, pump), sheet, *part))
            alternatives_->addItem(partName(code, phrasing), QString::fromStdString(code));
    }
    const bool some = alternatives_->count() > 1;
    alternatives_->setVisible(some);
    swapLabel_->setVisible(some);
    alternatives_->setToolTip(tr("%1. The run and its losses follow where the other part loses another head.")
                                  .arg(alternatives_->currentText()));
}

void PartCard::swap(const std::string& code) {
    const auto answer = desk_.answers.latest();
    const auto pump = static_cast<std::size_t>(desk_.shown().pump);
    const Site& site = desk_.document.job().site;
    if (!part_ || !answer->prepared || pump >= answer->prepared->pumps()) return;
    if (!sameRuns(site, answer->workspace.job.site)) return;
    const auto swapped = replaced(sheetInputOf(*answer->prepared, pump), sheet_, *part_, code);
    if (!swapped) {
        emit desk_.said(sentences({swapped.error()}), true);
        return;
    }
    desk_.document.edit(tr("Swap a part"), [&](Workspace& w) {
        w.job.connections = swapped->choices;
        if (!swapped->item) return;
        Run& run = swapped->item->suction ? w.job.site.suction : w.job.site.delivery;
        run[swapped->item->index] = swapped->item->item;
    });
}

} // namespace headmark
