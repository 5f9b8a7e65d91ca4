#include "app/desktop/duty/picture_export.h"

#include "app/desktop/frame/dialogs.h"

#include <QCoreApplication>
#include <QFileInfo>
#include <QSaveFile>

namespace headmark {

namespace {

struct Words {
    Q_DECLARE_TR_FUNCTIONS(PictureExport)
};

} // namespace

QString pathEnding(const QString& path) { return QFileInfo(path).suffix().toLower(); }

bool isPicturePath(const QString& path) {
    static const QStringList endings{QStringLiteral("png"), QStringLiteral("svg"), QStringLiteral("pdf"),
                                     QStringLiteral("csv")};
    return endings.contains(pathEnding(path));
}

void exportPicture(Desk& desk, QWidget* parent, const QString& suggested,
                   const std::function<bool(const QString&)>& write) {
    const QString path = dialogs().exportPath(
        parent, suggested,
        Words::tr("Picture, PNG (*.png);;Drawing, SVG (*.svg);;Page, PDF (*.pdf);;Table, CSV (*.csv)"));
    if (path.isEmpty()) return;
    if (!isPicturePath(path)) {
        emit desk.said(
            Words::tr("The name must end with .png, .svg, .pdf or .csv, which tells what to write."), true);
    } else if (write(path)) {
        emit desk.said(Words::tr("Written: %1").arg(QFileInfo(path).fileName()), false);
    } else {
        emit desk.said(
            Words::tr("“%1” could not be written; is the folder there, and may you write in it?").arg(path),
            true);
    }
}

bool writeWhole(const QString& path, const QByteArray& bytes) {
    QSaveFile file(path);
    return file.open(QIODevice::WriteOnly) && file.write(bytes) == bytes.size() && file.commit();
}

} // namespace headmark
