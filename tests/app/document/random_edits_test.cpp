#include "app/document/document.h"

#include "document_fixtures.h"

#include <gtest/gtest.h>

#include <random>

namespace headmark::test {
namespace {

constexpr int kEdits = 1000; // the promise in the task

class RandomEdits {
  public:
    explicit RandomEdits(unsigned seed) : dice_(seed) {}

    void operator()(Workspace& w) {
        constexpr int kKinds = 9;
        switch (below(kKinds)) {
        case 0:
            w.job.title = "Garden " + std::to_string(below(5));
            break;
        case 1:
            editRun(w.job.site.delivery);
            break;
        case 2:
            editZones(w.job.site.zones);
            break;
        case 3:
            editPumps(w.job.pumps);
            break;
        case 4:
            addSheet(w);
            break;
        case 5:
        case 6:
            editReading(w);
            break;
        case 7:
            w.job.water.temperature = Temperature::fromCelsius(real(2.0, 30.0));
            break;
        default:
            if (!w.charts.empty())
                w.charts.erase(w.charts.begin() + below(static_cast<int>(w.charts.size())));
        }
    }
    int below(int end) { return std::uniform_int_distribution<int>(0, end - 1)(dice_); }

  private:
    double real(double least, double greatest) {
        return std::uniform_real_distribution<double>(least, greatest)(dice_);
    }
    void editRun(Run& run) {
        if (run.size() > 6 || (!run.empty() && below(3) == 0)) {
            run.erase(run.begin() + below(static_cast<int>(run.size())));
            return;
        }
        PipeItem pipe;
        pipe.kind.bore = Length::fromInches(real(0.5, 3.0));
        pipe.kind.roughness = Length::fromMillimetres(0.007);
        pipe.length = Length::fromFeet(real(1.0, 300.0));
        run.insert(run.begin() + below(static_cast<int>(run.size()) + 1), pipe);
    }
    void editZones(std::vector<Zone>& zones) {
        if (zones.size() < 4 && below(2) == 0) {
            Zone zone = blankWorkspace().job.site.zones[0];
            zone.name = "Zone " + std::to_string(below(1000));
            zones.push_back(zone);
        } else if (!zones.empty()) {
            zones[static_cast<std::size_t>(below(static_cast<int>(zones.size())))].level =
                Level::fromMetres(real(-3.0, 20.0));
        }
    }
    void editPumps(std::vector<Pump>& pumps) {
        if (pumps.size() < 3)
            pumps.push_back(tablePump("Pump " + std::to_string(below(1000))));
        else
            pumps.erase(pumps.begin() + below(3));
    }
    void addSheet(Workspace& w) {
        if (w.charts.size() >= 3) return;
        w.charts.push_back(
            {freeChartPath(w, "page.png"), std::make_shared<const Reading>(pageReading("page.png"))});
    }
    void editReading(Workspace& w) {
        if (w.charts.empty()) return;
        auto& sheet = w.charts[static_cast<std::size_t>(below(static_cast<int>(w.charts.size())))];
        Reading reading = *sheet.reading;
        if (below(2) == 0)
            reading.lines[0].spots.push_back({real(0.0, 600.0), real(0.0, 400.0)});
        else
            reading.pins[static_cast<std::size_t>(below(3))].at = {real(0.0, 600.0), real(0.0, 400.0)};
        sheet.reading = std::make_shared<const Reading>(std::move(reading));
    }

    std::mt19937 dice_;
};

TEST(RandomEdits, AThousandAllUndoneAndAllRedoneGiveTheSameDocuments) {
    Document document;
    document.startNew(blankWorkspace());
    RandomEdits edits(20240611);
    std::vector<std::string> states{textOf(document.workspace())}; // one per step, and the first
    int drag = 0;
    for (int i = 0; i < kEdits; ++i) {
        if (edits.below(3) == 0) drag = document.newDrag();
        const int count = document.undoStack().count();
        document.edit(QStringLiteral("Edit"), std::ref(edits), edits.below(2) == 0 ? drag : 0);
        const int now = document.undoStack().count();
        ASSERT_LE(now, count + 1);
        states.resize(
            static_cast<std::size_t>(now)); // those before this step, which may have merged or vanished
        states.push_back(textOf(document.workspace()));
    }
    QUndoStack& stack = document.undoStack();
    ASSERT_EQ(states.size(), static_cast<std::size_t>(stack.count()) + 1);
    ASSERT_GT(stack.count(), kEdits / 3); // a test of undo, not of doing nothing
    for (int i = stack.count(); i > 0; --i) {
        stack.undo();
        ASSERT_EQ(textOf(document.workspace()), states[static_cast<std::size_t>(i) - 1])
            << "undoing step " << i;
    }
    EXPECT_FALSE(stack.canUndo());
    EXPECT_FALSE(document.isChanged());
    for (int i = 1; i <= stack.count(); ++i) {
        stack.redo();
        ASSERT_EQ(textOf(document.workspace()), states[static_cast<std::size_t>(i)]) << "redoing step " << i;
    }
}

} // namespace
} // namespace headmark::test
