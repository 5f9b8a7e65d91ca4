#pragma once
// What makes a case: the zones open, the water, the filter, the pump's speed. For a new case and for changing
// one; nothing enters the job before it is confirmed.

#include "app/desktop/frame/number_entry.h"
#include "app/document/answer_service.h" // Site and Case

#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>
#include <QWidget>

#include <vector>

namespace headmark {

class CaseForm : public QWidget {
    Q_OBJECT

  public:
    explicit CaseForm(QWidget* parent = nullptr);
    // `confirm`: words of the button, "Add this case".
    void start(const Site& site, const Case& from, const QString& confirm);
    [[nodiscard]] Case described() const;

  signals:
    void confirmed(const headmark::Case& described);
    void cancelled();

  private:
    void look();
    void confirm();
    [[nodiscard]] QString complaint() const;
    void makeZones(const Site& site, const Case& from);

    QLineEdit* name_;
    QVBoxLayout* zonesLayout_;
    QLabel* zonesTitle_;
    std::vector<QCheckBox*> zones_;
    std::vector<std::string> zoneNames_;
    QComboBox *water_, *filter_;
    NumberEntry* speed_;
    QLabel* complaint_;
    QPushButton* confirm_;
};

} // namespace headmark
