#pragma once
// Why a page is refused, before it is known whose page it is: the opener adds file and place.

#include "analysis/core/error.h"

#include <string_view>

namespace headmark {

enum class PictureFormat;

// At most so many pixels are decoded or drawn (about 400 MB as Qt holds them).
inline constexpr double kGreatestMegapixels = 100.0;

[[nodiscard]] Error refusal(std::string_view code, Facts facts = {});
[[nodiscard]] Error brokenPicture(PictureFormat format, std::string_view why);
[[nodiscard]] Error pictureTooLarge(double width_px, double height_px, double limit_megapixels);

} // namespace headmark
