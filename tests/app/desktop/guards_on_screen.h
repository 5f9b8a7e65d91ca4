#pragma once
// The widget of what guards the pump on the screen, over the sample with its first pump alone.

#include "analysis/job/findings.h"
#include "analysis/pipework/catalogue.h"
#include "app/desktop/frame/number_entry.h"
#include "app/desktop/installation/guards_view.h"
#include "app/desktop/installation/rules_card.h"
#include "app/desktop/installation/study_card.h"

#include <QTest>

#include <gtest/gtest.h>

#include <algorithm>
#include <memory>

namespace headmark {

inline constexpr int kPatience_ms = 60000; // of a machine that is busy with other tests

inline void type(QWidget& field, const QString& text) {
    field.setFocus();
    QTest::keyClick(&field, Qt::Key_A, Qt::ControlModifier);
    QTest::keyClick(&field, Qt::Key_Delete);
    QTest::keyClicks(&field, text);
    QTest::keyClick(&field, Qt::Key_Return);
}

template <class Field>
Field* named(const QWidget& form, const QString& name) {
    for (Field* field : form.findChildren<Field*>()) {
        if (field->accessibleName() == name) return field;
    }
    ADD_FAILURE() << "no field " << name.toStdString();
    return nullptr;
}

class GuardsOnScreen : public testing::Test {
  protected:
    GuardsOnScreen() : answers_(document_), desk_(document_, answers_) {}

    // The sample with its first pump alone, changed before it is shown.
    void open(const std::function<void(Job&)>& change = {}) {
        const QString sample = QStringLiteral(HEADMARK_TESTS_DIR "/../samples/terrace-nursery.job.json");
        ASSERT_TRUE(document_.open(sample).empty());
        document_.edit(QStringLiteral("for the test"), [&](Workspace& w) {
            w.job.pumps.resize(1);
            w.job.site.controller.reset(); // no shifts to be planned
            if (change) change(w.job);
        });
        show();
        ASSERT_TRUE(settled());
        ASSERT_FALSE(view_->studies().empty());
    }
    void show() {
        view_ = std::make_unique<GuardsView>(desk_);
        view_->resize(1280, 720);
        view_->show();
        ASSERT_TRUE(QTest::qWaitForWindowExposed(view_.get()));
    }
    bool settled() {
        return QTest::qWaitFor([&] { return !answers_.isBusy() && !answers_.latest()->stale; }, kPatience_ms);
    }
    [[nodiscard]] const std::vector<Study>& found() {
        return answers_.latest()->findings->pumps.front().installation;
    }
    [[nodiscard]] const Study& found(const std::string& topic) {
        return *std::ranges::find(found(), topic, &Study::topic);
    }
    [[nodiscard]] const Pump& pump() const { return document_.job().pumps.front(); }
    [[nodiscard]] int steps() { return document_.undoStack().index(); }
    [[nodiscard]] int rowOf(const std::string& code) {
        RulesModel& model = view_->rules().model();
        for (int row = 0; row < model.rowCount(); ++row) {
            if (model.rowAt(row).code == code) return row;
        }
        ADD_FAILURE() << code;
        return 0;
    }
    void typeRule(const std::string& code, const QString& text) {
        QTableView& table = view_->rules().table();
        if (!table.isVisible()) QTest::keyClick(&view_->rules().showButton(), Qt::Key_Space);
        table.setFocus();
        table.setCurrentIndex(view_->rules().model().index(rowOf(code), RulesModel::kValue));
        QTest::keyClick(&table, Qt::Key_F2);
        auto* entry = table.findChild<NumberEntry*>();
        ASSERT_TRUE(entry);
        type(*entry, text);
        ASSERT_TRUE(QTest::qWaitFor([&] { return !table.findChild<NumberEntry*>(); }, kPatience_ms));
    }

    Document document_;
    AnswerService answers_;
    Desk desk_;
    std::unique_ptr<GuardsView> view_;
};

} // namespace headmark
