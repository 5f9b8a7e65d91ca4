#pragma once
// How sentences are to be made: in which language, with which number format, and with which site's names.
// Language and number format are chosen apart, so that an English sheet can carry a decimal comma.
// Text templates name their figures in braces, "{flow_m3_h}"; the key's ending tells unit and digits.

#include "analysis/core/error.h"
#include "analysis/duty/site.h"
#include "app/words/word_units.h"

#include <QLocale>
#include <QString>
#include <QStringList>

#include <functional>
#include <string_view>

namespace headmark {

struct Phrasing {
    QLocale locale = QLocale::c();
    bool translated = false;          // false: English, whatever translator is installed
    const Site* site = nullptr;       // names zones and items where given; not owned
    const WordUnits* units = nullptr; // null: the units of the keys; not owned

    [[nodiscard]] QString text(const char* context, const char* source) const;
};

// English with a decimal point: JSON text, and the default everywhere.
[[nodiscard]] Phrasing englishPhrasing(const Site* site = nullptr);

// "suction[1]" -> "item 2 of the suction run (suction_hose_51)"; "zones[2].branch[0]" -> "item 1 of the
// branch of zone 3"; "pumps[0].readings[0].lines[1]" -> "line 2 of reading 1 of pump 1"; what it does not
// know is given back as it is.
[[nodiscard]] QString placeWords(std::string_view place, const Phrasing& phrasing);

// "a", "b" and "c" as "a, b and c".
[[nodiscard]] QString listWords(const QStringList& parts, const Phrasing& phrasing);

[[nodiscard]] QString capitalised(QString text);

// The template with every "{key}" replaced by what `of` gives for it. `before` is the text made so far.
[[nodiscard]] QString
filledTemplate(const QString& pattern,
               const std::function<QString(const QString& key, const QString& before)>& of);

// A fact's words: text as it stands, a list with commas, a number through number_words; null: "not known".
[[nodiscard]] QString factWords(const Fact* fact, const Phrasing& phrasing, int moreDigits = 0);

} // namespace headmark
