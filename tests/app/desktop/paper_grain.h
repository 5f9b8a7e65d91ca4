#pragma once
// The grain of scanned paper, which no PNG can pack, evened out for a picture of the desk: paper becomes one
// light grey, faint rulings a darker one; ink and colours stay. A ruling is paper whose mean along a row or a
// column, on both sides, is darker than the paper around it.

#include <QImage>
#include <QRect>

namespace headmark {

// Inside `page` only.
[[nodiscard]] QImage withoutGrain(const QImage& picture, const QRect& page);

} // namespace headmark
