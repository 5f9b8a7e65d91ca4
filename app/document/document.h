#pragma once
// The open job: its workspace, every edit undoable with a name, saved all or nothing.

#include "analysis/core/error.h"
#include "app/document/workspace.h"

#include <QObject>
#include <QString>
#include <QUndoStack>

#include <functional>
#include <vector>

namespace headmark {

class Document : public QObject {
    Q_OBJECT

  public:
    explicit Document(QObject* parent = nullptr);

    [[nodiscard]] const Workspace& workspace() const { return workspace_; }
    [[nodiscard]] const Job& job() const { return workspace_.job; }
    [[nodiscard]] QUndoStack& undoStack() { return undo_; }
    // Whether anything is open at all; before that the start view is shown.
    [[nodiscard]] bool isOpen() const { return open_; }
    [[nodiscard]] QString filePath() const { return path_; } // empty: never saved
    [[nodiscard]] bool isChanged() const;

    // One undoable step, named as the menu shows it ("Move the pin"). A change that leaves everything as it
    // was adds no step. Steps with the same `drag` number that follow each other become one.
    using Change = std::function<void(Workspace&)>;
    void edit(const QString& name, const Change& change, int drag = 0);
    [[nodiscard]] int newDrag() { return ++lastDrag_; }

    // Replace everything; the undo stack starts anew. `changed`: not saved yet (recovered work).
    void startNew(Workspace workspace);
    void startFrom(Workspace workspace, const QString& path, bool changed);
    void close();

    // Job file and the reading files it names. On errors nothing changes. A reading file that cannot be read
    // leaves its error among `warnings` and its sheet out.
    [[nodiscard]] std::vector<Error> open(const QString& path, std::vector<Error>* warnings = nullptr);
    // Job and changed reading files, each written whole beside the old one and then put in its place;
    // readings first, the job last. Pages keep their place; a page outside the job's folder is named by its
    // way there.
    [[nodiscard]] std::vector<Error> save();
    [[nodiscard]] std::vector<Error> saveAs(const QString& path);

  signals:
    void workspaceChanged(); // after every edit, undo, redo, opening
    void fileChanged();      // path, open or changed mark

  private:
    friend class WorkspaceStep;
    void take(const Workspace& workspace);

    Workspace workspace_;
    QUndoStack undo_;
    QString path_;
    bool open_ = false;
    bool neverSaved_ = false;
    int lastDrag_ = 0;
};

} // namespace headmark
