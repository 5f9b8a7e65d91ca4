#pragma once
// Draws a DutyPicture on a canvas: head over flow, and under it on the same flow axis efficiency with shaft
// power, and NPSH. Every curve carries its name; the places of the names are found anew after each layout.
// Included by three files only: qcustomplot.h takes seconds to compile.

#include "app/desktop/duty/duty_picture.h"
#include "app/desktop/duty/label_places.h"
#include "app/document/display_units.h"

#include <qcustomplot.h>

#include <functional>
#include <vector>

namespace headmark {

class DutyDrawing {
    Q_DECLARE_TR_FUNCTIONS(DutyDrawing)

  public:
    explicit DutyDrawing(QCustomPlot& canvas);

    // `grow`: axes never shrink meanwhile, so that a slider moves curves and not the paper under them.
    void draw(const DutyPicture& picture, const DisplayUnits& units, bool grow);
    void showAll();
    void zoomAt(const QPointF& pixel, double factor);
    void zoomTo(const QRect& pixels);
    // A line through all plots at a flow; empty: none.
    void setCursor(std::optional<double> flow_m3_s);

    [[nodiscard]] std::optional<double> flowAt_m3_s(const QPointF& pixel) const;
    [[nodiscard]] QPointF pixelOf(double flow_m3_s, double head_m) const;
    [[nodiscard]] std::pair<double, double> flowRange_m3_s() const; // in view
    [[nodiscard]] std::vector<QRectF> labelBoxes() const;

  private:
    using Spots = std::function<std::vector<QPointF>(const QSizeF&)>;
    struct Line {
        QCPAxisRect* rect;
        QCPAxis *x, *y;
        QVector<double> keys, values;
    };
    struct Label {
        QCPItemText* item;
        QCPAxisRect* rect;
        Spots spots;
    };

    void setUpRect(QCPAxisRect& rect);
    void clear();
    void applyTheme();
    void drawPreferred();
    void drawHeads();
    void drawBand();
    void drawSystems();
    void drawDuty();
    void drawNeeds();
    void drawEfficiencyAndPower();
    void drawEfficiency();
    void drawPower();
    void drawNpsh();
    void drawAxisNames();
    void chooseRanges(bool grow);
    void showRows();
    void placeLabels();

    [[nodiscard]] double flowFigure(double flow_m3_s) const;
    [[nodiscard]] double headFigure(double head_m) const;
    [[nodiscard]] QVector<double> flowFigures(const CurvePlot& curve) const;
    [[nodiscard]] QVector<double> headFigures(const std::vector<double>& heads_m) const;
    QCPGraph* addCurve(QCPAxisRect& rect, QCPAxis* y, const QVector<double>& keys,
                       const QVector<double>& values, const QPen& pen);
    std::size_t addLine(QCPAxisRect& rect, QCPAxis* y, const QVector<double>& keys,
                        const QVector<double>& values);
    void addDot(QCPAxisRect& rect, QCPAxis* y, double key, double value, const QColor& color, bool filled);
    void addRule(QCPAxisRect& rect, QCPAxis* y, const QPointF& from, const QPointF& to, const QPen& pen);
    // Left out while there is no room for it.
    QCPItemText* addText(const QString& text, const QColor& color); // without a place as yet
    QCPItemText* addLabel(QCPAxisRect& rect, const QString& text, const QColor& color, Spots spots);
    // Beside a dot; goes with it when it is zoomed out of view.
    void addDotLabel(QCPAxisRect& rect, QCPAxis* y, const QPointF& at, const QString& text,
                     const QColor& color);
    [[nodiscard]] Spots alongLine(std::size_t line, bool fromEnd) const;
    // Above an edge that is no ink of its own, else along a line.
    [[nodiscard]] Spots aboveOrAlong(const Line& edge, std::size_t line) const;
    [[nodiscard]] Spots onOneSide(std::size_t line, bool above) const;
    [[nodiscard]] static QPolygonF visible(const Line& line); // its longest piece in view, in pixels
    [[nodiscard]] QString shortName(const std::string& name) const;

    QCustomPlot& canvas_;
    QCPAxisRect *head_, *efficiency_, *npsh_;
    QCPAxis* power_;
    std::vector<QCPItemLine*> cursor_;
    std::vector<QCPAbstractItem*> items_; // of the picture
    std::vector<Line> lines_;
    std::vector<QPolygonF> visible_; // of each line, after a layout
    std::vector<Label> labels_;
    std::vector<QRectF> boxes_;
    std::optional<QLineF> margin_; // of NPSH, in the plot's figures
    DutyPicture picture_;
    DisplayUnits units_;
    QCPRange fullFlow_{0.0, 1.0}, fullHead_{0.0, 1.0};
    bool zoomed_ = false;
    bool hasEfficiency_ = false, hasPower_ = false, hasNpsh_ = false;
};

} // namespace headmark
