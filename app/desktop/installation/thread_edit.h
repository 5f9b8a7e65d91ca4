#pragma once
// A pipe thread as pump sheets print it, "G 1-1/2". What cannot be read as one is said under the field and
// not taken; empty: not said.

#include "app/desktop/frame/desk.h"

#include <QLabel>
#include <QLineEdit>

#include <functional>

namespace headmark {

class ThreadEdit : public QWidget {
    Q_OBJECT

  public:
    struct About {
        QString label, step, tip;
        std::function<QString(const Workspace&)> get;
        std::function<void(Workspace&, const std::string&)> set;
    };
    ThreadEdit(Desk& desk, About about, QWidget* parent = nullptr);

    void refresh();
    [[nodiscard]] QLineEdit& field() const { return *field_; }
    [[nodiscard]] QString complaint() const { return complaint_->text(); }

  private:
    void take();
    void complain(const QString& why);
    [[nodiscard]] QString whyNot(const QString& typed) const; // empty: it is a thread

    Desk& desk_;
    About about_;
    QString shown_;
    QLineEdit* field_;
    QLabel* complaint_;
};

} // namespace headmark
