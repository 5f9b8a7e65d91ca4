#pragma once
// One operating case in the list: its sign, its name and a line of verdict. Chosen like a radio button.

#include "app/desktop/duty/sign_mark.h"

#include <QAbstractButton>
#include <QLabel>

namespace headmark {

class CaseCard : public QAbstractButton {
    Q_OBJECT

  public:
    explicit CaseCard(QWidget* parent = nullptr);
    void show(const QString& name, const QString& verdict, Sign sign);
    [[nodiscard]] QString verdict() const { return verdict_->text(); }

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    SignMark* sign_;
    QLabel *name_, *verdict_;
};

} // namespace headmark
