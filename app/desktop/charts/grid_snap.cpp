#include "app/desktop/charts/grid_snap.h"

#include "analysis/chart/grid_crossing.h"

#include <QtConcurrent>

#include <cmath>

namespace headmark {

GridSnap::GridSnap(QObject* parent) : QObject(parent) {
    connect(&watcher_, &QFutureWatcherBase::finished, this, &GridSnap::take);
}

void GridSnap::ask(const std::shared_ptr<const Page>& page, PixelPoint near_px, double radius_px) {
    if (!page) return clear();
    // What was found stays on show while it is near enough; else it goes at once.
    if (crossing_ && std::hypot(crossing_->x_px - near_px.x_px, crossing_->y_px - near_px.y_px) > radius_px) {
        crossing_.reset();
        emit found();
    }
    asked_ = Question{page, near_px, radius_px};
    if (watcher_.isRunning()) {
        waiting_ = asked_;
    } else {
        start(*asked_);
    }
}

void GridSnap::clear() {
    waiting_.reset();
    asked_.reset();
    if (!crossing_) return;
    crossing_.reset();
    emit found();
}

void GridSnap::start(const Question& question) {
    watcher_.setFuture(QtConcurrent::run(
        [question] { return gridCrossingNear(*question.page, question.near_px, question.radius_px); }));
}

void GridSnap::take() {
    if (waiting_) {
        const Question next = *waiting_;
        waiting_.reset();
        start(next);
        return;
    }
    if (!asked_) return; // no longer wanted
    crossing_ = watcher_.result();
    emit found();
}

} // namespace headmark
