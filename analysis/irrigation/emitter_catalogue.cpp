#include "analysis/irrigation/emitter_catalogue.h"

#include "analysis/core/assertion.h"
#include "analysis/core/csv.h"

#include <algorithm>
#include <vector>

namespace headmark::embedded {
std::string_view emitters_csv();
}

namespace headmark {

namespace {

EmitterLaw lawOf(const CsvTable& table, std::size_t i) {
    EmitterLaw law;
    law.nominal = Flow::fromLitresPerHour(table.number(i, "q_nominal_lph"));
    law.at = Pressure::fromPascals(table.number(i, "h_nominal_m") * factor::kMetreOfWater_Pa);
    const double exponent = table.number(i, "x");
    if (exponent > 0.0) {
        law.exponent = exponent;
        return law;
    }
    law.exponent = 0.5; // below its range
    law.regulatedFrom = Pressure::fromKilopascals(table.number(i, "p_min_kpa"));
    law.regulatedTo = Pressure::fromKilopascals(table.number(i, "p_max_kpa"));
    return law;
}

EmitterRow readEmitter(const CsvTable& table, std::size_t i) {
    EmitterRow row;
    row.code = table.text(i, "code");
    row.name = table.text(i, "name");
    row.kind = table.text(i, "kind");
    const std::string& per = table.text(i, "per");
    HEADMARK_ASSERT(per == "each" || per == "metre", "an outlet that is rated neither each nor per metre");
    row.perMetre = per == "metre";
    row.law = lawOf(table, i);
    row.least = GaugePressure::fromKilopascals(table.number(i, "p_min_kpa"));
    row.greatest = GaugePressure::fromKilopascals(table.number(i, "p_max_kpa"));
    if (!table.empty(i, "variation")) row.variationShare = table.number(i, "variation");
    row.filtration_micron = table.number(i, "filtration_micron");
    row.confidence = table.text(i, "confidence");
    row.source = table.text(i, "source");
    return row;
}

std::vector<EmitterRow> readEmitters() {
    const CsvTable table(embedded::emitters_csv());
    std::vector<EmitterRow> rows;
    rows.reserve(table.rows());
    for (std::size_t i = 0; i < table.rows(); ++i) {
        rows.push_back(readEmitter(table, i));
    }
    return rows;
}

} // namespace

std::span<const EmitterRow> emitterRows() {
    static const std::vector<EmitterRow> rows = readEmitters();
    return rows;
}

const EmitterRow* findEmitterType(std::string_view code) {
    const auto rows = emitterRows();
    const auto found =
        std::find_if(rows.begin(), rows.end(), [&](const EmitterRow& row) { return row.code == code; });
    return found == rows.end() ? nullptr : &*found;
}

} // namespace headmark
