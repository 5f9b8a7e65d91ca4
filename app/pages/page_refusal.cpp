#include "app/pages/page_refusal.h"

#include "app/pages/page_error_codes.h"
#include "app/pages/picture_format.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <string>

namespace headmark {

Error refusal(std::string_view code, Facts facts) { return {std::string(code), "", "", std::move(facts)}; }

Error brokenPicture(PictureFormat format, std::string_view why) {
    return refusal(code::kBrokenPicture,
                   {{"format", std::string(formatName(format))}, {"why", std::string(why)}});
}

Error pictureTooLarge(double width_px, double height_px, double limit_megapixels) {
    // A page of a PDF may claim any size; the figure must stay a whole number.
    const auto whole = [](double length_px) {
        return static_cast<std::int64_t>(std::llround(std::min(length_px, 1e15)));
    };
    return refusal(code::kPictureTooLarge, {{"width_px", whole(width_px)},
                                            {"height_px", whole(height_px)},
                                            {"megapixels", width_px * height_px / 1e6},
                                            {"limit_megapixels", limit_megapixels}});
}

} // namespace headmark
