#pragma once
// A table to be read, as high as all its rows (the page around it scrolls), its text wrapped. Two columns
// share what the others leave; those are as wide as their content.

#include <QTableWidget>

namespace headmark {

class WholeTable : public QTableWidget {
    Q_OBJECT

  public:
    // `first` and the column after it share the rest, `share` of it being the first's.
    WholeTable(const QStringList& headings, int first, double share, QWidget* parent = nullptr);

    [[nodiscard]] QSize sizeHint() const override;

  protected:
    void put(int row, int column, const QString& text, const QColor& colour, bool figure = false);
    void fit();
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

  private:
    int first_;
    double share_;
};

} // namespace headmark
