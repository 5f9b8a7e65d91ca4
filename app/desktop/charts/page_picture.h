#pragma once
// A page ready to be drawn at any zoom: the pixels as they are (not copied), and halved again and again for
// small zooms; the halves are made in the background and the page is drawn roughly until they are there.
//   level k holds means of 2^k x 2^k pixels; corner to corner, so that the pixel convention holds

#include "analysis/chart/page.h"

#include <QFutureWatcher>
#include <QImage>
#include <QObject>
#include <QPainter>

#include <memory>
#include <vector>

namespace headmark {

class PagePicture : public QObject {
    Q_OBJECT

  public:
    explicit PagePicture(QObject* parent = nullptr);
    void setPage(std::shared_ptr<const Page> page);
    [[nodiscard]] const std::shared_ptr<const Page>& page() const { return page_; }

    // Draws the page's part that `visible` shows; `corner`: of the page's top-left corner (half a pixel
    // beyond the centre of the first), `zoom`: screen pixels per pixel held.
    void draw(QPainter& painter, const QRectF& visible, QPointF corner, double zoom) const;

  signals:
    void refined();

  private:
    std::shared_ptr<const Page> page_;
    std::vector<QImage> levels_;
    QFutureWatcher<std::vector<QImage>> watcher_;
    std::shared_ptr<const Page> inWork_;
};

} // namespace headmark
