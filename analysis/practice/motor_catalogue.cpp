#include "analysis/practice/motor_catalogue.h"

#include "analysis/core/csv.h"

#include <algorithm>
#include <cctype>
#include <cstdlib>
#include <string>

namespace headmark::embedded {
std::string_view motors_csv();
}

namespace headmark {

UsualMotor usualMotor(int phases, Power rated) {
    static const CsvTable table(embedded::motors_csv());
    const char* type = phases == 1 ? "permanent capacitor" : "cage induction";
    std::optional<UsualMotor> last;
    for (std::size_t i = 0; i < table.rows(); ++i) {
        if (table.text(i, "type") != type || table.number(i, "poles") != 2.0) continue;
        last = UsualMotor{Power::fromKilowatts(table.number(i, "p2_kw")),
                          Efficiency::fromPercent(table.number(i, "eff_typical_pct")),
                          table.number(i, "pf_typical")};
        if (rated.inWatts() <= last->rated.inWatts() * (1.0 + 1e-9)) break;
    }
    return last.value_or(UsualMotor{});
}

std::optional<MotorSupply> supplyIn(std::string_view words) {
    std::string lower(words);
    std::transform(lower.begin(), lower.end(), lower.begin(),
                   [](unsigned char c) { return c == '-' ? ' ' : static_cast<char>(std::tolower(c)); });
    const auto has = [&](const char* part) { return lower.find(part) != std::string::npos; };
    std::optional<int> phases;
    if (has("three") || has("3 ph") || has("3~"))
        phases = 3;
    else if (has("single") || has("1 ph") || has("one ph") || has("1~"))
        phases = 1;
    std::optional<double> volts;
    for (std::size_t at = lower.find('v'); at != std::string::npos && !volts; at = lower.find('v', at + 1)) {
        std::size_t from = at;
        while (from > 0 && lower[from - 1] == ' ')
            --from;
        std::size_t begin = from;
        while (begin > 0 && std::isdigit(static_cast<unsigned char>(lower[begin - 1])))
            --begin;
        const double found = std::strtod(lower.substr(begin, from - begin).c_str(), nullptr);
        if (found >= 12.0 && found <= 1000.0) volts = found;
    }
    if (!phases && !volts) return std::nullopt;
    constexpr double kOnePhaseBelow_V = 300.0;
    if (!phases) phases = *volts < kOnePhaseBelow_V ? 1 : 3;
    return MotorSupply{*phases, volts.value_or(*phases == 1 ? 230.0 : 400.0)};
}

} // namespace headmark
