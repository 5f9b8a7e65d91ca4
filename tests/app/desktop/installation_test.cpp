// The place Installation: the connection sheet as drawn, listed, swapped and written; the first start.
#include "app/desktop/installation/installation_place.h"

#include "analysis/connections/thread_size.h"
#include "app/desktop/frame/dialogs.h"
#include "app/desktop/frame/theme.h"
#include "app/words/error_words.h"
#include "app/words/part_words.h"
#include "tests/app/desktop/text_fit.h"

#include <QApplication>
#include <QClipboard>
#include <QFile>
#include <QPdfDocument>
#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>

#include <gtest/gtest.h>

#include <algorithm>

namespace headmark {
namespace {

constexpr int kPatience_ms = 60000; // of a machine that is busy with other tests

constexpr int kSettling_ms = 3000;

class AnsweringDialogs : public Dialogs {
  public:
    QString path;
    QString exportPath(QWidget*, const QString&, const QString&) override { return path; }
};

class InstallationPlaceTest : public testing::Test {
  protected:
    InstallationPlaceTest() : answers_(document_), desk_(document_, answers_) { useDialogs(&dialogs_); }
    ~InstallationPlaceTest() override { useDialogs(nullptr); }

    void open(int tab, const std::function<void(Job&)>& change = {}, QSize size = {1190, 620}) {
        const QString sample = QStringLiteral(HEADMARK_TESTS_DIR "/../samples/terrace-nursery.job.json");
        ASSERT_TRUE(document_.open(sample).empty());
        document_.edit(QStringLiteral("one quick pump"), [&](Workspace& w) {
            w.job.pumps.resize(1);
            if (change) change(w.job);
        });
        place_ = std::make_unique<InstallationPlace>(desk_, nullptr);
        place_->tabs().setCurrentIndex(tab);
        place_->resize(size);
        place_->show();
        ASSERT_TRUE(QTest::qWaitForWindowExposed(place_.get()));
        ASSERT_TRUE(settled());
    }
    bool settled() {
        return QTest::qWaitFor([&] { return !answers_.isBusy() && !answers_.latest()->stale; }, kPatience_ms);
    }
    const ConnectionSheet& sheet() { return answers_.latest()->findings->pumps[0].connections->sheet; }
    std::size_t partOf(std::string_view purpose) {
        const auto& parts = sheet().parts;
        const auto found = std::find_if(parts.begin(), parts.end(),
                                        [&](const PlacedPart& p) { return p.purpose == purpose; });
        EXPECT_NE(found, parts.end()) << purpose;
        return static_cast<std::size_t>(found - parts.begin());
    }
    ConnectionsView& view() { return place_->connections(); }

    Document document_;
    AnswerService answers_;
    Desk desk_;
    AnsweringDialogs dialogs_;
    std::unique_ptr<InstallationPlace> place_;
};

TEST_F(InstallationPlaceTest, ListsAndDrawsEveryPartOfTheSheet) {
    ASSERT_NO_FATAL_FAILURE(open(InstallationPlace::kConnections));
    ASSERT_EQ(view().parts().rowCount(), static_cast<int>(sheet().parts.size()));
    for (int row = 0; row < view().parts().rowCount(); ++row) {
        const PlacedPart& part = sheet().parts[static_cast<std::size_t>(row)];
        EXPECT_EQ(view().parts().item(row, 0)->text(), QString::number(row + 1));
        EXPECT_TRUE(view().parts().item(row, 1)->text().startsWith(partName(part.part, englishPhrasing())));
    }
    // Ink where the pump is drawn.
    const QImage picture = view().drawing().grab().toImage();
    const QRect box = view().drawing().boxOf(sheet().pump).toRect();
    ASSERT_GT(box.width(), 20);
    int inked = 0;
    for (int x = box.left(); x <= box.right(); ++x)
        inked += picture.pixelColor(x, box.center().y()) != picture.pixelColor(2, 2) ? 1 : 0;
    EXPECT_GT(inked, 3);
}

TEST_F(InstallationPlaceTest, DrawingAndListChooseTogether) {
    ASSERT_NO_FATAL_FAILURE(open(InstallationPlace::kConnections));
    const std::size_t filter = partOf("filter");
    QTest::mouseClick(&view().drawing(), Qt::LeftButton, {},
                      view().drawing().boxOf(filter).center().toPoint());
    EXPECT_EQ(view().drawing().selected(), filter);
    EXPECT_EQ(view().parts().currentRow(), static_cast<int>(filter));
    EXPECT_TRUE(view().part().words().contains(QStringLiteral("Disc filter")));
    EXPECT_TRUE(view().part().words().contains(QStringLiteral("tape")))
        << view().part().words().toStdString();
    QTest::keyClick(&view().drawing(), Qt::Key_Left);
    EXPECT_EQ(view().parts().currentRow(), static_cast<int>(filter) - 1);
    QTest::keyClick(&view().parts(), Qt::Key_Home, Qt::ControlModifier);
    EXPECT_EQ(view().drawing().selected(), 0U);
}

TEST_F(InstallationPlaceTest, ASwapIsOneStepAndTheLossFollows) {
    ASSERT_NO_FATAL_FAILURE(open(InstallationPlace::kConnections));
    const std::size_t check = partOf("check-valve");
    ASSERT_EQ(sheet().parts[check].part, "check_spring");
    const double before = answers_.latest()->findings->pumps[0].cases[1].duty->flow.inCubicMetresPerHour();
    const int steps = document_.undoStack().count();
    view().parts().setCurrentCell(static_cast<int>(check), 1);
    QComboBox& instead = view().part().alternatives();
    const int swing = instead.findData(QStringLiteral("check_swing"));
    ASSERT_GE(swing, 0);
    instead.setFocus();
    while (instead.currentIndex() != swing)
        QTest::keyClick(&instead, instead.currentIndex() < swing ? Qt::Key_Down : Qt::Key_Up);
    ASSERT_TRUE(settled());
    EXPECT_GE(document_.undoStack().count(), steps + 1);
    EXPECT_EQ(sheet().parts[partOf("check-valve")].part, "check_swing");
    const auto& fitting = std::get<FittingItem>(document_.job().site.delivery[1]);
    EXPECT_EQ(fitting.code, "check_swing");
    // A swing check valve takes less than a spring-loaded one, so the pump delivers more.
    EXPECT_GT(answers_.latest()->findings->pumps[0].cases[1].duty->flow.inCubicMetresPerHour(), before);
    while (document_.undoStack().index() > steps)
        document_.undoStack().undo();
    ASSERT_TRUE(settled());
    EXPECT_EQ(sheet().parts[partOf("check-valve")].part, "check_spring");
}

TEST_F(InstallationPlaceTest, CountsTheSheetsLossesInTheRunOnce) {
    ASSERT_NO_FATAL_FAILURE(open(InstallationPlace::kConnections));
    const std::size_t uncounted = sheet().uncounted.size();
    ASSERT_GT(uncounted, 0U);
    const std::size_t before = document_.job().site.suction.size() + document_.job().site.delivery.size();
    ASSERT_TRUE(view().countLosses().isVisible());
    QTest::mouseClick(&view().countLosses(), Qt::LeftButton);
    ASSERT_TRUE(QTest::qWaitFor([&] { return !answers_.isBusy(); }, kPatience_ms));
    ASSERT_TRUE(answers_.latest()->errors.empty()) << sentences(answers_.latest()->errors).toStdString();
    ASSERT_TRUE(settled());
    EXPECT_EQ(document_.job().site.suction.size() + document_.job().site.delivery.size(), before + uncounted);
    EXPECT_TRUE(sheet().uncounted.empty());
    EXPECT_FALSE(view().countLosses().isVisible());
}

TEST_F(InstallationPlaceTest, ChoicesOfTheSheetAreEditsOfTheJob) {
    ASSERT_NO_FATAL_FAILURE(open(InstallationPlace::kConnections));
    ASSERT_EQ(sheet().parts[partOf("union")].row().material, "plastic_ringed");
    QComboBox* stands = nullptr;
    for (QComboBox* box : view().form().findChildren<QComboBox*>()) {
        if (box->accessibleName() == QStringLiteral("Stands")) stands = box;
    }
    ASSERT_TRUE(stands);
    stands->setFocus();
    QTest::keyClick(stands, Qt::Key_Down);
    ASSERT_TRUE(settled());
    EXPECT_EQ(document_.job().connections.exposure, Exposure::open);
    EXPECT_EQ(sheet().parts[partOf("union")].row().material, "malleable_iron");
}

// ISO 228-1: the external thread of 1-1/2 has a major diameter of 47.803 mm.
TEST_F(InstallationPlaceTest, FindsAThreadByItsDiameterTypedWithPointOrComma) {
    ASSERT_NO_FATAL_FAILURE(open(InstallationPlace::kConnections));
    for (const char* typed : {"47.7", "47,7"}) {
        NumberEntry& entry = view().threads().diameter();
        entry.setFocus();
        entry.selectAll();
        QTest::keyClicks(&entry, QString::fromLatin1(typed));
        QTest::keyClick(&entry, Qt::Key_Return);
        EXPECT_TRUE(view().threads().words().contains(QStringLiteral("1-1/2")))
            << view().threads().words().toStdString();
    }
}

TEST_F(InstallationPlaceTest, WritesTheSheetAsFiles) {
    ASSERT_NO_FATAL_FAILURE(open(InstallationPlace::kConnections));
    QTemporaryDir folder;
    const std::pair<const char*, QByteArray> kinds[] = {
        {"sheet.png", "\x89PNG"}, {"sheet.svg", "<?xml"}, {"sheet.pdf", "%PDF"}, {"sheet.csv", "\"Pieces\""}};
    for (const auto& [name, begins] : kinds) {
        dialogs_.path = folder.filePath(QString::fromLatin1(name));
        QTest::mouseClick(&place_->exportButton(), Qt::LeftButton);
        QFile file(dialogs_.path);
        ASSERT_TRUE(file.open(QIODevice::ReadOnly)) << name;
        EXPECT_TRUE(file.readAll().startsWith(begins)) << name;
    }
    // To be looked at: HEADMARK_PICTURES names a folder that keeps it.
    if (const QByteArray kept = qgetenv("HEADMARK_PICTURES"); !kept.isEmpty())
        QFile::copy(folder.filePath(QStringLiteral("sheet.pdf")),
                    QString::fromLocal8Bit(kept) + QStringLiteral("/sheet.pdf"));
    QPdfDocument pdf;
    ASSERT_EQ(pdf.load(folder.filePath(QStringLiteral("sheet.pdf"))), QPdfDocument::Error::None);
    EXPECT_GE(pdf.pageCount(), 3);
    // The drawing lies across, the rest upright.
    EXPECT_GT(pdf.pagePointSize(0).width(), pdf.pagePointSize(0).height());
    EXPECT_LT(pdf.pagePointSize(1).width(), pdf.pagePointSize(1).height());
    QTest::mouseClick(&place_->copyButton(), Qt::LeftButton);
    EXPECT_EQ(QGuiApplication::clipboard()->text().count(QLatin1Char('\n')), view().parts().rowCount() + 1);
}

TEST_F(InstallationPlaceTest, FirstStartListsEveryRowWithItsFigure) {
    ASSERT_NO_FATAL_FAILURE(open(InstallationPlace::kFirstStart));
    const auto& rows = answers_.latest()->findings->pumps[0].connections->commissioning;
    ASSERT_EQ(place_->firstStart().rowCount(), static_cast<int>(rows.size()));
    for (int row = 0; row < place_->firstStart().rowCount(); ++row) {
        const CommissioningWords words =
            commissioningWords(rows[static_cast<std::size_t>(row)], englishPhrasing());
        EXPECT_TRUE(place_->firstStart().item(row, 0)->text().startsWith(words.what));
        EXPECT_EQ(place_->firstStart().item(row, 2)->text().contains(QStringLiteral("____")),
                  !words.unit.isEmpty());
    }
}

// The figures of sentences follow the unit that all other figures are shown in.
TEST_F(InstallationPlaceTest, SentencesSpeakInTheUnitChosen) {
    ASSERT_NO_FATAL_FAILURE(open(InstallationPlace::kFirstStart));
    const auto expected = [&] {
        QString all;
        for (int row = 0; row < place_->firstStart().rowCount(); ++row)
            all += place_->firstStart().item(row, 1)->text() + QLatin1Char('\n');
        return all;
    };
    EXPECT_TRUE(expected().contains(QStringLiteral(" bar")));
    EXPECT_FALSE(expected().contains(QStringLiteral("kPa")));
    DisplayUnits units = desk_.units();
    units.pressure = PressureUnit::kilopascals;
    desk_.setUnits(units);
    ASSERT_TRUE(QTest::qWaitFor([&] { return expected().contains(QStringLiteral("kPa")); }, 5000));
    EXPECT_FALSE(expected().contains(QStringLiteral(" bar")));
}

TEST_F(InstallationPlaceTest, WithoutAPumpItSaysWhatIsMissing) {
    ASSERT_NO_FATAL_FAILURE(open(InstallationPlace::kConnections, [](Job& job) { job.pumps.clear(); }));
    EXPECT_TRUE(place_->notice().contains(QStringLiteral("made for a pump")));
    EXPECT_EQ(place_->mark(), PlaceMark::empty);
    EXPECT_FALSE(place_->exportButton().isEnabled());
}

TEST_F(InstallationPlaceTest, AllTextFitsSmallWideAndLarge) {
    for (const double scale : {1.0, 1.5}) {
        QFont font = QApplication::font();
        const QFont usual = font;
        font.setPointSizeF(usual.pointSizeF() * scale);
        QApplication::setFont(font);
        for (const QSize size : {QSize(1130, 600), QSize(1290, 780)}) {
            for (const int tab : {InstallationPlace::kConnections, InstallationPlace::kFirstStart}) {
                ASSERT_NO_FATAL_FAILURE(open(tab, {}, size));
                if (tab == InstallationPlace::kConnections) view().parts().setCurrentCell(29, 1);
                QStringList misfits;
                // Wrapped text settles its heights in a few rounds of layout.
                (void)QTest::qWaitFor(
                    [&] {
                        misfits = textMisfits(*place_);
                        return misfits.isEmpty();
                    },
                    kSettling_ms);
                EXPECT_TRUE(misfits.isEmpty()) << scale << ", " << size.width() << ", tab " << tab << "\n"
                                               << misfits.join(QLatin1Char('\n')).toStdString();
                EXPECT_LE(place_->width(), size.width());
            }
        }
        QApplication::setFont(usual);
    }
}

} // namespace
} // namespace headmark
