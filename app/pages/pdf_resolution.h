#pragma once
// At which size is a page of a PDF drawn?
//   wanted_dpi = the reading's dpi if that lies in 150..400, else doubled or halved until it does: finer than
//                400 costs memory and shows nothing a brochure's lines need, below 150 they melt into the
//                grid
//   width = w_pt s, height = h_pt s, both whole pixels, s near wanted_dpi / 72
// The page is stretched over a whole number of pixels. With s straight from the dpi one side would be up to
// half a pixel off (A4 at 300 dpi: 2480.33 x 3507.88), so that both axes had scales of their own. Instead s
// is moved a little (at most 10 %, mostly below 1 %) to where both sides come out whole within 0.02 px, or as
// near as can be had; the page's `scale` carries the rest exactly.

namespace headmark {

struct PdfResolution {
    double width_px = 0.0, height_px = 0.0; // whole numbers; may be far beyond any picture's
    double scale = 1.0;                     // pixels drawn per pixel of the reading
};

[[nodiscard]] PdfResolution pdfResolution(double width_pt, double height_pt, double dpi);

} // namespace headmark
