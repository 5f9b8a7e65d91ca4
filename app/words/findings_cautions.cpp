// A pump's cautions for the table of findings: each once, by severity, with the cases it holds for and its
// remedy.
#include "app/words/caution_words.h"
#include "app/words/findings_parts.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>

namespace headmark {

namespace {

constexpr const char* kContext = "Findings";

#define HM_WORDS(text) QT_TRANSLATE_NOOP("Findings", text)

struct SharedCaution {
    const Caution* worst;
    QString worstCase;
    QStringList cases;
    bool sameFigures = true;
};

// How bad it is, among cautions of one code: how far the first figure is beyond its limit of the same unit,
// as a ratio either way; 0 where no limit stands.
double exceedance(const Caution& caution) {
    const auto number = [&](std::string_view key) {
        const Fact* fact = findFact(caution.values, key);
        return fact ? std::get_if<double>(&fact->value) : nullptr;
    };
    if (number("margin_m") && number("limit_m")) return *number("limit_m") - *number("margin_m");
    if (const double* share = number("share_of_best_flow"); share && *share > 0.0)
        return std::abs(std::log(*share));
    for (const Fact& limit : caution.values) {
        if (!limit.key.starts_with("limit_")) continue;
        const std::string unit = limit.key.substr(std::string_view("limit_").size());
        const auto* bound = std::get_if<double>(&limit.value);
        for (const Fact& found : caution.values) {
            const auto* value = std::get_if<double>(&found.value);
            if (!bound || !value || &found == &limit || !found.key.ends_with("_" + unit)) continue;
            if (*value <= 0.0 || *bound <= 0.0) return std::abs(*value - *bound);
            return std::abs(std::log(*value / *bound));
        }
    }
    return 0.0;
}

bool worse(const Caution& a, const Caution& b) {
    return a.severity != b.severity ? a.severity > b.severity : exceedance(a) > exceedance(b);
}

// Of a caution about one kind of part among several.
bool ofOnePart(const Caution& a, const Caution& b) {
    const Fact *x = findFact(a.values, "part"), *y = findFact(b.values, "part");
    return !x || !y || x->value == y->value;
}

void add(std::vector<SharedCaution>& shared, const Caution& caution, const QString& caseName) {
    const auto known = std::find_if(shared.begin(), shared.end(), [&](const SharedCaution& s) {
        return s.worst->code == caution.code && s.worst->place == caution.place &&
               ofOnePart(*s.worst, caution);
    });
    if (known == shared.end()) {
        shared.push_back({&caution, caseName, {caseName}});
        return;
    }
    known->cases << caseName;
    known->sameFigures = known->sameFigures && known->worst->values == caution.values;
    if (worse(caution, *known->worst)) {
        known->worst = &caution;
        known->worstCase = caseName;
    }
}

QString casesWords(const SharedCaution& s, qsizetype caseCount, const Phrasing& p) {
    QStringList named = s.cases;
    named.removeAll(QString());
    if (named.isEmpty() || caseCount == 1) return {};
    const QString cases = named.size() == caseCount ? p.text(kContext, HM_WORDS("in every case"))
                                                    : named.join(QStringLiteral("; "));
    if (s.sameFigures || named.size() == 1 || s.worstCase.isEmpty())
        return QStringLiteral(" [%1]").arg(cases);
    return p.text(kContext, HM_WORDS(" [%1; figures of the worst, %2]")).arg(cases, s.worstCase);
}

} // namespace

void writeCautions(TextPage& page, const PumpFindings& pump, const Phrasing& p) {
    std::vector<SharedCaution> shared;
    for (const Caution& c : pump.cautions)
        add(shared, c, {});
    for (const Study& study : pump.installation) {
        for (const Caution& c : study.cautions)
            add(shared, c, {});
    }
    if (pump.connections) {
        for (const Caution& c : pump.connections->sheet.findings)
            add(shared, c, {});
    }
    for (const CaseAnswer& a : pump.cases) {
        for (const Caution& c : a.cautions)
            add(shared, c, QString::fromStdString(a.name));
    }
    if (shared.empty()) return;
    std::stable_sort(shared.begin(), shared.end(), [](const SharedCaution& a, const SharedCaution& b) {
        return a.worst->severity > b.worst->severity;
    });
    page.blank();
    page.title(p.text(kContext, HM_WORDS("Cautions")), QLatin1Char('-'));
    for (const SharedCaution& s : shared) {
        page.item(severityWords(s.worst->severity, p) + QStringLiteral(": ") + cautionSentence(*s.worst, p) +
                  casesWords(s, static_cast<qsizetype>(pump.cases.size()), p));
        const QString remedy = remedySentence(*s.worst, p);
        if (!remedy.isEmpty()) page.paragraph(p.text(kContext, HM_WORDS("What to do: %1")).arg(remedy), 4);
    }
}

} // namespace headmark
