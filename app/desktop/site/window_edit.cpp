#include "app/desktop/site/window_edit.h"

#include "app/desktop/frame/card.h"
#include "app/desktop/frame/theme.h"
#include "app/desktop/site/controller_edits.h"

#include <QHBoxLayout>
#include <QRegularExpression>
#include <QVBoxLayout>

namespace headmark {

std::optional<std::string> parsedTime(const QString& typed) {
    static const QRegularExpression form(
        QStringLiteral(R"(^\s*(\d{1,2})(?:\s*[:.h]?\s*(\d{1,2}))?\s*h?\s*$)"));
    const auto match = form.match(typed);
    if (!match.hasMatch()) return std::nullopt;
    const int hour = match.captured(1).toInt(), minute = match.captured(2).toInt();
    if (hour > 23 || minute > 59) return std::nullopt;
    return QStringLiteral("%1:%2")
        .arg(hour, 2, 10, QLatin1Char('0'))
        .arg(minute, 2, 10, QLatin1Char('0'))
        .toStdString();
}

WindowEdit::WindowEdit(Desk& desk, QWidget* parent)
    : QWidget(parent), desk_(desk), from_(new QLineEdit), to_(new QLineEdit), complaint_(wrappedLabel({})) {
    auto* line = new QHBoxLayout;
    line->setContentsMargins(0, 0, 0, 0);
    const QString tip = tr("When watering is allowed, like 21:00 to 05:00; empty: at any time.");
    const std::tuple<QString, QString, QLineEdit*> fields[] = {
        {tr("Window"), tr("Watering begins at"), from_}, {tr("to"), tr("Watering ends by"), to_}};
    for (const auto& [words, name, edit] : fields) {
        auto* label = new QLabel(words);
        label->setBuddy(edit);
        edit->setAccessibleName(name);
        edit->setToolTip(tip);
        edit->setPlaceholderText(QStringLiteral("00:00"));
        edit->setMinimumWidth(fontMetrics().averageCharWidth() * 6);
        line->addWidget(label);
        line->addWidget(edit, 1);
        connect(edit, &QLineEdit::editingFinished, this, [this, e = edit] {
            if (e->isModified()) take();
        });
    }
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(3);
    layout->addLayout(line);
    layout->addWidget(complaint_);
    complaint_->hide();
    setTabOrder(from_, to_);
}

void WindowEdit::complain(const QString& why) {
    complaint_->setText(why);
    complaint_->setVisible(!why.isEmpty());
    QPalette colours = complaint_->palette();
    colours.setColor(QPalette::WindowText, theme().danger);
    complaint_->setPalette(colours);
    for (QLineEdit* edit : {from_, to_})
        edit->setAccessibleDescription(why);
}

void WindowEdit::take() {
    const QString typedFrom = from_->text().trimmed(), typedTo = to_->text().trimmed();
    std::optional<std::pair<std::string, std::string>> window;
    if (!typedFrom.isEmpty() || !typedTo.isEmpty()) {
        const auto begin = parsedTime(typedFrom), end = parsedTime(typedTo);
        if ((!begin && !typedFrom.isEmpty()) || (!end && !typedTo.isEmpty())) {
            complain(tr("A time of the day is written like 21:00."));
            return;
        }
        if (!begin || !end) {
            // The other time is on its way while the focus goes from one field to the other.
            if (!from_->hasFocus() && !to_->hasFocus())
                complain(tr("A window needs both times, or none."));
            else
                complain({});
            return;
        }
        if (*begin == *end) {
            complain(tr("A window begins and ends at two different times."));
            return;
        }
        window = std::pair(*begin, *end);
    }
    complain({});
    for (QLineEdit* edit : {from_, to_})
        edit->setModified(false);
    desk_.document.edit(tr("Change the watering window"),
                        [&](Workspace& w) { editController(w, [&](Controller& c) { c.window = window; }); });
    refresh();
}

void WindowEdit::refresh() {
    if (from_->isModified() || to_->isModified()) return; // what is typed, or stands there with its complaint
    const auto& c = desk_.document.job().site.controller;
    const bool known = c && c->window;
    from_->setText(known ? QString::fromStdString(c->window->first) : QString());
    to_->setText(known ? QString::fromStdString(c->window->second) : QString());
}

} // namespace headmark
