#pragma once
// Zones that must run in one shift and zones that must not: the lists there are, each to be removed, and a
// line to add a pair by name.

#include "app/desktop/frame/desk.h"

#include <QComboBox>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include <string>
#include <vector>

namespace headmark {

class ZonePairsEdit : public QWidget {
    Q_OBJECT

  public:
    explicit ZonePairsEdit(Desk& desk, QWidget* parent = nullptr);
    void refresh();

    [[nodiscard]] QComboBox& first() const { return *first_; }
    [[nodiscard]] QComboBox& relation() const { return *relation_; }
    [[nodiscard]] QComboBox& second() const { return *second_; }
    [[nodiscard]] QPushButton& addButton() const { return *add_; }
    [[nodiscard]] std::vector<QPushButton*> removeButtons() const; // those shown
    [[nodiscard]] QString complaint() const { return complaint_->text(); }
    [[nodiscard]] QStringList lists() const; // in words

  private:
    struct Row {
        QWidget* box;
        QLabel* words;
        QPushButton* remove;
    };
    struct Listed {
        bool together;
        std::size_t index;
    };
    void addRow();
    void fillNames();
    void addPair();
    void remove(std::size_t row);
    void look();
    [[nodiscard]] QString objection() const;               // to the pair chosen; empty: it can be added
    [[nodiscard]] std::vector<std::string> chosen() const; // in the job's order

    Desk& desk_;
    QVBoxLayout* list_;
    QWidget* chooser_;
    QComboBox *first_, *relation_, *second_;
    QPushButton* add_;
    QLabel* complaint_;
    std::vector<Row> rows_;
    std::vector<Listed> listed_;
    bool touched_ = false; // a sentence only after the user chose something
};

} // namespace headmark
