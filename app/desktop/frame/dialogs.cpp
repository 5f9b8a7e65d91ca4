#include "app/desktop/frame/dialogs.h"

#include <QCoreApplication>
#include <QFileDialog>
#include <QFileInfo>
#include <QInputDialog>
#include <QMessageBox>
#include <QPushButton>

namespace headmark {

namespace {

struct Words {
    Q_DECLARE_TR_FUNCTIONS(Dialogs)
};

QString jobFilter() { return Words::tr("Jobs (*.job.json *.json);;All files (*)"); }

Dialogs* replacement = nullptr;

} // namespace

QString Dialogs::openJobPath(QWidget* parent) {
    return QFileDialog::getOpenFileName(parent, Words::tr("Open a job"), {}, jobFilter());
}

QString Dialogs::saveJobPath(QWidget* parent, const QString& suggested) {
    return QFileDialog::getSaveFileName(parent, Words::tr("Save the job"), suggested, jobFilter());
}

QString Dialogs::openPagePath(QWidget* parent) {
    return QFileDialog::getOpenFileName(
        parent, Words::tr("Open a page with a chart"), {},
        Words::tr("Pictures and PDF (*.png *.jpg *.jpeg *.tif *.tiff *.bmp *.webp *.pdf);;All files (*)"));
}

QString Dialogs::exportPath(QWidget* parent, const QString& suggested, const QString& filters) {
    // The kind of file that the suggested name ends with.
    const QString ending = QStringLiteral("(*.%1)").arg(QFileInfo(suggested).suffix());
    QString chosen = filters.split(QStringLiteral(";;")).filter(ending).value(0);
    return QFileDialog::getSaveFileName(parent, Words::tr("Export"), suggested, filters, &chosen);
}

SaveChoice Dialogs::askToSave(QWidget* parent, const QString& title) {
    QMessageBox box(QMessageBox::Question, Words::tr("Unsaved changes"),
                    Words::tr("“%1” has changes that are not saved.").arg(title), QMessageBox::NoButton,
                    parent);
    QPushButton* save = box.addButton(Words::tr("Save"), QMessageBox::AcceptRole);
    QPushButton* discard = box.addButton(Words::tr("Do not save"), QMessageBox::DestructiveRole);
    box.addButton(Words::tr("Go back"), QMessageBox::RejectRole);
    box.setDefaultButton(save);
    box.exec();
    if (box.clickedButton() == save) return SaveChoice::save;
    return box.clickedButton() == discard ? SaveChoice::discard : SaveChoice::cancel;
}

QString Dialogs::askText(QWidget* parent, const QString& title, const QString& question,
                         const QString& suggested) {
    bool ok = false;
    const QString text = QInputDialog::getText(parent, title, question, QLineEdit::Normal, suggested, &ok);
    return ok ? text.trimmed() : QString();
}

Dialogs& dialogs() {
    static Dialogs real;
    return replacement ? *replacement : real;
}

void useDialogs(Dialogs* instead) { replacement = instead; }

} // namespace headmark
