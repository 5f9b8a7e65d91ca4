#pragma once
// One page of a PDF as a picture, as people see it: cropped, turned, with its annotations, on white.
// Errors: broken-picture, picture-too-large (the picture drawn, see pdf_resolution.h), no-such-page,
// locked-pdf.

#include "analysis/chart/page.h"

#include <string_view>

namespace headmark {

// page: from 1.
[[nodiscard]] Result<Page> drawPdfPage(std::string_view bytes, int page, double dpi);

} // namespace headmark
