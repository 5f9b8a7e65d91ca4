// Runs nobody would build: whatever the job holds, there is a sheet, its joints are right or marked, every
// item is accounted for, and the drawing stays legible.
#include "analysis/connections/assembly.h"
#include "analysis/connections/bill.h"
#include "analysis/connections/schematic.h"
#include "sheet_sites.h"

#include <random>

namespace headmark {
namespace {

using namespace testing;

template <class Rows>
std::size_t pick(std::mt19937& random, const Rows& rows) {
    return random() % rows.size();
}

RunItem anyItem(std::mt19937& random) {
    const auto pipes = pipeRows();
    const auto fittings = fittingRows();
    const auto filters = filterRows();
    const std::vector<const char*> sizes{"", "1/2", "1", "1-1/4", "2", "3", "4", "6", "32 mm", "b=0.80"};
    switch (random() % 8) {
    case 0:
    case 1:
        return pipe(pipes[pick(random, pipes)].kind.code.c_str(), 1.0 + static_cast<double>(random() % 30));
    case 2:
        return filters[pick(random, filters)].item;
    case 3:
        return TakeoffItem{"somewhere"};
    case 4:
        return RegulatorItem{GaugePressure::fromKilopascals(200), Pressure{}, "", "1"};
    case 5: {
        FittingItem spelled;
        spelled.k = 2.0;
        spelled.bore = Length::fromMillimetres(40.0);
        return spelled;
    }
    default:
        return fitting(fittings[pick(random, fittings)].code.c_str(), sizes[pick(random, sizes)],
                       static_cast<int>(1 + random() % 3));
    }
}

headmark::Run anyRun(std::mt19937& random, std::size_t most) {
    headmark::Run run;
    for (std::size_t i = random() % (most + 1); i > 0; --i)
        run.push_back(anyItem(random));
    return run;
}

struct AnySite {
    Site site;
    Variant variant;
};

AnySite anySite(unsigned seed) {
    std::mt19937 random(seed);
    const auto kinds = sourceKindRows();
    const std::vector<const char*> ports{"G 1",   "G 2 A", "Rp 1-1/2", "Rc 3/4", "R 2",
                                         "DN 50", "",      "G 4",      "DN 150"};
    AnySite any;
    any.variant = outletVariants()[random() % 6];
    any.variant.inlet = ports[pick(random, ports)];
    any.variant.outlet = ports[pick(random, ports)];
    headmark::Run suction = anyRun(random, 6), delivery = anyRun(random, 10);
    any.site = withVariant(siteOf(kinds[pick(random, kinds)].code.c_str(), std::move(suction),
                                  std::move(delivery), static_cast<double>(random() % 5) - 3.0),
                           any.variant);
    return any;
}

bool lossOnly(const RunItem& item) {
    if (std::holds_alternative<TakeoffItem>(item)) return true;
    const auto* fittingItem = std::get_if<FittingItem>(&item);
    return fittingItem && (isLossOnly(fittingItem->code) || fittingItem->code.starts_with("entrance_"));
}

TEST(RandomRuns, AlwaysGiveASheetWithRightJointsAndEveryItem) {
    for (unsigned seed = 1; seed <= 60; ++seed) {
        SCOPED_TRACE(seed);
        const AnySite any = anySite(seed);
        const ConnectionSheet sheet = sheetOf(any.site, any.variant);
        for (const PlacedJoint& joint : sheet.joints)
            EXPECT_TRUE(joint.verdict.right)
                << sheet.parts[joint.before].part << " | " << sheet.parts[joint.after].part;
        for (const bool suction : {true, false}) {
            const headmark::Run& run = suction ? any.site.suction : any.site.delivery;
            for (std::size_t i = 0; i < run.size(); ++i) {
                const std::string place = (suction ? "suction[" : "delivery[") + std::to_string(i) + "]";
                int stands =
                    hasFinding(sheet, "listed-part-without-place", place) || lossOnly(run[i]) ? 1 : 0;
                for (const PlacedPart& part : sheet.parts)
                    stands += part.place == place ? part.count : 0;
                EXPECT_GE(stands, 1) << place;
            }
        }
    }
}

TEST(RandomRuns, AlwaysGiveALegibleDrawingABillAndAnOrder) {
    for (unsigned seed = 1; seed <= 60; ++seed) {
        SCOPED_TRACE(seed);
        const AnySite any = anySite(seed);
        const ConnectionSheet sheet = sheetOf(any.site, any.variant);
        const Schematic drawing = schematicOf(sheet);
        const DrawBox paper{0.0, 0.0, drawing.width, drawing.height};
        EXPECT_TRUE(paper.contains(extentOf(drawing.strokes())));
        for (std::size_t i = 0; i < drawing.labels.size(); ++i) {
            for (std::size_t k = i + 1; k < drawing.labels.size(); ++k)
                EXPECT_FALSE(drawing.labels[i].box.overlaps(drawing.labels[k].box)) << drawing.labels[i].text;
            for (const SchematicSymbol& symbol : drawing.symbols)
                EXPECT_FALSE(drawing.labels[i].box.overlaps(symbol.box)) << drawing.labels[i].text;
        }
        EXPECT_FALSE(billOf(sheet).empty());
        EXPECT_EQ(assemblyOf(sheet).front().code, "check-parts");
    }
}

} // namespace
} // namespace headmark
