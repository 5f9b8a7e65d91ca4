#pragma once
// How sentences are made for the screen: translated, in the user's number format, with a site's names.

#include "app/words/phrasing.h"

namespace headmark {

[[nodiscard]] inline Phrasing screenPhrasing(const Site* site = nullptr) {
    QLocale locale;
    // Group separators read as decimal signs elsewhere.
    locale.setNumberOptions(QLocale::OmitGroupSeparator);
    return {locale, true, site};
}
[[nodiscard]] inline Phrasing screenPhrasing(const Site& site) { return screenPhrasing(&site); }

} // namespace headmark
