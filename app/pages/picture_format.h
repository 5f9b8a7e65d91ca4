#pragma once
// Which format do these bytes have? Told by our own look at the first bytes, never by a name: a decoder that
// guesses would also open formats that load further files.
// Sources: PNG specification (W3C) 5.2; ITU-T T.81 annex B; TIFF 6.0 section 2 (and the 64-bit variant's
// version 43); the header sizes of BMP files, from memory; RIFF container of WebP (RFC 9649); ISO 32000-1
// 7.5.2 (its header may stand within the first 1024 bytes: annex H, implementation note 13).

#include <optional>
#include <string_view>

namespace headmark {

enum class PictureFormat { png, jpeg, tiff, bmp, webp, pdf };

[[nodiscard]] std::optional<PictureFormat> formatOf(std::string_view bytes);

[[nodiscard]] std::string_view formatName(PictureFormat format); // "PNG"
[[nodiscard]] std::string_view mediaType(PictureFormat format);  // "image/png"

} // namespace headmark
