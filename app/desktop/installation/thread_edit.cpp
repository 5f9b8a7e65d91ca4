#include "app/desktop/installation/thread_edit.h"

#include "analysis/connections/thread.h"
#include "app/desktop/frame/card.h"
#include "app/desktop/frame/theme.h"
#include "app/words/error_words.h"

#include <QGridLayout>

namespace headmark {

ThreadEdit::ThreadEdit(Desk& desk, About about, QWidget* parent)
    : QWidget(parent), desk_(desk), about_(std::move(about)), field_(new QLineEdit),
      complaint_(wrappedLabel({})) {
    auto* layout = new QGridLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setVerticalSpacing(3);
    layout->setColumnStretch(1, 1);
    auto* label = new QLabel(about_.label);
    label->setBuddy(field_);
    for (QWidget* widget : {static_cast<QWidget*>(label), static_cast<QWidget*>(field_)})
        widget->setToolTip(about_.tip);
    field_->setAccessibleName(about_.label);
    field_->setMinimumWidth(fontMetrics().averageCharWidth() * 10);
    layout->addWidget(label, 0, 0);
    layout->addWidget(field_, 0, 1);
    layout->addWidget(complaint_, 1, 0, 1, 2);
    complaint_->hide();
    connect(field_, &QLineEdit::editingFinished, this, &ThreadEdit::take);
}

void ThreadEdit::complain(const QString& why) {
    complaint_->setText(why);
    complaint_->setVisible(!why.isEmpty());
    QPalette colours = complaint_->palette();
    colours.setColor(QPalette::WindowText, theme().danger);
    complaint_->setPalette(colours);
    field_->setAccessibleDescription(why);
}

QString ThreadEdit::whyNot(const QString& typed) const {
    if (typed.isEmpty()) return {};
    const auto port = parsedPort(typed.toStdString());
    if (port) return {};
    Error error = port.error();
    error.place = about_.label.toStdString();
    return sentence(error);
}

void ThreadEdit::take() {
    if (!field_->isModified()) return;
    const QString typed = field_->text().trimmed();
    const QString why = whyNot(typed);
    complain(why);
    if (!why.isEmpty()) return;
    field_->setModified(false);
    desk_.document.edit(about_.step,
                        [&](Workspace& workspace) { about_.set(workspace, typed.toStdString()); });
    refresh();
}

// A file may hold what cannot be read: it is shown, and said.
void ThreadEdit::refresh() {
    const QString stored = about_.get(desk_.document.workspace());
    if (field_->isModified() && stored == shown_) return; // what is typed, or stands there with its complaint
    shown_ = stored;
    if (field_->text() != stored) field_->setText(stored);
    field_->setModified(false);
    if (!field_->hasFocus()) field_->setCursorPosition(0);
    field_->setToolTip(stored.isEmpty() ? about_.tip : stored + QLatin1Char('\n') + about_.tip);
    complain(whyNot(stored.trimmed()));
}

} // namespace headmark
