#include "app/document/document.h"

#include "app/document/settled.h"

#include <QFileInfo>
#include <QUndoCommand>

#include <set>

namespace headmark {

// Snapshots rather than differences: a workspace is small, its readings are shared, and undo cannot go wrong.
class WorkspaceStep : public QUndoCommand {
  public:
    using Snapshot = Document::Snapshot;

    WorkspaceStep(Document& document, const QString& name, Snapshot before, Snapshot after, int drag)
        : QUndoCommand(name), document_(document), before_(std::move(before)), after_(std::move(after)),
          drag_(drag) {}

    void undo() override { document_.take(before_); }
    void redo() override { document_.take(after_); }
    [[nodiscard]] int id() const override { return drag_ > 0 ? drag_ : -1; } // -1: never merged
    bool mergeWith(const QUndoCommand* next) override {
        after_ = static_cast<const WorkspaceStep*>(next)->after_;
        setObsolete(sameWork(*before_, *after_)); // dragged back to where it was
        return true;
    }
    void addTo(std::set<Snapshot>& snapshots) const { snapshots.insert({before_, after_}); }

  private:
    Document& document_;
    Snapshot before_, after_;
    int drag_;
};

Document::Document(QObject* parent) : QObject(parent), snapshot_(std::make_shared<Workspace>()) {
    connect(&undo_, &QUndoStack::cleanChanged, this, &Document::fileChanged);
}

bool Document::isChanged() const { return open_ && (neverSaved_ || !undo_.isClean()); }

void Document::edit(const QString& name, const Change& change, int drag) {
    auto after = std::make_shared<Workspace>(workspace_);
    change(*after);
    settle(*after, workspace_);
    if (sameWork(*after, workspace_)) return;
    undo_.push(new WorkspaceStep(*this, name, snapshot_, std::move(after), drag)); // owned by the stack
}

void Document::take(const Snapshot& snapshot) {
    snapshot_ = snapshot;
    workspace_ = *snapshot;
    emit workspaceChanged();
}

void Document::begin(Workspace workspace, const QString& path, bool changed, KnownFiles known) {
    undo_.clear();
    ++jobNumber_;
    path_ = path;
    known_ = std::move(known);
    open_ = true;
    neverSaved_ = changed;
    take(std::make_shared<Workspace>(std::move(workspace)));
    emit fileChanged();
}

void Document::startNew(Workspace workspace) {
    settle(workspace, Workspace());
    begin(std::move(workspace), {}, false, {});
}

void Document::startFrom(Workspace workspace, const QString& path, bool changed, const KnownFiles& known) {
    settle(workspace, Workspace());
    KnownFiles onDisk = known;
    if (onDisk.empty() && !path.isEmpty()) {
        OpenedFiles opened;
        std::vector<Error> warnings;
        if (openFiles(path.toStdString(), opened, warnings).empty()) onDisk = std::move(opened.known);
    }
    begin(std::move(workspace), path, changed, std::move(onDisk));
}

void Document::close() {
    undo_.clear();
    ++jobNumber_;
    path_.clear();
    known_.clear();
    open_ = neverSaved_ = false;
    take(std::make_shared<Workspace>());
    emit fileChanged();
}

std::vector<Error> Document::open(const QString& path, std::vector<Error>* warnings) {
    OpenedFiles opened;
    std::vector<Error> left;
    auto errors = openFiles(path.toStdString(), opened, left);
    if (!errors.empty()) return errors;
    if (warnings) *warnings = std::move(left);
    begin(std::move(opened.workspace), QFileInfo(path).absoluteFilePath(), false, std::move(opened.known));
    return {};
}

std::vector<Error> Document::save(Overwriting overwriting) { return write(path_, known_, overwriting); }

std::vector<Error> Document::saveAs(const QString& path) {
    const QString absolute = QFileInfo(path).absoluteFilePath();
    if (absolute == path_) return save(Overwriting::overwrite);
    return write(absolute, {}, Overwriting::overwrite);
}

std::vector<Error> Document::write(const QString& path, KnownFiles known, Overwriting overwriting) {
    const std::string file = path.toStdString();
    const Renames renames = renamesFor(workspace_, file, known);
    Workspace target = workspace_;
    relocate(target, file, renames);
    settle(target, target); // a file written by hand may have had more digits than are written
    auto errors = saveFiles(target, file, known, overwriting == Overwriting::overwrite);
    if (!errors.empty()) {
        if (path == path_) known_ = std::move(known); // some may have been written
        return errors;
    }
    known_ = std::move(known);
    path_ = path;
    neverSaved_ = false;
    const bool moved = !renames.empty() || workspace_.job.folder != target.job.folder;
    relocateAll(file, renames);
    snapshot_->job = workspace_.job = target.job;
    undo_.setClean();
    if (moved) emit workspaceChanged();
    emit fileChanged();
    return {};
}

// Also what undo would bring back: it must be saved where the job now lies.
void Document::relocateAll(const std::string& path, const Renames& renames) {
    std::set<Snapshot> snapshots{snapshot_};
    for (int i = 0; i < undo_.count(); ++i)
        static_cast<const WorkspaceStep*>(undo_.command(i))->addTo(snapshots);
    for (const Snapshot& snapshot : snapshots)
        relocate(*snapshot, path, renames);
    workspace_ = *snapshot_;
}

} // namespace headmark
