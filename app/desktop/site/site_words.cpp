#include "app/desktop/site/site_words.h"

#include "app/words/error_words.h"

namespace headmark {

std::string rowPlace(const RunSpot& spot) {
    const bool wholeRun = spot.index < 0 && (spot.part == RunPart::suction || spot.part == RunPart::delivery);
    if (wholeRun) return placeOf({RunPart::pump, -1, -1});
    if (spot.part == RunPart::branch && spot.index < 0) return placeOf({RunPart::zone, spot.zone, -1});
    return placeOf(spot);
}

QString siteSentence(const Error& error, const Site& site) {
    Error named = error;
    named.file.clear();
    if (const auto spot = spotOf(error.place))
        named.place = capitalised(placeWords(placeOf(*spot), screenPhrasing(site))).toStdString();
    return sentence(named);
}

void moveUsualLevel(Site& site, Level usual) {
    if (!site.source) site.source.emplace();
    WaterSource& source = *site.source;
    const Head below = source.usual - source.low;
    const Head above = source.high - source.usual;
    source.levelsGiven = true;
    source.usual = usual;
    source.low = usual - below;
    source.high = usual + above;
}

} // namespace headmark
