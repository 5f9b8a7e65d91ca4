#include "app/desktop/charts/chart_session.h"

#include "app/desktop/charts/chart_words.h"

#include <QFileInfo>

#include <algorithm>

namespace headmark {

namespace {

constexpr int kRest_ms = 100; // somewhat less than the whole answer waits for

} // namespace

ChartSession::ChartSession(Desk& deskOfSession, QObject* parent) : QObject(parent), desk(deskOfSession) {
    connect(&desk.document, &Document::workspaceChanged, this, &ChartSession::follow);
    connect(&desk.answers, &AnswerService::answered, this, &ChartSession::changed);
    rest_.setSingleShot(true);
    rest_.setInterval(kRest_ms);
    connect(&rest_, &QTimer::timeout, this, &ChartSession::changed);
    follow();
}

void ChartSession::follow() {
    const Workspace& workspace = desk.document.workspace();
    if (chartIndex(workspace, path_) < 0) {
        const std::string before = path_;
        path_ = workspace.charts.empty() ? std::string() : workspace.charts.front().path;
        chosen_ = {};
        desk.answers.showChart(path_);
        if (path_ != before) emit sheetChanged();
    }
    if (!exists(chosen_)) {
        chosen_ = {};
        emit chosenChanged();
    }
    emit changed();
}

void ChartSession::open(const std::string& path) {
    if (path == path_) return;
    path_ = path;
    chosen_ = {};
    mode_ = ChartMode::choose;
    desk.answers.showChart(path_);
    emit sheetChanged();
    emit chosenChanged();
    emit changed();
}

std::shared_ptr<const Reading> ChartSession::reading() const {
    const int index = chartIndex(desk.document.workspace(), path_);
    return index < 0 ? nullptr : desk.document.workspace().charts[static_cast<std::size_t>(index)].reading;
}

const ChartAnswer* ChartSession::answer() const {
    const auto latest = desk.answers.latest();
    const auto found = latest->charts.find(path_);
    return found == latest->charts.end() ? nullptr : &found->second;
}

const ChartMapping* ChartSession::mapping() const {
    const ChartAnswer* of = answer();
    return of && of->mapping ? &*of->mapping : nullptr;
}

bool ChartSession::isUpToDate() const {
    const auto latest = desk.answers.latest();
    const int index = chartIndex(latest->workspace, path_);
    return index >= 0 && latest->workspace.charts[static_cast<std::size_t>(index)].reading == reading();
}

// An answer may be of an edit before: lines are told by their names, which a chart has once.
std::optional<std::size_t> ChartSession::answeredLine(std::size_t line) const {
    const ChartAnswer* of = answer();
    const auto now = reading();
    if (!of || !of->lines || !now || line >= now->lines.size()) return std::nullopt;
    for (std::size_t i = 0; i < of->lines->lines.size(); ++i) {
        if (of->lines->lines[i].name == now->lines[line].name) return i;
    }
    return std::nullopt;
}

const ReadLine* ChartSession::readLine(std::size_t line) const {
    const auto index = answeredLine(line);
    if (!index) return nullptr;
    const ReadLine& found = answer()->lines->lines[*index];
    return found.samples.empty() ? nullptr : &found;
}

const Error* ChartSession::whyUnread(std::size_t line) const {
    const auto index = answeredLine(line);
    if (!index) return nullptr;
    const auto found = answer()->lines->unread.find(*index);
    return found == answer()->lines->unread.end() ? nullptr : &found->second;
}

void ChartSession::setMode(ChartMode mode) {
    if (mode == mode_ || (mode != ChartMode::choose && path_.empty())) return;
    mode_ = mode;
    emit chosenChanged();
}

bool ChartSession::exists(ChartPart part) const {
    return part.kind == PartKind::none || placeOf(part) || [&] {
        const auto now = reading();
        return now && part.kind == PartKind::line && part.index < now->lines.size();
    }();
}

void ChartSession::choose(ChartPart part) {
    if (part == chosen_ || !exists(part)) return;
    chosen_ = part;
    emit chosenChanged();
}

bool ChartSession::chooseNext(int step) {
    const auto now = reading();
    if (!now) return false;
    std::vector<ChartPart> parts;
    for (std::size_t p = 0; p < now->pins.size(); ++p)
        parts.push_back({PartKind::pin, p, 0});
    for (std::size_t l = 0; l < now->lines.size(); ++l) {
        parts.push_back({PartKind::line, l, 0});
        for (std::size_t s = 0; s < now->lines[l].followFrom.size(); ++s)
            parts.push_back({PartKind::click, l, s});
        for (std::size_t s = 0; s < now->lines[l].spots.size(); ++s)
            parts.push_back({PartKind::spot, l, s});
    }
    const auto count = static_cast<std::ptrdiff_t>(parts.size());
    const auto at = std::find(parts.begin(), parts.end(), chosen_) - parts.begin();
    std::ptrdiff_t next = step > 0 ? 0 : count - 1;
    if (at < count) next = at + step;
    if (next < 0 || next >= count) {
        choose({});
        return false;
    }
    choose(parts[static_cast<std::size_t>(next)]);
    return true;
}

std::optional<PixelPoint> ChartSession::placeOf(ChartPart part) const {
    const auto now = reading();
    if (!now) return std::nullopt;
    if (part.kind == PartKind::pin && part.index < now->pins.size()) return now->pins[part.index].at;
    if (part.kind == PartKind::spot || part.kind == PartKind::click) {
        if (part.index >= now->lines.size()) return std::nullopt;
        const ChartLine& line = now->lines[part.index];
        const auto& places = part.kind == PartKind::spot ? line.spots : line.followFrom;
        if (part.sub < places.size()) return places[part.sub];
    }
    return std::nullopt;
}

void ChartSession::edit(const QString& step, const std::function<void(Reading&)>& change, int drag) {
    desk.document.edit(
        step, [&](Workspace& workspace) { changeReading(workspace, path_, change); }, drag);
}

void ChartSession::placePin(const Pin& pin) {
    const auto now = reading();
    if (!now) return;
    const std::size_t index = now->pins.size();
    edit(tr("Place a pin"), [&](Reading& r) { r.pins.push_back(pin); });
    choose({PartKind::pin, index, 0});
}

void ChartSession::changePin(std::size_t index, const Pin& pin) {
    edit(tr("Change a pin"), [&](Reading& r) {
        if (index < r.pins.size()) r.pins[index] = pin;
    });
}

void ChartSession::readLineAt(PixelPoint at, LineQuantity quantity) {
    const auto now = reading();
    if (!now) return;
    lastQuantity_ = quantity;
    ChartLine line;
    line.name = quantityWords(quantity).toLower().toStdString();
    line.quantity = quantity;
    line.followFrom.push_back(at);
    // A second axis is there for the other quantities, unless such a line says otherwise.
    const bool rightPinned = std::any_of(now->pins.begin(), now->pins.end(), [](const Pin& pin) {
        return pin.value && pin.axis == ValueAxis::right;
    });
    if (rightPinned && quantity != LineQuantity::head) line.axis = ValueAxis::right;
    for (const ChartLine& other : now->lines) {
        if (other.quantity == quantity) line.axis = other.axis;
    }
    const std::size_t index = now->lines.size();
    const std::string pumpName = pageTitle(*now, path_).toStdString();
    const auto shown = static_cast<std::size_t>(std::max(0, desk.shown().pump));
    desk.document.edit(tr("Read a line"),
                       [&](Workspace& workspace) { addLine(workspace, path_, line, shown, pumpName); });
    choose({PartKind::line, index, 0});
}

void ChartSession::addSpot(std::size_t line, PixelPoint at) {
    const auto now = reading();
    if (!now || line >= now->lines.size()) return;
    const std::size_t sub = now->lines[line].spots.size();
    edit(tr("Add a spot"), [&](Reading& r) { r.lines[line].spots.push_back(at); });
    choose({PartKind::spot, line, sub});
}

void ChartSession::move(ChartPart part, PixelPoint to, int drag) {
    if (!placeOf(part)) return;
    if (drag > 0) rest_.start();
    switch (part.kind) {
    case PartKind::pin:
        edit(
            tr("Move a pin"), [&](Reading& r) { r.pins[part.index].at = to; }, drag);
        break;
    case PartKind::spot:
        edit(
            tr("Move a spot"), [&](Reading& r) { r.lines[part.index].spots[part.sub] = to; }, drag);
        break;
    case PartKind::click:
        edit(
            tr("Move a click"), [&](Reading& r) { r.lines[part.index].followFrom[part.sub] = to; }, drag);
        break;
    case PartKind::none:
    case PartKind::line:
        break;
    }
}

void ChartSession::remove(ChartPart part) {
    if (!exists(part)) return;
    const auto erase = [](auto& list, std::size_t at) {
        list.erase(list.begin() + static_cast<std::ptrdiff_t>(at));
    };
    const auto removeWholeLine = [&] {
        desk.document.edit(tr("Delete a line"),
                           [&](Workspace& workspace) { removeLine(workspace, path_, part.index); });
    };
    chosen_ = {};
    switch (part.kind) {
    case PartKind::pin:
        edit(tr("Delete a pin"), [&](Reading& r) { erase(r.pins, part.index); });
        break;
    case PartKind::line:
        removeWholeLine();
        break;
    case PartKind::spot:
    case PartKind::click: {
        // A line that stands on this place alone goes with it.
        const ChartLine& line = reading()->lines[part.index];
        if (line.spots.size() + line.followFrom.size() == 1) {
            removeWholeLine();
            break;
        }
        const bool isSpot = part.kind == PartKind::spot;
        edit(isSpot ? tr("Delete a spot") : tr("Delete a click"), [&](Reading& r) {
            ChartLine& of = r.lines[part.index];
            erase(isSpot ? of.spots : of.followFrom, part.sub);
        });
        break;
    }
    case PartKind::none:
        break;
    }
    emit chosenChanged();
}

void ChartSession::changeLine(std::size_t line, const QString& step,
                              const std::function<void(ChartLine&)>& change) {
    edit(step, [&](Reading& r) {
        if (line < r.lines.size()) change(r.lines[line]);
    });
}

void ChartSession::changeSheet(const QString& step, const std::function<void(Reading&)>& change) {
    edit(step, change);
}

} // namespace headmark
