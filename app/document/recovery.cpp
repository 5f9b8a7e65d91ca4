#include "app/document/recovery.h"

#include "analysis/job/json_document.h"
#include "app/document/recovery_text.h"

#include <QCryptographicHash>
#include <QDir>
#include <QSaveFile>
#include <QStandardPaths>
#include <QUuid>

#include <algorithm>

namespace headmark {

namespace {

constexpr qint64 kLeastInterval_ms = 2000;
constexpr qint64 kFirstDelay_ms = 200; // a burst of edits is written once

QString folder() {
    return QStandardPaths::writableLocation(QStandardPaths::AppDataLocation) + QStringLiteral("/recovery");
}

QString fileOf(const QString& id) {
    return folder() + QLatin1Char('/') + id + QStringLiteral(".recovery.json");
}

// A lock of a program that runs no more counts as free, one of a program that runs never does.
std::unique_ptr<QLockFile> lockOf(const QString& id) {
    auto lock = std::make_unique<QLockFile>(folder() + QLatin1Char('/') + id + QStringLiteral(".lock"));
    lock->setStaleLockTime(0);
    return lock->tryLock(0) ? std::move(lock) : nullptr;
}

bool writeWhole(const QString& path, std::string_view bytes) {
    QSaveFile file(path);
    const auto size = static_cast<qint64>(bytes.size());
    return file.open(QIODevice::WriteOnly) && file.write(bytes.data(), size) == size && file.commit();
}

std::shared_ptr<const std::string> bytesOf(const QString& name) {
    // A name of ours, in our folder.
    if (name.isEmpty() || name.contains(QLatin1Char('/'))) return nullptr;
    const auto bytes = readRegularFile((folder() + QLatin1Char('/') + name).toStdString());
    return bytes ? std::make_shared<const std::string>(*bytes) : nullptr;
}

std::optional<RecoveredWork> readWork(const QString& id) {
    const auto text = readRegularFile(fileOf(id).toStdString());
    return text ? recoveredWork(*text, bytesOf) : std::nullopt;
}

// The file, its pages, and what a kill during writing may have left of them; not the lock.
void removeFiles(const QString& id) {
    QDir all(folder());
    for (const QString& name : all.entryList({id + QStringLiteral(".*")}, QDir::Files)) {
        if (!name.endsWith(QLatin1String(".lock"))) all.remove(name);
    }
}

} // namespace

Recovery::Recovery(Document& document, QObject* parent)
    : QObject(parent), document_(document), id_(QUuid::createUuid().toString(QUuid::WithoutBraces)) {
    timer_.setSingleShot(true);
    connect(&timer_, &QTimer::timeout, this, [this] { (void)write(); });
    connect(&document_, &Document::workspaceChanged, this, &Recovery::follow);
    connect(&document_, &Document::fileChanged, this, &Recovery::follow);
}

Recovery::~Recovery() {
    if (document_.isChanged())
        flush();
    else
        remove();
}

void Recovery::follow() {
    if (!document_.isChanged()) {
        remove();
        return;
    }
    if (timer_.isActive()) return;
    const qint64 since = sinceWritten_.isValid() ? sinceWritten_.elapsed() : kLeastInterval_ms;
    timer_.start(static_cast<int>(std::max(kFirstDelay_ms, kLeastInterval_ms - since)));
}

void Recovery::flush() {
    if (timer_.isActive()) (void)write();
}

bool Recovery::write() {
    timer_.stop();
    sinceWritten_.start();
    QDir().mkpath(folder());
    if (lock_ && !canBeRecovered(document_.workspace())) return false;
    if (!lock_) lock_ = lockOf(id_);
    RecoveredWork work;
    work.jobPath = document_.filePath();
    work.changed = QDateTime::currentDateTimeUtc();
    work.workspace = document_.workspace();
    work.known = document_.knownFiles();
    return lock_ && writePages() && writeWhole(fileOf(id_), recoveryText(work, pageNames_));
}

bool Recovery::writePages() {
    for (const ChartSheet& sheet : document_.workspace().charts) {
        const auto& bytes = sheet.reading->chart.bytes;
        if (!bytes || pageNames_.contains(bytes)) continue;
        const QByteArrayView view(bytes->data(), static_cast<qsizetype>(bytes->size()));
        const QByteArray hash = QCryptographicHash::hash(view, QCryptographicHash::Sha256).toHex();
        const QString name = id_ + QLatin1Char('.') + QString::fromLatin1(hash) + QStringLiteral(".page");
        if (!writeWhole(folder() + QLatin1Char('/') + name, *bytes)) return false;
        pageNames_[bytes] = name;
    }
    return true;
}

void Recovery::remove() {
    timer_.stop();
    pageNames_.clear();
    if (!lock_) return;
    removeFiles(id_);
    lock_.reset();
}

void Recovery::forget() { remove(); }

std::vector<PendingRecovery> Recovery::pending() const {
    std::vector<PendingRecovery> found;
    const QString ending = QStringLiteral(".recovery.json");
    for (const QString& name : QDir(folder()).entryList({QLatin1Char('*') + ending}, QDir::Files)) {
        const QString id = name.chopped(ending.size());
        const auto lock = lockOf(id); // also skips our own
        if (!lock) continue;
        const auto work = readWork(id);
        if (work) found.push_back({id, work->title, work->jobPath, work->changed});
    }
    std::sort(found.begin(), found.end(),
              [](const PendingRecovery& a, const PendingRecovery& b) { return a.changed > b.changed; });
    return found;
}

bool Recovery::restore(const QString& id) {
    const auto lock = lockOf(id);
    if (!lock) return false;
    auto work = readWork(id);
    if (!work) return false;
    document_.startFrom(std::move(work->workspace), work->jobPath, true, work->known);
    if (write()) removeFiles(id); // now ours holds it
    return true;
}

void Recovery::discard(const QString& id) {
    if (const auto lock = lockOf(id)) removeFiles(id);
}

} // namespace headmark
