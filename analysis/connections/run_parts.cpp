// The items of a run as slots of the sheet.
#include "analysis/connections/slots.h"

#include "analysis/pipework/catalogue.h"
#include "analysis/pipework/element.h"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace headmark::connections {

namespace {

const PipeItem* pipeAt(const Run& run, std::size_t i) { return std::get_if<PipeItem>(&run[i]); }

// Next pipe at or after `i`, else the last before it: the rule of pipework/element.h.
const PipeItem* neighbourPipe(const Run& run, std::size_t i) {
    for (std::size_t k = i; k < run.size(); ++k) {
        if (const PipeItem* pipe = pipeAt(run, k)) return pipe;
    }
    for (std::size_t k = i; k-- > 0;) {
        if (const PipeItem* pipe = pipeAt(run, k)) return pipe;
    }
    return nullptr;
}

// "1-1/2" as it is, "40 mm" by its DN; "b=0.80" and nothing: empty.
std::string sizeWritten(std::string_view text) {
    if (threadSizeIndex(text) >= 0) return std::string(text);
    int dn = 0;
    const auto [end, failure] = std::from_chars(text.data(), text.data() + text.size(), dn);
    if (failure != std::errc{} || std::string_view(end, text.data() + text.size()) != " mm") return {};
    return threadSizeOfDn(dn);
}

std::string ownSize(const RunItem& item) {
    if (const auto* pipe = std::get_if<PipeItem>(&item)) return threadSizeOfPipe(*pipe);
    if (const auto* fitting = std::get_if<FittingItem>(&item)) {
        const std::string written = sizeWritten(fitting->size);
        if (!written.empty() || !fitting->bore) return written;
        return nominalSizeOfBore(*fitting->bore);
    }
    if (const auto* filter = std::get_if<FilterItem>(&item)) {
        const FilterRow* row = findFilter(filter->code);
        return row ? sizeWritten(row->size) : std::string();
    }
    if (const auto* regulator = std::get_if<RegulatorItem>(&item)) return sizeWritten(regulator->size);
    return {};
}

// Outside diameter of the neighbouring pipe where that is the kind of pipe a socket wants; else 0.
double socketSize_mm(const Run& run, std::size_t i, EndKind pipeKind) {
    for (const int step : {1, -1}) {
        for (auto k = static_cast<std::ptrdiff_t>(i); k >= 0 && k < std::ssize(run); k += step) {
            const PipeItem* pipe = pipeAt(run, static_cast<std::size_t>(k));
            if (!pipe) continue;
            const End end = pipeSlot(*pipe).candidates.front().ends.front();
            if (end.kind == pipeKind) return end.diameter_mm;
            break;
        }
    }
    return 0.0;
}

bool sameNumber(const std::string& text, double value) {
    double number = 0.0;
    std::from_chars(text.data(), text.data() + text.size(), number);
    return std::abs(number - value) < 0.6;
}

// Branches that stay unused take the smallest plug; a run part for PE or PVC goes by the pipe beside it.
void addSizes(std::vector<Candidate>& candidates, const PartRow& part, const Run& run, std::size_t i,
              const std::string& size, double cost) {
    const std::string& token = part.endTokens.front();
    const bool pe = token.starts_with("pe:"), pvc = token.starts_with("pvc:");
    const double socket =
        pe ? socketSize_mm(run, i, EndKind::pePipe) : (pvc ? socketSize_mm(run, i, EndKind::pvcPipe) : 0.0);
    for (const PartSize& known : part.sizes) {
        const bool fits = pe || pvc ? socket > 0.0 && sameNumber(known.a, socket) : known.a == size;
        if (fits) candidates.push_back({&part, known, endsOf(part, known), cost});
    }
    if (part.sizes.empty()) candidates.push_back({&part, {}, endsOf(part, {}), cost});
}

struct Parts {
    std::vector<const PartRow*> rows;
    std::string purpose; // empty: the part's group
};

std::vector<Candidate> candidatesFor(const Parts& parts, const Run& run, std::size_t i,
                                     const std::string& size, const SheetPlan& plan,
                                     const std::string& place) {
    std::vector<Candidate> candidates;
    const auto chosen = plan.choices().parts.find(place);
    const bool fits = chosen != plan.choices().parts.end() &&
                      std::any_of(parts.rows.begin(), parts.rows.end(),
                                  [&](const PartRow* part) { return part->code == chosen->second; });
    for (const PartRow* part : parts.rows) {
        if (fits && part->code != chosen->second) continue;
        // Two of one exposure: the one listed first.
        const double rank = 0.05 * static_cast<double>(candidates.size());
        addSizes(candidates, *part, run, i, size, exposureCost(*part, plan.choices().exposure) + rank);
    }
    if (candidates.empty()) candidates.push_back(standInFor(*parts.rows.front(), size));
    return candidates;
}

std::vector<const PartRow*> filterParts(const FilterItem& filter) {
    const FilterRow* row = findFilter(filter.code);
    const std::string type = row ? row->type : std::string();
    const char* code = type == "disc"               ? "filter_disc"
                       : type == "screen"           ? "filter_screen"
                       : type == "media"            ? "filter_media"
                       : type == "sand separator"   ? "filter_hydrocyclone"
                       : type == "suction strainer" ? "suction_strainer"
                                                    : "filter_to_suit";
    return {findPart(code)};
}

bool entrance(std::string_view code) { return code.starts_with("entrance_"); }

class ChainMaker {
  public:
    ChainMaker(const Run& run, std::string_view prefix, const SheetPlan& plan, const std::string& otherwise)
        : run_(run), prefix_(prefix), plan_(plan), sizes_(itemSizes(run, otherwise)) {}

    Chain made() {
        for (std::size_t i = 0; i < run_.size(); ++i)
            std::visit([&](const auto& item) { add(i, item); }, run_[i]);
        return std::move(chain_);
    }

  private:
    std::string placeOf(std::size_t i) const { return prefix_ + "[" + std::to_string(i) + "]"; }

    void push(std::size_t i, Slot slot, const std::string& code) {
        slot.place = placeOf(i);
        slot.slot = slot.place;
        slot.item = code;
        slot.runIndex = i;
        slot.size = sizes_[i];
        slot.line = prefix_ == "suction" ? SheetLine::inlet : SheetLine::outlet;
        if (slot.purpose.empty()) slot.purpose = slot.group();
        chain_.slots.push_back(std::move(slot));
    }

    void pushParts(std::size_t i, const Parts& parts, const std::string& code, int count) {
        Slot slot;
        slot.candidates = candidatesFor(parts, run_, i, sizes_[i], plan_, placeOf(i));
        slot.kind = parts.rows.front()->group;
        slot.purpose = parts.purpose;
        slot.count = count;
        push(i, std::move(slot), code);
    }

    void add(std::size_t i, const PipeItem& pipe) { push(i, pipeSlot(pipe), pipe.kind.code); }
    void add(std::size_t i, const FilterItem& filter) {
        pushParts(i, {filterParts(filter), {}}, filter.code, 1);
    }
    void add(std::size_t i, const RegulatorItem& regulator) {
        pushParts(i, {{findPart("pressure_regulator")}, {}}, regulator.code, 1);
    }
    void add(std::size_t, const TakeoffItem&) {}

    void add(std::size_t i, const FittingItem& fitting) {
        if (isLossOnly(fitting.code) || fitting.count < 1) return;
        const bool tank = plan_.suction == SuctionKind::flooded && prefix_ == "suction";
        if (entrance(fitting.code) && (!tank || i > 0 || namesTankConnector())) return;
        std::vector<const PartRow*> rows = partsForFitting(fitting.code);
        if (!rows.empty() && std::all_of(rows.begin(), rows.end(),
                                         [](const PartRow* r) { return r->adapterCost.has_value(); })) {
            chain_.claims.push_back({fitting.code, placeOf(i), chain_.slots.size(), fitting.count});
            return;
        }
        std::erase_if(rows, [](const PartRow* r) { return r->adapterCost.has_value(); });
        if (rows.empty()) rows.push_back(findPart("fitting_to_suit"));
        pushParts(i, {rows, {}}, fitting.code, fitting.count);
    }

    bool namesTankConnector() const {
        return std::any_of(run_.begin(), run_.end(), [](const RunItem& item) {
            const auto* fitting = std::get_if<FittingItem>(&item);
            return fitting && fitting->code == "tank_connector";
        });
    }

    const Run& run_;
    std::string prefix_;
    const SheetPlan& plan_;
    std::vector<std::string> sizes_;
    Chain chain_;
};

End pipeEnd(const PipeItem& pipe) {
    End end;
    end.kind = EndKind::plain;
    end.diameter_mm = pipe.kind.bore.inMillimetres();
    const PipeRow* row = findPipe(pipe.kind.code);
    if (!row) return end;
    const std::string& material = row->material;
    end.diameter_mm = row->outerDiameter_mm;
    if (material.find("hose") != std::string::npos) {
        end.kind = EndKind::hose;
        end.diameter_mm = row->kind.bore.inMillimetres();
    } else if (material.starts_with("PE") || material.starts_with("LDPE")) {
        end.kind = EndKind::pePipe;
        end.body = Body::plastic;
    } else if (material.starts_with("PVC")) {
        end.kind = EndKind::pvcPipe;
        end.body = Body::plastic;
    } else if (material.starts_with("copper")) {
        end.kind = EndKind::tube;
    } else if (material.starts_with("steel")) {
        end.kind = EndKind::thread;
        end.male = true;
        end.form = ThreadForm::taperR;
        end.size = nominalSizeOfBore(row->kind.bore);
    }
    return end;
}

} // namespace

std::string threadSizeOfPipe(const PipeItem& pipe) {
    const End end = pipeEnd(pipe);
    if (end.kind == EndKind::hose) {
        for (const PartSize& size : findPart("hose_tail_male_brass")->sizes) {
            // The last of a bore is the tail of its own size: "3/4x25;1x25".
            if (sameNumber(size.b, end.diameter_mm) && threadSizeIndex(size.a) >= 0) {
                const PartSize* own = findSize(*findPart("hose_tail_female_brass"), size.a, size.b);
                if (own || size.b == "102") return size.a;
            }
        }
    }
    return nominalSizeOfBore(pipe.kind.bore);
}

std::vector<std::string> itemSizes(const Run& run, const std::string& otherwise) {
    std::vector<std::string> sizes;
    for (std::size_t i = 0; i < run.size(); ++i) {
        std::string size = ownSize(run[i]);
        if (size.empty()) {
            const PipeItem* pipe = neighbourPipe(run, i);
            size = pipe ? threadSizeOfPipe(*pipe) : otherwise;
        }
        sizes.push_back(size);
    }
    return sizes;
}

Slot pipeSlot(const PipeItem& pipe) {
    const End end = pipeEnd(pipe);
    Slot slot;
    const PartRow* part = findPart(end.kind == EndKind::hose ? "hose" : "pipe");
    slot.candidates.push_back({part, {}, {end, end}, 0.0});
    slot.isPipe = true;
    slot.length = pipe.length;
    slot.mayBeSuction = pipe.kind.mayBeSuction;
    slot.rigid = end.kind != EndKind::hose;
    slot.purpose = slot.rigid ? "pipe" : "hose";
    return slot;
}

Chain runChain(const Run& run, std::string_view prefix, const SheetPlan& plan, const std::string& otherwise) {
    return ChainMaker(run, prefix, plan, otherwise).made();
}

} // namespace headmark::connections
