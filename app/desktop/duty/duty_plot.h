#pragma once
// The plot of the duty place as a widget: shows a DutyPicture, reads it at the pointer, zooms, and writes
// itself to files. Keys: left and right move the reading (Shift: ten times as far), plus and minus zoom,
// Home shows everything.

#include "app/desktop/duty/duty_picture.h"
#include "app/document/display_units.h"

#include <QPixmap>
#include <QWidget>

#include <memory>
#include <optional>
#include <vector>

class QCustomPlot;

namespace headmark {

class DutyDrawing;

class DutyPlot : public QWidget {
    Q_OBJECT

  public:
    explicit DutyPlot(QWidget* parent = nullptr);
    ~DutyPlot() override;

    void show(const DutyPicture& picture, const DisplayUnits& units, bool grow = false);
    void showAll();
    void zoomBy(double factor); // about the reading, else about the middle
    // What the curves say at a flow, in a line of words.
    [[nodiscard]] QString readingAt(double flow_m3_s) const;

    [[nodiscard]] const DutyPicture& picture() const { return picture_; }
    [[nodiscard]] QPixmap pixmap();
    // PNG, SVG, PDF or CSV by the path's ending. False: it could not be written.
    [[nodiscard]] bool writeTo(const QString& path);

    // For tests: where things were drawn, in this widget's pixels.
    [[nodiscard]] QPointF pixelOf(double flow_m3_s, double head_m) const;
    [[nodiscard]] std::vector<QRectF> labelBoxes() const;
    [[nodiscard]] std::pair<double, double> flowRange_m3_s() const;
    [[nodiscard]] QWidget* canvas() const;

  signals:
    // The reading at the pointer or key; empty when it leaves.
    void pointed(const QString& words);

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    void connectCanvas();
    void point(std::optional<double> flow_m3_s);
    void describe();
    [[nodiscard]] bool writeSvg(const QString& path);

    QCustomPlot* canvas_;
    std::unique_ptr<DutyDrawing> drawing_;
    DutyPicture picture_;
    DisplayUnits units_;
    std::optional<double> reading_m3_s_;
};

} // namespace headmark
