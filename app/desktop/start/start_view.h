#pragma once
// What is shown before a job is open: a new site, a recent job, the sample, work that was not saved, or a
// page dropped here.

#include <QString>
#include <QStringList>
#include <QVBoxLayout>
#include <QWidget>

#include <vector>

namespace headmark {

// Work a stopped program left behind.
struct LeftWork {
    QString id, title, when;
};

class StartView : public QWidget {
    Q_OBJECT

  public:
    explicit StartView(QWidget* parent = nullptr);
    void setRecent(const QStringList& paths);
    void setLeftWork(const std::vector<LeftWork>& work);
    void setSampleAvailable(bool available);

  signals:
    void newSiteAsked();
    void openAsked();
    void pathChosen(const QString& path);
    void sampleAsked();
    void pageDropped(const QString& path);
    void restoreAsked(const QString& id);
    void discardAsked(const QString& id);

  protected:
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

  private:
    QVBoxLayout *recent_, *left_;
    QWidget *recentCard_, *leftCard_, *sample_;
};

} // namespace headmark
