#pragma once
// The catalogue of pipes, fittings and filters: CSV tables in analysis/pipework/data, each row with its
// source and confidence, embedded at build time. Codes are looked up exactly; near ones can be suggested.

#include "analysis/pipework/run.h"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace headmark {

enum class LossModel { kConstant, ldMultiple, darby3k, kvTable, formula };

struct FittingRow {
    std::string code, description;
    LossModel model = LossModel::kConstant;
    std::string size; // empty: any
    double k = 0.0, ld = 0.0, k1 = 0.0, ki = 0.0, kd = 0.0, kv_m3_h = 0.0;
    std::string velocityBasis;
    double crackHead_m = 0.0;
    std::string confidence, source, notes;
};

struct PipeRow {
    PipeKind kind;
    std::string material, designation, confidence, source;
    double outerDiameter_mm = 0.0, wall_mm = 0.0, elasticity_GPa = 0.0, poisson = 0.0, waveSpeed_m_s = 0.0;
};

struct FilterRow {
    FilterItem item;
    std::string type, size, confidence, source;
    double micron = 0.0;
};

struct ThreadRow {
    std::string designation;
    double steelTubeBore_mm = 0.0; // 0: none
    int dn = 0;                    // 0: none
    double majorDiameter_mm = 0.0;
};

struct SourceKindRow {
    std::string code, name, levelAgainstPump, pumpAllowed;
};

// One row of velocities_and_limits.csv.
struct LimitRow {
    std::string code, quantity, unit, appliesTo, formula, confidence, source;
    std::optional<double> value, low, high;
};

[[nodiscard]] std::span<const PipeRow> pipeRows();
[[nodiscard]] std::span<const FittingRow> fittingRows();
[[nodiscard]] std::span<const FilterRow> filterRows();
[[nodiscard]] std::span<const ThreadRow> threadRows();
[[nodiscard]] std::span<const SourceKindRow> sourceKindRows();
[[nodiscard]] std::span<const LimitRow> limitRows();

// First row of that code (fittings: of any size), or null.
[[nodiscard]] const PipeRow* findPipe(std::string_view code);
[[nodiscard]] const FittingRow* findFitting(std::string_view code);
[[nodiscard]] const FilterRow* findFilter(std::string_view code);
[[nodiscard]] const SourceKindRow* findSourceKind(std::string_view code);
[[nodiscard]] const LimitRow* findLimit(std::string_view code, std::string_view appliesTo = {});

// Fully turbulent friction factor by nominal size (Crane TP-410), or 0 where the table has none.
[[nodiscard]] double turbulentFrictionFactor(std::string_view size);

// At most `most` of the codes, nearest first by edit distance and shared words; empty if none is near.
[[nodiscard]] std::vector<std::string> nearestCodes(std::string_view wrong,
                                                    std::span<const std::string> codes, std::size_t most = 3);

} // namespace headmark
