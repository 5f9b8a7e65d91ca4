#pragma once
// The text of a recovery file and back. Not one of the program's file formats: read by the same version only.

#include "app/document/job_files.h"

#include <QDateTime>
#include <QString>

#include <functional>
#include <optional>

namespace headmark {

struct RecoveredWork {
    QString title, jobPath;
    QDateTime changed;
    Workspace workspace;
    KnownFiles known;
};

using PageNames = std::map<std::shared_ptr<const std::string>, QString>;
[[nodiscard]] std::string recoveryText(const RecoveredWork& work, const PageNames& pageNames);

// The bytes of an embedded page by the name of its file; null: not there.
using PageBytes = std::function<std::shared_ptr<const std::string>(const QString& name)>;
// Empty: damaged, of another version, or a page is missing.
[[nodiscard]] std::optional<RecoveredWork> recoveredWork(const std::string& text, const PageBytes& pages);

// Whether the job can be read back; if not, an earlier file is worth more.
[[nodiscard]] bool canBeRecovered(const Workspace& workspace);

} // namespace headmark
