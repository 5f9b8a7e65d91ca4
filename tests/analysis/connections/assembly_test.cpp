#include "analysis/connections/assembly.h"

#include "sheet_sites.h"

#include <map>

namespace headmark {
namespace {

using namespace testing;

TEST(Assembly, BuildsInEveryPartAndFillsLast) {
    for (const NamedSite& named : sitesOfEveryKind()) {
        for (const Variant& variant : outletVariants()) {
            SCOPED_TRACE(named.name + ", " + variant.name);
            const ConnectionSheet sheet = sheetOf(withVariant(named.site, variant), variant);
            const std::vector<AssemblyStep> steps = assemblyOf(sheet);
            std::map<std::size_t, int> built;
            for (const AssemblyStep& step : steps) {
                for (std::size_t part : step.parts) {
                    // Joined, or wired where it stands already.
                    const bool again =
                        step.code == "join-suction" ||
                        (step.code == "wire-control" && (sheet.parts[part].line != SheetLine::control ||
                                                         sheet.parts[part].part == "submersible_cable"));
                    built[part] += again ? 0 : 1;
                }
            }
            for (std::size_t i = 0; i < sheet.parts.size(); ++i)
                EXPECT_EQ(built[i], 1) << sheet.parts[i].part;
            EXPECT_EQ(steps.front().code, "check-parts");
            EXPECT_EQ(steps.back().code, sheet.submersible ? "fill-and-test-submersed"
                                         : sheet.lift      ? "fill-and-test-lift"
                                                           : "fill-and-test");
        }
    }
}

TEST(Assembly, MakesUpTheThreadsOnThePumpBeforeTheLinesAreJoined) {
    const ConnectionSheet sheet = sheetOf(sitesOfEveryKind()[4].site);
    std::map<std::string, std::size_t> order;
    const std::vector<AssemblyStep> steps = assemblyOf(sheet);
    for (std::size_t i = 0; i < steps.size(); ++i)
        order[steps[i].code] = i;
    EXPECT_LT(order.at("place-pump"), order.at("make-up-on-inlet"));
    EXPECT_LT(order.at("make-up-on-inlet"), order.at("join-suction"));
    EXPECT_LT(order.at("make-up-on-outlet"), order.at("build-outlet"));
    EXPECT_LT(order.at("build-outlet"), order.at("fit-accessories"));
    // The part next to the pump is made up on it.
    const AssemblyStep& inlet = steps[order.at("make-up-on-inlet")];
    EXPECT_EQ(sheet.parts[inlet.parts.back() + 1].part, "pump");
}

} // namespace
} // namespace headmark
