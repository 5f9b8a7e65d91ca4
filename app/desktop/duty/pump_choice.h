#pragma once
// The pump that all places show, chosen from a list; hidden while there are fewer than two.

#include "app/desktop/frame/desk.h"

#include <QComboBox>

namespace headmark {

class PumpChoice : public QComboBox {
    Q_OBJECT

  public:
    explicit PumpChoice(Desk& desk, QWidget* parent = nullptr);
    void refresh();

  private:
    Desk& desk_;
};

} // namespace headmark
