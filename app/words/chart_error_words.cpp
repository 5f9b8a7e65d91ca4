// Errors of chart readings: their text, their pictures, their pins, clicks and curves.
#include "app/words/error_words_parts.h"

#include <array>

namespace headmark {

namespace {

QString tooFewPinned(const Error& e, const QString& where) {
    const QString what = factText(e, "what"), found = factText(e, "found");
    if (what == QLatin1String("flow"))
        return Errors::tr("%1: at least two different flows must be pinned, but there are %2; place a pin "
                          "with another flow.")
            .arg(where, found);
    if (what == QLatin1String("right"))
        return Errors::tr("%1: at least two different values must be pinned on the right axis, but there are "
                          "%2; place a pin "
                          "with another value there.")
            .arg(where, found);
    return Errors::tr("%1: at least two different values must be pinned, but there are %2; place a pin with "
                      "another value.")
        .arg(where, found);
}

QString pixelText(const Error& e, const char* x, const char* y) {
    const auto rounded = [&](const char* key) {
        return QString::number(factText(e, key).toDouble(), 'f', 1);
    };
    return QStringLiteral("(%1, %2)").arg(rounded(x), rounded(y));
}

QString flowText(const Error& e) { return QString::number(factText(e, "flow_m3_h").toDouble(), 'g', 3); }

QString axisText(const Error& e) {
    const QString what = factText(e, "what");
    if (what == QLatin1String("flow")) return Errors::tr("the flow axis");
    if (what == QLatin1String("right")) return Errors::tr("the right value axis");
    return Errors::tr("the value axis");
}

QString brokenPicture(const Error& e, const QString& where) {
    const QString format = factText(e, "format");
    if (factText(e, "why") == QLatin1String("cut-short"))
        return Errors::tr("%1: the %2 picture is cut off, its data end too early; copy, save or scan it "
                          "again.")
            .arg(where, format);
    return Errors::tr("%1: the %2 picture is damaged; copy, save or scan it again.").arg(where, format);
}

QString noSuchPage(const Error& e, const QString& where) {
    return Errors::tr(
               "%1: page %2 was asked for, and the document has %3; correct the number, counting from 1.")
        .arg(where, factText(e, "page"), factText(e, "pages"));
}

QString pictureTooLarge(const Error& e, const QString& where) {
    return Errors::tr("%1: the picture has %2 by %3 pixels, %4 megapixels, and at most %5 are read; scan it "
                      "coarser or cut it to the chart (of a PDF: lower dpi).")
        .arg(where, QString::number(factText(e, "width_px").toDouble(), 'f', 0),
             QString::number(factText(e, "height_px").toDouble(), 'f', 0),
             QString::number(factText(e, "megapixels").toDouble(), 'f', 0), factText(e, "limit_megapixels"));
}

constexpr std::array kPictureEntries{
    ErrorEntry{"not-a-picture",
               [](const Error&, const QString& w) {
                   return Errors::tr("%1: this is no picture of a known kind; PNG, JPEG, TIFF, BMP, WebP and "
                                     "PDF are read, whatever the file's name ends with.")
                       .arg(w);
               }},
    ErrorEntry{"wrong-media-type",
               [](const Error& e, const QString& w) {
                   return Errors::tr("%1: media_type says %2, but the embedded picture is %3; correct "
                                     "media_type or embed the right picture.")
                       .arg(w, factText(e, "said"), factText(e, "found"));
               }},
    ErrorEntry{"broken-picture", brokenPicture},
    ErrorEntry{"picture-too-large", pictureTooLarge},
    ErrorEntry{"no-such-page", noSuchPage},
    ErrorEntry{"locked-pdf",
               [](const Error&, const QString& w) {
                   return Errors::tr("%1: the PDF asks for a password; save an open copy of it, or a picture "
                                     "of the page.")
                       .arg(w);
               }},
    ErrorEntry{"page-not-in-pdf",
               [](const Error& e, const QString& w) {
                   return Errors::tr("%1: %2 has a meaning for PDF files only, and the picture is %3; remove "
                                     "the key.")
                       .arg(w, factText(e, "key"), factText(e, "format"));
               }},
};

constexpr std::array kLineEntries{
    ErrorEntry{"too-few-crossings",
               [](const Error& e, const QString& where) {
                   return Errors::tr(
                              "%1: lines of equal efficiency meet the head curve in %2 places only; four, "
                              "of two levels, are needed.")
                       .arg(where, factText(e, "crossings"));
               }},
    ErrorEntry{"pins-in-a-row",
               [](const Error&, const QString& w) {
                   return Errors::tr("%1: all pins lie in one row, so they do not tie down both axes; place "
                                     "one well away from that row, for example at another corner of the "
                                     "grid.")
                       .arg(w);
               }},
    ErrorEntry{"pins-too-close",
               [](const Error& e, const QString& w) {
                   return Errors::tr("%1: two figures of %2 are pinned only %3 pixels apart, which is too "
                                     "close to set a scale; pin figures near both ends of the axis, and "
                                     "check that each pin bears its own figure.")
                       .arg(w, axisText(e), QString::number(factText(e, "distance_px").toDouble(), 'f', 1));
               }},
    ErrorEntry{"mapping-needs-pins",
               [](const Error& e, const QString& w) {
                   return Errors::tr("%1: the mapping \"%2\" needs %3 pinned figures, and the pins give %4; "
                                     "place more pins, or leave mapping out.")
                       .arg(w, factText(e, "model"), factText(e, "needed"), factText(e, "pins"));
               }},
    ErrorEntry{"mapping-not-found",
               [](const Error& e, const QString& w) {
                   return Errors::tr(
                              "%1: no mapping from pixels to figures could be found through these pins "
                              "(tried: %2); check that each pin stands where its figures are printed.")
                       .arg(w, factText(e, "model"));
               }},
    ErrorEntry{"click-off-page",
               [](const Error& e, const QString& w) {
                   return Errors::tr(
                              "%1: the click at %2 lies off the page, which has %3 by %4 pixels; click "
                              "on the line itself.")
                       .arg(w, pixelText(e, "x_px", "y_px"),
                            QString::number(factText(e, "width_px").toDouble(), 'f', 0),
                            QString::number(factText(e, "height_px").toDouble(), 'f', 0));
               }},
    ErrorEntry{"click-on-paper",
               [](const Error& e, const QString& w) {
                   return Errors::tr("%1: at %2 there is bare paper, and no ink within reach; click on the "
                                     "line itself.")
                       .arg(w, pixelText(e, "x_px", "y_px"));
               }},
    ErrorEntry{"click-off-line",
               [](const Error& e, const QString& w) {
                   return Errors::tr("%1: the click at %2 lies on other ink than the first click of this "
                                     "line; click on the same line, or read the other as a line of its own.")
                       .arg(w, pixelText(e, "x_px", "y_px"));
               }},
    ErrorEntry{"click-on-ruling",
               [](const Error& e, const QString& w) {
                   return Errors::tr("%1: the click at %2 lies on a straight line of the grid or the frame; "
                                     "click on the curve where it stands clear of the grid.")
                       .arg(w, pixelText(e, "x_px", "y_px"));
               }},
    ErrorEntry{"line-too-short",
               [](const Error& e, const QString& w) {
                   return Errors::tr("%1: the ink there is followed for only %2 pixels, so it is a label, a "
                                     "dot or a piece of the grid; click on the line, away from labels and "
                                     "crossings.")
                       .arg(w, QString::number(factText(e, "length_px").toDouble(), 'f', 0));
               }},
    ErrorEntry{"nothing-between",
               [](const Error& e, const QString& w) {
                   return Errors::tr("%1: the line has nothing between the flows %2 and %3; correct "
                                     "between_flows, which counts in the chart's printed unit, or leave it "
                                     "out.")
                       .arg(w, factText(e, "least"), factText(e, "greatest"));
               }},
    ErrorEntry{"curve-not-settled",
               [](const Error& e, const QString& w) {
                   return Errors::tr("%1: no curve of degree %2 could be settled through the samples of this "
                                     "line; leave degree out, click the line again, or read it from spots.")
                       .arg(w, factText(e, "degree"));
               }},
    ErrorEntry{"head-not-falling",
               [](const Error& e, const QString& w) {
                   return Errors::tr("%1: the line \"%2\" is to be a pump's head, but it rises up to its "
                                     "right end at %3 m³/h, and a head falls with flow; check the pins' "
                                     "values and that the quantity of the line is right.")
                       .arg(w, factText(e, "line"), flowText(e));
               }},
    ErrorEntry{"line-not-positive",
               [](const Error& e, const QString& w) {
                   return Errors::tr("%1: the line \"%2\" of the quantity %3 is at zero or below at %4 m³/h; "
                                     "check the pins' values, or end the line before that with "
                                     "between_flows.")
                       .arg(w, factText(e, "line"), factText(e, "quantity"), flowText(e));
               }},
};

constexpr std::array kReadingEntries{
    ErrorEntry{
        "bad-base64",
        [](const Error& e, const QString& w) {
            return Errors::
                tr("%1: at character %2 the text is no base64; it may hold A to Z, a to z, 0 to 9, + and /, "
                   "and = at its end up to a length divisible by four, so embed the picture again.")
                    .arg(w, factText(e, "position"));
        }},
    ErrorEntry{
        "bad-colour",
        [](const Error& e, const QString& w) {
            return Errors::tr("%1: \"%2\" is no colour; write it like #1f77b4.").arg(w, factText(e, "found"));
        }},
    ErrorEntry{
        "not-on-log-scale",
        [](const Error& e, const QString& w) {
            return Errors::tr(
                       "%1: here stands %2, but a logarithmic scale has figures above zero only; correct the "
                       "figure, or the scale under scales.")
                .arg(w, factText(e, "found"));
        }},
    ErrorEntry{"too-few-pinned", tooFewPinned},
    ErrorEntry{"list-too-long",
               [](const Error& e, const QString& w) {
                   return Errors::tr(
                              "%1: the list has %2 entries, and at most %3 are allowed; leave some out.")
                       .arg(w, factText(e, "found"), factText(e, "limit"));
               }},
};

} // namespace

std::span<const ErrorEntry> pictureErrorEntries() { return kPictureEntries; }
std::span<const ErrorEntry> lineErrorEntries() { return kLineEntries; }
std::span<const ErrorEntry> readingErrorEntries() { return kReadingEntries; }

} // namespace headmark
