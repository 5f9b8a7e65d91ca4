#pragma once
// The page with its pins and lines, by mouse and by keyboard.
//   P place a pin, L read a line, S add a spot to the chosen line, Escape back to choosing
//   Tab through pins, lines and spots; arrows 1, Shift 10, Alt 0.1 px; Delete; Return opens a pin's figures
//   while placing: arrows move the cross hair (Ctrl: 100 px), Return places, Ctrl held places freely

#include "app/desktop/charts/chart_painting.h"
#include "app/desktop/charts/grid_snap.h"
#include "app/desktop/charts/line_choice.h"
#include "app/desktop/charts/page_view.h"
#include "app/desktop/charts/pin_form.h"

namespace headmark {

class ChartView : public PageView {
    Q_OBJECT

  public:
    ChartView(ChartSession& session, QWidget* parent);
    [[nodiscard]] PinForm& pinForm() { return *form_; }
    void editPin(std::size_t index);
    [[nodiscard]] std::optional<PixelPoint> crossing() const { return snap_.crossing(); }
    [[nodiscard]] const std::vector<LineShape>& shapes() const { return shapes_; }
    [[nodiscard]] LineChoice& lineChoice() { return *choice_; }

  signals:
    void pointedAt(const QString& figures); // empty: nowhere

  protected:
    void paintOver(QPainter& painter) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void keyReleaseEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    bool viewportEvent(QEvent* event) override;
    bool focusNextPrevChild(bool next) override;

  private:
    struct Drag {
        ChartPart part;
        QPointF from;      // of the button, on the screen
        PixelPoint offset; // from the pointer to the part
        int number = 0;    // 0: not moved yet
    };

    void followSession();
    void followMode();
    [[nodiscard]] Sight sight() const;
    [[nodiscard]] bool isPlacing() const { return session_.mode() != ChartMode::choose; }
    [[nodiscard]] ChartPart partAt(QPointF at) const;
    void point(PixelPoint at, bool free);
    void act(bool free); // what the mode does at the pointer
    void startDrag(ChartPart part, QPointF at);
    void finishDrag(bool free);
    bool arrowPressed(QKeyEvent* event);
    bool letterPressed(QKeyEvent* event);
    void nudge(QPointF by);
    void paintInset(QPainter& painter, PixelPoint at);
    [[nodiscard]] std::optional<PixelPoint> insetPlace() const;

    ChartSession& session_;
    GridSnap snap_;
    PinForm* form_;
    LineChoice* choice_;
    std::vector<LineShape> shapes_;
    std::optional<PixelPoint> pointer_; // where the mode would act
    bool nudging_ = false;              // the inset stays while a part is moved by keys
    std::optional<Drag> drag_;
    std::string shownSheet_;
};

} // namespace headmark
