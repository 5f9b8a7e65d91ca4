#pragma once
// PNG, JPEG, TIFF, BMP and WebP bytes to a page: the first picture in them, its orientation tag applied.
// The size is read from the header and judged before anything is decoded. A picture whose data are cut short
// or contradict themselves is refused, also where the decoder would fill the gap with grey.
// Errors: broken-picture, picture-too-large, not-a-picture (Qt's plugin for the format is not installed).

#include "analysis/chart/page.h"
#include "app/pages/picture_format.h"

#include <string_view>

namespace headmark {

[[nodiscard]] Result<Page> decodePicture(std::string_view bytes, PictureFormat format);

} // namespace headmark
