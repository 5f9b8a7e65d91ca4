#pragma once
// A page that can be looked at: zoom at the pointer, pan, fit.
//   screen = corner + (pixel + 0.5) zoom    pixel: of the reading, the centre of the first is (0, 0)
// Keys: Ctrl + and -, Ctrl 0 fits, Ctrl 1 shows pixel for pixel; space or the middle button with the mouse
// moves the page.

#include "app/desktop/charts/page_picture.h"

#include <QAbstractScrollArea>

namespace headmark {

class PageView : public QAbstractScrollArea {
    Q_OBJECT

  public:
    explicit PageView(QWidget* parent = nullptr);

    void setPage(const std::shared_ptr<const Page>& page, bool keepPlace);
    [[nodiscard]] const std::shared_ptr<const Page>& page() const { return picture_.page(); }

    [[nodiscard]] double zoom() const { return zoom_; } // screen pixels per pixel of the reading
    void setZoom(double zoom, QPointF keep);            // what is at `keep` on the screen stays there
    void zoomBy(double factor);                         // about the middle
    void fit();
    void showPixels(); // one to one
    [[nodiscard]] QPointF viewFromPixel(PixelPoint pixel) const;
    [[nodiscard]] PixelPoint pixelFromView(QPointF at) const;
    [[nodiscard]] bool isOnPage(PixelPoint pixel) const;
    void ensureSeen(PixelPoint pixel);

  signals:
    void zoomChanged(double zoom);

  protected:
    virtual void paintOver(QPainter& painter) = 0;
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void scrollContentsBy(int dx, int dy) override;
    // True where the event was one of looking and is done with.
    bool panPressed(QMouseEvent* event);
    bool panMoved(QMouseEvent* event);
    bool panReleased(QMouseEvent* event);
    bool lookKeyPressed(QKeyEvent* event);
    bool lookKeyReleased(QKeyEvent* event);
    [[nodiscard]] const PagePicture& picture() const { return picture_; }
    void scrollBy(QPoint by);

  private:
    [[nodiscard]] QSizeF pageSize() const; // on the screen
    [[nodiscard]] QPointF corner() const;
    void layOut();
    [[nodiscard]] double fittingZoom() const;

    PagePicture picture_;
    double zoom_ = 1.0;
    bool fitted_ = true; // keeps fitting when the window changes
    bool spaceHeld_ = false, panning_ = false;
    QPoint panFrom_;
};

} // namespace headmark
