#pragma once
// Opens the page a reading names: a picture or a page of a PDF, from a file or from bytes in the reading.
//   files: regular ones of at most 256 MB; a path is relative to the reading's folder
//   size:  at most 100 megapixels, known before anything is decoded (picture_decoder.h, pdf_page.h)
//   type:  told by content (picture_format.h); embedded bytes must be what their media type says
// Errors: page_error_codes.h. Needs a QCoreApplication, for Qt's plugins; no display.

#include "analysis/chart/page.h"

namespace headmark {

class FilePages : public PageSource {
  public:
    [[nodiscard]] Result<std::shared_ptr<const Page>> open(const ChartPage& chart) override;
};

} // namespace headmark
