// make_sample_pictures FOLDER: the pictures of the README's path from a blank site to an answer, made by the
// program itself without a screen: 1280 wide, light.
//   ninja -C BUILD make_sample_pictures && BUILD/tests/app/desktop/make_sample_pictures samples/pictures
#include "paper_grain.h"

#include "app/desktop/charts/charts_place.h"
#include "app/desktop/duty/duty_place.h"
#include "app/desktop/duty/duty_plot.h"
#include "app/desktop/frame/main_window.h"
#include "app/desktop/site/site_place.h"

#include <QFileInfo>
#include <QStandardPaths>
#include <QTemporaryDir>
#include <QTest>

#include <cstdio>

namespace headmark {
namespace {

constexpr int kPatience_ms = 60000;
constexpr QSize kWindow(1280, 700);
constexpr int kMostBytes = 150'000; // light enough for a README

class Pictures {
  public:
    Pictures(const QString& folder, const QString& page) : folder_(folder), page_(page) {
        window_.desk().setUnits(DisplayUnits());
        window_.resize(kWindow);
        window_.show();
        window_.activateWindow();
    }

    [[nodiscard]] bool make() {
        start();
        questions();
        return pins() && lines() && duty() && good_;
    }

  private:
    void save(const char* name) {
        QTest::qWait(0);
        QCoreApplication::processEvents();
        const QString path = QStringLiteral("%1/%2.png").arg(folder_, QString::fromLatin1(name));
        const QWidget* view = charts().isVisible() ? charts().view().viewport() : nullptr;
        const QRect page = view ? QRect(view->mapTo(&window_, QPoint()), view->size()) : QRect();
        const bool written = withoutGrain(window_.grab().toImage(), page).save(path, "PNG", 0);
        const qint64 bytes = QFileInfo(path).size();
        std::printf("%s: %lld bytes\n", name, static_cast<long long>(bytes));
        good_ = good_ && written && bytes > 0 && bytes <= kMostBytes;
    }

    void start() {
        window_.findChild<StartView*>()->setSampleAvailable(true); // as where the program is installed
        save("1-start");
    }

    // A garden: water 2.5 m below the pump, 80 m of 63 mm pipe, sprinklers that take 6 m3/h at 2.5 bar.
    void questions() {
        window_.desk().document.startNew(blankWorkspace());
        window_.showPlace(PlaceId::site);
        auto& site = *qobject_cast<SitePlace*>(window_.place(PlaceId::site));
        site.setAsksQuestions(true);
        QCoreApplication::processEvents();
        SiteQuestions& asked = site.questions();
        const auto answer = [](QLineEdit& field, const char* typed) {
            field.setFocus();
            field.selectAll();
            QTest::keyClicks(&field, QString::fromLatin1(typed));
            QTest::keyClick(&field, Qt::Key_Return);
        };
        answer(asked.water(), "2.5");
        answer(asked.pipe(), "63 pe100 sdr17");
        answer(asked.length(), "80");
        answer(asked.flow(), "6");
        answer(asked.pressure(), "2.5");
        answer(asked.height(), "4");
        window_.activateWindow(); // which the list of pipes took over
        (void)QTest::qWaitFor([this] { return settled(); }, kPatience_ms);
        save("2-questions");
    }

    // The upper chart of the page: the origin and the far corners of its grid.
    bool pins() {
        window_.openPath(page_);
        if (!QTest::qWaitFor([this] { return charts().view().page() != nullptr; }, kPatience_ms))
            return false;
        ChartSession& session = charts().session();
        const auto place = [&](PixelPoint at, double flow, double head) {
            Pin pin;
            pin.at = at;
            pin.flow = flow;
            pin.value = head;
            session.placePin(pin);
        };
        place({241.7, 1405.7}, 0, 0);
        place({1392.4, 711.5}, 14, 60);
        (void)QTest::qWaitFor([this] { return settled(); }, kPatience_ms);
        ChartView& view = charts().view();
        view.setZoom(0.52, view.viewport()->rect().center());
        view.ensureSeen({1382.2, 1421.4});
        view.ensureSeen({820.0, 1060.0});
        const QPoint third = view.viewFromPixel({1382.2, 1421.4}).toPoint();
        QTest::mouseMove(view.viewport(), third);
        (void)QTest::qWaitFor([&] { return view.crossing().has_value(); }, kPatience_ms);
        QTest::mouseClick(view.viewport(), Qt::LeftButton, {}, third);
        save("3-pins");
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return); // as offered
        return session.reading()->pins.size() == 3;
    }

    bool lines() {
        ChartSession& session = charts().session();
        session.readLineAt({781.0, 891.2}, LineQuantity::head);
        session.setMode(ChartMode::choose);
        const bool read =
            QTest::qWaitFor([&] { return session.isUpToDate() && session.readLine(0); }, kPatience_ms);
        (void)QTest::qWaitFor([this] { return settled(); }, kPatience_ms);
        charts().view().ensureSeen({820.0, 1060.0});
        save("4-line");
        return read;
    }

    bool duty() {
        window_.showPlace(PlaceId::duty);
        const bool answered = QTest::qWaitFor([this] { return settled(); }, kPatience_ms);
        auto& place = *qobject_cast<DutyPlace*>(window_.place(PlaceId::duty));
        // The plot of the answer as it is now follows the answer.
        (void)QTest::qWaitFor([&] { return place.plot().picture().answer.has_value(); }, kPatience_ms);
        save("5-duty");
        return answered;
    }

    bool settled() {
        const auto answer = window_.desk().answers.latest();
        return !window_.desk().answers.isBusy() && !answer->stale &&
               sameWork(answer->workspace, window_.desk().document.workspace());
    }
    ChartsPlace& charts() { return *qobject_cast<ChartsPlace*>(window_.place(PlaceId::charts)); }

    QString folder_, page_;
    MainWindow window_;
    bool good_ = true;
};

} // namespace
} // namespace headmark

int main(int argc, char** argv) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    // A user's folders of their own: no work that another program left shows up in the pictures.
    QTemporaryDir home;
    qputenv("XDG_DATA_HOME", QFile::encodeName(home.filePath(QStringLiteral("data"))));
    qputenv("XDG_CONFIG_HOME", QFile::encodeName(home.filePath(QStringLiteral("config"))));
    QApplication application(argc, argv);
    QCoreApplication::setOrganizationName(QStringLiteral("headmark"));
    QCoreApplication::setApplicationName(QStringLiteral("headmark-pictures"));
    headmark::applyTheme(application, headmark::ThemeChoice::light);
    if (argc != 2) {
        std::fprintf(stderr, "make_sample_pictures FOLDER\n");
        return 2;
    }
    headmark::Pictures pictures(QString::fromLocal8Bit(argv[1]),
                                QStringLiteral(HEADMARK_SAMPLES "/pages/pump-a.jpg"));
    return pictures.make() ? 0 : 1;
}
