#include "app/desktop/charts/pdf_chooser.h"

#include "app/desktop/frame/card.h"

#include <QPainter>

namespace headmark {

namespace {

constexpr QSize kThumbnail_px(150, 210);
constexpr int kDrawn = Qt::UserRole + 1;

} // namespace

PdfChooser::PdfChooser(QWidget* parent) : QWidget(parent), list_(new QListWidget(this)) {
    auto* layout = new QVBoxLayout(this);
    layout->addWidget(wrappedLabel(tr("Choose the page with the chart."), this));
    list_->setViewMode(QListView::IconMode);
    list_->setResizeMode(QListView::Adjust);
    list_->setMovement(QListView::Static);
    list_->setIconSize(kThumbnail_px);
    list_->setSpacing(10);
    list_->setUniformItemSizes(true);
    list_->setAccessibleName(tr("Pages of the PDF"));
    layout->addWidget(list_, 1);
    auto* buttons = new QHBoxLayout;
    auto* take = mainButton(tr("Take this page"), this);
    auto* leave = plainButton(tr("Cancel"), this);
    buttons->addWidget(take);
    buttons->addWidget(leave);
    buttons->addStretch(1);
    layout->addLayout(buttons);
    connect(take, &QPushButton::clicked, this, &PdfChooser::finish);
    connect(leave, &QPushButton::clicked, this, &PdfChooser::left);
    connect(list_, &QListWidget::itemActivated, this, &PdfChooser::finish);
    connect(&timer_, &QTimer::timeout, this, &PdfChooser::drawNext);
    timer_.setInterval(0);
}

int PdfChooser::open(const QString& path) {
    path_ = path;
    timer_.stop();
    list_->clear();
    document_.close();
    document_.load(path);
    const int pages = document_.status() == QPdfDocument::Status::Ready ? document_.pageCount() : 0;
    QPixmap blank(kThumbnail_px);
    blank.fill(Qt::white);
    for (int page = 1; page <= pages; ++page)
        list_->addItem(new QListWidgetItem(QIcon(blank), tr("Page %1").arg(QString::number(page))));
    if (pages > 0) list_->setCurrentRow(0);
    if (pages > 1) timer_.start();
    return pages;
}

// One a turn of the event loop, so that the window stays alive.
void PdfChooser::drawNext() {
    int next = -1;
    const QRect seen = list_->viewport()->rect();
    for (int row = 0; row < list_->count(); ++row) {
        if (list_->item(row)->data(kDrawn).toBool()) continue;
        if (next < 0) next = row;
        if (list_->visualItemRect(list_->item(row)).intersects(seen)) {
            next = row;
            break;
        }
    }
    if (next < 0 || !isVisible()) {
        timer_.stop();
        return;
    }
    const QSizeF size = document_.pagePointSize(next).scaled(kThumbnail_px, Qt::KeepAspectRatio);
    QImage drawn = document_.render(next, size.toSize());
    QImage paper(size.toSize(), QImage::Format_RGB32);
    paper.fill(Qt::white);
    if (!drawn.isNull()) {
        QPainter painter(&paper);
        painter.drawImage(0, 0, drawn);
    }
    list_->item(next)->setIcon(QIcon(QPixmap::fromImage(paper)));
    list_->item(next)->setData(kDrawn, true);
}

void PdfChooser::finish() {
    if (list_->currentRow() >= 0) emit chosen(path_, list_->currentRow() + 1);
}

} // namespace headmark
