#include "app/desktop/frame/theme.h"

#include <QPainter>
#include <QPalette>
#include <QProxyStyle>
#include <QStyleFactory>
#include <QStyleOption>

namespace headmark {

namespace {

Theme lightTheme() {
    Theme t;
    t.window = QColor(0xf7, 0xf8, 0xf4);
    t.surface = QColor(0xff, 0xff, 0xff);
    t.sunken = QColor(0xee, 0xf1, 0xec);
    t.border = QColor(0xd6, 0xdc, 0xd5);
    t.handle = QColor(0xb4, 0xbe, 0xb6);
    t.text = QColor(0x1b, 0x24, 0x28);
    t.faint = QColor(0x5a, 0x67, 0x6c);
    t.accent = QColor(0x0b, 0x69, 0x85);
    t.accentText = QColor(0xff, 0xff, 0xff);
    t.strip = QColor(0x17, 0x32, 0x3b);
    t.stripText = QColor(0xff, 0xff, 0xff);
    t.stripFaint = QColor(0xa9, 0xbf, 0xc6);
    t.good = QColor(0x1f, 0x7a, 0x4d);
    t.warning = QColor(0xa8, 0x53, 0x00);
    t.danger = QColor(0xb3, 0x1b, 0x1b);
    t.note = QColor(0x4f, 0x64, 0x6f);
    t.pumpCurve = QColor(0x00, 0x72, 0xb2);
    t.systemCurve = QColor(0xd5, 0x5e, 0x00);
    t.efficiency = QColor(0x00, 0x9e, 0x73);
    t.power = QColor(0x8a, 0x6d, 0x00);
    t.npsh = QColor(0x99, 0x4f, 0x88);
    t.delivered = QColor(0x00, 0x72, 0xb2, 40);
    t.preferred = QColor(0x00, 0x9e, 0x73, 28);
    t.pin = QColor(0xd5, 0x5e, 0x00);
    return t;
}

Theme darkTheme() {
    Theme t;
    t.dark = true;
    t.window = QColor(0x16, 0x1c, 0x1f);
    t.surface = QColor(0x1f, 0x27, 0x2b);
    t.sunken = QColor(0x12, 0x17, 0x1a);
    t.border = QColor(0x3a, 0x45, 0x4a);
    t.handle = QColor(0x5a, 0x69, 0x70);
    t.text = QColor(0xe8, 0xee, 0xf0);
    t.faint = QColor(0xa3, 0xb1, 0xb6);
    t.accent = QColor(0x5c, 0xbd, 0xd9);
    t.accentText = QColor(0x0b, 0x1c, 0x22);
    t.strip = QColor(0x0b, 0x20, 0x27);
    t.stripText = QColor(0xff, 0xff, 0xff);
    t.stripFaint = QColor(0x9d, 0xb4, 0xbc);
    t.good = QColor(0x5b, 0xc9, 0x8e);
    t.warning = QColor(0xf0, 0xa3, 0x45);
    t.danger = QColor(0xff, 0x8a, 0x80);
    t.note = QColor(0x9f, 0xb3, 0xbd);
    t.pumpCurve = QColor(0x56, 0xb4, 0xe9);
    t.systemCurve = QColor(0xf0, 0x8a, 0x3c);
    t.efficiency = QColor(0x2f, 0xc7, 0x9a);
    t.power = QColor(0xe6, 0xc2, 0x3c);
    t.npsh = QColor(0xd6, 0x8f, 0xc3);
    t.delivered = QColor(0x56, 0xb4, 0xe9, 45);
    t.preferred = QColor(0x2f, 0xc7, 0x9a, 30);
    t.pin = QColor(0xff, 0x9d, 0x4d);
    return t;
}

Theme& current() {
    static Theme instance = lightTheme();
    return instance;
}

// Fusion, but for tick boxes: its outlines are darker than the window, and so not seen on a dark one.
class DeskStyle : public QProxyStyle {
  public:
    DeskStyle() : QProxyStyle(QStyleFactory::create(QStringLiteral("Fusion"))) {}

    void drawPrimitive(PrimitiveElement element, const QStyleOption* option, QPainter* painter,
                       const QWidget* widget) const override {
        if (element != PE_IndicatorCheckBox)
            return QProxyStyle::drawPrimitive(element, option, painter, widget);
        const Theme& t = current();
        const bool enabled = option->state & State_Enabled, on = option->state & State_On;
        const QColor edge = !enabled                                  ? t.handle
                            : on || (option->state & State_MouseOver) ? t.accent
                                                                      : t.faint;
        painter->save();
        painter->setRenderHint(QPainter::Antialiasing);
        const double side = std::min(option->rect.width(), option->rect.height()) - 2.0;
        QRectF box(0, 0, side, side);
        box.moveCenter(QRectF(option->rect).center());
        painter->setPen(QPen(edge, 1.2));
        painter->setBrush(on ? edge : t.surface);
        painter->drawRoundedRect(box, 3, 3);
        if (on) {
            painter->setPen(QPen(t.accentText, side * 0.15, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
            const QPointF c = box.center();
            painter->drawPolyline(QPolygonF({c + QPointF(-0.26, 0.02) * side, c + QPointF(-0.06, 0.22) * side,
                                             c + QPointF(0.28, -0.2) * side}));
        }
        painter->restore();
    }
};

QPalette paletteOf(const Theme& t) {
    QPalette p;
    p.setColor(QPalette::Window, t.window);
    p.setColor(QPalette::WindowText, t.text);
    p.setColor(QPalette::Base, t.surface);
    p.setColor(QPalette::AlternateBase, t.sunken);
    p.setColor(QPalette::Text, t.text);
    p.setColor(QPalette::PlaceholderText, t.faint);
    p.setColor(QPalette::Button, t.surface);
    p.setColor(QPalette::ButtonText, t.text);
    p.setColor(QPalette::Highlight, t.accent);
    p.setColor(QPalette::HighlightedText, t.accentText);
    p.setColor(QPalette::Link, t.accent);
    p.setColor(QPalette::ToolTipBase, t.surface);
    p.setColor(QPalette::ToolTipText, t.text);
    p.setColor(QPalette::Mid, t.border);
    for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText})
        p.setColor(QPalette::Disabled, role, t.faint);
    return p;
}

// Only what a palette cannot say. Sizes are in the font's own measure (em would be font-relative; Qt style
// sheets know px and pt only, so paddings stay small and texts are never given a fixed height).
QString styleOf(const Theme& t) {
    return QStringLiteral(R"(
        QToolTip { border: 1px solid %1; padding: 4px; }
        QFrame#card { background: %2; border: 1px solid %1; border-radius: 8px; }
        QLabel#faint { color: %3; }
        QPushButton { padding: 5px 14px; border: 1px solid %1; border-radius: 6px; background: %2; }
        QPushButton:hover { border-color: %4; }
        QPushButton:focus { border: 2px solid %4; padding: 4px 13px; }
        QPushButton:disabled { color: %3; }
        QPushButton#main { background: %4; color: %5; border-color: %4; }
        QPushButton#quiet { border: none; background: transparent; color: %4; padding: 4px 6px; }
        QPushButton#quiet:focus { border: 1px solid %4; border-radius: 4px; padding: 3px 5px; }
        QLineEdit, QPlainTextEdit { padding: 3px 6px; border: 1px solid %1; border-radius: 4px; background: %2; }
        QLineEdit:focus, QPlainTextEdit:focus { border: 2px solid %4; padding: 2px 5px; }
        QToolBar { background: %6; border: none; border-bottom: 1px solid %1; spacing: 4px; padding: 3px 8px 3px 4px; }
        QMenuBar { background: %6; }
        QToolButton { padding: 4px 6px; border: 1px solid transparent; border-radius: 6px; color: %7; }
        QToolButton[autoRaise="false"] { border-color: %1; background: %2; }
        QToolButton[popupMode="2"] { padding-right: 20px; }
        QToolButton:hover { border-color: %4; }
        QToolButton:checked { background: %4; color: %5; border-color: %4; }
        QToolButton:focus { border: 2px solid %4; padding: 3px 5px; }
        QToolButton[popupMode="2"]:focus { padding-right: 19px; }
        QToolButton:disabled { color: %3; }
        QToolButton::menu-indicator { subcontrol-origin: border; subcontrol-position: right center; right: 5px; }
        QScrollBar { background: transparent; border: none; margin: 0px; }
        QScrollBar:vertical { width: 12px; }
        QScrollBar:horizontal { height: 12px; }
        QScrollBar::handle { background: %8; border-radius: 4px; margin: 2px; }
        QScrollBar::handle:vertical { min-height: 28px; }
        QScrollBar::handle:horizontal { min-width: 28px; }
        QScrollBar::handle:hover { background: %3; }
        QScrollBar::add-line, QScrollBar::sub-line { width: 0px; height: 0px; }
        QScrollBar::add-page, QScrollBar::sub-page { background: transparent; }
        QHeaderView::section { background: %2; color: %3; border: none; border-bottom: 1px solid %1; padding: 4px 6px; }
        QTableView, QTreeView, QListView { border: none; gridline-color: %1; }
        QScrollArea { border: none; }
        QListWidget#sheets::item, QListWidget#zones::item { padding: 4px 6px; border-radius: 4px; }
        QListWidget#sheets::item:selected, QListWidget#zones::item:selected { background: %4; color: %5; }
        QAbstractScrollArea::corner { background: transparent; border: none; }
        QSplitter::handle { background: transparent; }
    )")
        .arg(t.border.name(), t.surface.name(), t.faint.name(), t.accent.name(), t.accentText.name(),
             t.window.name(), t.text.name(), t.handle.name());
}

} // namespace

const Theme& theme() { return current(); }

void applyTheme(QApplication& application, ThemeChoice choice) {
    static const bool systemIsDark = application.palette().color(QPalette::Window).lightness() < 128;
    const bool dark = choice == ThemeChoice::dark || (choice == ThemeChoice::asSystem && systemIsDark);
    current() = dark ? darkTheme() : lightTheme();
    application.setStyle(new DeskStyle);
    application.setPalette(paletteOf(current()));
    application.setStyleSheet(styleOf(current()));
}

namespace {

QFont scaled(double factor, QFont::Weight weight) {
    QFont font = QApplication::font();
    font.setPointSizeF(font.pointSizeF() * factor);
    font.setWeight(weight);
    return font;
}

} // namespace

QFont titleFont() { return scaled(1.1, QFont::DemiBold); }
QFont figureFont() { return scaled(1.45, QFont::DemiBold); }
QFont smallFont() { return scaled(0.88, QFont::Normal); }

} // namespace headmark
