#pragma once
// Help: every shortcut of the program in one list.

#include <QDialog>

namespace headmark {

class ShortcutsPage : public QDialog {
    Q_OBJECT

  public:
    explicit ShortcutsPage(QWidget* parent = nullptr);
};

} // namespace headmark
