#include "text_fit.h"

#include <QAbstractButton>
#include <QAbstractItemView>
#include <QApplication>
#include <QCheckBox>
#include <QComboBox>
#include <QGroupBox>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QRadioButton>
#include <QRegularExpression>
#include <QScrollArea>
#include <QScrollBar>
#include <QSizeGrip>
#include <QSplitterHandle>
#include <QStyleOptionButton>
#include <QStyleOptionComboBox>
#include <QTabBar>
#include <QToolButton>

#include <algorithm>

namespace headmark {

namespace {

constexpr int kSlack_px = 1; // rounding of measures

class Walk {
  public:
    void over(const QWidget& w) {
        if (!w.isVisible()) return;
        look(w);
        insideParent(w);
        const QObjectList children = w.children();
        for (const QObject* child : children) {
            if (const auto* widget = qobject_cast<const QWidget*>(child); widget && !widget->isWindow())
                over(*widget);
        }
        overlaps(w);
    }
    QStringList found;

  private:
    void say(const QWidget& w, const QString& what) {
        QStringList way;
        for (const QWidget* p = &w; p && way.size() < 4; p = p->parentWidget())
            way.prepend(QString::fromLatin1(p->metaObject()->className()));
        found << QStringLiteral("%1: %2").arg(way.join(QLatin1Char('>')), what);
    }

    static QString plain(QString text) { return text.remove(QLatin1Char('&')); }
    static int widthOf(const QWidget& w, const QString& text) {
        return w.fontMetrics().size(0, plain(text)).width();
    }

    void look(const QWidget& w) {
        if (const auto* label = qobject_cast<const QLabel*>(&w)) return lookAtLabel(*label);
        if (const auto* button = qobject_cast<const QAbstractButton*>(&w)) return lookAtButton(*button);
        if (const auto* box = qobject_cast<const QComboBox*>(&w)) return lookAtBox(*box);
        if (const auto* line = qobject_cast<const QLineEdit*>(&w)) return lookAtLine(*line);
        if (const auto* bar = qobject_cast<const QTabBar*>(&w)) return lookAtTabs(*bar);
        if (const auto* head = qobject_cast<const QHeaderView*>(&w)) return lookAtHeader(*head);
        if (const auto* view = qobject_cast<const QAbstractItemView*>(&w)) return lookAtCells(*view);
        if (const auto* area = qobject_cast<const QScrollArea*>(&w)) return lookAtScrolling(*area);
        if (const auto* group = qobject_cast<const QGroupBox*>(&w);
            group && widthOf(w, group->title()) > w.width())
            say(w, QStringLiteral("title cut: ") + group->title());
    }

    void lookAtLabel(const QLabel& label) {
        const QString text = label.text();
        if (text.isEmpty()) return;
        if (!label.wordWrap()) {
            // What it asks for, less the room of nothing.
            if (label.sizeHint().width() > label.width() + kSlack_px && !label.toolTip().contains(text))
                say(label, QStringLiteral("cut at the side: “%1”, %2 of %3 px")
                               .arg(text)
                               .arg(label.width())
                               .arg(label.sizeHint().width()));
            if (label.sizeHint().height() > label.height() + kSlack_px)
                say(label, QStringLiteral("cut below: “%1”").arg(text));
            return;
        }
        if (label.heightForWidth(label.width()) > label.height() + kSlack_px)
            say(label, QStringLiteral("wrapped and cut below: “%1”, %2 of %3 px")
                           .arg(text)
                           .arg(label.height())
                           .arg(label.heightForWidth(label.width())));
        for (const QString& word : text.split(QRegularExpression(QStringLiteral("\\s+")))) {
            if (label.fontMetrics().horizontalAdvance(word) > label.contentsRect().width() + kSlack_px)
                say(label, QStringLiteral("a word is wider than its line: “%1”").arg(word));
        }
    }

    void lookAtButton(const QAbstractButton& button) {
        const bool ownPainting = !button.inherits("QPushButton") && !button.inherits("QToolButton") &&
                                 !button.inherits("QCheckBox") && !button.inherits("QRadioButton");
        if (button.text().isEmpty() && !ownPainting) return;
        int room = 0;
        QStyleOptionButton option;
        option.initFrom(&button);
        option.text = button.text();
        if (const auto* push = qobject_cast<const QPushButton*>(&button)) {
            room = push->style()->subElementRect(QStyle::SE_PushButtonContents, &option, push).width();
        } else if (qobject_cast<const QCheckBox*>(&button)) {
            room = button.style()->subElementRect(QStyle::SE_CheckBoxContents, &option, &button).width();
        } else if (qobject_cast<const QRadioButton*>(&button)) {
            room = button.style()->subElementRect(QStyle::SE_RadioButtonContents, &option, &button).width();
        } else if (qobject_cast<const QToolButton*>(&button)) {
            if (button.objectName() == QLatin1String("qt_toolbar_ext_button"))
                return say(button, QStringLiteral("the tool bar hides some of its buttons"));
            room = button.width();
        } else {
            return lookAtPainted(button);
        }
        if (widthOf(button, button.text()) > room + kSlack_px)
            say(button, QStringLiteral("text cut: “%1”, %2 of %3 px")
                            .arg(button.text())
                            .arg(room)
                            .arg(widthOf(button, button.text())));
        if (button.fontMetrics().height() > button.height())
            say(button, QStringLiteral("cut below: “%1”").arg(button.text()));
    }

    void lookAtPainted(const QAbstractButton& button) {
        const int height = button.hasHeightForWidth() ? button.heightForWidth(button.width())
                                                      : button.minimumSizeHint().height();
        if (height > button.height() + kSlack_px)
            say(button, QStringLiteral("lower than its text: “%1”, %2 of %3 px")
                            .arg(button.accessibleName())
                            .arg(button.height())
                            .arg(height));
        if (button.minimumSizeHint().width() > button.width() + kSlack_px)
            say(button, QStringLiteral("narrower than its text: “%1”, %2 of %3 px")
                            .arg(button.accessibleName())
                            .arg(button.width())
                            .arg(button.minimumSizeHint().width()));
    }

    void fits(const QWidget& w, const QString& text, int room, const QString& tip) {
        if (widthOf(w, text) <= room + kSlack_px || tip.contains(plain(text))) return;
        say(w, QStringLiteral("cut, and no tip says it in full: “%1”, %2 of %3 px")
                   .arg(text)
                   .arg(room)
                   .arg(widthOf(w, text)));
    }

    void lookAtBox(const QComboBox& box) {
        QStyleOptionComboBox option;
        option.initFrom(&box);
        option.editable = box.isEditable();
        const QRect edit =
            box.style()->subControlRect(QStyle::CC_ComboBox, &option, QStyle::SC_ComboBoxEditField, &box);
        fits(box, box.currentText(), edit.width(), box.toolTip());
    }

    void lookAtLine(const QLineEdit& line) {
        if (qobject_cast<const QComboBox*>(line.parentWidget())) return; // its own text, looked at there
        QStyleOptionFrame option;
        option.initFrom(&line);
        option.lineWidth = line.style()->pixelMetric(QStyle::PM_DefaultFrameWidth, &option, &line);
        const QRect inside = line.style()->subElementRect(QStyle::SE_LineEditContents, &option, &line);
        constexpr int kOwnMargins_px = 4; // QLineEdit's own, two on either side
        const QString text = line.text().isEmpty() ? line.placeholderText() : line.text();
        fits(line, text, inside.width() - kOwnMargins_px, line.toolTip());
        if (line.fontMetrics().height() > inside.height() + kSlack_px)
            say(line, QStringLiteral("cut below: “%1”").arg(text));
    }

    void lookAtTabs(const QTabBar& bar) {
        for (int i = 0; i < bar.count(); ++i) {
            const QRect tab = bar.tabRect(i);
            if (widthOf(bar, bar.tabText(i)) > tab.width())
                say(bar, QStringLiteral("tab cut: ") + bar.tabText(i));
            if (tab.left() < 0 || tab.right() > bar.width())
                say(bar, QStringLiteral("tab out of sight: ") + bar.tabText(i));
        }
    }

    void lookAtHeader(const QHeaderView& head) {
        const auto* model = head.model();
        if (!model || head.orientation() != Qt::Horizontal) return;
        for (int i = 0; i < head.count(); ++i) {
            if (head.isSectionHidden(i)) continue;
            const QString text = model->headerData(i, Qt::Horizontal).toString();
            fits(head, text, head.sectionSize(i) - 4,
                 model->headerData(i, Qt::Horizontal, Qt::ToolTipRole).toString());
        }
        if (head.length() > head.viewport()->width() + kSlack_px)
            say(head, QStringLiteral("columns reach out of sight: %1 of %2 px")
                          .arg(head.viewport()->width())
                          .arg(head.length()));
    }

    void lookAtCells(const QAbstractItemView& view) {
        const auto* model = view.model();
        const int textMargin = view.style()->pixelMetric(QStyle::PM_FocusFrameHMargin) + 1;
        for (int row = 0; model && row < model->rowCount(view.rootIndex()); ++row) {
            for (int column = 0; column < model->columnCount(view.rootIndex()); ++column) {
                const QModelIndex index = model->index(row, column, view.rootIndex());
                const QRect cell = view.visualRect(index);
                if (cell.width() < 1 || !cell.intersects(view.viewport()->rect()) || view.indexWidget(index))
                    continue;
                const QVariant font = index.data(Qt::FontRole);
                const QFontMetrics metrics(font.isValid() ? font.value<QFont>() : view.font());
                const QString text = index.data().toString();
                const int icon = index.data(Qt::DecorationRole).isNull() ? 0 : view.iconSize().width();
                const bool aside = icon < cell.width() / 2; // icons on top take no width
                const int room = cell.width() - 2 * textMargin - (aside ? std::max(icon, 0) : 0);
                const QSize needed = metrics.size(0, text);
                const QSize wrapped =
                    metrics.boundingRect(QRect(0, 0, room, 10000), Qt::TextWordWrap, text).size();
                const bool fitsIn =
                    needed.width() <= room + kSlack_px ||
                    (wrapped.width() <= room && wrapped.height() <= cell.height() + kSlack_px);
                if (!fitsIn && !index.data(Qt::ToolTipRole).toString().contains(text))
                    say(view, QStringLiteral("cell cut, and no tip says it in full: “%1”, %2 of %3 px")
                                  .arg(text)
                                  .arg(room)
                                  .arg(needed.width()));
                if (metrics.height() > cell.height() + kSlack_px)
                    say(view, QStringLiteral("row lower than its text: “%1”").arg(text));
            }
        }
    }

    void lookAtScrolling(const QScrollArea& area) {
        // A drawing larger than its view is moved along, as a page of a chart is.
        if (!area.widget() || area.widget()->property("drawing").toBool()) return;
        const int inside = area.widget()->width(), seen = area.viewport()->width();
        if (inside > seen + kSlack_px)
            say(area, QStringLiteral("cut at the side: %1 of %2 px seen").arg(seen).arg(inside));
        if (area.widget()->minimumSizeHint().width() > seen + kSlack_px)
            say(area, QStringLiteral("narrower than its content: %1 of %2 px")
                          .arg(seen)
                          .arg(area.widget()->minimumSizeHint().width()));
    }

    static const QAbstractScrollArea* scrolling(const QWidget* viewport) {
        const auto* area =
            viewport ? qobject_cast<const QAbstractScrollArea*>(viewport->parentWidget()) : nullptr;
        return area && area->viewport() == viewport ? area : nullptr;
    }

    void insideParent(const QWidget& w) {
        const QWidget* parent = w.parentWidget();
        if (!parent || w.isWindow() || scrolling(parent)) return;
        const bool bearsText = qobject_cast<const QLabel*>(&w) || qobject_cast<const QAbstractButton*>(&w) ||
                               qobject_cast<const QComboBox*>(&w) || qobject_cast<const QLineEdit*>(&w);
        if (bearsText && !parent->rect().adjusted(-1, -1, 1, 1).contains(w.geometry()))
            say(w, QStringLiteral("reaches out of what holds it: “%1”").arg(w.accessibleName()));
    }

    static bool mayLieOver(const QWidget& w) {
        return qobject_cast<const QSizeGrip*>(&w) || qobject_cast<const QSplitterHandle*>(&w) ||
               qobject_cast<const QScrollBar*>(&w) || w.inherits("QRubberBand") ||
               w.inherits("QAbstractScrollAreaScrollBarContainer");
    }

    void overlaps(const QWidget& parent) {
        if (scrolling(&parent)) return; // boxes that open over a page
        std::vector<const QWidget*> seen;
        for (const QObject* child : parent.children()) {
            const auto* w = qobject_cast<const QWidget*>(child);
            if (w && w->isVisible() && !w->isWindow() && !mayLieOver(*w)) seen.push_back(w);
        }
        for (std::size_t i = 0; i < seen.size(); ++i) {
            for (std::size_t k = 0; k < i; ++k) {
                const QRect both = seen[i]->geometry().intersected(seen[k]->geometry());
                if (both.width() > kSlack_px && both.height() > kSlack_px)
                    say(*seen[i], QStringLiteral("lies over a %1 by %2 x %3 px")
                                      .arg(QLatin1String(seen[k]->metaObject()->className()))
                                      .arg(both.width())
                                      .arg(both.height()));
            }
        }
    }
};

} // namespace

QStringList textMisfits(const QWidget& window) {
    Walk walk;
    walk.over(window);
    walk.found.removeDuplicates();
    return walk.found;
}

} // namespace headmark
