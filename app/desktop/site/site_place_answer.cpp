// Of site_place.h: what the answer puts on the place: the cases to choose from, the long section, and what
// makes the site impossible.

#include "app/desktop/frame/theme.h"
#include "app/desktop/site/item_words.h"
#include "app/desktop/site/shown_case.h"
#include "app/desktop/site/site_place.h"
#include "app/desktop/site/site_words.h"

#include <QSignalBlocker>

#include <algorithm>

namespace headmark {

void SitePlace::refreshCases() {
    const auto answer = desk_.answers.latest();
    QStringList words;
    if (answer->prepared) {
        for (const MadeCase& made : answer->prepared->cases())
            words += QString::fromStdString(made.setting.name);
    }
    const QSignalBlocker quiet(case_);
    QStringList now;
    for (int i = 0; i < case_->count(); ++i)
        now += case_->itemText(i);
    if (now != words) {
        case_->clear();
        case_->addItems(words);
    }
    case_->setCurrentIndex(std::min(desk_.shown().caseIndex, static_cast<int>(words.size()) - 1));
    case_->setEnabled(words.size() > 1);
    case_->setToolTip(tr("%1\nThe case whose grade line and figures are shown, here and at Duty.")
                          .arg(case_->currentText()));
}

QStringList SitePlace::zoneWords(const Answer& answer) const {
    QStringList words;
    for (const Zone& zone : desk_.document.job().site.zones) {
        QString said;
        if (answer.shownCase) {
            for (const ZoneAnswer& got : answer.shownCase->zones) {
                if (got.name == zone.name) said = desk_.units().text(got.lowest);
            }
        }
        words += said;
    }
    return words;
}

void SitePlace::refreshSection() {
    const auto answer = desk_.answers.latest();
    const Site& site = desk_.document.job().site;
    const MadeCase* made = shownCase(*answer, desk_.shown());
    const std::vector<LongSectionItem>& items = answer->shownSection;
    LongSectionView::Content content;
    content.drawing = drawnSection(site, made ? &made->setting : nullptr, items);
    content.units = desk_.units();
    content.source = sourceName(site.source ? site.source->kind : std::string());
    content.zoneSays = zoneWords(*answer);
    if (desk_.document.job().pumps.empty()) {
        const QString need = neededWords(*answer, desk_.shown(), desk_.units());
        content.missing = need.isEmpty() ? tr("No pump yet") : tr("No pump yet; %1").arg(need);
    } else if (items.empty() && made && answer->shownCase && content.drawing.drawable) {
        content.missing = tr("This pump has no duty point in this case");
    }
    section_->show(std::move(content));
}

// What makes the site impossible stands above the drawing, whole; the item itself is marked in the table.
void SitePlace::refreshComplaint() {
    QStringList sentences;
    for (const Error& error : siteErrors(*desk_.answers.latest()))
        sentences += siteSentence(error, desk_.document.job().site);
    complaint_->setText(sentences.join(QLatin1Char('\n')));
    complaint_->setVisible(!sentences.isEmpty());
    QPalette colours = complaint_->palette();
    colours.setColor(QPalette::WindowText, theme().danger);
    complaint_->setPalette(colours);
}

} // namespace headmark
