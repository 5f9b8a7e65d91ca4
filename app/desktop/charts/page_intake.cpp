#include "app/desktop/charts/page_intake.h"

#include "app/pages/picture_format.h"

#include <QBuffer>
#include <QFile>
#include <QFileInfo>
#include <QUrl>
#include <QtConcurrent>

namespace headmark {

namespace {

constexpr const char* kUsualFlowUnit = "m3/h"; // until the user says what is printed

QByteArray pngOf(const QImage& picture) {
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    return picture.save(&buffer, "PNG") ? bytes : QByteArray();
}

} // namespace

QStringList filesIn(const QMimeData& data) {
    QStringList files;
    for (const QUrl& url : data.urls()) {
        if (url.isLocalFile() && QFileInfo(url.toLocalFile()).isFile()) files << url.toLocalFile();
    }
    return files;
}

bool holdsPage(const QMimeData& data) { return data.hasImage() || !filesIn(data).isEmpty(); }

bool looksLikePdf(const QString& path) {
    if (!QFileInfo(path).isFile()) return false; // a pipe or device would be waited for
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly)) return false;
    constexpr qint64 kBeginning = 2048;
    const QByteArray first = file.read(kBeginning);
    return formatOf({first.constData(), static_cast<std::size_t>(first.size())}) == PictureFormat::pdf;
}

ChartPage pageOfFile(const QString& path) {
    const QFileInfo file(path);
    ChartPage page;
    page.path = file.fileName().toStdString();
    page.folder = file.absolutePath().toStdString();
    return page;
}

Reading blankReading(const ChartPage& page) {
    Reading reading;
    reading.chart = page;
    reading.printedUnits.flow = kUsualFlowUnit;
    return reading;
}

PictureIntake::PictureIntake(QObject* parent) : QObject(parent) {
    connect(&watcher_, &QFutureWatcherBase::finished, this, [this] {
        const QByteArray bytes = watcher_.result();
        if (bytes.isEmpty()) {
            emit failed();
            return;
        }
        ChartPage page;
        page.mediaType = mediaType(PictureFormat::png);
        page.bytes = std::make_shared<const std::string>(bytes.toStdString());
        emit taken(page);
    });
}

void PictureIntake::take(const QImage& picture) {
    if (picture.isNull()) {
        emit failed();
        return;
    }
    watcher_.setFuture(QtConcurrent::run(pngOf, picture));
}

} // namespace headmark
