#include "app/desktop/shifts/shift_layout.h"

#include "app/desktop/duty/label_places.h"

#include <QCoreApplication>
#include <QFontMetricsF>

#include <algorithm>
#include <array>
#include <cmath>

namespace headmark {

namespace {

constexpr double kPad_px = 6.0;
constexpr double kBarShare = 0.68;     // of a row's height
constexpr double kGutterAtMost = 0.30; // of the width
constexpr double kRow_lines = 1.7;     // least height of a row in lines of text,
constexpr double kGreatestRow_lines = 3.6;
constexpr double kLevel_lines = 5.5;  // least height of the level's part,
constexpr double kLevelShare = 0.34;  // and its share of the height
constexpr double kMarginShare = 0.03; // of the night, before and after
constexpr double kLevelRoom = 0.22;   // above and below the lines, of their distance

struct Words {
    Q_DECLARE_TR_FUNCTIONS(ShiftChart)
};

using Role = ChartText::Role;

QFont boldOf(QFont font) {
    font.setWeight(QFont::DemiBold);
    return font;
}

class Maker {
  public:
    Maker(const ShiftNight& night, const QSizeF& size, const QFont& font)
        : night_(night), plan_(night.plan), metrics_(font), bold_(boldOf(font)), line_(metrics_.height()) {
        out_.size = size;
    }

    ShiftLayout make() {
        placeAreas();
        placeTimes();
        placeRows();
        for (std::size_t s = 0; s < plan_.shifts.size(); ++s)
            placeShift(s);
        if (!plan_.tank.empty()) placeLevel();
        return std::move(out_);
    }

  private:
    [[nodiscard]] double width(const QString& text) const { return metrics_.horizontalAdvance(text) + 2.0; }
    [[nodiscard]] double boldWidth(const QString& text) const { return bold_.horizontalAdvance(text) + 2.0; }

    void say(Role role, const QRectF& box, const QString& text, Qt::Alignment align = Qt::AlignCenter) {
        out_.texts.push_back({role, box, text, align});
    }

    [[nodiscard]] QString stationName(std::size_t zone) const {
        return QStringLiteral("%1  %2").arg(zone + 1).arg(QString::fromStdString(night_.zones[zone]));
    }
    [[nodiscard]] QString highWords() const {
        return Words::tr("high water %1").arg(night_.units.text(night_.high));
    }
    [[nodiscard]] QString stopWords() const {
        return Words::tr("pump stops %1").arg(night_.units.text(night_.stop));
    }

    [[nodiscard]] double gutter() const {
        double widest = 0.0;
        for (std::size_t z = 0; z < night_.zones.size(); ++z)
            widest = std::max(widest, width(stationName(z)));
        if (!plan_.tank.empty()) widest = std::max({widest, width(highWords()), width(stopWords())});
        return std::min(widest + 2.0 * kPad_px, kGutterAtMost * out_.size.width());
    }

    void placeAreas() {
        const double left = gutter(),
                     right = out_.size.width() - 0.5 * width(QStringLiteral("00:00")) - kPad_px;
        const double header = 3.0 * line_ + 2.0 * kPad_px; // window, shift, its flow
        const double axis = line_ + kPad_px;
        const double all = out_.size.height() - header - axis;
        const bool hasTank = !plan_.tank.empty();
        const double caption = hasTank ? line_ + 2.0 * kPad_px : 0.0;
        const double level = hasTank ? std::max(kLevel_lines * line_, kLevelShare * all) : 0.0;
        const double most =
            kGreatestRow_lines * line_ * static_cast<double>(std::max<std::size_t>(1, night_.zones.size()));
        const double rows = std::clamp(all - level - caption, 1.0, most);
        out_.plan = QRectF(left, header, std::max(1.0, right - left), rows);
        if (hasTank) {
            const double top = out_.plan.bottom() + axis + caption;
            out_.level =
                QRectF(left, top, out_.plan.width(), std::max(1.0, out_.size.height() - top - kPad_px));
        }
    }

    void placeTimes() {
        double end = plan_.total.inMinutes();
        if (night_.window_min) end = std::max(end, static_cast<double>(*night_.window_min));
        end = std::max(end, 1.0);
        out_.from_min = night_.begin_min ? -kMarginShare * end : 0.0;
        out_.to_min = end * (1.0 + kMarginShare);
        placeTicks();
        if (!night_.window_min) return;
        const double from = out_.xOf(0.0), to = out_.xOf(*night_.window_min);
        const double bottom = out_.level.isEmpty() ? out_.plan.bottom() : out_.level.bottom();
        out_.window = QRectF(QPointF(from, out_.plan.top()), QPointF(to, bottom));
        const QString words =
            Words::tr("watering allowed %1 to %2").arg(night_.timeOf(0.0), night_.timeOf(*night_.window_min));
        if (width(words) <= out_.size.width() - from)
            say(Role::window, QRectF(from, kPad_px / 2.0, width(words), line_), words,
                Qt::AlignLeft | Qt::AlignVCenter);
    }

    // Full hours where they fit, else every second, third one...
    void placeTicks() {
        const double each = width(QStringLiteral("00:00")) + 2.0 * kPad_px;
        const double minute = out_.plan.width() / (out_.to_min - out_.from_min);
        constexpr std::array<int, 10> kSteps_min{10, 15, 30, 60, 120, 180, 240, 360, 720, 1440};
        const auto step =
            std::find_if(kSteps_min.begin(), kSteps_min.end(), [&](int s) { return s * minute >= each; });
        const int apart = step == kSteps_min.end() ? kSteps_min.back() : *step;
        const int offset = night_.begin_min.value_or(0);
        int at = static_cast<int>(std::ceil((out_.from_min + offset) / apart)) * apart - offset;
        double taken = 0.0;
        for (; at <= out_.to_min; at += apart) {
            const double x = out_.xOf(at);
            out_.ticks.push_back(x);
            const QString words = night_.timeOf(at);
            const QRectF box(x - width(words) / 2.0, out_.plan.bottom() + kPad_px / 2.0, width(words), line_);
            if (box.left() < taken || box.right() > out_.size.width()) continue;
            say(Role::axis, box, words);
            taken = box.right() + kPad_px;
        }
    }

    void placeRows() {
        const double each =
            out_.plan.height() / static_cast<double>(std::max<std::size_t>(1, night_.zones.size()));
        const double room = out_.plan.left() - 2.0 * kPad_px;
        for (std::size_t z = 0; z < night_.zones.size(); ++z) {
            const QRectF row(out_.plan.left(), out_.plan.top() + static_cast<double>(z) * each,
                             out_.plan.width(), each);
            out_.rows.push_back(row);
            const QRectF box(kPad_px / 2.0, row.center().y() - line_ / 2.0, room, line_);
            say(Role::station, box, metrics_.elidedText(stationName(z), Qt::ElideRight, room),
                Qt::AlignLeft | Qt::AlignVCenter);
            if (night_.idle[z].isEmpty()) continue;
            const double from = out_.xOf(0.0) + kPad_px;
            const QString why = metrics_.elidedText(night_.idle[z], Qt::ElideRight, row.right() - from);
            say(Role::idle, QRectF(from, box.top(), width(why), line_), why,
                Qt::AlignLeft | Qt::AlignVCenter);
        }
    }

    void placeShift(std::size_t index) {
        const ShiftPlanFinding::Shift& shift = plan_.shifts[index];
        const double from = out_.xOf(shift.beginMinute), to = out_.xOf(shift.beginMinute + shift.minutes);
        for (const auto& station : shift.stations) {
            const auto zone = static_cast<std::size_t>(station.station - 1);
            const QRectF& row = out_.rows[zone];
            const double off = row.height() * (1.0 - kBarShare) / 2.0;
            const QRectF bar(QPointF(from, row.top() + off), QPointF(to, row.bottom() - off));
            out_.bars.push_back({index, zone, bar});
            sayMinutes(bar, row, shift.minutes);
        }
        if (index + 1 < plan_.shifts.size()) {
            const double next = out_.xOf(plan_.shifts[index + 1].beginMinute);
            if (next > to)
                out_.delays.push_back(
                    QRectF(QPointF(to, out_.plan.top()), QPointF(next, out_.plan.bottom())));
        }
        sayShift(index, from, to);
    }

    // In the bar, or beside it: every zone has one bar a night, so its row is free there.
    void sayMinutes(const QRectF& bar, const QRectF& row, int minutes) {
        const QString words = Words::tr("%1 min").arg(minutes);
        const double w = width(words);
        const double top = row.center().y() - line_ / 2.0;
        if (w + kPad_px <= bar.width())
            say(Role::bar, QRectF(bar.center().x() - w / 2.0, top, w, line_), words);
        else if (bar.right() + kPad_px + w <= row.right())
            say(Role::besideBar, QRectF(bar.right() + kPad_px / 2.0, top, w, line_), words);
        else if (bar.left() - kPad_px - w >= row.left())
            say(Role::besideBar, QRectF(bar.left() - kPad_px / 2.0 - w, top, w, line_), words);
    }

    // The number of the shift and its flow over its width, as long as there is room.
    void sayShift(std::size_t index, double from, double to) {
        const double room = to - from - 2.0, top = out_.plan.top() - 2.0 * line_ - kPad_px / 2.0;
        const QString number = QString::number(index + 1), flow = night_.units.text(plan_.shifts[index].flow);
        const QString named = Words::tr("Shift %1").arg(number);
        const QString& title = boldWidth(named) <= room ? named : number;
        const double w = boldWidth(title);
        if (w <= room) say(Role::shift, QRectF((from + to - w) / 2.0, top, w, line_), title);
        if (width(flow) <= room)
            say(Role::flow, QRectF((from + to - width(flow)) / 2.0, top + line_, width(flow), line_), flow);
    }

    [[nodiscard]] double yOf(Level level) const { return yOf(level.inMetres()); }
    [[nodiscard]] double yOf(double level_m) const {
        return out_.level.bottom() - out_.level.height() * (level_m - lowest_m_) / (highest_m_ - lowest_m_);
    }

    void placeLevel() {
        lowest_m_ = night_.stop.inMetres();
        highest_m_ = night_.high.inMetres();
        for (const auto& at : plan_.tank) {
            lowest_m_ = std::min(lowest_m_, at.level.inMetres());
            highest_m_ = std::max(highest_m_, at.level.inMetres());
        }
        const double room = std::max(0.05, kLevelRoom * (highest_m_ - lowest_m_));
        lowest_m_ -= room;
        highest_m_ += room;
        for (const auto& at : plan_.tank)
            out_.water << QPointF(out_.xOf(at.minute), yOf(at.level));
        const double high = yOf(night_.high), stop = yOf(night_.stop);
        out_.highLine = QLineF(out_.level.left(), high, out_.level.right(), high);
        out_.stopLine = QLineF(out_.level.left(), stop, out_.level.right(), stop);
        if (night_.dry_min) {
            const double x = out_.xOf(*night_.dry_min);
            out_.dry = QLineF(x, out_.level.top(), x, out_.level.bottom());
        }
        const QString title = Words::tr("Water in the source, level");
        say(Role::caption,
            QRectF(out_.level.left(), out_.level.top() - line_ - kPad_px / 2.0, width(title), line_), title,
            Qt::AlignLeft | Qt::AlignVCenter);
        sayLines(high, stop);
        sayLevels();
    }

    // In the gutter beside their lines, a line of text apart at least.
    void sayLines(double high, double stop) {
        const double room = out_.level.left() - kPad_px;
        const double apart = std::max(0.0, line_ - (stop - high)) / 2.0;
        const std::pair<QString, double> lines[] = {{highWords(), high - apart}, {stopWords(), stop + apart}};
        for (const auto& [words, y] : lines) {
            say(Role::level, QRectF(0.0, y - line_ / 2.0, room, line_),
                metrics_.elidedText(words, Qt::ElideRight, room), Qt::AlignRight | Qt::AlignVCenter);
        }
    }

    // Where it runs dry, and the level at the beginning and the end, clear of each other and of the lines.
    void sayLevels() {
        LabelPlaces places;
        places.addLine(out_.water);
        for (const auto& line : {out_.highLine, out_.stopLine, out_.dry}) {
            if (line) places.addLine(QPolygonF({line->p1(), line->p2()}));
        }
        const auto put = [&](Role role, const QString& words, const QPointF& at) {
            const QSizeF size(boldWidth(words), line_);
            const auto box = places.place(size, out_.level, spotsAround(at, size, kPad_px));
            if (box) say(role, *box, words);
        };
        if (night_.dry_min) {
            const QString words = night_.begin_min
                                      ? Words::tr("runs dry at %1").arg(night_.timeOf(*night_.dry_min))
                                      : Words::tr("runs dry after %1 h").arg(night_.timeOf(*night_.dry_min));
            put(Role::dry, words, QPointF(out_.xOf(*night_.dry_min), out_.level.center().y()));
        }
        const auto& last = plan_.tank.back();
        put(Role::caption, night_.units.text(last.level), out_.water.back());
        put(Role::caption, night_.units.text(plan_.tank.front().level), out_.water.front());
    }

    const ShiftNight& night_;
    const ShiftPlanFinding& plan_;
    QFontMetricsF metrics_, bold_;
    double line_;
    double lowest_m_ = 0.0, highest_m_ = 1.0;
    ShiftLayout out_;
};

} // namespace

std::optional<std::size_t> ShiftLayout::barAt(const QPointF& at) const {
    for (std::size_t i = 0; i < bars.size(); ++i) {
        if (bars[i].box.adjusted(-1, -1, 1, 1).contains(at)) return i;
    }
    return std::nullopt;
}

ShiftLayout layOut(const ShiftNight& night, const QSizeF& size, const QFont& font) {
    return Maker(night, size, font).make();
}

QSizeF leastSize(const ShiftNight& night, const QFont& font) {
    const QFontMetricsF metrics(font);
    const double line = metrics.height();
    const auto zones = static_cast<double>(night.zones.size());
    double height = 4.0 * line + 3.0 * kPad_px + kRow_lines * line * zones;
    if (!night.plan.tank.empty()) height += (1.0 + kLevel_lines) * line + 3.0 * kPad_px;
    return {metrics.averageCharWidth() * 60.0, height};
}

} // namespace headmark
