#pragma once
// The changes that the run's table and the drawing make to the job, each one undoable step of its own name.
// Each gives back where the item stands afterwards.

#include "app/desktop/site/run_spot.h"
#include "app/document/document.h"

#include <QString>

#include <optional>

namespace headmark {

// After the item at `spot`, or before it; a part as a whole: at its end, or its beginning.
RunSpot insertItem(Document& document, const RunSpot& spot, RunItem item, bool before = false);
RunSpot duplicateItem(Document& document, const RunSpot& spot);
// The one that takes its place. Zones at a take-off removed go to the end of the delivery run.
RunSpot removeItem(Document& document, const RunSpot& spot);
// To stand before the item `to` of the same or another run (index -1: at that run's end). A take-off stays in
// the delivery run; what may not be moved there stays where it is.
RunSpot moveItem(Document& document, const RunSpot& from, const RunSpot& to);
// One place towards the source or away from it, inside its run.
RunSpot nudgeItem(Document& document, const RunSpot& spot, int step);
void replaceItem(Document& document, const RunSpot& spot, const RunItem& item, const QString& stepName);

// The take-off's zones follow its new name. False: another take-off has it.
bool renameTakeoff(Document& document, const RunSpot& spot, const QString& name);
// Cases follow. False: another zone has it, or it is empty.
bool renameZone(Document& document, int zone, const QString& name);
// Index of the new zone.
int addZone(Document& document);
int duplicateZone(Document& document, int zone);
int removeZone(Document& document, int zone);
int moveZone(Document& document, int zone, int step);

} // namespace headmark
