#pragma once
// The plain building blocks of every place: a framed card with a title, a faint label, buttons by weight.

#include <QFrame>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

namespace headmark {

class Card : public QFrame {
    Q_OBJECT

  public:
    explicit Card(const QString& title = {}, QWidget* parent = nullptr);
    [[nodiscard]] QVBoxLayout& content() { return *content_; }
    void setTitle(const QString& title);
    // A widget at the right end of the title's line.
    void addToTitle(QWidget* widget);

  private:
    QLabel* title_;
    QHBoxLayout* titleLine_;
    QVBoxLayout* content_;
};

[[nodiscard]] QLabel* faintLabel(const QString& text, QWidget* parent = nullptr);
[[nodiscard]] QLabel* wrappedLabel(const QString& text, QWidget* parent = nullptr);
[[nodiscard]] QPushButton* mainButton(const QString& text, QWidget* parent = nullptr); // at most one a place
[[nodiscard]] QPushButton* plainButton(const QString& text, QWidget* parent = nullptr);
[[nodiscard]] QPushButton* quietButton(const QString& text, QWidget* parent = nullptr); // like a link

} // namespace headmark
