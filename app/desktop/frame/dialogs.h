#pragma once
// Boxes that ask, behind one class so that tests can answer. Messages stand in the window's message bar; a
// box is only for decisions.

#include <QString>
#include <QStringList>
#include <QWidget>

#include <functional>

namespace headmark {

enum class SaveChoice { save, discard, cancel };

class Dialogs {
  public:
    virtual ~Dialogs() = default;
    [[nodiscard]] virtual QString openJobPath(QWidget* parent);
    [[nodiscard]] virtual QString saveJobPath(QWidget* parent, const QString& suggested);
    [[nodiscard]] virtual QString openPagePath(QWidget* parent);
    // A file to write a picture or table to; `filters` as QFileDialog takes them.
    [[nodiscard]] virtual QString exportPath(QWidget* parent, const QString& suggested,
                                             const QString& filters);
    [[nodiscard]] virtual SaveChoice askToSave(QWidget* parent, const QString& title);
    // One text, such as a name; empty: cancelled.
    [[nodiscard]] virtual QString askText(QWidget* parent, const QString& title, const QString& question,
                                          const QString& suggested);
};

// The boxes in use; tests put their own in.
[[nodiscard]] Dialogs& dialogs();
void useDialogs(Dialogs* instead); // null: the real ones again

} // namespace headmark
