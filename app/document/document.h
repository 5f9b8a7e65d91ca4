#pragma once
// The open job: its workspace, every edit undoable with a name, saved all or nothing.

#include "analysis/core/error.h"
#include "app/document/job_files.h"
#include "app/document/workspace.h"

#include <QObject>
#include <QString>
#include <QUndoStack>

#include <functional>
#include <memory>
#include <vector>

namespace headmark {

// What to do with files that another program changed since they were opened here.
enum class Overwriting { refuse, overwrite };

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
    // Another one for every job started, opened or closed: what was computed for an earlier one is no use.
    [[nodiscard]] int jobNumber() const { return jobNumber_; }

    // One undoable step, named as the menu shows it ("Move the pin"). A change that leaves everything as it
    // was adds no step. Steps with the same `drag` number that follow each other become one.
    using Change = std::function<void(Workspace&)>;
    void edit(const QString& name, const Change& change, int drag = 0);
    [[nodiscard]] int newDrag() { return ++lastDrag_; }

    // Replace everything; the undo stack starts anew. `changed`: not saved yet (recovered work).
    void startNew(Workspace workspace);
    // `known`: the files as they were when the workspace was last in step with them; left out: as they are.
    void startFrom(Workspace workspace, const QString& path, bool changed, const KnownFiles& known = {});
    void close();

    // Job file and the reading files it names. On errors nothing changes. A reading file that cannot be read
    // leaves its error among `warnings` and its sheet out.
    [[nodiscard]] std::vector<Error> open(const QString& path, std::vector<Error>* warnings = nullptr);
    // Job and changed reading files, each written whole beside the old one and then put in its place;
    // readings first, the job last. Pages keep their place; a page outside the job's folder is named by its
    // way there.
    // A file changed by another program since: the error "changed-on-disk", nothing written, unless told to.
    [[nodiscard]] std::vector<Error> save(Overwriting overwriting = Overwriting::refuse);
    // An existing job file of that path is replaced, but no reading of another job: where one has a sheet's
    // name the sheet is saved under a name of its own. So the new job and the old one share no reading.
    [[nodiscard]] std::vector<Error> saveAs(const QString& path);

    // The files as they were last read or written here.
    [[nodiscard]] const KnownFiles& knownFiles() const { return known_; }

  signals:
    void workspaceChanged(); // after every edit, undo, redo, opening
    void fileChanged();      // path, open or changed mark

  private:
    friend class WorkspaceStep;
    using Snapshot = std::shared_ptr<Workspace>; // shared by the steps before and after it

    void take(const Snapshot& snapshot);
    void begin(Workspace workspace, const QString& path, bool changed, KnownFiles known);
    [[nodiscard]] std::vector<Error> write(const QString& path, KnownFiles known, Overwriting overwriting);
    void relocateAll(const std::string& path, const Renames& renames);

    Workspace workspace_;
    Snapshot snapshot_; // the same
    QUndoStack undo_;
    QString path_;
    KnownFiles known_;
    bool open_ = false;
    bool neverSaved_ = false;
    int lastDrag_ = 0;
    int jobNumber_ = 0;
};

} // namespace headmark
