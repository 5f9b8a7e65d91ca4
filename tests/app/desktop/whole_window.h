#pragma once
// The real window for tests, with boxes that answer by themselves, and a hand that works it: every click, key
// chord, and typed figure with its Return counts as one action, as a stop watch beside a user would count.

#include "app/desktop/charts/charts_place.h"
#include "app/desktop/duty/duty_place.h"
#include "app/desktop/frame/dialogs.h"
#include "app/desktop/frame/main_window.h"
#include "app/desktop/site/site_place.h"

#include <QTemporaryDir>

#include <memory>

namespace headmark::whole_window {

// Of the source tree, wherever this was built.
[[nodiscard]] inline QString sampleFile(const QString& name) {
    return QStringLiteral(HEADMARK_TESTS_DIR "/../samples/") + name;
}

inline constexpr int kPatience_ms = 60000; // of a machine that is busy with other tests

class AnsweringDialogs : public Dialogs {
  public:
    QString page, save, open, exported;
    QString openJobPath(QWidget*) override { return open; }
    QString saveJobPath(QWidget*, const QString&) override { return save; }
    QString openPagePath(QWidget*) override { return page; }
    QString exportPath(QWidget*, const QString&, const QString&) override { return exported; }
    SaveChoice askToSave(QWidget*, const QString&) override { return SaveChoice::discard; }
};

class Hand {
  public:
    [[nodiscard]] int actions() const { return actions_; }
    void startCounting() { actions_ = 0; }

    void click(QWidget& widget, QPoint at = {}, Qt::KeyboardModifiers modifiers = {});
    // The button with this text that can be seen inside; fails the test where there is none.
    void click(QWidget& inside, const QString& text);
    // To the focus, as a key arrives.
    void press(int key, Qt::KeyboardModifiers modifiers = {});
    // One key held down until it has repeated so often: one action.
    void hold(int key, Qt::KeyboardModifiers modifiers, int times);
    // Over what is marked there, and Return: one action.
    void type(const QString& text);
    // A file let go over the window: one action.
    void drop(QWidget& window, QPoint at, const QString& path);

  private:
    int actions_ = 0;
};

class DeskWindow {
  public:
    DeskWindow();
    ~DeskWindow();
    DeskWindow(const DeskWindow&) = delete;
    DeskWindow& operator=(const DeskWindow&) = delete;

    [[nodiscard]] MainWindow& window() { return *window_; }
    [[nodiscard]] Desk& desk() { return window_->desk(); }
    [[nodiscard]] const Job& job() { return desk().document.job(); }
    [[nodiscard]] SitePlace& site();
    [[nodiscard]] ChartsPlace& charts();
    [[nodiscard]] DutyPlace& duty();
    [[nodiscard]] ChartView& view() { return charts().view(); }
    [[nodiscard]] QPoint onScreen(PixelPoint at) { return view().viewFromPixel(at).toPoint(); }
    [[nodiscard]] QString path(const QString& name) const { return folder_.filePath(name); }

    // The offscreen platform leaves the window inactive after a list that dropped down.
    [[nodiscard]] bool active();
    [[nodiscard]] bool pageShown();
    [[nodiscard]] bool lineRead(std::size_t line);
    [[nodiscard]] bool answeredInFull(); // intervals and zones at once too
    // The findings of the answer, written as the command line writes them.
    [[nodiscard]] std::string findings();

    AnsweringDialogs dialogs;

  private:
    QTemporaryDir folder_;
    std::unique_ptr<MainWindow> window_;
};

} // namespace headmark::whole_window
