// The place Charts by mouse and by keyboard: a page, its pins, its lines, a typed table.
#include "app/desktop/charts/charts_place.h"

#include "app/desktop/charts/lines_card.h"
#include "app/desktop/charts_chart_page.h"

#include <QApplication>
#include <QScrollBar>
#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>

#include <gtest/gtest.h>

#include <cmath>

namespace headmark {
namespace {

constexpr int kPatience_ms = 20000; // of a machine that is busy with other tests

class Charts : public testing::Test {
  protected:
    Charts() : answers_(document_), desk_(document_, answers_) {
        Workspace blank = blankWorkspace();
        blank.job.folder = folder_.path().toStdString();
        document_.startNew(blank);
        place_ = std::make_unique<ChartsPlace>(desk_, nullptr);
        place_->resize(1280, 720);
        place_->show();
        EXPECT_TRUE(QTest::qWaitForWindowExposed(place_.get()));
        path_ = folder_.filePath(QStringLiteral("brochure.png"));
        EXPECT_TRUE(chart_page::drawn().save(path_));
    }

    void openPage() {
        place_->openPage(path_);
        ASSERT_TRUE(QTest::qWaitFor([&] { return view().page() != nullptr; }, kPatience_ms));
    }

    ChartView& view() { return place_->view(); }
    ChartSession& session() { return place_->session(); }
    QPoint onScreen(PixelPoint at) { return view().viewFromPixel(at).toPoint(); }

    // Without the help of the grid: the place is as exact as the screen allows.
    void pinByMouse(PixelPoint at, const QString& flow, const QString& head) {
        session().setMode(ChartMode::placePin);
        QTest::mouseClick(view().viewport(), Qt::LeftButton, Qt::ControlModifier, onScreen(at));
        ASSERT_TRUE(view().pinForm().isVisible());
        type(QStringLiteral("pinFlow"), flow);
        auto* value = type(QStringLiteral("pinValue"), head);
        QTest::keyClick(value, Qt::Key_Return);
    }

    NumberEntry* type(const QString& name, const QString& text) {
        auto* entry = view().pinForm().findChild<NumberEntry*>(name);
        entry->clear();
        QTest::keyClicks(entry, text);
        return entry;
    }

    void placeFourPins() {
        Pin pin;
        for (const auto& [flow, head] : {std::pair{0.0, 0.0}, {14.0, 0.0}, {0.0, 50.0}, {14.0, 50.0}}) {
            pin.at = chart_page::at(flow, head);
            pin.flow = flow;
            pin.value = head;
            session().placePin(pin);
        }
    }

    // A click in the mode and the first entry of the menu: head.
    void readLineAt(PixelPoint at) {
        session().setMode(ChartMode::readLine);
        QTest::mouseClick(view().viewport(), Qt::LeftButton, {}, onScreen(at));
        ASSERT_TRUE(view().lineChoice().isVisible());
        QTest::keyClick(&view().lineChoice(), Qt::Key_Return);
    }

    bool waitForLine(std::size_t line) {
        return QTest::qWaitFor([&] { return session().isUpToDate() && session().readLine(line); },
                               kPatience_ms);
    }

    QTemporaryDir folder_;
    Document document_;
    AnswerService answers_;
    Desk desk_;
    std::unique_ptr<ChartsPlace> place_;
    QString path_;
};

TEST_F(Charts, IsEmptyBeforeAPageAndReadyWithOne) {
    EXPECT_EQ(place_->mark(), PlaceMark::empty);
    openPage();
    EXPECT_EQ(document_.workspace().charts.size(), 1U);
    EXPECT_EQ(document_.undoStack().undoText(), QStringLiteral("Open a page"));
}

TEST_F(Charts, APinIsPlacedByAClickAndItsFigures) {
    openPage();
    pinByMouse(chart_page::at(14, 50), QStringLiteral("14"), QStringLiteral("50,0"));
    ASSERT_EQ(session().reading()->pins.size(), 1U);
    const Pin& pin = session().reading()->pins[0];
    EXPECT_EQ(pin.flow, 14.0);
    EXPECT_EQ(pin.value, 50.0);
    // Half a screen pixel, as large as it is on the page.
    EXPECT_NEAR(pin.at.x_px, 800.0, 0.51 / view().zoom());
    EXPECT_NEAR(pin.at.y_px, 100.0, 0.51 / view().zoom());
    EXPECT_EQ(document_.undoStack().undoText(), QStringLiteral("Place a pin"));
}

TEST_F(Charts, APinTakesTheCrossingThatIsShown) {
    openPage();
    session().setMode(ChartMode::placePin);
    const PixelPoint crossing = chart_page::at(4, 40);
    const QPoint beside = onScreen({crossing.x_px + 4.0, crossing.y_px + 3.0});
    QTest::mouseMove(view().viewport(), beside);
    ASSERT_TRUE(QTest::qWaitFor([&] { return view().crossing().has_value(); }, kPatience_ms));
    QTest::mouseClick(view().viewport(), Qt::LeftButton, {}, beside);
    type(QStringLiteral("pinFlow"), QStringLiteral("4"));
    QTest::keyClick(type(QStringLiteral("pinValue"), QStringLiteral("40")), Qt::Key_Return);
    ASSERT_EQ(session().reading()->pins.size(), 1U);
    // The page's rulings are drawn with soft edges at whole pixels.
    EXPECT_NEAR(session().reading()->pins[0].at.x_px, crossing.x_px, 0.2);
    EXPECT_NEAR(session().reading()->pins[0].at.y_px, crossing.y_px, 0.2);
}

TEST_F(Charts, APinWithoutAnyFigureIsNotTaken) {
    openPage();
    session().setMode(ChartMode::placePin);
    QTest::mouseClick(view().viewport(), Qt::LeftButton, Qt::ControlModifier, onScreen({300, 300}));
    auto* flow = type(QStringLiteral("pinFlow"), QStringLiteral("much"));
    view().pinForm().findChild<NumberEntry*>(QStringLiteral("pinValue"))->clear();
    QTest::keyClick(flow, Qt::Key_Return);
    EXPECT_TRUE(view().pinForm().isVisible());
    flow->clear();
    QTest::keyClick(flow, Qt::Key_Return);
    EXPECT_TRUE(view().pinForm().isVisible());
    EXPECT_TRUE(session().reading()->pins.empty());
    QTest::keyClick(flow, Qt::Key_Escape);
    EXPECT_FALSE(view().pinForm().isVisible());
}

TEST(PinOffers, TheFirstIsOfferedTheOriginLaterOnesTheFiguresTheyStandInLineWith) {
    Reading reading;
    Pin fresh;
    fresh.at = {100.0, 600.0};
    EXPECT_EQ(withOffer(fresh, reading).flow, 0.0);
    EXPECT_EQ(withOffer(fresh, reading).value, 0.0);
    Pin origin = fresh, far;
    origin.flow = 0.0;
    origin.value = 0.0;
    far.at = {800.0, 100.0};
    far.flow = 14.0;
    far.value = 50.0;
    reading.pins = {origin, far};
    fresh.at = {790.0, 610.0}; // a page that lies a degree crooked
    EXPECT_EQ(withOffer(fresh, reading).flow, 14.0);
    EXPECT_EQ(withOffer(fresh, reading).value, 0.0);
    fresh.at = {450.0, 350.0}; // in line with neither
    EXPECT_FALSE(withOffer(fresh, reading).flow);
    EXPECT_FALSE(withOffer(fresh, reading).value);
    reading.pins[0].axis = ValueAxis::right; // says nothing of the left axis
    fresh.at = {790.0, 600.0};
    EXPECT_EQ(withOffer(fresh, reading).flow, 14.0);
    EXPECT_FALSE(withOffer(fresh, reading).value);
}

TEST_F(Charts, ArrowsMoveAPinByOneTenAndATenth) {
    openPage();
    placeFourPins();
    session().setMode(ChartMode::choose);
    session().choose({PartKind::pin, 0, 0});
    QTest::keyClick(&view(), Qt::Key_Right);
    QTest::keyClick(&view(), Qt::Key_Down, Qt::ShiftModifier);
    QTest::keyClick(&view(), Qt::Key_Left, Qt::AltModifier);
    const PixelPoint now = session().reading()->pins[0].at;
    EXPECT_NEAR(now.x_px, 100.9, 1e-9);
    EXPECT_NEAR(now.y_px, 610.0, 1e-9);
    QTest::keyClick(&view(), Qt::Key_Delete);
    EXPECT_EQ(session().reading()->pins.size(), 3U);
}

TEST_F(Charts, ADragIsOneStepHoweverManyMoves) {
    openPage();
    placeFourPins();
    session().setMode(ChartMode::choose);
    const int before = document_.undoStack().index();
    const QPoint from = onScreen(chart_page::at(0, 0));
    QTest::mousePress(view().viewport(), Qt::LeftButton, {}, from);
    for (int i = 1; i <= 10; ++i) {
        QMouseEvent move(QEvent::MouseMove, from + QPoint(2 * i, i), view().viewport()->mapToGlobal(from),
                         Qt::NoButton, Qt::LeftButton, Qt::ControlModifier);
        QApplication::sendEvent(view().viewport(), &move);
    }
    QTest::mouseRelease(view().viewport(), Qt::LeftButton, Qt::ControlModifier, from + QPoint(20, 10));
    EXPECT_EQ(document_.undoStack().index(), before + 1);
    EXPECT_NEAR(session().reading()->pins[0].at.x_px, 100.0 + 20.0 / view().zoom(), 1.0);
    document_.undoStack().undo();
    EXPECT_EQ(session().reading()->pins[0].at, chart_page::at(0, 0));
}

TEST_F(Charts, OneClickReadsALineAndMakesItsPump) {
    openPage();
    placeFourPins();
    readLineAt(chart_page::at(5, chart_page::upperHead(5)));
    ASSERT_TRUE(waitForLine(0));
    ASSERT_EQ(document_.job().pumps.size(), 1U);
    EXPECT_EQ(document_.job().pumps[0].name, "brochure");
    ASSERT_EQ(document_.job().pumps[0].readings.size(), 1U);
    EXPECT_EQ(document_.job().pumps[0].readings[0].lines.at(CurveQuantity::head), "head");
    const PolynomialCurve& curve = session().readLine(0)->fit->curve;
    // A clean page: a fifth of a metre is two pixels.
    EXPECT_NEAR(curve.at(6.0 / 3600.0), chart_page::upperHead(6.0), 0.2);
    EXPECT_EQ(place_->mark(), PlaceMark::ready);
}

TEST_F(Charts, TheDrawnLineLiesOnTheInk) {
    openPage();
    placeFourPins();
    readLineAt(chart_page::at(5, chart_page::upperHead(5)));
    ASSERT_TRUE(waitForLine(0));
    ASSERT_EQ(view().shapes().size(), 1U);
    for (const PixelPoint& p : view().shapes()[0].middle) {
        const double flow = (p.x_px - 100.0) / 50.0;
        EXPECT_NEAR(p.y_px, chart_page::at(flow, chart_page::upperHead(flow)).y_px, 1.0)
            << "at flow " << flow;
    }
}

// Whatever the zoom, a black pixel is seen where its place is said to be.
TEST_F(Charts, InkIsDrawnWhereItsPixelLies) {
    QImage dots(1501, 1303, QImage::Format_RGB32); // odd, and large enough to be halved
    dots.fill(Qt::white);
    const PixelPoint dot{713.0, 550.0};
    for (int dy = -4; dy <= 4; ++dy) {
        for (int dx = -4; dx <= 4; ++dx)
            dots.setPixelColor(static_cast<int>(dot.x_px) + dx, static_cast<int>(dot.y_px) + dy, Qt::black);
    }
    ASSERT_TRUE(dots.save(path_));
    openPage();
    session().setMode(ChartMode::choose);
    for (const double zoom : {0.21, 0.37, 0.5, 1.0, 1.7, 3.0, 8.0}) {
        view().setZoom(zoom, view().viewport()->rect().center());
        view().ensureSeen(dot);
        QCoreApplication::processEvents();
        const QImage seen = view().viewport()->grab().toImage();
        double weight = 0.0, x = 0.0, y = 0.0;
        const QPoint near = onScreen(dot);
        const int reach = static_cast<int>(6.0 * zoom) + 6;
        for (int py = near.y() - reach; py <= near.y() + reach; ++py) {
            for (int px = near.x() - reach; px <= near.x() + reach; ++px) {
                if (!seen.rect().contains(px, py)) continue;
                const double ink = 255.0 - qGray(seen.pixel(px, py));
                weight += ink;
                x += ink * (px + 0.5);
                y += ink * (py + 0.5);
            }
        }
        ASSERT_GT(weight, 0.0);
        const QPointF said = view().viewFromPixel(dot);
        // A third of a screen pixel: the screen cannot show less of so small a dot.
        EXPECT_NEAR(x / weight, said.x(), 0.35) << "zoom " << zoom;
        EXPECT_NEAR(y / weight, said.y(), 0.35) << "zoom " << zoom;
    }
}

TEST_F(Charts, ZoomingKeepsWhatIsUnderThePointer) {
    openPage();
    const PixelPoint under{420.0, 330.0};
    view().setZoom(2.0, view().viewport()->rect().center());
    view().ensureSeen(under);
    const QPointF at = view().viewFromPixel(under);
    QWheelEvent wheel(at, view().viewport()->mapToGlobal(at), {}, {0, 240}, {}, {}, Qt::NoScrollPhase, false);
    QApplication::sendEvent(view().viewport(), &wheel);
    EXPECT_GT(view().zoom(), 2.5);
    // Scroll bars count whole screen pixels.
    EXPECT_NEAR(view().viewFromPixel(under).x(), at.x(), 1.0);
    EXPECT_NEAR(view().viewFromPixel(under).y(), at.y(), 1.0);
}

TEST_F(Charts, AFamilyBecomesSeveralPumpsInOneGo) {
    openPage();
    placeFourPins();
    readLineAt(chart_page::at(5, chart_page::upperHead(5)));
    readLineAt(chart_page::at(5, chart_page::lowerHead(5)));
    ASSERT_TRUE(waitForLine(0) && waitForLine(1));
    EXPECT_EQ(document_.job().pumps.size(), 1U);
    QPushButton* family = nullptr;
    for (QPushButton* button : place_->lines().findChildren<QPushButton*>()) {
        if (button->text() == QStringLiteral("Make a pump of each head line")) family = button;
    }
    ASSERT_TRUE(family);
    QTest::mouseClick(family, Qt::LeftButton);
    ASSERT_EQ(document_.job().pumps.size(), 2U);
    const auto& lines = session().reading()->lines;
    EXPECT_EQ(document_.job().pumps[1].readings[0].lines.at(CurveQuantity::head), lines[1].name);
    document_.undoStack().undo();
    EXPECT_EQ(document_.job().pumps.size(), 1U);
}

TEST_F(Charts, AClickOnBarePaperSaysSoBesideTheLine) {
    openPage();
    placeFourPins();
    readLineAt({500.0, 150.0 + 23.0});
    ASSERT_TRUE(QTest::qWaitFor([&] { return session().whyUnread(0) != nullptr; }, kPatience_ms));
    EXPECT_FALSE(place_->lines().row(0)->accessibleDescription().isEmpty());
    EXPECT_EQ(place_->mark(), PlaceMark::attention);
}

TEST_F(Charts, PinsAndALineByKeyboardAlone) {
    openPage();
    view().setFocus();
    session().setMode(ChartMode::choose);
    const auto goTo = [&](PixelPoint to) {
        QTest::keyClick(&view(), Qt::Key_Right, Qt::AltModifier); // wakes the cross hair in the middle
        const PixelPoint from = view().pixelFromView(QRectF(view().viewport()->rect()).center());
        double dx = to.x_px - from.x_px - 0.1, dy = to.y_px - from.y_px;
        const auto press = [&](double& way, Qt::Key less, Qt::Key more) {
            for (const auto& [step, modifier] :
                 {std::pair{100.0, Qt::ControlModifier}, {10.0, Qt::ShiftModifier}, {1.0, Qt::NoModifier}}) {
                while (std::abs(way) >= step - 0.3) {
                    QTest::keyClick(&view(), way < 0 ? less : more, modifier);
                    way -= way < 0 ? -step : step;
                }
            }
        };
        press(dx, Qt::Key_Left, Qt::Key_Right);
        press(dy, Qt::Key_Up, Qt::Key_Down);
    };
    for (const auto& [flow, head] : {std::pair{0.0, 0.0}, {14.0, 50.0}}) {
        QTest::keyClick(&view(), Qt::Key_P);
        goTo(chart_page::at(flow, head));
        QTest::keyClick(&view(), Qt::Key_Return, Qt::ControlModifier);
        ASSERT_TRUE(view().pinForm().isVisible());
        type(QStringLiteral("pinFlow"), QString::number(flow));
        QTest::keyClick(type(QStringLiteral("pinValue"), QString::number(head)), Qt::Key_Return);
        QTest::keyClick(&view(), Qt::Key_Escape);
    }
    ASSERT_EQ(session().reading()->pins.size(), 2U);
    QTest::keyClick(&view(), Qt::Key_L);
    goTo(chart_page::at(5, chart_page::upperHead(5)));
    QTest::keyClick(&view(), Qt::Key_Return);
    ASSERT_TRUE(view().lineChoice().isVisible());
    QTest::keyClick(&view().lineChoice(), Qt::Key_Return);
    ASSERT_TRUE(waitForLine(0));
    // Two pins clicked to a pixel: ten pixels are a metre.
    EXPECT_NEAR(session().readLine(0)->fit->curve.at(6.0 / 3600.0), chart_page::upperHead(6.0), 0.4);
}

TEST_F(Charts, TabWalksThroughPinsAndLines) {
    openPage();
    placeFourPins();
    session().setMode(ChartMode::choose);
    session().choose({});
    view().setFocus();
    session().choose({});
    QTest::keyClick(&view(), Qt::Key_Tab);
    EXPECT_EQ(session().chosen(), (ChartPart{PartKind::pin, 0, 0}));
    QTest::keyClick(&view(), Qt::Key_Tab);
    EXPECT_EQ(session().chosen(), (ChartPart{PartKind::pin, 1, 0}));
    QTest::keyClick(&view(), Qt::Key_Backtab);
    EXPECT_EQ(session().chosen(), (ChartPart{PartKind::pin, 0, 0}));
}

TEST_F(Charts, ASpotIsAddedByShiftAndClickAndTheLineGoesThroughIt) {
    openPage();
    placeFourPins();
    readLineAt(chart_page::at(5, chart_page::upperHead(5)));
    ASSERT_TRUE(waitForLine(0));
    session().setMode(ChartMode::choose);
    session().choose({PartKind::line, 0, 0});
    const PixelPoint spot = chart_page::at(9, chart_page::upperHead(9));
    QTest::mouseClick(view().viewport(), Qt::LeftButton, Qt::ShiftModifier, onScreen(spot));
    ASSERT_EQ(session().reading()->lines[0].spots.size(), 1U);
    EXPECT_EQ(document_.undoStack().undoText(), QStringLiteral("Add a spot"));
    EXPECT_TRUE(waitForLine(0));
}

TEST_F(Charts, ATableIsTypedWithPointAndComma) {
    place_->typeTable();
    QTableView& table = place_->table().table();
    const auto type = [&](int row, int column, const QString& text) {
        table.setCurrentIndex(table.model()->index(row, column));
        table.edit(table.currentIndex());
        auto* entry = table.findChild<NumberEntry*>();
        ASSERT_TRUE(entry);
        entry->clear();
        QTest::keyClicks(entry, text);
        QTest::keyClick(entry, Qt::Key_Return);
        ASSERT_TRUE(
            QTest::qWaitFor([&] { return table.findChild<NumberEntry*>() == nullptr; }, kPatience_ms));
    };
    type(0, 0, QStringLiteral("0"));
    type(0, 1, QStringLiteral("32.5"));
    type(1, 0, QStringLiteral("4,5"));
    type(1, 1, QStringLiteral("24"));
    ASSERT_EQ(document_.job().pumps.size(), 1U);
    const CurvePoints& head = document_.job().pumps[0].curves.at(CurveQuantity::head);
    ASSERT_EQ(head.points.size(), 2U);
    EXPECT_DOUBLE_EQ(head.points[0].value, 32.5);
    EXPECT_NEAR(head.points[1].flow.inCubicMetresPerHour(), 4.5, 1e-12);
    EXPECT_EQ(place_->mark(), PlaceMark::ready);
}

TEST_F(Charts, APastedPictureIsEmbedded) {
    place_->openPicture(chart_page::drawn());
    ASSERT_TRUE(QTest::qWaitFor([&] { return view().page() != nullptr; }, kPatience_ms));
    const auto reading = session().reading();
    EXPECT_EQ(reading->chart.mediaType, "image/png");
    ASSERT_TRUE(reading->chart.bytes);
    EXPECT_EQ(reading->chart.bytes->substr(1, 3), "PNG");
    EXPECT_EQ(view().page()->width, 900);
}

TEST_F(Charts, AFileThatIsNoPageIsSaidInPlace) {
    QFile file(folder_.filePath(QStringLiteral("notes.png")));
    ASSERT_TRUE(file.open(QIODevice::WriteOnly));
    file.write("no picture at all");
    file.close();
    place_->openPage(file.fileName());
    ASSERT_TRUE(QTest::qWaitFor([&] { return session().answer() && !session().answer()->errors.empty(); },
                                kPatience_ms));
    EXPECT_EQ(place_->mark(), PlaceMark::attention);
}

} // namespace
} // namespace headmark
