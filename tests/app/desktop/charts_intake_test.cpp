// How pages come onto the desk by hand: dropped on the window, pasted, chosen among the pages of a PDF.
#include "charts_chart_page.h"
#include "whole_window.h"

#include <QApplication>
#include <QClipboard>
#include <QListWidget>
#include <QMimeData>
#include <QPainter>
#include <QPdfWriter>
#include <QSignalSpy>
#include <QTest>
#include <QUrl>

#include <gtest/gtest.h>

namespace headmark::whole_window {
namespace {

constexpr QColor kPaper[] = {QColor(255, 200, 200), QColor(200, 255, 200), QColor(200, 200, 255)};

class Intake : public testing::Test {
  protected:
    Intake() : page_(desk_.path(QStringLiteral("brochure.png"))) {
        EXPECT_TRUE(chart_page::drawn().save(page_));
    }
    void startBlankAt(PlaceId place) {
        desk_.desk().document.startNew(blankWorkspace());
        desk_.window().showPlace(place);
    }
    // Three pages, each of its own colour.
    QString threePages() {
        const QString path = desk_.path(QStringLiteral("brochure.pdf"));
        QPdfWriter writer(path);
        writer.setResolution(72);
        QPainter painter(&writer);
        for (const QColor& paper : kPaper) {
            if (&paper != std::begin(kPaper)) writer.newPage();
            painter.fillRect(0, 0, writer.width(), writer.height(), paper);
        }
        return path;
    }
    QListWidget& pages() {
        for (auto* list : desk_.charts().findChildren<QListWidget*>())
            if (list->accessibleName() == QStringLiteral("Pages of the PDF")) return *list;
        throw std::logic_error("no list of pages");
    }
    QColor thumbnail(int row) {
        const QPixmap icon = pages().item(row)->icon().pixmap(pages().iconSize());
        return icon.toImage().pixelColor(icon.width() / 2, icon.height() / 2);
    }
    void paste() {
        ASSERT_TRUE(QTest::qWaitFor(
            [this] { return desk_.charts().isAncestorOf(QApplication::focusWidget()); }, kPatience_ms));
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_V, Qt::ControlModifier);
    }

    DeskWindow desk_;
    Hand hand_;
    QString page_;
};

TEST_F(Intake, APageDroppedOnTheStartOpensASiteAndItsChart) {
    ASSERT_FALSE(desk_.desk().document.isOpen());
    hand_.drop(desk_.window(), desk_.window().rect().center(), page_);
    ASSERT_TRUE(desk_.pageShown());
    EXPECT_TRUE(desk_.charts().isVisible());
    EXPECT_EQ(desk_.view().page()->width, 900);
}

TEST_F(Intake, APageDroppedOnTheChartsIsOneMoreSheet) {
    startBlankAt(PlaceId::charts);
    for (std::size_t sheets = 1; sheets <= 2; ++sheets) {
        hand_.drop(desk_.window(), desk_.window().rect().center(), page_);
        EXPECT_EQ(desk_.desk().document.workspace().charts.size(), sheets);
        ASSERT_TRUE(desk_.pageShown());
    }
    desk_.desk().document.undoStack().undo();
    EXPECT_EQ(desk_.desk().document.workspace().charts.size(), 1U);
}

TEST_F(Intake, APictureOnTheClipboardIsPastedAndEmbedded) {
    startBlankAt(PlaceId::charts);
    QApplication::clipboard()->setImage(chart_page::drawn());
    paste();
    ASSERT_TRUE(desk_.pageShown());
    const auto reading = desk_.charts().session().reading();
    EXPECT_EQ(reading->chart.mediaType, "image/png");
    // Not a pixel changed on the way.
    const QImage back = QImage::fromData(QByteArray::fromStdString(*reading->chart.bytes), "PNG");
    EXPECT_EQ(back.convertToFormat(QImage::Format_RGB32), chart_page::drawn());
}

TEST_F(Intake, AFileOnTheClipboardIsOpenedFromItsPlace) {
    startBlankAt(PlaceId::charts);
    auto* files = new QMimeData;
    files->setUrls({QUrl::fromLocalFile(page_)});
    QApplication::clipboard()->setMimeData(files);
    paste();
    ASSERT_TRUE(desk_.pageShown());
    EXPECT_EQ(desk_.charts().session().reading()->chart.path, "brochure.png");
}

TEST_F(Intake, TextOnTheClipboardIsSaidToBeNoPage) {
    startBlankAt(PlaceId::charts);
    QApplication::clipboard()->setText(QStringLiteral("a sentence"));
    QSignalSpy said(&desk_.desk(), &Desk::said);
    paste();
    ASSERT_EQ(said.count(), 1);
    EXPECT_TRUE(desk_.desk().document.workspace().charts.empty());
}

TEST_F(Intake, PagesOfAPdfAreShownSmallAndTheOneClickedTwiceIsOpened) {
    startBlankAt(PlaceId::charts);
    hand_.drop(desk_.window(), desk_.window().rect().center(), threePages());
    ASSERT_TRUE(pages().isVisible());
    ASSERT_EQ(pages().count(), 3);
    for (int row = 0; row < 3; ++row) {
        EXPECT_TRUE(QTest::qWaitFor([&] { return thumbnail(row) == kPaper[row]; }, kPatience_ms))
            << "page " << row + 1 << " looks " << thumbnail(row).name().toStdString();
    }
    const QPoint second = pages().visualItemRect(pages().item(1)).center();
    QTest::mouseClick(pages().viewport(), Qt::LeftButton, {}, second);
    QTest::mouseDClick(pages().viewport(), Qt::LeftButton, {}, second);
    ASSERT_TRUE(desk_.pageShown());
    EXPECT_EQ(desk_.charts().session().reading()->chart.page, 2);
    EXPECT_FALSE(pages().isVisible());
}

TEST_F(Intake, APageOfAPdfIsChosenByKeysAndCancelLeavesTheJobAsItWas) {
    startBlankAt(PlaceId::charts);
    desk_.charts().openPage(threePages());
    ASSERT_TRUE(pages().hasFocus());
    QTest::keyClick(&pages(), Qt::Key_End);
    QTest::keyClick(&pages(), Qt::Key_Return);
    ASSERT_TRUE(desk_.pageShown());
    EXPECT_EQ(desk_.charts().session().reading()->chart.page, 3);
    desk_.charts().openPage(threePages());
    hand_.click(desk_.charts(), QStringLiteral("Cancel"));
    EXPECT_EQ(desk_.desk().document.workspace().charts.size(), 1U);
    EXPECT_TRUE(desk_.view().isVisible());
}

// The line as the screen shows it against the ink as the screen shows it, column by column.
TEST_F(Intake, TheCurveIsDrawnWhereTheInkIsSeen) {
    startBlankAt(PlaceId::charts);
    desk_.charts().openPage(page_);
    ASSERT_TRUE(desk_.pageShown());
    ChartSession& session = desk_.charts().session();
    for (const auto& [flow, head] : {std::pair{0.0, 0.0}, {14.0, 0.0}, {0.0, 50.0}, {14.0, 50.0}}) {
        Pin pin;
        pin.at = chart_page::at(flow, head);
        pin.flow = flow;
        pin.value = head;
        session.placePin(pin);
    }
    session.setMode(ChartMode::choose);
    session.choose({});
    const auto seen = [this] {
        QCoreApplication::processEvents();
        return desk_.view().viewport()->grab().toImage();
    };
    desk_.view().showPixels();
    desk_.view().ensureSeen(chart_page::at(6, chart_page::upperHead(6)));
    const QImage ink = seen();
    session.readLineAt(chart_page::at(5, chart_page::upperHead(5)), LineQuantity::head);
    ASSERT_TRUE(desk_.lineRead(0));
    session.choose({});
    const QImage drawn = seen();
    int columns = 0;
    for (double flow = 1.3; flow < 11.5; flow += 0.7) { // between the rulings
        const QPoint middle = desk_.onScreen(chart_page::at(flow, chart_page::upperHead(flow)));
        double inkWeight = 0.0, inkAt = 0.0, lineWeight = 0.0, lineAt = 0.0;
        constexpr int kReach_px = 7;
        for (int y = middle.y() - kReach_px; y <= middle.y() + kReach_px; ++y) {
            if (!ink.rect().contains(middle.x(), y)) continue;
            const QColor before = ink.pixelColor(middle.x(), y), after = drawn.pixelColor(middle.x(), y);
            const double dark = before.lightness() < 100 ? 255.0 - before.lightness() : 0.0;
            // Ink is grey, so what is coloured was drawn over it.
            const double coloured = after.hsvSaturation() > 120 ? after.hsvSaturation() : 0.0;
            inkWeight += dark;
            inkAt += dark * y;
            lineWeight += coloured;
            lineAt += coloured * y;
        }
        if (inkWeight == 0.0) continue; // out of sight
        ++columns;
        ASSERT_GT(lineWeight, 0.0) << "no line at flow " << flow;
        EXPECT_NEAR(lineAt / lineWeight, inkAt / inkWeight, 1.0) << "at flow " << flow;
    }
    EXPECT_GE(columns, 10);
}

} // namespace
} // namespace headmark::whole_window
