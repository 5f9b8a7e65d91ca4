#include "app/desktop/duty/plot_card.h"

#include "app/desktop/duty/picture_export.h"
#include "app/desktop/frame/theme.h"
#include "app/words/error_words.h"

#include <QClipboard>
#include <QGuiApplication>
#include <QHBoxLayout>
#include <QShortcut>

namespace headmark {

PlotCard::PlotCard(Desk& desk, QWidget* parent)
    : Card({}, parent), desk_(desk), pump_(new PumpChoice(desk)), notice_(wrappedLabel({})),
      reading_(faintLabel({})), noticeButton_(mainButton({})), copy_(quietButton(tr("Copy"))),
      export_(quietButton(tr("Export…"))), whole_(quietButton(tr("Show all"))), plot_(new DutyPlot) {
    makeBar();
    auto* noticeLine = new QHBoxLayout;
    noticeLine->addWidget(notice_, 1);
    noticeLine->addWidget(noticeButton_);
    content().addLayout(noticeLine);
    content().addWidget(plot_, 1);
    makeReading();
    connect(noticeButton_, &QPushButton::clicked, this, [this] { emit desk_.placeAsked(noticePlace_); });
}

void PlotCard::makeBar() {
    copy_->setToolTip(tr("Puts the plot on the clipboard as a picture."));
    export_->setToolTip(tr("Writes the plot as PNG, SVG or PDF, or its figures as CSV."));
    whole_->setToolTip(tr("Undoes the zoom; a double click on the plot does so too."));
    pump_->setToolTip(tr("The pump all places show; the others' curves stand faintly behind it."));
    auto* bar = new QHBoxLayout;
    bar->addWidget(pump_);
    bar->addStretch(1);
    bar->addWidget(whole_);
    bar->addWidget(copy_);
    bar->addWidget(export_);
    content().addLayout(bar);
    connect(copy_, &QPushButton::clicked, this, &PlotCard::copyPlot);
    connect(export_, &QPushButton::clicked, this, &PlotCard::exportPlot);
    connect(whole_, &QPushButton::clicked, plot_, &DutyPlot::showAll);
    auto* copyKey = new QShortcut(QKeySequence::Copy, plot_, nullptr, nullptr, Qt::WidgetShortcut);
    connect(copyKey, &QShortcut::activated, this, &PlotCard::copyPlot);
}

void PlotCard::makeReading() {
    const QString hint =
        tr("Point at the plot to read its curves. Turn the wheel or drag a rectangle to zoom.");
    reading_->setText(hint);
    reading_->setTextInteractionFlags(Qt::NoTextInteraction);
    reading_->setAlignment(Qt::AlignTop);
    refreshTheme();
    content().addWidget(reading_);
    connect(plot_, &DutyPlot::pointed, this,
            [this, hint](const QString& words) { reading_->setText(words.isEmpty() ? hint : words); });
}

void PlotCard::refreshTheme() {
    reading_->setFont(smallFont());
    reading_->setMinimumHeight(2 * QFontMetrics(smallFont()).lineSpacing());
}

void PlotCard::setDrawable(bool drawable) {
    for (QPushButton* button : {copy_, export_, whole_})
        button->setEnabled(drawable);
}

void PlotCard::refresh() {
    pump_->refresh();
    refreshNotice();
}

void PlotCard::refreshNotice() {
    const auto answer = desk_.answers.latest();
    QString words, button;
    if (!answer->errors.empty()) {
        words = sentences(answer->errors);
        const bool ofSite = answer->errors.front().place.rfind("site", 0) == 0;
        noticePlace_ = ofSite ? PlaceId::site : PlaceId::charts;
        button = ofSite ? tr("Go to the site") : tr("Go to the charts");
    } else if (answer->prepared && answer->prepared->pumps() == 0) {
        words =
            tr("This is what the site asks of a pump. Next, give it one: read its chart, or type a table of "
               "flow and head.");
        noticePlace_ = PlaceId::charts;
        button = tr("Add a pump");
    } else if (answer->shownCase && !answer->shownCase->duty) {
        words = tr("There is no duty point in this case: see what stops it under “Look at these”.");
    }
    notice_->setText(words);
    notice_->setVisible(!words.isEmpty());
    noticeButton_->setText(button);
    noticeButton_->setVisible(!button.isEmpty());
}

void PlotCard::copyPlot() {
    QGuiApplication::clipboard()->setPixmap(plot_->pixmap());
    emit desk_.said(tr("The plot is on the clipboard."), false);
}

void PlotCard::exportPlot() {
    exportPicture(desk_, this, tr("duty.png"), [this](const QString& path) { return plot_->writeTo(path); });
}

} // namespace headmark
