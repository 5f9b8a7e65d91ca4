#pragma once
// Every figure of the open job is what its file will say: the files carry 12 significant digits, and a figure
// typed in psi or taken from a mouse has more. Rounded when it is edited, the open job and the saved one give
// the same findings to the last bit.
//   job       through the writer and the reader, so that catalogue items get the catalogue's figures too
//   readings  the same; places newly clicked or moved to 0.01 px, far below what a hand can place
// A job or reading with a value that the reader refuses is left as it is: it cannot be saved either.

#include "app/document/workspace.h"

namespace headmark {

// `before`: the workspace that `now` came from; what both share is settled already.
void settle(Workspace& now, const Workspace& before);

} // namespace headmark
