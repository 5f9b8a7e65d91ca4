// How the place Charts is put together.
#include "app/desktop/charts/axes_card.h"
#include "app/desktop/charts/chart_words.h"
#include "app/desktop/charts/charts_place.h"
#include "app/desktop/charts/curve_card.h"
#include "app/desktop/charts/flow_layout.h"
#include "app/desktop/charts/lines_card.h"
#include "app/desktop/frame/theme.h"
#include "app/words/error_words.h"

#include <QFileInfo>
#include <QScrollArea>
#include <QScrollBar>

#include <cmath>

namespace headmark {

namespace {

constexpr int kPanelCharacters = 50; // wide enough for a line's facts in one row
constexpr double kZoomStep = 1.25;

QToolButton* tool(const QString& text, const QString& tip, QWidget* parent) {
    auto* button = new QToolButton(parent);
    button->setText(text);
    button->setToolTip(tip);
    button->setAccessibleName(tip);
    button->setAutoRaise(true);
    return button;
}

} // namespace

QToolButton* ChartsPlace::addMode(QLayout& to, const QString& text, const QString& tip, ChartMode mode) {
    QToolButton* button = tool(text, tip, this);
    button->setCheckable(true);
    button->setAutoRaise(false);
    to.addWidget(button);
    modes_.emplace_back(mode, button);
    connect(button, &QToolButton::clicked, this, [this, mode] {
        session_.setMode(session_.mode() == mode ? ChartMode::choose : mode);
        followTools();
        view_->setFocus();
    });
    return button;
}

QWidget* ChartsPlace::buildTools() {
    auto* bar = new QWidget(this);
    auto* layout = new FlowLayout(bar);
    addMode(
        *layout, tr("Place a pin  P"),
        tr("Ties a place on the page to the figures printed there; it takes the crossing of grid lines near "
           "the pointer, Ctrl held places freely."),
        ChartMode::placePin)
        ->setObjectName(QStringLiteral("placePin"));
    addMode(*layout, tr("Read a line  L"), tr("One click on the ink of a line reads it from end to end."),
            ChartMode::readLine)
        ->setObjectName(QStringLiteral("readLine"));
    addMode(*layout, tr("Add a spot  S"),
            tr("A place the chosen line passes through, where it was followed astray."), ChartMode::addSpot);
    auto* smaller = tool(tr("−"), tr("Smaller (Ctrl −)"), bar);
    zoom_ = new QLabel(bar);
    zoom_->setAccessibleName(tr("Size of the page on the screen"));
    zoom_->setMinimumWidth(fontMetrics().horizontalAdvance(QStringLiteral("1600 %")));
    zoom_->setAlignment(Qt::AlignCenter);
    auto* larger = tool(tr("+"), tr("Larger (Ctrl +)"), bar);
    auto* fit = tool(tr("Fit"), tr("Shows the whole page (Ctrl 0)"), bar);
    auto* pixels = tool(tr("100 %"), tr("Shows the page pixel for pixel (Ctrl 1)"), bar);
    for (QWidget* widget : std::initializer_list<QWidget*>{smaller, zoom_, larger, fit, pixels})
        layout->addWidget(widget);
    pointed_ = new QLabel(bar);
    pointed_->setAccessibleName(tr("Figures at the pointer"));
    pointed_->setMinimumWidth(
        fontMetrics().horizontalAdvance(QStringLiteral("88.88 US gal/min · 88.88 m · 88.88 %")));
    layout->addWidget(pointed_);
    connect(smaller, &QToolButton::clicked, this, [this] { view_->zoomBy(1.0 / kZoomStep); });
    connect(larger, &QToolButton::clicked, this, [this] { view_->zoomBy(kZoomStep); });
    connect(fit, &QToolButton::clicked, this, [this] { view_->fit(); });
    connect(pixels, &QToolButton::clicked, this, [this] { view_->showPixels(); });
    return bar;
}

QWidget* ChartsPlace::buildEmpty() {
    auto* page = new QWidget(this);
    auto* layout = new QVBoxLayout(page);
    layout->addStretch(1);
    auto* card = new Card(tr("No chart yet"), page);
    card->content().addWidget(wrappedLabel(
        tr("Open the page of a brochure or data sheet that shows the pump's head over flow: a picture "
           "or a PDF. It can also be dropped here, or pasted from the clipboard."),
        card));
    auto* buttons = new FlowLayout;
    auto* open = mainButton(tr("Open a page"), card);
    auto* paste = plainButton(tr("Paste a picture"), card);
    auto* type = plainButton(tr("Type a table instead"), card);
    open->setObjectName(QStringLiteral("main"));
    for (QPushButton* button : {open, paste, type})
        buttons->addWidget(button);
    card->content().addLayout(buttons);
    auto* line = new QHBoxLayout;
    line->addStretch(1);
    line->addWidget(card, 3);
    line->addStretch(1);
    layout->addLayout(line);
    layout->addStretch(2);
    connect(open, &QPushButton::clicked, this, &ChartsPlace::askForPage);
    connect(paste, &QPushButton::clicked, this, &ChartsPlace::paste);
    connect(type, &QPushButton::clicked, this, &ChartsPlace::typeTable);
    return page;
}

QWidget* ChartsPlace::buildMiddle() {
    middle_ = new QStackedWidget(this);
    empty_ = buildEmpty();
    chart_ = new QWidget(this);
    auto* layout = new QVBoxLayout(chart_);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(6);
    view_ = new ChartView(session_, chart_);
    layout->addWidget(buildTools());
    hint_ = faintLabel({}, chart_);
    pageError_ = wrappedLabel({}, chart_);
    layout->addWidget(hint_);
    layout->addWidget(pageError_);
    layout->addWidget(view_, 1);
    pdf_ = new PdfChooser(this);
    table_ = new TableEditor(desk_, this);
    for (QWidget* page : {empty_, chart_, static_cast<QWidget*>(pdf_), static_cast<QWidget*>(table_)})
        middle_->addWidget(page);
    connect(view_, &PageView::zoomChanged, this, &ChartsPlace::followTools);
    connect(view_, &ChartView::pointedAt, pointed_, &QLabel::setText);
    connect(pdf_, &PdfChooser::left, this, [this] {
        choosingPage_ = false;
        follow();
    });
    connect(pdf_, &PdfChooser::chosen, this, [this](const QString& path, int number) {
        ChartPage page = pageOfFile(path);
        page.page = number;
        const QString name = QFileInfo(path).completeBaseName() + QStringLiteral("-%1.pdf").arg(number);
        addSheet(page, name.toStdString());
    });
    return middle_;
}

QWidget* ChartsPlace::buildPanel() {
    auto* scroll = new QScrollArea(this);
    scroll->setWidgetResizable(true);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    auto* inside = new QWidget(scroll);
    auto* layout = new QVBoxLayout(inside);
    layout->setContentsMargins(0, 0, 6, 0);
    layout->setSpacing(10);
    sheets_ = new SheetsCard(session_, inside);
    layout->addWidget(sheets_);
    ofChart_ = new QWidget(inside);
    auto* cards = new QVBoxLayout(ofChart_);
    cards->setContentsMargins(0, 0, 0, 0);
    cards->setSpacing(10);
    lines_ = new LinesCard(session_, ofChart_);
    cards->addWidget(lines_);
    cards->addWidget(new CurveCard(session_, ofChart_));
    cards->addWidget(new AxesCard(session_, ofChart_));
    layout->addWidget(ofChart_);
    layout->addStretch(1);
    scroll->setWidget(inside);
    // A wrapped text asks for a width of its own liking; here it takes the panel's.
    constexpr int kLongWord = 10; // characters
    for (QLabel* label : inside->findChildren<QLabel*>()) {
        if (label->wordWrap() && label->objectName() != QStringLiteral("faint"))
            label->setMinimumWidth(fontMetrics().averageCharWidth() * kLongWord);
    }
    const int width = fontMetrics().averageCharWidth() * kPanelCharacters;
    scroll->setFixedWidth(width + scroll->verticalScrollBar()->sizeHint().width());
    connect(sheets_, &SheetsCard::openAsked, this, &ChartsPlace::askForPage);
    connect(sheets_, &SheetsCard::pasteAsked, this, &ChartsPlace::paste);
    connect(sheets_, &SheetsCard::tableAsked, this, &ChartsPlace::typeTable);
    connect(sheets_, &SheetsCard::chartChosen, this, [this] { showTable(std::nullopt); });
    connect(sheets_, &SheetsCard::tableChosen, this, [this](std::size_t pump) { showTable(pump); });
    return scroll;
}

void ChartsPlace::followTools() {
    if (!view_ || !zoom_) return;
    for (const auto& [mode, button] : modes_) {
        button->setChecked(session_.mode() == mode);
        if (mode == ChartMode::addSpot) button->setVisible(session_.chosen().isOfLine());
    }
    const double pixelZoom = view_->page() ? view_->zoom() / view_->page()->scale : 1.0;
    zoom_->setText(tr("%1 %").arg(QString::number(std::lround(100.0 * pixelZoom))));
    const ChartAnswer* answer = session_.answer();
    const bool noPage = answer && !answer->page;
    QStringList errors;
    if (noPage) {
        for (const Error& error : answer->errors) {
            if (error.place.rfind("pins", 0) != 0 && error.place.rfind("lines", 0) != 0)
                errors << sentence(error);
        }
    }
    pageError_->setText(errors.join(QLatin1Char('\n')));
    pageError_->setVisible(!errors.isEmpty());
    QPalette p = pageError_->palette();
    p.setColor(QPalette::WindowText, theme().danger);
    pageError_->setPalette(p);
    QString hint;
    switch (session_.mode()) {
    case ChartMode::placePin:
        hint =
            tr("Click where a printed figure meets the grid. Arrows move the cross hair, Return places, Ctrl "
               "held places freely, Escape ends.");
        break;
    case ChartMode::readLine:
        hint = tr("Click once on the ink of a line, away from crossings. Escape ends.");
        break;
    case ChartMode::addSpot:
        hint = tr(
            "Click where the chosen line truly runs; it is followed again through that spot. Escape ends.");
        break;
    case ChartMode::choose:
        hint = !session_.path().empty() && (!answer || (noPage && errors.isEmpty()))
                   ? tr("Opening the page…")
                   : tr("Click a pin or a line to choose it; the wheel "
                        "zooms, the middle button or space moves the page.");
        break;
    }
    hint_->setText(hint);
}

} // namespace headmark
