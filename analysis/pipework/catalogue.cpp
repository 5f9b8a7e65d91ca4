#include "analysis/pipework/catalogue.h"

#include "analysis/core/assertion.h"
#include "analysis/core/csv.h"

#include <algorithm>
#include <array>
#include <utility>

namespace headmark::embedded {
std::string_view pipes_csv();
std::string_view fittings_csv();
std::string_view filters_csv();
std::string_view ft_turbulent_csv();
std::string_view threads_csv();
std::string_view velocities_and_limits_csv();
std::string_view water_sources_csv();
} // namespace headmark::embedded

namespace headmark {

namespace {

// One row of each table by its own reader.
template <class Row>
std::vector<Row> readRows(std::string_view text, Row (*read)(const CsvTable&, std::size_t)) {
    const CsvTable table(text);
    std::vector<Row> rows;
    rows.reserve(table.rows());
    for (std::size_t i = 0; i < table.rows(); ++i) {
        rows.push_back(read(table, i));
    }
    return rows;
}

PipeRow readPipe(const CsvTable& table, std::size_t i) {
    PipeRow row;
    row.kind.code = table.text(i, "id");
    row.kind.bore = Length::fromMillimetres(table.number(i, "id_mean_mm"));
    row.kind.roughness = Length::fromMillimetres(table.number(i, "roughness_mm"));
    row.kind.hazenWilliamsC = table.number(i, "hazen_williams_c");
    row.kind.rating = Pressure::fromBars(table.number(i, "pn_bar"));
    row.kind.mayBeSuction = table.text(i, "suction_use") != "no";
    row.material = table.text(i, "material");
    row.designation = table.text(i, "designation");
    row.confidence = table.text(i, "confidence");
    row.source = table.text(i, "source");
    row.outerDiameter_mm = table.number(i, "od_mm");
    row.wall_mm = table.number(i, "wall_mm");
    row.elasticity_GPa = table.number(i, "e_gpa");
    row.poisson = table.number(i, "poisson");
    row.waveSpeed_m_s = table.number(i, "wave_speed_ms");
    return row;
}

LossModel lossModel(std::string_view name) {
    constexpr std::array<std::pair<std::string_view, LossModel>, 5> kNames = {{
        {"k_constant", LossModel::kConstant},
        {"ld_multiple", LossModel::ldMultiple},
        {"darby_3k", LossModel::darby3k},
        {"kv_table", LossModel::kvTable},
        {"formula", LossModel::formula},
    }};
    const auto found =
        std::find_if(kNames.begin(), kNames.end(), [&](const auto& n) { return n.first == name; });
    HEADMARK_ASSERT(found != kNames.end(), "unknown loss model in the fittings table");
    return found->second;
}

FittingRow readFitting(const CsvTable& table, std::size_t i) {
    FittingRow row;
    row.code = table.text(i, "code");
    row.description = table.text(i, "description");
    row.model = lossModel(table.text(i, "model"));
    row.size = table.text(i, "size");
    row.k = table.number(i, "k");
    row.ld = table.number(i, "ld");
    row.k1 = table.number(i, "k1");
    row.ki = table.number(i, "ki");
    row.kd = table.number(i, "kd");
    row.kv_m3_h = table.number(i, "kv_m3h");
    row.velocityBasis = table.text(i, "velocity_basis");
    row.crackHead_m = table.number(i, "crack_head_m");
    row.confidence = table.text(i, "confidence");
    row.source = table.text(i, "source");
    row.notes = table.text(i, "notes");
    return row;
}

FilterRow readFilter(const CsvTable& table, std::size_t i) {
    FilterRow row;
    row.item.code = table.text(i, "code");
    row.item.loss = Pressure::fromKilopascals(table.number(i, "clean_loss_kpa"));
    row.item.at = Flow::fromCubicMetresPerHour(table.number(i, "ref_flow_m3h"));
    row.item.exponent = table.number(i, "exponent", 2.0);
    row.item.service = Pressure::fromKilopascals(table.number(i, "clean_at_kpa"));
    if (!table.empty(i, "max_flow_m3h")) {
        row.item.greatestFlow = Flow::fromCubicMetresPerHour(table.number(i, "max_flow_m3h"));
    }
    row.type = table.text(i, "type");
    row.size = table.text(i, "bsp_size");
    row.confidence = table.text(i, "confidence");
    row.source = table.text(i, "source");
    row.micron = table.number(i, "micron");
    return row;
}

ThreadRow readThread(const CsvTable& table, std::size_t i) {
    return {table.text(i, "designation"), table.number(i, "steel_tube_bore_mm"),
            static_cast<int>(table.number(i, "dn")), table.number(i, "major_diameter_mm")};
}

SourceKindRow readSourceKind(const CsvTable& table, std::size_t i) {
    return {table.text(i, "code"), table.text(i, "name"), table.text(i, "level_vs_pump"),
            table.text(i, "surface_pump_allowed")};
}

std::optional<double> optionalNumber(const CsvTable& table, std::size_t i, std::string_view column) {
    if (table.empty(i, column)) {
        return std::nullopt;
    }
    return table.number(i, column);
}

LimitRow readLimit(const CsvTable& table, std::size_t i) {
    LimitRow row;
    row.code = table.text(i, "code");
    row.quantity = table.text(i, "quantity");
    row.unit = table.text(i, "unit");
    row.appliesTo = table.text(i, "applies_to");
    row.formula = table.text(i, "formula");
    row.confidence = table.text(i, "confidence");
    row.source = table.text(i, "source");
    row.value = optionalNumber(table, i, "value");
    row.low = optionalNumber(table, i, "low");
    row.high = optionalNumber(table, i, "high");
    return row;
}

struct TurbulentFriction {
    std::string size;
    double factor;
};

TurbulentFriction readTurbulentFriction(const CsvTable& table, std::size_t i) {
    return {table.text(i, "size"), table.number(i, "ft")};
}

template <class Rows, class Matches>
auto firstRow(const Rows& rows, Matches matches) -> decltype(&*rows.begin()) {
    const auto found = std::find_if(rows.begin(), rows.end(), matches);
    return found == rows.end() ? nullptr : &*found;
}

} // namespace

std::span<const PipeRow> pipeRows() {
    static const auto rows = readRows(embedded::pipes_csv(), readPipe);
    return rows;
}

std::span<const FittingRow> fittingRows() {
    static const auto rows = readRows(embedded::fittings_csv(), readFitting);
    return rows;
}

std::span<const FilterRow> filterRows() {
    static const auto rows = readRows(embedded::filters_csv(), readFilter);
    return rows;
}

std::span<const ThreadRow> threadRows() {
    static const auto rows = readRows(embedded::threads_csv(), readThread);
    return rows;
}

std::span<const SourceKindRow> sourceKindRows() {
    static const auto rows = readRows(embedded::water_sources_csv(), readSourceKind);
    return rows;
}

std::span<const LimitRow> limitRows() {
    static const auto rows = readRows(embedded::velocities_and_limits_csv(), readLimit);
    return rows;
}

const PipeRow* findPipe(std::string_view code) {
    return firstRow(pipeRows(), [&](const PipeRow& row) { return row.kind.code == code; });
}

const FittingRow* findFitting(std::string_view code) {
    return firstRow(fittingRows(), [&](const FittingRow& row) { return row.code == code; });
}

const FilterRow* findFilter(std::string_view code) {
    return firstRow(filterRows(), [&](const FilterRow& row) { return row.item.code == code; });
}

const SourceKindRow* findSourceKind(std::string_view code) {
    return firstRow(sourceKindRows(), [&](const SourceKindRow& row) { return row.code == code; });
}

const LimitRow* findLimit(std::string_view code, std::string_view appliesTo) {
    return firstRow(limitRows(), [&](const LimitRow& row) {
        return row.code == code && (appliesTo.empty() || row.appliesTo == appliesTo);
    });
}

double turbulentFrictionFactor(std::string_view size) {
    static const auto rows = readRows(embedded::ft_turbulent_csv(), readTurbulentFriction);
    const auto* row = firstRow(rows, [&](const TurbulentFriction& r) { return r.size == size; });
    return row ? row->factor : 0.0;
}

} // namespace headmark
