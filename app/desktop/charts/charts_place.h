#pragma once
// The place Charts: the pages the pumps are read from. In the middle the page, or a typed table, or the pages
// of a PDF to choose from; at the right what is known of it.

#include "app/desktop/charts/chart_view.h"
#include "app/desktop/charts/page_intake.h"
#include "app/desktop/charts/pdf_chooser.h"
#include "app/desktop/charts/sheets_card.h"
#include "app/desktop/charts/table_editor.h"
#include "app/desktop/frame/place.h"

#include <QStackedWidget>
#include <QToolButton>

namespace headmark {

class LinesCard;

class ChartsPlace : public Place {
    Q_OBJECT

  public:
    ChartsPlace(Desk& desk, QWidget* parent);

    [[nodiscard]] PlaceMark mark() const override;
    [[nodiscard]] QString markWords() const override;

    // A picture or PDF as a new chart; a PDF of several pages asks which.
    void openPage(const QString& path);
    void openPicture(const QImage& picture); // embedded
    void typeTable();

    [[nodiscard]] ChartView& view() { return *view_; }
    [[nodiscard]] ChartSession& session() { return session_; }
    [[nodiscard]] LinesCard& lines() { return *lines_; }
    [[nodiscard]] TableEditor& table() { return *table_; }

  protected:
    void showEvent(QShowEvent* event) override;
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

  private:
    QWidget* buildMiddle();
    QWidget* buildTools();
    QWidget* buildEmpty();
    QWidget* buildPanel();
    QToolButton* addMode(QLayout& to, const QString& text, const QString& tip, ChartMode mode);
    void addSheet(const ChartPage& page, const std::string& name);
    void take(const QMimeData& mime);
    void paste();
    void askForPage();
    void showTable(std::optional<std::size_t> pump);
    void follow();
    void followTools();
    [[nodiscard]] int doubtful() const; // lines and charts that need a look

    ChartSession session_;
    PictureIntake intake_;
    QStackedWidget* middle_ = nullptr;
    QWidget* empty_ = nullptr;
    QWidget* chart_ = nullptr;
    ChartView* view_ = nullptr;
    PdfChooser* pdf_ = nullptr;
    TableEditor* table_ = nullptr;
    SheetsCard* sheets_ = nullptr;
    LinesCard* lines_ = nullptr;
    QWidget* ofChart_ = nullptr; // what the panel says of a chart
    QWidget* panel_ = nullptr;
    std::vector<std::pair<ChartMode, QToolButton*>> modes_;
    QLabel* zoom_ = nullptr;
    QLabel* pointed_ = nullptr;
    QLabel* hint_ = nullptr;
    QLabel* pageError_ = nullptr;
    bool choosingPage_ = false;
};

} // namespace headmark
