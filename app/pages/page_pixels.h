#pragma once
// From a decoded picture to a page: grey always, colour only where the picture has some.
//   grey = 0.299 R + 0.587 G + 0.114 B, rounded (ITU-R BT.601; exact for R = G = B)
//   transparent: c = alpha c + (1 - alpha) white
// A picture has colour if at least 16 of its pixels show max(R, G, B) - min(R, G, B) above 32: more than the
// tint of paper, JPEG noise or the fringes of a colour scanner; less than any line meant to be told by colour
// (both thresholds chosen on such cases, no source).
// Works in bands of rows, so that nothing but the picture and the page is held; of a large coloured picture
// that is used up, not even both: its rows are given back to the system as they are taken.

#include "analysis/chart/page.h"

#include <QImage>

namespace headmark {

[[nodiscard]] Page pageFromImage(const QImage& image);

// The same of a picture just decoded, which owns its pixels and which nobody looks at any more.
[[nodiscard]] Page pageFromDecoded(QImage image);

} // namespace headmark
