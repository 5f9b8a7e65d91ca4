#pragma once
// PNG, JPEG, TIFF, BMP and WebP bytes to a page: the first picture in them, its orientation tag applied.
// The size is read from the header and judged before anything is decoded. A picture whose data are cut short
// or contradict themselves is refused, also where the decoder would fill the gap with grey.
// Errors: broken-picture, picture-too-large, not-a-picture (Qt's plugin for the format is not installed).

#include "analysis/chart/page.h"
#include "app/pages/picture_format.h"

#include <functional>
#include <string_view>

namespace headmark {

// `whenRead` is called once the bytes are needed no more: before the page is made of the picture, which for
// large pages takes as much memory again.
[[nodiscard]] Result<Page> decodePicture(std::string_view bytes, PictureFormat format,
                                         const std::function<void()>& whenRead = {});

} // namespace headmark
