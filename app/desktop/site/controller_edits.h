#pragma once
// Edits of the controller that more than one form makes. A controller of which nothing is said is none.

#include "app/document/document.h"

#include <functional>
#include <string>

namespace headmark {

void editController(Workspace& workspace, const std::function<void(Controller&)>& change);

// The lists of zones that must or must not run together follow the zones' names. A list of one is none.
void renameInPairs(Site& site, const std::string& old, const std::string& wanted);
void removeFromPairs(Site& site, const std::string& zone);

} // namespace headmark
