#include "app/desktop/start/start_view.h"

#include "app/desktop/frame/card.h"
#include "app/desktop/frame/elided_label.h"
#include "app/desktop/frame/theme.h"

#include <QDragEnterEvent>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QMimeData>
#include <QScrollArea>

namespace headmark {

namespace {

constexpr int kNameLetters = 44; // of a file's name, beside its folder

void clear(QVBoxLayout& layout) {
    while (QLayoutItem* item = layout.takeAt(0)) {
        if (item->widget()) item->widget()->deleteLater();
        delete item;
    }
}

QString droppedPath(const QMimeData& data) {
    for (const QUrl& url : data.urls())
        if (url.isLocalFile()) return url.toLocalFile();
    return {};
}

} // namespace

StartView::StartView(QWidget* parent) : QWidget(parent), recent_(new QVBoxLayout), left_(new QVBoxLayout) {
    setAcceptDrops(true);
    auto* title = new QLabel(tr("Where will this pump run?"));
    QFont big = figureFont();
    big.setPointSizeF(big.pointSizeF() * 1.25);
    title->setFont(big);
    auto* what = faintLabel(
        tr("A site, a pump's chart, and the answer: flow and head where they meet, how efficiently, "
           "how many zones at once, and what would harm the pump."));

    auto* begin = new Card(tr("Begin"));
    auto* fresh = mainButton(tr("New site"));
    auto* open = plainButton(tr("Open a job …"));
    auto* sample = plainButton(tr("Look at the sample"));
    sample_ = sample;
    auto* buttons = new QHBoxLayout;
    for (QPushButton* b : {fresh, open, sample})
        buttons->addWidget(b);
    buttons->addStretch(1);
    begin->content().addLayout(buttons);
    begin->content().addWidget(
        faintLabel(tr("Or drop a job, or a page with a pump's chart (picture or PDF), on this window.")));
    connect(fresh, &QPushButton::clicked, this, &StartView::newSiteAsked);
    connect(open, &QPushButton::clicked, this, &StartView::openAsked);
    connect(sample, &QPushButton::clicked, this, &StartView::sampleAsked);

    auto* recent = new Card(tr("Recent jobs"));
    recent->content().addLayout(recent_);
    recentCard_ = recent;
    auto* left = new Card(tr("Work that was not saved"));
    left->content().addLayout(left_);
    leftCard_ = left;
    recent->hide();
    left->hide();

    auto* column = new QVBoxLayout;
    column->setSpacing(14);
    for (QWidget* w : {static_cast<QWidget*>(title), static_cast<QWidget*>(what), static_cast<QWidget*>(begin),
                       static_cast<QWidget*>(left), static_cast<QWidget*>(recent)})
        column->addWidget(w);
    auto* middle = new QHBoxLayout;
    middle->addStretch(1);
    middle->addLayout(column, 4);
    middle->addStretch(1);
    // As much unsaved work and as many jobs as there are: the page scrolls, the window never grows.
    auto* page = new QWidget;
    auto* rows = new QVBoxLayout(page);
    rows->addStretch(1);
    rows->addLayout(middle);
    rows->addStretch(2);
    auto* scroll = new QScrollArea;
    scroll->setWidgetResizable(true);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setFocusPolicy(Qt::NoFocus);
    scroll->setWidget(page);
    scroll->viewport()->setAutoFillBackground(false);
    page->setAutoFillBackground(false);
    auto* outer = new QVBoxLayout(this);
    outer->setContentsMargins(0, 0, 0, 0);
    outer->addWidget(scroll);
}

void StartView::setRecent(const QStringList& paths) {
    clear(*recent_);
    for (const QString& path : paths) {
        const QFileInfo file(path);
        auto* line = new QWidget;
        auto* row = new QHBoxLayout(line);
        row->setContentsMargins(0, 0, 0, 0);
        auto* button = quietButton({});
        const QFontMetrics metrics(button->font());
        QString name =
            metrics.elidedText(file.fileName(), Qt::ElideMiddle, kNameLetters * metrics.averageCharWidth());
        button->setText(name.replace(QLatin1Char('&'), QStringLiteral("&&")));
        button->setToolTip(path);
        button->setAccessibleName(tr("Open %1").arg(path));
        row->addWidget(button);
        auto* folder = new ElidedLabel(file.absolutePath());
        folder->setObjectName(QStringLiteral("faint"));
        folder->setElision(Qt::ElideMiddle);
        row->addWidget(folder, 1);
        recent_->addWidget(line);
        connect(button, &QPushButton::clicked, this, [this, path] { emit pathChosen(path); });
    }
    recentCard_->setVisible(!paths.isEmpty());
}

void StartView::setLeftWork(const std::vector<LeftWork>& work) {
    clear(*left_);
    for (const LeftWork& w : work) {
        auto* line = new QWidget;
        auto* row = new QHBoxLayout(line);
        row->setContentsMargins(0, 0, 0, 0);
        row->addWidget(
            wrappedLabel(
                tr("“%1”, last changed %2").arg(w.title.isEmpty() ? tr("Untitled site") : w.title, w.when)),
            1);
        auto* restore = plainButton(tr("Take it up again"));
        auto* discard = quietButton(tr("Throw away"));
        row->addWidget(restore);
        row->addWidget(discard);
        left_->addWidget(line);
        connect(restore, &QPushButton::clicked, this, [this, id = w.id] { emit restoreAsked(id); });
        connect(discard, &QPushButton::clicked, this, [this, id = w.id] { emit discardAsked(id); });
    }
    leftCard_->setVisible(!work.empty());
}

void StartView::setSampleAvailable(bool available) { sample_->setVisible(available); }

void StartView::dragEnterEvent(QDragEnterEvent* event) {
    if (!droppedPath(*event->mimeData()).isEmpty()) event->acceptProposedAction();
}

void StartView::dropEvent(QDropEvent* event) {
    const QString path = droppedPath(*event->mimeData());
    if (path.isEmpty()) return;
    event->acceptProposedAction();
    if (path.endsWith(QStringLiteral(".json"), Qt::CaseInsensitive))
        emit pathChosen(path);
    else
        emit pageDropped(path);
}

} // namespace headmark
