#pragma once
// A form of labelled fields that show the job and edit it, each edit one named step. A field says how to read
// its value from the workspace and how to write it; the form keeps fields up to date and hides those that do
// not apply.

#include "app/desktop/frame/desk.h"
#include "app/desktop/frame/number_entry.h"
#include "app/desktop/site/catalogue_edit.h"
#include "app/desktop/site/site_ranges.h"

#include <QCheckBox>
#include <QComboBox>
#include <QGridLayout>
#include <QLabel>

#include <functional>
#include <vector>

namespace headmark {

class FieldForm : public QWidget {
    Q_OBJECT

  public:
    explicit FieldForm(Desk& desk, QWidget* parent = nullptr);

    using Figure = std::optional<double>;
    struct Number {
        QString label, step; // the field's, and the name of its undo step
        Quantity quantity = Quantity::plain;
        QString unit; // of a plain figure: "mm"
        FigureRange range{-1e9, 1e9};
        bool mayBeEmpty = false;
        std::function<Figure(const Workspace&)> get;
        std::function<void(Workspace&, Figure)> set; // base units; empty only where it may be
        QString tip = {};
        std::function<bool(const Workspace&)> shown = {};
    };
    NumberEntry* add(const Number& field);

    struct Choice {
        QString label, step;
        QStringList words;
        std::function<int(const Workspace&)> get;
        std::function<void(Workspace&, int)> set;
        QString tip = {};
        std::function<bool(const Workspace&)> shown = {};
        std::function<QStringList(const Workspace&)> wordsOf = {}; // instead of `words`, where they change
    };
    QComboBox* add(const Choice& field);

    struct Text {
        QString label;
        std::function<QString(const Workspace&)> get;
        std::function<bool(const QString&)> set; // false: not taken, the old text comes back
        QString tip = {};
        std::function<bool(const Workspace&)> shown = {};
    };
    QLineEdit* add(const Text& field);

    struct Tick {
        QString words, step;
        std::function<bool(const Workspace&)> get;
        std::function<void(Workspace&, bool)> set;
        QString tip = {};
        std::function<bool(const Workspace&)> shown = {};
    };
    QCheckBox* add(const Tick& field);

    struct Pipe {
        QString label, step;
        std::function<const PipeKind*(const Workspace&)> get;
        std::function<void(Workspace&, const PipeKind&)> set;
        std::function<bool(const Workspace&)> shown = {};
    };
    CatalogueEdit* add(const Pipe& field);

    void addHeading(const QString& words, std::function<bool(const Workspace&)> shown = {});
    void addNote(const QString& words, std::function<bool(const Workspace&)> shown = {});
    void addWidget(QWidget* widget);

    void refresh();

  private:
    void put(const QString& label, QWidget* field, const QString& tip,
             std::function<bool(const Workspace&)> shown);
    void edit(const QString& step, const Document::Change& change);

    Desk& desk_;
    QGridLayout* layout_; // label and field; QFormLayout of Qt 6.4 loses count of rows hidden in it
    std::vector<std::function<void()>> refreshers_;
    bool refreshing_ = false;
};

} // namespace headmark
