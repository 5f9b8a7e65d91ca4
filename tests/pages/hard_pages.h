#pragma once
// Pages as they are: what is drawn in a hard style by one of several programs, then aged as one class.
//   "clean"  as drawn      "scan"  ageing.h      "fax", "photo"  hard_ageing.h      "pdf"  PDFium's pixels
// Named style-number-class-program, "millimetre-2-fax-cairo". From the name alone all else follows.

#include "made_page.h"

#include <string>
#include <vector>

namespace headmark::pages {

// A page of every class, style and number up to `each`.
std::vector<std::string> hardPageNames(int each);
// The same of stranger styles (strange_styles.h).
std::vector<std::string> strangePageNames(int each);
MadePage makeHardPage(const std::string& name);

} // namespace headmark::pages
