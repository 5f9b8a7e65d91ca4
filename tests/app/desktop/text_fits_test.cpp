// Every place, form and box of the desk at the sizes and text sizes it promises, full and empty: all text can
// be read, nothing overlaps.
#include "charts_chart_page.h"
#include "text_fit.h"
#include "whole_window.h"

#include "app/desktop/duty/duty_plot.h"
#include "app/desktop/frame/shortcuts_page.h"
#include "app/desktop/installation/installation_place.h"
#include "app/desktop/start/start_view.h"

#include <QApplication>
#include <QFileInfo>
#include <QFontDatabase>
#include <QLabel>
#include <QPushButton>
#include <QTest>

#include <gtest/gtest.h>

namespace headmark::whole_window {
namespace {

constexpr int kSettling_ms = 3000;

struct Screen {
    QSize size;
    double fontScale;
    bool otherFont = false;
};

// Text of another width and height than the usual; empty: this machine has none. Families of several makers
// carry the maker's name in brackets.
QString otherFamily() {
    static const QString found = [] {
        const QString usual = QFontInfo(QApplication::font()).family();
        const QStringList families = QFontDatabase::families();
        for (const char* name : {"Noto Sans", "Liberation Sans", "Nimbus Sans", "FreeSans", "DejaVu Serif"}) {
            const QString wanted = QString::fromLatin1(name);
            for (const QString& family : families) {
                const bool same = family == wanted || family.startsWith(wanted + QStringLiteral(" ["));
                if (same && wanted != usual) return family;
            }
        }
        return QString();
    }();
    return found;
}

class TextFits : public testing::TestWithParam<Screen> {
  protected:
    TextFits() : usual_(QApplication::font()) {
        QFont font = usual_;
        if (GetParam().otherFont) font.setFamily(otherFamily());
        if (const QString family = qEnvironmentVariable("HEADMARK_FONT"); !family.isEmpty())
            font.setFamily(family); // to try how the desk looks with it
        if (qEnvironmentVariableIsSet("HEADMARK_DARK")) applyTheme(*qApp, ThemeChoice::dark);
        font.setPointSizeF(font.pointSizeF() * GetParam().fontScale);
        QApplication::setFont(font);
        desk_ = std::make_unique<DeskWindow>();
        desk_->window().resize(GetParam().size);
    }
    ~TextFits() override {
        desk_.reset();
        QApplication::setFont(usual_);
    }

    void SetUp() override {
        if (GetParam().otherFont && otherFamily().isEmpty()) GTEST_SKIP() << "one family of fonts only";
    }

    // Layouts that follow a change of text or a form that opens come with the next events.
    void look(const char* where, const QWidget& window) {
        QStringList misfits;
        // Wrapped text settles its heights in a few rounds of layout.
        (void)QTest::qWaitFor(
            [&] {
                QApplication::sendPostedEvents();
                misfits = textMisfits(window);
                return misfits.isEmpty();
            },
            kSettling_ms);
        for (const QString& misfit : misfits)
            ADD_FAILURE() << where << ": " << misfit.toStdString();
        const QString pictures = qEnvironmentVariable("HEADMARK_PICTURES"); // for people to look at
        if (!pictures.isEmpty())
            const_cast<QWidget&>(window).grab().save(QStringLiteral("%1/%2-%3-%4.png")
                                                         .arg(pictures)
                                                         .arg(GetParam().size.width())
                                                         .arg(GetParam().fontScale)
                                                         .arg(QString::fromLatin1(where).replace(' ', '-')));
    }
    void look(const char* where) {
        EXPECT_EQ(desk_->window().size(), GetParam().size) << where << ": the window needs more room";
        look(where, desk_->window());
    }

    void startBlank() {
        Workspace blank = blankWorkspace();
        blank.job.folder = QFileInfo(desk_->path(QStringLiteral("x"))).path().toStdString();
        desk_->desk().document.startNew(blank);
        EXPECT_TRUE(QTest::qWaitFor([this] { return desk_->desk().answers.latest()->prepared != nullptr; },
                                    kPatience_ms));
    }
    void openSample() {
        desk_->window().openPath(sampleFile(QStringLiteral("terrace-nursery.job.json")));
        EXPECT_TRUE(desk_->answeredInFull());
    }
    void lookAtForms(const char* what) {
        QTabWidget& forms = desk_->site().forms();
        for (int tab = 0; tab < forms.count(); ++tab) {
            forms.setCurrentIndex(tab);
            look(qPrintable(QStringLiteral("%1, %2").arg(QLatin1String(what), forms.tabText(tab))));
        }
    }
    void click(QWidget& inside, const QString& accessibleName) {
        for (auto* button : inside.findChildren<QAbstractButton*>()) {
            if (!button->isVisible() || button->accessibleName() != accessibleName) continue;
            QTest::mouseClick(button, Qt::LeftButton);
            return;
        }
        FAIL() << "no button " << accessibleName.toStdString();
    }

    QFont usual_;
    std::unique_ptr<DeskWindow> desk_;
};

TEST_P(TextFits, AtTheStart) { look("start"); }

TEST_P(TextFits, AtAStartWithMuchToTakeUp) {
    auto* start = desk_->window().findChild<StartView*>();
    ASSERT_TRUE(start);
    const QString folder = QStringLiteral("/somewhere/customers of the north/2026/").repeated(4);
    QStringList jobs;
    std::vector<LeftWork> left;
    for (int i = 0; i < 8; ++i) {
        jobs << folder +
                    QStringLiteral("upper terrace, beds and polytunnels with a new pump %1.job.json").arg(i);
        left.push_back({QString::number(i),
                        QStringLiteral("Upper terrace, beds and polytunnels with a new pump"),
                        QStringLiteral("25 Nov 2026 19:08:01")});
    }
    start->setRecent(jobs);
    start->setLeftWork(left);
    look("start, much to take up");
}

TEST_P(TextFits, AtAnEmptySite) {
    startBlank();
    desk_->window().showPlace(PlaceId::site);
    desk_->site().setAsksQuestions(true);
    look("questions");
    desk_->site().setAsksQuestions(false);
    lookAtForms("blank site");
}

TEST_P(TextFits, AtTheSamplesSite) {
    openSample();
    desk_->window().showPlace(PlaceId::site);
    lookAtForms("sample site");
    RunModel& model = desk_->site().run().model();
    for (int row = 0; row < model.rowCount(); ++row) {
        desk_->site().run().table().setCurrentIndex(model.index(row, 0));
        look(qPrintable(QStringLiteral("sample site, row %1").arg(row)));
    }
    for (int zone = 0; zone < 5; ++zone) {
        desk_->site().zonesForm().setZone(zone);
        lookAtForms("sample site, zone");
    }
}

TEST_P(TextFits, AtEmptyChartsAndATable) {
    startBlank();
    desk_->window().showPlace(PlaceId::charts);
    look("no chart");
    desk_->charts().typeTable();
    look("table");
}

TEST_P(TextFits, AtAChartWithItsSmallForms) {
    startBlank();
    desk_->window().showPlace(PlaceId::charts);
    const QString page = desk_->path(QStringLiteral("brochure.png"));
    ASSERT_TRUE(chart_page::drawn().save(page));
    desk_->charts().openPage(page);
    ASSERT_TRUE(desk_->pageShown());
    look("new page");
    QTest::mouseClick(desk_->view().viewport(), Qt::LeftButton, {}, desk_->onScreen({300, 300}));
    ASSERT_TRUE(desk_->view().pinForm().isVisible());
    look("pin form");
    auto* flow = desk_->view().pinForm().findChild<NumberEntry*>(QStringLiteral("pinFlow"));
    flow->setText(QStringLiteral("much"));
    QTest::keyClick(flow, Qt::Key_Return);
    look("pin form that complains");
    QTest::keyClick(flow, Qt::Key_Escape);
    desk_->charts().session().setMode(ChartMode::readLine);
    QTest::mouseClick(desk_->view().viewport(), Qt::LeftButton, {}, desk_->onScreen({300, 300}));
    ASSERT_TRUE(desk_->view().lineChoice().isVisible());
    look("line choice");
}

TEST_P(TextFits, AtTheSamplesCharts) {
    openSample();
    desk_->window().showPlace(PlaceId::charts);
    ASSERT_TRUE(desk_->pageShown());
    look("sample chart");
    desk_->charts().session().choose({PartKind::pin, 0, 0});
    look("sample chart, a pin");
    desk_->charts().session().choose({PartKind::line, 0, 0});
    look("sample chart, a line");
    for (auto* button : desk_->charts().findChildren<QPushButton*>()) {
        if (button->isCheckable() && button->isVisible()) button->click();
    }
    look("sample chart, details");
}

TEST_P(TextFits, AtDutyWithoutAPump) {
    startBlank();
    desk_->window().showPlace(PlaceId::duty);
    look("duty without a pump");
}

TEST_P(TextFits, AtTheSamplesDuty) {
    openSample();
    desk_->window().showPlace(PlaceId::duty);
    ASSERT_TRUE(
        QTest::qWaitFor([this] { return desk_->duty().plot().picture().answer.has_value(); }, kPatience_ms));
    for (int pump = 0; pump < 3; ++pump) {
        for (int index = 0; index < static_cast<int>(desk_->job().cases.size()); ++index) {
            desk_->desk().show({pump, index});
            ASSERT_TRUE(desk_->answeredInFull());
            look(qPrintable(QStringLiteral("sample duty, pump %1, case %2").arg(pump).arg(index)));
        }
    }
    emit desk_->desk().workingAsked(QStringLiteral("npsh-margin"));
    look("sample duty, working");
    click(desk_->duty(), QStringLiteral("Add a case"));
    look("sample duty, form of a case");
}

TEST_P(TextFits, AtShifts) {
    startBlank();
    desk_->window().showPlace(PlaceId::shifts);
    look("no shifts");
    openSample();
    desk_->window().showPlace(PlaceId::shifts);
    look("sample shifts");
}

TEST_P(TextFits, AtTheInstallation) {
    auto* place = dynamic_cast<InstallationPlace*>(desk_->window().place(PlaceId::installation));
    ASSERT_NE(place, nullptr);
    startBlank();
    desk_->window().showPlace(PlaceId::installation);
    for (int tab = 0; tab < place->tabs().count(); ++tab) {
        place->tabs().setCurrentIndex(tab);
        look(qPrintable(QStringLiteral("no installation, tab %1").arg(tab)));
    }
    openSample();
    ASSERT_TRUE(desk_->answeredInFull());
    desk_->window().showPlace(PlaceId::installation);
    for (int tab = 0; tab < place->tabs().count(); ++tab) {
        place->tabs().setCurrentIndex(tab);
        look(qPrintable(QStringLiteral("sample installation, tab %1").arg(tab)));
    }
    place->tabs().setCurrentIndex(InstallationPlace::kConnections);
    place->connections().parts().setCurrentCell(20, 1);
    look("sample installation, a part");
}

TEST_P(TextFits, InTheBoxOfKeys) {
    ShortcutsPage keys(&desk_->window());
    keys.show();
    ASSERT_TRUE(QTest::qWaitForWindowExposed(&keys));
    look("keys", keys);
}

TEST_P(TextFits, InTheMessageBar) {
    openSample();
    emit desk_->desk().said(QStringLiteral("The file “%1” could not be read: it is not of this program, or "
                                           "another program has damaged it; it was left as it is.")
                                .arg(QStringLiteral("a-long-name-of-a-job-as-they-are-in-use.job.json")),
                            true);
    for (const auto& [place, name] : {std::pair{PlaceId::site, "message, site"},
                                      {PlaceId::charts, "message, charts"},
                                      {PlaceId::duty, "message, duty"},
                                      {PlaceId::shifts, "message, shifts"},
                                      {PlaceId::installation, "message, installation"}}) {
        desk_->window().showPlace(place);
        look(name);
    }
}

std::string nameOf(const testing::TestParamInfo<Screen>& info) {
    return std::to_string(info.param.size.width()) + (info.param.fontScale > 1.0 ? "WithLargeText" : "") +
           (info.param.otherFont ? "InAnotherFont" : "");
}
INSTANTIATE_TEST_SUITE_P(Desk, TextFits,
                         testing::Values(Screen{{1280, 720}, 1.0}, Screen{{1440, 900}, 1.0},
                                         Screen{{1280, 720}, 1.5}, Screen{{1440, 900}, 1.5},
                                         Screen{{1280, 720}, 1.5, true}),
                         nameOf);

} // namespace
} // namespace headmark::whole_window
