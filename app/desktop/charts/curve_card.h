#pragma once
// What the chosen line says: its ends, a value at any flow, its shape, how well it was read against what the
// maker promises; and under Details how it was fitted and how the pins lie.

#include "app/desktop/charts/chart_session.h"
#include "app/desktop/frame/card.h"
#include "app/desktop/frame/number_entry.h"

#include <QFormLayout>
#include <QSpinBox>

namespace headmark {

class CurveCard : public Card {
    Q_OBJECT

  public:
    CurveCard(ChartSession& session, QWidget* parent);

  private:
    struct Row {
        QLabel* name;
        QLabel* figure;
    };
    Row addRow(QFormLayout& form);
    static void set(const Row& row, const QString& name, const QString& figure);
    void buildDetails();
    void follow();
    void followFacts(const ReadLine& read, const PolynomialCurve& curve);
    void followAtFlow(const ReadLine& read, const PolynomialCurve& curve);
    void followDetails(const ReadLine& read, const SampleFit& fit);
    [[nodiscard]] QString shapeWords(const ReadLine& read, const PolynomialCurve& curve) const;
    [[nodiscard]] QString errorWords(const ReadLine& read, const PolynomialCurve& curve,
                                     double flow_m3_s) const;
    [[nodiscard]] QString polynomialWords(const ReadLine& read, const PolynomialCurve& curve) const;

    ChartSession& session_;
    QWidget* facts_;
    Row start_, at_, end_, shape_, error_;
    NumberEntry* flow_;
    QLabel* flowUnit_;
    QPushButton* more_;
    QWidget* details_;
    QLabel* polynomial_;
    QLabel* residuals_;
    QLabel* mapping_;
    QLabel* pins_;
    QSpinBox* degree_;
    std::optional<double> flow_m3_s_; // asked for
};

} // namespace headmark
