#pragma once
// The files of a workspace: one job file and the reading files its pumps name.
//   Sheets that no pump uses yet are named under the job's own key "x_charts" (a list of paths), so that
//   opening finds them again.
//   Saving: all files are written beside the old ones first and put in place after that, readings before the
//   job, each by a rename. A program killed on the way leaves every file whole, old or new.
//   A page keeps its place on the disk; a reading names it relative to its own folder.

#include "analysis/core/error.h"
#include "app/document/workspace.h"

#include <QByteArray>

#include <map>
#include <memory>
#include <string>
#include <vector>

namespace headmark {

// A file as it was when it was last read or written here.
struct KnownFile {
    QByteArray hash;
    std::shared_ptr<const Reading> reading; // of reading files, as they stand on the disk
};
using KnownFiles = std::map<std::string, KnownFile>; // by absolute path

struct OpenedFiles {
    Workspace workspace;
    KnownFiles known;
};

// `path` names the job file, also in errors. Reading files that cannot be read: their errors in `warnings`.
[[nodiscard]] std::vector<Error> openFiles(const std::string& path, OpenedFiles& opened,
                                           std::vector<Error>& warnings);

// Where a workspace goes when it is saved under `path`: which sheets must be renamed ("a.reading.json" is
// there already and belongs to another job), and how other readings are named from the new folder.
using Renames = std::map<std::string, std::string>; // of reading paths, as the job names them
[[nodiscard]] Renames renamesFor(const Workspace& workspace, const std::string& path,
                                 const KnownFiles& known);

// The job folder set to that of `path`, readings renamed; pages and readings stay what they are.
void relocate(Workspace& workspace, const std::string& path, const Renames& renames);

// Writes a workspace that was relocated to `path`. `known` is what is on the disk, and is brought up to date;
// a known file that changed since is an error unless `overwrite`.
[[nodiscard]] std::vector<Error> saveFiles(const Workspace& workspace, const std::string& path,
                                           KnownFiles& known, bool overwrite);

// Where the page of a reading lies, absolute; empty: embedded.
[[nodiscard]] std::string pagePath(const ChartPage& chart);

} // namespace headmark
