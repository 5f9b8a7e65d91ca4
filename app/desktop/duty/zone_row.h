#pragma once
// One zone in the set picker: its valve, open or shut, with flow and emitter pressures as far as they are
// known. The whole row is a check box: a click or the space bar turns the valve.

#include "app/desktop/duty/sign_mark.h"

#include <QCheckBox>
#include <QLabel>

namespace headmark {

// A valve as the long section draws it: filled when open, hollow and barred when shut.
void paintValve(QPainter& painter, const QRectF& where, bool open);

class ZoneRow : public QCheckBox {
    Q_OBJECT

  public:
    explicit ZoneRow(QWidget* parent = nullptr);

    struct Words {
        QString name;
        QString flow;     // "2.1 m³/h"
        QString pressure; // "emitters at 1.2 to 1.6 bar"
        QString verdict;  // "within limits", "pressure too low"
        Sign sign = Sign::empty;
    };
    void show(const Words& words);
    [[nodiscard]] QString flow() const { return flow_->text(); }
    [[nodiscard]] QString pressure() const { return pressure_->text(); }
    [[nodiscard]] QString verdict() const { return verdict_->text(); }

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

  protected:
    void paintEvent(QPaintEvent* event) override;
    [[nodiscard]] bool hitButton(const QPoint& at) const override { return rect().contains(at); }

  private:
    QLabel *name_, *flow_, *pressure_, *verdict_;
    SignMark* sign_;
};

} // namespace headmark
