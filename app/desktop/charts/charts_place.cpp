#include "app/desktop/charts/charts_place.h"

#include "app/desktop/charts/chart_words.h"
#include "app/desktop/charts/flow_layout.h"
#include "app/desktop/charts/lines_card.h"
#include "app/desktop/frame/dialogs.h"

#include <QApplication>
#include <QClipboard>
#include <QDragEnterEvent>
#include <QFileInfo>
#include <QGuiApplication>
#include <QKeyEvent>

#include <algorithm>

namespace headmark {

ChartsPlace::ChartsPlace(Desk& desk, QWidget* parent)
    : Place(desk, parent), session_(desk, this), intake_(this) {
    setAcceptDrops(true);
    auto* layout = new QHBoxLayout(this);
    layout->setContentsMargins(12, 12, 12, 12);
    layout->setSpacing(12);
    layout->addWidget(buildMiddle(), 1);
    panel_ = buildPanel();
    layout->addWidget(panel_);
    connect(&intake_, &PictureIntake::taken, this,
            [this](const ChartPage& page) { addSheet(page, tr("pasted picture").toStdString()); });
    connect(&intake_, &PictureIntake::failed, this, [this] {
        emit desk_.said(tr("The picture could not be taken over; save it as a file and open that."), true);
    });
    connect(&session_, &ChartSession::changed, this, &ChartsPlace::follow);
    connect(&session_, &ChartSession::sheetChanged, this, [this] {
        if (!session_.path().empty()) showTable(std::nullopt);
        follow();
    });
    connect(&session_, &ChartSession::chosenChanged, this, &ChartsPlace::followTools);
    follow();
}

void ChartsPlace::openPage(const QString& path) {
    if (looksLikePdf(path) && pdf_->open(path) > 1) {
        choosingPage_ = true;
        follow();
        pdf_->list().setFocus();
        return;
    }
    // One page, or none that can be drawn: the page source says what is wrong with it.
    addSheet(pageOfFile(path), QFileInfo(path).fileName().toStdString());
}

void ChartsPlace::openPicture(const QImage& picture) { intake_.take(picture); }

void ChartsPlace::addSheet(const ChartPage& page, const std::string& name) {
    std::string path;
    desk_.document.edit(tr("Open a page"), [&](Workspace& workspace) {
        path = freeChartPath(workspace, name);
        workspace.charts.push_back({path, std::make_shared<const Reading>(blankReading(page))});
    });
    choosingPage_ = false;
    showTable(std::nullopt);
    session_.open(path);
    session_.setMode(ChartMode::placePin); // what comes next on a new page
    follow();
    view_->setFocus();
}

void ChartsPlace::typeTable() {
    std::size_t pump = 0;
    desk_.document.edit(tr("Type a table"), [&](Workspace& workspace) {
        Pump typed;
        const auto taken = [&](const std::string& name) {
            return std::any_of(workspace.job.pumps.begin(), workspace.job.pumps.end(),
                               [&](const Pump& other) { return other.name == name; });
        };
        for (int number = 1; typed.name.empty() || taken(typed.name); ++number)
            typed.name = tr("Pump %1").arg(QString::number(number)).toStdString();
        workspace.job.pumps.push_back(typed);
        pump = workspace.job.pumps.size() - 1;
    });
    choosingPage_ = false;
    showTable(pump);
    table_->table().setFocus();
}

void ChartsPlace::showTable(std::optional<std::size_t> pump) {
    if (table_->pump() != pump) table_->show(pump);
    sheets_->setTable(pump);
    follow();
}

void ChartsPlace::askForPage() {
    const QString path = dialogs().openPagePath(this);
    if (!path.isEmpty()) openPage(path);
}

void ChartsPlace::take(const QMimeData& mime) {
    const QStringList files = filesIn(mime);
    for (const QString& file : files)
        openPage(file);
    if (!files.isEmpty()) return;
    if (mime.hasImage()) {
        openPicture(qvariant_cast<QImage>(mime.imageData()));
        return;
    }
    emit desk_.said(tr("The clipboard holds no picture and no file; copy the page as a picture first."),
                    true);
}

void ChartsPlace::paste() { take(*QGuiApplication::clipboard()->mimeData()); }

// Keys lead into the place that was gone to, so that a page can be pasted or a pin placed at once.
void ChartsPlace::showEvent(QShowEvent* event) {
    Place::showEvent(event);
    QMetaObject::invokeMethod(
        this,
        [this] {
            const QWidget* focus = QApplication::focusWidget();
            if (!isVisible() || (focus && isAncestorOf(focus))) return;
            QWidget* shown = middle_->currentWidget();
            QWidget* first = shown->findChild<QPushButton*>(QStringLiteral("main"));
            if (shown == chart_) first = view_;
            if (shown == table_) first = &table_->table();
            if (shown == pdf_) first = &pdf_->list();
            if (first) first->setFocus(Qt::OtherFocusReason);
        },
        Qt::QueuedConnection);
}

void ChartsPlace::dragEnterEvent(QDragEnterEvent* event) {
    if (holdsPage(*event->mimeData())) event->acceptProposedAction();
}

void ChartsPlace::dropEvent(QDropEvent* event) {
    take(*event->mimeData());
    event->acceptProposedAction();
}

void ChartsPlace::keyPressEvent(QKeyEvent* event) {
    if (event->matches(QKeySequence::Paste)) return paste();
    Place::keyPressEvent(event);
}

int ChartsPlace::doubtful() const {
    int count = 0;
    for (const auto& [path, chart] : desk_.answers.latest()->charts) {
        if (chartIndex(desk_.document.workspace(), path) < 0) continue;
        if (!chart.lines) {
            count += chart.errors.empty() ? 0 : 1;
            continue;
        }
        count +=
            static_cast<int>(std::count_if(chart.lines->lines.begin(), chart.lines->lines.end(),
                                           [](const ReadLine& l) { return l.trust == Trust::doubtful; }));
        count += chart.lines->mappingCautions.empty() ? 0 : 1;
    }
    return count;
}

PlaceMark ChartsPlace::mark() const {
    const Workspace& workspace = desk_.document.workspace();
    const bool tables = std::any_of(workspace.job.pumps.begin(), workspace.job.pumps.end(),
                                    [](const Pump& pump) { return !pump.curves.empty(); });
    if (workspace.charts.empty() && !tables) return PlaceMark::empty;
    return doubtful() > 0 ? PlaceMark::attention : PlaceMark::ready;
}

QString ChartsPlace::markWords() const {
    switch (mark()) {
    case PlaceMark::empty:
        return tr("no chart yet");
    case PlaceMark::attention:
        return tr("to look at: %n", nullptr, doubtful());
    case PlaceMark::ready:
        break;
    }
    return tr("read");
}

void ChartsPlace::follow() {
    const auto& pumps = desk_.document.job().pumps;
    if (table_->pump() && *table_->pump() >= pumps.size()) {
        table_->show(std::nullopt);
        sheets_->setTable(std::nullopt);
    }
    QWidget* shown = empty_;
    if (choosingPage_) {
        shown = pdf_;
    } else if (table_->pump()) {
        shown = table_;
    } else if (!session_.path().empty()) {
        shown = chart_;
    }
    middle_->setCurrentWidget(shown);
    ofChart_->setVisible(shown == chart_);
    panel_->setVisible(shown != pdf_ && (shown != empty_ || sheets_->list().count() > 0));
    followTools();
    emit markChanged();
}

} // namespace headmark
