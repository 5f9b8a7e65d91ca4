#pragma once
// The day chart of a shift plan as a widget: draws a ShiftLayout, tells of the bar at the pointer, and writes
// itself to files. Keys: left and right go from shift to shift.

#include "app/desktop/shifts/shift_layout.h"

#include <QPixmap>
#include <QWidget>

namespace headmark {

class ShiftChart : public QWidget {
    Q_OBJECT

  public:
    explicit ShiftChart(QWidget* parent = nullptr);

    // `stale`: of an earlier edit; drawn faintly.
    void show(const ShiftNight& night, bool stale);
    void clear();
    [[nodiscard]] const std::optional<ShiftNight>& night() const { return night_; }
    [[nodiscard]] const ShiftLayout& layoutNow() const { return layout_; }
    void select(std::optional<std::size_t> shift);
    [[nodiscard]] std::optional<std::size_t> selected() const { return selected_; }
    [[nodiscard]] QString barWords(const ShiftBar& bar) const;

    [[nodiscard]] QPixmap pixmap() const;
    // PNG, SVG or PDF by the path's ending. False: it could not be written.
    [[nodiscard]] bool writeTo(const QString& path) const;

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

  signals:
    void shiftChosen(int shift); // by pointer or key

  protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    bool event(QEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

  private:
    void layOutAnew();
    void draw(QPainter& painter, bool withChoice) const;
    void describe();
    void choose(std::size_t shift);

    std::optional<ShiftNight> night_;
    ShiftLayout layout_;
    std::optional<std::size_t> selected_;
    bool stale_ = false;
};

} // namespace headmark
