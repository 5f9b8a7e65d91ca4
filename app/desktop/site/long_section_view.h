#pragma once
// The long section as a picture: water, pump, pipe, filter, take-offs and emitters at their levels, and over
// them the hydraulic grade line of the shown case. Items can be chosen by mouse and by keyboard.

#include "app/desktop/site/label_layout.h"
#include "app/desktop/site/section_drawing.h"
#include "app/document/display_units.h"

#include <QWidget>

#include <vector>

class QPainter;

namespace headmark {

class LongSectionView : public QWidget {
    Q_OBJECT

  public:
    explicit LongSectionView(QWidget* parent = nullptr);

    struct Content {
        SectionDrawing drawing;
        DisplayUnits units;
        QString source;       // name of the water's place
        QString missing;      // a sentence where there is no grade line: what is needed
        QStringList zoneSays; // by zone: what its emitters get
    };
    void show(Content content);
    void setSelected(const RunSpot& spot);
    [[nodiscard]] const std::vector<PlacedLabel>& labels() const { return labels_; }
    // Where the item is drawn; empty where it is not.
    [[nodiscard]] QRectF rectOf(const RunSpot& spot) const;
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

  signals:
    void picked(const RunSpot& spot);

  protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    bool event(QEvent* event) override;
    void changeEvent(QEvent* event) override;

  private:
    struct Hit {
        QRectF where;
        RunSpot spot;
        QString tip;
    };
    void arrange(); // plot, hits and labels anew
    void arrangeHits();
    void arrangeLabels();
    [[nodiscard]] double x(double share) const;
    [[nodiscard]] double y(double level_m) const;
    [[nodiscard]] QPointF at(double share, double level_m) const { return {x(share), y(level_m)}; }
    [[nodiscard]] QPolygonF mainLine() const;
    [[nodiscard]] const Hit* hitAt(const QPointF& where) const;
    [[nodiscard]] double zoneTop(const SectionZone& zone) const;
    [[nodiscard]] double symbol() const; // size of a symbol, from the font

    void paintGrid(QPainter& painter) const;
    void paintGround(QPainter& painter) const;
    void paintWater(QPainter& painter) const;
    void paintPipes(QPainter& painter) const;
    void paintItems(QPainter& painter) const;
    void paintZone(QPainter& painter, const SectionZone& zone) const;
    void paintGradeLine(QPainter& painter) const;
    void paintLabels(QPainter& painter) const;
    void paintSelection(QPainter& painter) const;

    Content content_;
    QRectF plot_;
    std::vector<Hit> hits_;
    std::vector<PlacedLabel> labels_;
    std::optional<RunSpot> selected_;
};

} // namespace headmark
