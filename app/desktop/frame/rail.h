#pragma once
// The rail of places at the left, each with its mark: empty, ready, needs attention. Marks have a shape and
// words, not only a colour.

#include "app/desktop/frame/place.h"

#include <QAbstractButton>
#include <QVBoxLayout>

#include <vector>

namespace headmark {

class RailButton : public QAbstractButton {
    Q_OBJECT

  public:
    RailButton(const QString& text, const QKeySequence& shortcut, QWidget* parent = nullptr);
    void setMark(PlaceMark mark, const QString& words);
    [[nodiscard]] QSize sizeHint() const override;

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    PlaceMark mark_ = PlaceMark::empty;
    QString name_;
};

class Rail : public QWidget {
    Q_OBJECT

  public:
    explicit Rail(QWidget* parent = nullptr);
    RailButton* add(PlaceId place, const QString& text, const QKeySequence& shortcut);
    void setCurrent(PlaceId place);
    void setMark(PlaceId place, PlaceMark mark, const QString& words);

  signals:
    void chosen(PlaceId place);

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    struct Entry {
        PlaceId place;
        RailButton* button;
    };
    std::vector<Entry> entries_;
    QVBoxLayout* layout_;
};

// The sign of a mark or severity, drawn in its own shape: tick, triangle, octagon, ring.
enum class Sign { empty, good, note, warning, danger };
void paintSign(QPainter& painter, const QRectF& where, Sign sign);

} // namespace headmark
