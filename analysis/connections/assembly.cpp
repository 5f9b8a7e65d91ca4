#include "analysis/connections/assembly.h"

#include <algorithm>
#include <functional>

namespace headmark {

namespace {

bool opensApart(const PlacedPart& part) {
    const std::string& group = part.row().group;
    return group == "union" || group == "coupler" || group == "flexible" || group == "nut-adaptor" ||
           part.part == "hose_tail_nut";
}

// What stands in the line and has a cable.
bool wired(const PlacedPart& part) {
    return part.purpose == "pressure-switch" || part.purpose == "pressure-switch-low" ||
           part.purpose == "pressure-sensor" || part.purpose == "flow-switch";
}

// What goes down with a pump that stands in the water.
bool hangsWithPump(const PlacedPart& part) {
    return part.purpose == "lifting-rope" || part.purpose == "submersible-cable";
}

class Steps {
  public:
    explicit Steps(const ConnectionSheet& sheet) : sheet_(sheet) {}

    std::vector<AssemblyStep> made() {
        steps_.push_back({"check-parts", {}});
        inlet();
        // A pump that hangs is lowered with its riser on.
        if (sheet_.submersible) pumpSide();
        take(sheet_.submersible ? "lower-pump" : "place-pump",
             [&](const PlacedPart& p) { return p.line == SheetLine::pump || hangsWithPump(p); });
        if (!sheet_.submersible) pumpSide();
        lines();
        branches();
        take("lay-main", [](const PlacedPart& p) { return p.line == SheetLine::main; });
        take("wire-control", [](const PlacedPart& p) {
            return (p.line == SheetLine::control && p.purpose != "lifting-rope") || wired(p);
        });
        steps_.push_back({"tighten-and-clamp", {}});
        steps_.push_back({sheet_.submersible ? "fill-and-test-submersed"
                          : sheet_.lift      ? "fill-and-test-lift"
                                             : "fill-and-test",
                          {}});
        return std::move(steps_);
    }

  private:
    void take(std::string code, const std::function<bool(const PlacedPart&)>& wanted) {
        AssemblyStep step{std::move(code), {}};
        for (std::size_t i = 0; i < sheet_.parts.size(); ++i) {
            if (wanted(sheet_.parts[i])) step.parts.push_back(i);
        }
        if (!step.parts.empty()) steps_.push_back(std::move(step));
    }

    // The last part of the inlet that opens, and the first of the outlet: between them stands what is made
    // up on the pump.
    void inlet() {
        for (std::size_t i = 0; i < sheet_.parts.size(); ++i) {
            const PlacedPart& part = sheet_.parts[i];
            if (part.branchOf) continue;
            if (part.line == SheetLine::inlet && opensApart(part)) lastInlet_ = i;
            if (part.line == SheetLine::outlet && opensApart(part) && !firstOutlet_) firstOutlet_ = i;
        }
        const auto index = [&](const PlacedPart& p) {
            return static_cast<std::size_t>(&p - sheet_.parts.data());
        };
        take(sheet_.submersible ? "set-source-end-submersed"
             : sheet_.lift      ? "set-source-end-lift"
                                : "set-source-end",
             [&](const PlacedPart& p) {
                 return p.line == SheetLine::inlet && !p.branchOf && (!lastInlet_ || index(p) < *lastInlet_);
             });
    }

    void pumpSide() {
        const auto index = [&](const PlacedPart& p) {
            return static_cast<std::size_t>(&p - sheet_.parts.data());
        };
        take("make-up-on-inlet", [&](const PlacedPart& p) {
            return p.line == SheetLine::inlet && !p.branchOf && lastInlet_ && index(p) >= *lastInlet_;
        });
        take("make-up-on-outlet", [&](const PlacedPart& p) {
            return p.line == SheetLine::outlet && !p.branchOf && firstOutlet_ && index(p) <= *firstOutlet_;
        });
        if (lastInlet_) steps_.push_back({"join-suction", {*lastInlet_}});
    }

    void lines() {
        const auto index = [&](const PlacedPart& p) {
            return static_cast<std::size_t>(&p - sheet_.parts.data());
        };
        take("build-outlet", [&](const PlacedPart& p) {
            return p.line == SheetLine::outlet && !p.branchOf && (!firstOutlet_ || index(p) > *firstOutlet_);
        });
    }

    void branches() {
        take("lead-return", [&](const PlacedPart& p) { return p.branchOf && onReturn(p); });
        take("fit-accessories", [&](const PlacedPart& p) { return p.branchOf && !onReturn(p); });
    }

    bool onReturn(const PlacedPart& part) const {
        return part.branchOf && sheet_.parts[*part.branchOf].purpose == "tee-for-tank-return";
    }

    const ConnectionSheet& sheet_;
    std::vector<AssemblyStep> steps_;
    std::optional<std::size_t> lastInlet_, firstOutlet_;
};

} // namespace

std::vector<AssemblyStep> assemblyOf(const ConnectionSheet& sheet) { return Steps(sheet).made(); }

} // namespace headmark
