#pragma once
// The connection drawing as a widget: parts by number, the chosen one marked, what each is in the tip. As
// wide as its numbers need to be read; the scroll area around it moves along it. Keys: left and right go from
// part to part, plus and minus draw it larger and smaller.

#include "analysis/connections/schematic.h"

#include <QWidget>

#include <optional>

namespace headmark {

class SheetDrawing : public QWidget {
    Q_OBJECT

  public:
    explicit SheetDrawing(QWidget* parent = nullptr);

    // `stale`: of an earlier edit; drawn faintly.
    void show(const ConnectionSheet& sheet, bool stale);
    void clear();
    [[nodiscard]] const Schematic& drawing() const { return drawing_; }
    void select(std::optional<std::size_t> part);
    [[nodiscard]] std::optional<std::size_t> selected() const { return selected_; }
    [[nodiscard]] std::optional<std::size_t> partAt(const QPointF& place) const;
    [[nodiscard]] QRectF boxOf(std::size_t part) const; // in the widget
    // Room there is across; the drawing fills it where its numbers stay readable.
    void fitTo(int width);
    void zoom(double factor);
    [[nodiscard]] double scale() const { return scale_; } // pixels a millimetre

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }

  signals:
    void partChosen(int part); // by pointer or key

  protected:
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void changeEvent(QEvent* event) override;
    bool event(QEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

  private:
    void setScale(double scale);
    [[nodiscard]] double leastScale() const;
    void choose(std::size_t part);
    void describe();

    ConnectionSheet sheet_;
    Schematic drawing_;
    std::optional<std::size_t> selected_;
    double scale_ = 4.0, zoom_ = 1.0;
    int room_ = 0;
    bool stale_ = false;
};

} // namespace headmark
