#pragma once
// A line in which a catalogue item is found by typing: words narrow the list below, Down and Return choose.

#include <QCompleter> // before the standard headers: the meta-object compiler reads those only after Qt
#include <QLineEdit>
#include <QStandardItemModel>

#include "app/desktop/site/catalogue_choices.h"

namespace headmark {

class CatalogueEdit : public QLineEdit {
    Q_OBJECT

  public:
    explicit CatalogueEdit(const std::vector<CatalogueChoice>& choices, QWidget* parent = nullptr);
    [[nodiscard]] QCompleter& list() { return *list_; }
    // Of the choices; -1: what stands there was not taken from the list.
    [[nodiscard]] int chosenIndex() const { return chosen_; }
    // Shows a name without choosing it; put back when the field is left without a choice.
    void setShown(const QString& words);

  signals:
    void chosen(int index);

  protected:
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

  private:
    void look(const QString& typed);
    void choose(const QModelIndex& index);

    const std::vector<CatalogueChoice>& choices_;
    QStandardItemModel* found_;
    QCompleter* list_;
    QString shown_, tip_;
    int chosen_ = -1;
};

} // namespace headmark
