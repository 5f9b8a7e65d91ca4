#pragma once
// Unsaved work survives the program: a little after a change, and at most every two seconds, the open job is
// written whole into the user's data folder; on saving, undoing to the saved state or closing it is removed.
// What a program that was killed left behind is offered at the next start. One file per program, with a lock
// beside it, so that two programs at once neither list nor take each other's.
//   <id>.recovery.json   job, readings, and what the job's files were like on the disk
//   <id>.<hash>.page     a page that is in no file yet (pasted or embedded), written once
// Pages that lie on the disk are named, not copied.

#include "app/document/document.h"

#include <QDateTime>
#include <QElapsedTimer>
#include <QLockFile>
#include <QObject>
#include <QTimer>

#include <map>
#include <memory>
#include <vector>

namespace headmark {

struct PendingRecovery {
    QString id;
    QString title;   // the job's; may be empty
    QString jobPath; // empty: never saved
    QDateTime changed;
};

class Recovery : public QObject {
    Q_OBJECT

  public:
    explicit Recovery(Document& document, QObject* parent = nullptr);
    // Work still unsaved stays for the next start, unless forget() was called.
    ~Recovery() override;

    // Left by programs that run no more, newest first.
    [[nodiscard]] std::vector<PendingRecovery> pending() const;
    // Opens it as changed work. False: it could not be read or another program has it; it is left untouched.
    [[nodiscard]] bool restore(const QString& id);
    void discard(const QString& id);

    // The user does not want the unsaved work: nothing is kept of it. The next change is kept again.
    void forget();
    // Writes now what is due.
    void flush();

  private:
    void follow();
    [[nodiscard]] bool write();
    [[nodiscard]] bool writePages();
    void remove();

    Document& document_;
    QString id_;
    std::unique_ptr<QLockFile> lock_; // held while our file is there
    QTimer timer_;
    QElapsedTimer sinceWritten_;
    std::map<std::shared_ptr<const std::string>, QString> pageNames_; // of embedded pages written
};

} // namespace headmark
