#pragma once
// The lines of the open chart: what each is, whether it was read and how far to trust it, and whose it is.

#include "app/desktop/charts/chart_session.h"
#include "app/desktop/frame/card.h"

#include <QAbstractButton>
#include <QComboBox>
#include <QLineEdit>

#include <vector>

namespace headmark {

// One line as a row: its colour, name and quantity, and below it what is to be said of it.
class LineRow : public QAbstractButton {
    Q_OBJECT

  public:
    explicit LineRow(QWidget* parent);
    void show(const QString& title, const QString& said, const QColor& colour, bool doubtful, bool chosen);
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] bool hasHeightForWidth() const override { return true; }
    [[nodiscard]] int heightForWidth(int width) const override;

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    QString said_;
    QColor colour_;
    bool doubtful_ = false, chosen_ = false;
};

class LinesCard : public Card {
    Q_OBJECT

  public:
    LinesCard(ChartSession& session, QWidget* parent);
    [[nodiscard]] LineRow* row(std::size_t line) const { return line < rows_.size() ? rows_[line] : nullptr; }

  private:
    void buildForm();
    void follow();
    void followRows(const Reading& reading);
    void followForm(const Reading& reading);
    void give(int choice);
    [[nodiscard]] QString saidOf(std::size_t line, bool* doubtful) const;

    ChartSession& session_;
    QLabel* none_;
    QVBoxLayout* list_;
    std::vector<LineRow*> rows_;
    QWidget* form_;
    QLineEdit* name_;
    QComboBox* quantity_;
    QComboBox* axis_;
    QComboBox* owner_;
    QPushButton* addSpot_;
    QPushButton* family_;
};

} // namespace headmark
