#include "app/desktop/site/section_drawing.h"

#include <algorithm>
#include <map>

namespace headmark {

namespace {

// Room of each kind of item, relative to each other.
constexpr double kSourceRoom = 11.0;
constexpr double kPumpRoom = 5.0;
constexpr double kFittingRoom = 0.7;
constexpr double kFilterRoom = 6.0;
constexpr double kLeastPipeRoom = 3.0;
constexpr double kAllPipesRoom = 45.0; // of the delivery, shared by length
constexpr double kSuctionPipesRoom = 8.0;
constexpr double kZoneRoom = 6.0;
constexpr double kOutletRoom = 7.0;

class Drawing {
  public:
    Drawing(const Site& site, const Case* setting, const std::vector<LongSectionItem>& items)
        : site_(site), setting_(setting) {
        for (const LongSectionItem& item : items)
            computed_.emplace(item.place, &item);
    }

    SectionDrawing make() {
        out_.drawable = !site_.system.has_value();
        drawSource();
        drawRun(site_.suction, RunPart::suction, kSuctionPipesRoom, out_.suction);
        at_ += kPumpRoom / 2.0;
        drawPump();
        at_ += kPumpRoom / 2.0;
        drawRun(site_.delivery, RunPart::delivery, kAllPipesRoom, out_.delivery);
        zonesAt("", at_, levelTold_);
        if (site_.end) {
            out_.outlet_m = site_.end->level.inMetres();
            at_ += kOutletRoom;
        }
        at_ += 1.0;
        settleLevels();
        scale();
        findHeights();
        return std::move(out_);
    }

  private:
    void drawSource() {
        const WaterSource source = site_.source.value_or(WaterSource{});
        out_.low_m = source.low.inMetres();
        out_.usual_m = source.usual.inMetres();
        out_.high_m = source.high.inMetres();
        const WaterLevel level = setting_ ? setting_->level : WaterLevel::usual;
        out_.shown_m = level == WaterLevel::low    ? out_.low_m
                       : level == WaterLevel::high ? out_.high_m
                                                   : out_.usual_m;
        out_.waterAbovePump = source.usual > site_.pumpLevel;
        at_ = 2.0;
        out_.sourceFrom = at_;
        at_ += kSourceRoom;
        out_.sourceTo = at_;
        out_.hasReturn = site_.tankReturn.has_value();
    }

    void drawPump() {
        out_.pumpAt = at_;
        out_.pump_m = site_.pumpLevel.inMetres();
        levelTold_ = out_.pump_m;
        if (const auto found = computed_.find("pump"); found != computed_.end()) {
            out_.pumpBefore_m = found->second->energyBefore_m;
            out_.pumpAfter_m = found->second->energyAfter_m;
            out_.pumpAdds_m = -found->second->loss_m;
        }
    }

    static SectionItem::Symbol symbolOf(const RunItem& item, RunPart part, int index) {
        if (std::holds_alternative<PipeItem>(item)) return SectionItem::Symbol::pipe;
        if (std::holds_alternative<FilterItem>(item)) return SectionItem::Symbol::filter;
        if (std::holds_alternative<RegulatorItem>(item)) return SectionItem::Symbol::regulator;
        if (std::holds_alternative<TakeoffItem>(item)) return SectionItem::Symbol::takeoff;
        return part == RunPart::suction && index == 0 ? SectionItem::Symbol::inlet
                                                      : SectionItem::Symbol::fitting;
    }

    static double lengthOf(const RunItem& item) {
        const auto* pipe = std::get_if<PipeItem>(&item);
        return pipe ? pipe->length.inMetres() : 0.0;
    }

    void drawRun(const Run& run, RunPart part, double pipesRoom, std::vector<SectionItem>& out) {
        double whole_m = 0.0;
        for (const RunItem& item : run)
            whole_m += lengthOf(item);
        for (int i = 0; i < static_cast<int>(run.size()); ++i) {
            const RunItem& item = run[static_cast<std::size_t>(i)];
            SectionItem drawn;
            drawn.spot = {part, -1, i};
            drawn.symbol = symbolOf(item, part, i);
            drawn.from = at_;
            at_ += roomOf(drawn.symbol, whole_m > 0.0 ? pipesRoom * lengthOf(item) / whole_m : 0.0);
            drawn.to = at_;
            if (const auto found = computed_.find(placeOf(drawn.spot)); found != computed_.end()) {
                drawn.energyBefore_m = found->second->energyBefore_m;
                drawn.energyAfter_m = found->second->energyAfter_m;
                drawn.loss_m = found->second->loss_m;
                energy_ = drawn.energyAfter_m;
            }
            const auto* pipe = std::get_if<PipeItem>(&item);
            if (pipe && pipe->riseTo) {
                told_.push_back({at_, pipe->riseTo->inMetres(), part});
                levelTold_ = pipe->riseTo->inMetres();
            }
            out.push_back(drawn);
            if (const auto* takeoff = std::get_if<TakeoffItem>(&item); takeoff && part == RunPart::delivery)
                zonesAt(takeoff->name, drawn.to, levelTold_);
        }
    }

    static double roomOf(SectionItem::Symbol symbol, double byLength) {
        switch (symbol) {
        case SectionItem::Symbol::pipe:
            return std::max(kLeastPipeRoom, byLength);
        case SectionItem::Symbol::filter:
            return kFilterRoom;
        default:
            return kFittingRoom;
        }
    }

    void zonesAt(const std::string& takeoff, double leaves, double) {
        double lowest_m = 0.0;
        bool any = false;
        for (int z = 0; z < static_cast<int>(site_.zones.size()); ++z) {
            const Zone& zone = site_.zones[static_cast<std::size_t>(z)];
            if (zone.takeoff != takeoff) continue;
            SectionZone drawn;
            drawn.zone = z;
            drawn.name = zone.name;
            drawn.leaves = leaves;
            drawn.at = at_ + kZoneRoom / 2.0;
            drawn.level_m = zone.level.inMetres();
            drawn.open = setting_ && std::find(setting_->zonesOpen.begin(), setting_->zonesOpen.end(),
                                               zone.name) != setting_->zonesOpen.end();
            if (drawn.open) takeEnergies(drawn, zone);
            at_ += kZoneRoom;
            lowest_m = any ? std::min(lowest_m, drawn.level_m) : drawn.level_m;
            any = true;
            out_.zones.push_back(drawn);
        }
        const bool levelKnown = !told_.empty() && told_.back().part == RunPart::delivery;
        // Nobody said how the main rises: it is drawn to the lowest zone here.
        if (any && !levelKnown) told_.push_back({leaves, lowest_m, RunPart::zone});
    }

    void takeEnergies(SectionZone& drawn, const Zone& zone) const {
        if (!energy_) return;
        drawn.energyAtMain_m = energy_;
        drawn.energyAtEnd_m = energy_;
        if (zone.branch.empty()) return;
        const RunSpot last{RunPart::branch, drawn.zone, static_cast<int>(zone.branch.size()) - 1};
        if (const auto found = computed_.find(placeOf(last)); found != computed_.end())
            drawn.energyAtEnd_m = found->second->energyAfter_m;
    }

    // Straight between the heights that are told; level before the first and after the last.
    [[nodiscard]] double levelAt(double x) const {
        double beforeX = 0.0, before_m = out_.shown_m;
        bool any = false;
        for (const Told& told : told_) {
            if (told.at >= x) {
                if (!any || told.at <= beforeX) return told.level_m;
                return before_m + (told.level_m - before_m) * (x - beforeX) / (told.at - beforeX);
            }
            beforeX = told.at;
            before_m = told.level_m;
            any = true;
        }
        return before_m;
    }

    void settleLevels() {
        told_.push_back({out_.sourceTo, std::min(out_.shown_m, out_.low_m), RunPart::source});
        told_.push_back({out_.pumpAt, out_.pump_m, RunPart::pump});
        if (site_.end) told_.push_back({at_ - 1.0, site_.end->level.inMetres(), RunPart::outlet});
        std::stable_sort(told_.begin(), told_.end(),
                         [](const Told& a, const Told& b) { return a.at < b.at; });
        for (auto* run : {&out_.suction, &out_.delivery}) {
            for (SectionItem& item : *run) {
                item.levelFrom_m = levelAt(item.from);
                item.levelTo_m = levelAt(item.to);
            }
        }
        for (SectionZone& zone : out_.zones)
            zone.main_m = levelAt(zone.at);
    }

    void scale() {
        for (auto* x : {&out_.sourceFrom, &out_.sourceTo, &out_.pumpAt})
            *x /= at_;
        for (auto* run : {&out_.suction, &out_.delivery}) {
            for (SectionItem& item : *run) {
                item.from /= at_;
                item.to /= at_;
            }
        }
        for (SectionZone& zone : out_.zones) {
            zone.at /= at_;
            zone.leaves /= at_;
        }
    }

    void findHeights() {
        double least = std::min({out_.low_m, out_.shown_m, out_.pump_m});
        double greatest = std::max({out_.high_m, out_.pump_m});
        const auto take = [&](double height) {
            least = std::min(least, height);
            greatest = std::max(greatest, height);
        };
        for (const Told& told : told_)
            take(told.level_m);
        for (const SectionZone& zone : out_.zones) {
            take(zone.level_m);
            if (zone.energyAtEnd_m) take(*zone.energyAtEnd_m);
        }
        if (out_.outlet_m) take(*out_.outlet_m);
        if (out_.pumpAfter_m) take(*out_.pumpAfter_m);
        if (out_.pumpBefore_m) take(*out_.pumpBefore_m);
        const double span = std::max(4.0, greatest - least);
        out_.least_m = least - 0.12 * span; // room for the ground below and symbols above
        out_.greatest_m = greatest + (out_.pumpAfter_m ? 0.16 : 0.34) * span;
    }

    struct Told {
        double at, level_m;
        RunPart part;
    };
    const Site& site_;
    const Case* setting_;
    std::map<std::string, const LongSectionItem*> computed_;
    std::vector<Told> told_;
    std::optional<double> energy_; // at the place reached
    double levelTold_ = 0.0;
    double at_ = 0.0;
    SectionDrawing out_;
};

} // namespace

double SectionDrawing::mainLevelAt(double x) const {
    for (const auto* run : {&suction, &delivery}) {
        for (const SectionItem& item : *run) {
            if (x < item.from || x > item.to || item.to <= item.from) continue;
            return item.levelFrom_m +
                   (item.levelTo_m - item.levelFrom_m) * (x - item.from) / (item.to - item.from);
        }
    }
    return pump_m;
}

SectionDrawing drawnSection(const Site& site, const Case* setting,
                            const std::vector<LongSectionItem>& items) {
    return Drawing(site, setting, items).make();
}

} // namespace headmark
