#include "whole_window.h"

#include "analysis/job/findings_json.h"
#include "app/words/english_wording.h"

#include <QApplication>
#include <QDropEvent>
#include <QMimeData>
#include <QTest>
#include <QUrl>
#include <QWindow>

#include <gtest/gtest.h>

namespace headmark::whole_window {

void Hand::click(QWidget& widget, QPoint at, Qt::KeyboardModifiers modifiers) {
    ++actions_;
    ASSERT_TRUE(widget.isVisible()) << "nothing to click on";
    const QPoint where = at.isNull() ? widget.rect().center() : at;
    ASSERT_TRUE(widget.rect().contains(where)) << where.x() << ", " << where.y();
    // What lies on top there gets it, not what the test means.
    QWidget* top = widget.window()->childAt(widget.mapTo(widget.window(), where));
    ASSERT_TRUE(top == &widget || widget.isAncestorOf(top)) << "covered by something else";
    QTest::mouseClick(&widget, Qt::LeftButton, modifiers, where);
}

void Hand::click(QWidget& inside, const QString& text) {
    for (auto* button : inside.findChildren<QAbstractButton*>()) {
        if (button->isVisible() && button->text() == text) return click(*button);
    }
    FAIL() << "no button says " << text.toStdString();
}

void Hand::press(int key, Qt::KeyboardModifiers modifiers) {
    ++actions_;
    QWidget* focus = QApplication::focusWidget();
    ASSERT_TRUE(focus) << "the keyboard leads nowhere";
    QTest::keyClick(focus, static_cast<Qt::Key>(key), modifiers);
}

void Hand::hold(int key, Qt::KeyboardModifiers modifiers, int times) {
    if (times <= 0) return;
    const int before = actions_;
    for (int i = 0; i < times; ++i)
        press(key, modifiers);
    actions_ = before + 1;
}

void Hand::type(const QString& text) {
    ++actions_;
    QWidget* focus = QApplication::focusWidget();
    ASSERT_TRUE(focus) << "the keyboard leads nowhere";
    // To where the keys lead at each: a cell's field opens at the first.
    for (const QChar letter : text)
        QTest::keyClick(QApplication::focusWidget(), letter.toLatin1());
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
}

void Hand::drop(QWidget& window, QPoint at, const QString& path) {
    ++actions_;
    QMimeData data;
    data.setUrls({QUrl::fromLocalFile(path)});
    // To the window's handle: Qt itself finds the widget that takes drops there.
    QDragEnterEvent enter(at, Qt::CopyAction, &data, Qt::LeftButton, {});
    QCoreApplication::sendEvent(window.windowHandle(), &enter);
    ASSERT_TRUE(enter.isAccepted()) << "nothing takes a file there";
    QDragMoveEvent move(at, Qt::CopyAction, &data, Qt::LeftButton, {});
    move.setDropAction(enter.dropAction()); // as the platform goes on after a taken enter
    move.accept();
    QCoreApplication::sendEvent(window.windowHandle(), &move);
    QDropEvent drop(at, Qt::CopyAction, &data, Qt::LeftButton, {});
    QCoreApplication::sendEvent(window.windowHandle(), &drop);
}

DeskWindow::DeskWindow() {
    useDialogs(&dialogs);
    window_ = std::make_unique<MainWindow>();
    desk().setUnits(DisplayUnits());
    window_->resize(1280, 800);
    window_->show();
    EXPECT_TRUE(active());
}

DeskWindow::~DeskWindow() {
    window_->close(); // answered: not to be saved
    window_.reset();
    useDialogs(nullptr);
}

SitePlace& DeskWindow::site() { return *qobject_cast<SitePlace*>(window_->place(PlaceId::site)); }
ChartsPlace& DeskWindow::charts() { return *qobject_cast<ChartsPlace*>(window_->place(PlaceId::charts)); }
DutyPlace& DeskWindow::duty() { return *qobject_cast<DutyPlace*>(window_->place(PlaceId::duty)); }

bool DeskWindow::active() {
    window_->activateWindow();
    return QTest::qWaitForWindowActive(window_.get());
}

bool DeskWindow::pageShown() {
    return QTest::qWaitFor([this] { return view().page() != nullptr; }, kPatience_ms);
}

bool DeskWindow::lineRead(std::size_t line) {
    const ChartSession& session = charts().session();
    return QTest::qWaitFor([&] { return session.isUpToDate() && session.readLine(line); }, kPatience_ms);
}

bool DeskWindow::answeredInFull() {
    return QTest::qWaitFor(
        [this] {
            const auto answer = desk().answers.latest();
            return !desk().answers.isBusy() && answer->findings && !answer->stale &&
                   sameWork(answer->workspace, desk().document.workspace());
        },
        kPatience_ms);
}

std::string DeskWindow::findings() {
    const auto answer = desk().answers.latest();
    return findingsJson(*answer->findings, EnglishWording(&answer->workspace.job.site));
}

} // namespace headmark::whole_window
