#pragma once
// The commissioning sheet: what is done and read at the first start, with the figure to expect and a blank
// for the reading.

#include "analysis/connections/commissioning.h"
#include "app/words/phrasing.h"

#include <QTableWidget>

#include <vector>

namespace headmark {

struct FirstStartRow {
    QString what, expected, blank;
};
[[nodiscard]] std::vector<FirstStartRow> firstStartRows(const std::vector<CommissioningRow>& steps,
                                                        const Phrasing& phrasing);

class FirstStart : public QTableWidget {
    Q_OBJECT

  public:
    explicit FirstStart(QWidget* parent = nullptr);

    void show(const std::vector<CommissioningRow>& steps);
    [[nodiscard]] QSize sizeHint() const override;

  protected:
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

  private:
    void fit();
};

} // namespace headmark
