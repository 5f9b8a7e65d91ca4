#pragma once
// Looks for the grid crossing near the pointer, off the screen's thread; the latest question counts.

#include "analysis/chart/page.h"

#include <QFutureWatcher>
#include <QObject>

#include <memory>
#include <optional>

namespace headmark {

class GridSnap : public QObject {
    Q_OBJECT

  public:
    explicit GridSnap(QObject* parent);
    void ask(const std::shared_ptr<const Page>& page, PixelPoint near_px, double radius_px);
    void clear();
    // Near the place last asked for; none while nothing was found.
    [[nodiscard]] std::optional<PixelPoint> crossing() const { return crossing_; }

  signals:
    void found(); // or lost

  private:
    struct Question {
        std::shared_ptr<const Page> page;
        PixelPoint near_px;
        double radius_px = 0.0;
    };
    void start(const Question& question);
    void take();
    std::optional<Question> waiting_, asked_;
    std::optional<PixelPoint> crossing_;
    QFutureWatcher<std::optional<PixelPoint>> watcher_;
};

} // namespace headmark
