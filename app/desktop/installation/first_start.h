#pragma once
// The commissioning sheet: what is done and read at the first start, with the figure to expect and a blank
// for the reading.

#include "analysis/connections/commissioning.h"
#include "app/desktop/installation/whole_table.h"

#include <vector>

namespace headmark {

class FirstStart : public WholeTable {
    Q_OBJECT

  public:
    explicit FirstStart(QWidget* parent = nullptr);

    void show(const std::vector<CommissioningRow>& steps);
};

} // namespace headmark
