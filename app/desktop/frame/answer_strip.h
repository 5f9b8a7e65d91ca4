#pragma once
// The bar at the bottom that always shows the answer of the shown pump and case, or what the site needs while
// there is no pump. A click on a figure asks for its working. Intervals in the strip are what the maker may
// deliver; those of the reading stand with the details.

#include "app/desktop/frame/desk.h"

#include <QAbstractButton>
#include <QWidget>

#include <optional>
#include <vector>

namespace headmark {

// One figure: a caption, the figure, a line of explanation; optionally a bar with a region and a mark.
class StripFigure : public QAbstractButton {
    Q_OBJECT

  public:
    explicit StripFigure(const QString& caption, QWidget* parent = nullptr);
    struct Bar {
        double from = 0.0, to = 1.0; // of the region, shares of the bar
        double mark = 0.5;
    };
    void show(const QString& figure, const QString& explanation, std::optional<Bar> bar = {});
    void setStale(bool stale);
    [[nodiscard]] QString figure() const { return figure_; }
    [[nodiscard]] QString explanation() const { return explanation_; }
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    void paintBar(QPainter& painter, const QRectF& where) const;
    QString caption_, figure_, explanation_;
    std::optional<Bar> bar_;
    bool stale_ = false;
};

class AnswerStrip : public QWidget {
    Q_OBJECT

  public:
    explicit AnswerStrip(Desk& desk, QWidget* parent = nullptr);
    void refresh();

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    void showNeed();
    void showCase(const CaseAnswer& answer);
    void showZones();
    void showCautions(const CaseAnswer& answer);
    void blank(const QString& why);

    Desk& desk_;
    StripFigure *flow_, *head_, *band_, *zones_, *npsh_, *energy_, *cautions_;
    std::vector<StripFigure*> all_;
};

} // namespace headmark
