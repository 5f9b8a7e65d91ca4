#include "app/desktop/frame/shortcuts_page.h"

#include "app/desktop/frame/card.h"

#include <QAction>
#include <QGridLayout>
#include <QScrollArea>

namespace headmark {

namespace {

struct Row {
    QString keys, what;
};

// Keys that are handled in places; those of the menus are taken from the menus themselves.
QList<Row> rowsOfPlaces() {
    const auto t = [](const char* text) { return ShortcutsPage::tr(text); };
    return {{t("P"), t("On a page: place a pin")},
            {t("L"), t("On a page: read a line from a click")},
            {t("S"), t("On a page: add a spot to the chosen line")},
            {t("Ctrl+Arrows"), t("Move the cross hair by 100 pixels")},
            {t("Arrows"), t("Move the chosen pin or spot by 1 pixel; with Shift by 10, with Alt by 0.1")},
            {t("Return"), t("Place a pin, or read a line, where the cross hair stands")},
            {t("Tab"), t("Go to the next pin, spot or line")},
            {t("Del"), t("Delete what is chosen")},
            {t("Esc"), t("Leave off what was begun")},
            {t("Ctrl+0, Ctrl+1"), t("The whole page, or its true size")},
            {t("Alt+Up, Alt+Down"), t("In a table: move the row")}};
}

} // namespace

ShortcutsPage::ShortcutsPage(QWidget* parent) : QDialog(parent) {
    setWindowTitle(tr("Keys"));
    auto* inner = new QWidget;
    auto* grid = new QGridLayout(inner);
    grid->setColumnStretch(1, 1);
    int row = 0;
    const auto add = [&](const QString& keys, const QString& what) {
        auto* key = new QLabel(keys);
        QFont f = key->font();
        f.setBold(true);
        key->setFont(f);
        grid->addWidget(key, row, 0, Qt::AlignTop);
        grid->addWidget(wrappedLabel(what), row++, 1);
    };
    if (parent) {
        for (const QAction* action : parent->findChildren<QAction*>()) {
            if (action->shortcut().isEmpty() || action->text().isEmpty()) continue;
            add(action->shortcut().toString(QKeySequence::NativeText),
                QString(action->text()).remove(QLatin1Char('&')));
        }
    }
    for (const Row& r : rowsOfPlaces())
        add(r.keys, r.what);
    grid->setRowStretch(row, 1);
    auto* scroll = new QScrollArea;
    scroll->setWidget(inner);
    scroll->setWidgetResizable(true);
    auto* layout = new QVBoxLayout(this);
    layout->addWidget(scroll);
    auto* close = mainButton(tr("Close"));
    layout->addWidget(close, 0, Qt::AlignRight);
    connect(close, &QPushButton::clicked, this, &QDialog::accept);
    resize(560, 560);
}

} // namespace headmark
