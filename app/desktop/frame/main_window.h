#pragma once
// The window: menus and tool bar, the rail of places, the places, the answer strip, and the start view while
// nothing is open. Owns the document and what computes its answers.

#include "app/desktop/frame/answer_strip.h"
#include "app/desktop/frame/desk.h"
#include "app/desktop/frame/message_bar.h"
#include "app/desktop/frame/place.h"
#include "app/desktop/frame/rail.h"
#include "app/desktop/frame/theme.h"
#include "app/desktop/start/start_view.h"
#include "app/document/recovery.h"
#include "app/document/settings.h"

#include <QLabel>
#include <QMainWindow>
#include <QStackedWidget>
#include <QToolButton>

#include <map>

namespace headmark {

class ChartsPlace;

class MainWindow : public QMainWindow {
    Q_OBJECT

  public:
    explicit MainWindow(QWidget* parent = nullptr);

    // A job file, or a page with a chart. Says in the window what went wrong.
    void openPath(const QString& path);
    [[nodiscard]] Desk& desk() { return desk_; }
    [[nodiscard]] Place* place(PlaceId id) const;
    void showPlace(PlaceId id);

  protected:
    void closeEvent(QCloseEvent* event) override;
    void changeEvent(QEvent* event) override;
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

  private:
    void makeActions();
    void makeFileMenu();
    void makeEditMenu();
    void makeViewMenu();
    void makePlaces();
    void makeToolBar();
    void refreshTitle();
    void refreshUnits();
    void refreshStart();
    [[nodiscard]] bool mayClose(); // asks to save; false: go back
    [[nodiscard]] bool save();
    [[nodiscard]] bool saveAs();
    void newSite();
    void openDialog();
    void openJob(const QString& path);
    void openPage(const QString& path);
    void openSample();
    void setTheme(ThemeChoice choice);
    void say(const QString& sentence, bool isError = false);

    Settings settings_;
    Document document_;
    AnswerService answers_;
    Recovery recovery_;
    Desk desk_;
    Rail* rail_;
    MessageBar* messages_;
    QStackedWidget* stack_; // start view, then the places
    QWidget* work_;         // rail and places
    QStackedWidget* places_;
    AnswerStrip* strip_;
    StartView* start_;
    QLabel *title_, *saved_;
    QToolButton* unitsButton_;
    std::map<PlaceId, Place*> byId_;
    ChartsPlace* charts_ = nullptr;
};

// The sample that comes with the program; empty where it is not found.
[[nodiscard]] QString samplePath();

} // namespace headmark
