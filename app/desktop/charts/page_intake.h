#pragma once
// How a page comes onto the desk: a file opened or dropped, a picture dropped or pasted. A picture without a
// file is embedded as PNG; encoding runs beside the screen.

#include "analysis/chart/reading.h"

#include <QFutureWatcher>
#include <QImage>
#include <QMimeData>
#include <QObject>
#include <QString>
#include <QStringList>

namespace headmark {

// The files a drop or the clipboard brings; folders and web addresses are left out.
[[nodiscard]] QStringList filesIn(const QMimeData& data);
[[nodiscard]] bool holdsPage(const QMimeData& data);
[[nodiscard]] bool looksLikePdf(const QString& path);

[[nodiscard]] ChartPage pageOfFile(const QString& path);

// A reading of that page with nothing on it yet.
[[nodiscard]] Reading blankReading(const ChartPage& page);

class PictureIntake : public QObject {
    Q_OBJECT

  public:
    explicit PictureIntake(QObject* parent);
    void take(const QImage& picture);

  signals:
    void taken(const headmark::ChartPage& page);
    void failed();

  private:
    QFutureWatcher<QByteArray> watcher_;
};

} // namespace headmark
