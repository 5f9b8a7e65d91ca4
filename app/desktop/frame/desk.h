#pragma once
// What every place of the desk works with: the document, its answers, the user's settings, and the few things
// places ask of the window around them.

#include "app/desktop/frame/screen_phrasing.h"
#include "app/document/answer_service.h"
#include "app/document/display_units.h"
#include "app/document/document.h"

#include <QObject>
#include <QString>

namespace headmark {

enum class PlaceId { site, charts, duty, shifts, installation };
enum class SiteForm { water, zones, item, control, details }; // of the place Site, in the order of its tabs

class Desk : public QObject {
    Q_OBJECT

  public:
    Desk(Document& documentOfDesk, AnswerService& answersOfDesk)
        : document(documentOfDesk), answers(answersOfDesk) {
        setScreenUnits(wordUnits(units_));
    }

    Document& document;
    AnswerService& answers;

    [[nodiscard]] const DisplayUnits& units() const { return units_; }
    void setUnits(const DisplayUnits& units) {
        if (units == units_) return;
        units_ = units;
        setScreenUnits(wordUnits(units_));
        emit unitsChanged();
    }

    // The pump and case that all places show.
    [[nodiscard]] Shown shown() const { return shown_; }
    void show(Shown shown) {
        shown_ = shown;
        answers.show(shown);
        emit shownChanged();
    }

  signals:
    void unitsChanged();
    void themeChanged();
    void shownChanged();
    // A sentence for the bar above the places; it goes when the next one comes or the user closes it.
    void said(const QString& sentence, bool isError);
    void placeAsked(PlaceId place);
    void siteFormAsked(SiteForm form); // the place Site with that form open
    // The working of a figure ("npsh-margin", ...) of the shown case is to be shown.
    void workingAsked(const QString& code);

  private:
    DisplayUnits units_;
    Shown shown_;
};

} // namespace headmark
