#include "app/desktop/frame/screen_phrasing.h"

namespace headmark {

namespace {

// One for the whole screen, as theme and locale are.
WordUnits& chosenUnits() {
    static WordUnits units;
    return units;
}

} // namespace

Phrasing screenPhrasing(const Site* site) {
    QLocale locale;
    // Group separators read as decimal signs elsewhere.
    locale.setNumberOptions(QLocale::OmitGroupSeparator);
    return {locale, true, site, &chosenUnits()};
}

void setScreenUnits(const WordUnits& units) { chosenUnits() = units; }

} // namespace headmark
