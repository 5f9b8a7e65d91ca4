#pragma once
// The pages of a PDF as small pictures, to choose the one with the chart. They are drawn one after another,
// those in sight first.

#include <QListWidget>
#include <QPdfDocument>
#include <QTimer>
#include <QWidget>

namespace headmark {

class PdfChooser : public QWidget {
    Q_OBJECT

  public:
    explicit PdfChooser(QWidget* parent);
    // How many pages; 0 where the file could not be opened.
    int open(const QString& path);
    [[nodiscard]] const QString& path() const { return path_; }
    [[nodiscard]] QListWidget& list() { return *list_; }

  signals:
    void chosen(const QString& path, int page); // from 1
    void left();

  private:
    void drawNext();
    void finish();
    QString path_;
    QPdfDocument document_;
    QListWidget* list_;
    QTimer timer_;
};

} // namespace headmark
