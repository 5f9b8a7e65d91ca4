#pragma once
// What the axes say: how well the pins tie the page down, in words; the printed units and scales.

#include "analysis/units/unit_table.h"
#include "app/desktop/charts/chart_session.h"
#include "app/desktop/frame/card.h"

#include <QComboBox>

#include <vector>

namespace headmark {

class AxesCard : public Card {
    Q_OBJECT

  public:
    AxesCard(ChartSession& session, QWidget* parent);

  private:
    struct UnitBox {
        QComboBox* box;
        std::string PrintedUnits::*unit;
    };
    void addUnit(QLayout& to, const QString& name, Dimension dimension, std::string PrintedUnits::*unit);
    QComboBox* addScale(QLayout& to, const QString& name, AxisScale Reading::*scale);
    void follow();
    [[nodiscard]] QString pinsSentence() const;
    [[nodiscard]] QStringList doubts() const;

    ChartSession& session_;
    QLabel* said_;
    QLabel* doubts_;
    std::vector<UnitBox> units_;
    QComboBox* flowScale_;
    QComboBox* valueScale_;
};

} // namespace headmark
