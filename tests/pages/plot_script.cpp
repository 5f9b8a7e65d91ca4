#include "plot_script.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace headmark::pages {

PlotScript::PlotScript(const Sheet& sheet, double dpi, const PlotTerminal& terminal, QSize size)
    : sheet_(sheet), dpi_(dpi), terminal_(terminal), size_(size), out_(&text_) {
    out_.setRealNumberPrecision(12);
    out_ << "set terminal " << terminal.opening << "\nset output '" << terminal.output
         << "'\nset encoding utf8\nset multiplot\n";
    for (const Chart& chart : sheet_.charts)
        plot(chart);
    out_ << "unset multiplot\nset output\n";
    out_.flush();
}

// A key shows lines as the terminal dashes them, so pieces have none.
bool PlotScript::hasKey(const Chart& chart) const {
    return chart.look.labels == LabelPlace::legend &&
           std::none_of(chart.curves.begin(), chart.curves.end(),
                        [&](const ChartCurve& curve) { return inPieces(chart, curve.dash_pt); });
}

void PlotScript::axis(const char* name, const ChartAxis& axis) {
    out_ << "set " << name << "range [" << axis.from << ":" << axis.to << "]\nset " << name << "label \""
         << axis.title << "\"\n";
    if (axis.scale == AxisScale::log10) {
        out_ << "set logscale " << name << "\nset " << name << "tics (";
        const char* between = "";
        for (const double mark : axis.marks()) {
            out_ << between << "'" << figure(mark) << "' " << mark;
            between = ", ";
        }
        for (const double mark : axis.finerMarks())
            out_ << ", '' " << mark << " 1";
        out_ << ") nomirror\n";
        return;
    }
    out_ << "set " << name << "tics " << axis.step << " nomirror\nset m" << name << "tics " << axis.finer
         << "\n";
}

QString PlotScript::dashType(const Chart& chart, const std::vector<double>& dash_pt, double line_pt) const {
    if (dash_pt.empty() || inPieces(chart, dash_pt)) return "1";
    if (!chart.look.exactDashes) return dash_pt.size() > 2 ? "(24,10,4,10)" : "(16,9)";
    QStringList parts;
    for (const double part : dash_pt)
        parts << QString::number(px(part) / (terminal_.dashUnit_px * px(line_pt)), 'f', 2);
    return "(" + parts.join(',') + ")";
}

// Steps of a curve, an empty line wherever its pen is lifted.
void PlotScript::data(const Chart& chart, const ChartCurve& curve, const std::string& name) {
    out_ << "$" << name.c_str() << " << END\n";
    const bool pieces = inPieces(chart, curve.dash_pt);
    const int steps = pieces ? 6000 : 300;
    double walked_pt = 0.0, whole_pt = 0.0;
    for (const double part : curve.dash_pt)
        whole_pt += part;
    std::optional<QPointF> before;
    const auto step = [&](double flow, double value) {
        const QPointF at = chart.place(flow, value, curve.axis);
        if (before) walked_pt += std::hypot(at.x() - before->x(), at.y() - before->y());
        before = at;
        double into = pieces ? std::fmod(walked_pt, whole_pt) : 0.0;
        bool down = true;
        for (const double part : curve.dash_pt) {
            if (into < part) break;
            into -= part;
            down = !down;
        }
        if (down)
            out_ << flow << " " << value << "\n";
        else
            out_ << "\n";
    };
    for (const auto& [flow, value] : curve.places)
        step(flow, value);
    for (int i = 0; i <= steps && curve.places.empty(); ++i) {
        const double flow = curve.flowFrom + (curve.flowTo - curve.flowFrom) * i / steps;
        step(flow, curve.truth(flow));
    }
    out_ << "END\n";
}

void PlotScript::grid(const Chart& chart) {
    if (inPieces(chart, chart.look.gridDash_pt)) {
        out_ << "unset grid\n";
        return;
    }
    const auto pen = [&](double line_pt, const QColor& ink) {
        return QString("lt 1 lw %1 lc rgb '%2'").arg(width(line_pt), 0, 'g', 12).arg(ink.name()) +
               (chart.look.gridDash_pt.empty() ? QString()
                                               : " dt " + dashType(chart, chart.look.gridDash_pt, line_pt));
    };
    out_ << "set grid xtics mxtics ytics mytics " << pen(chart.look.grid_pt, chart.look.grid) << ", "
         << pen(chart.look.finerGrid_pt, chart.look.finerGrid) << "\n";
}

// Every ruling a line of its own, for a terminal without dashes.
void PlotScript::gridInPieces(const Chart& chart) {
    if (!inPieces(chart, chart.look.gridDash_pt)) return;
    std::vector<ChartCurve> rulings;
    constexpr int kSteps = 3000;
    const auto add = [&](double flowFrom, double valueFrom, double flowTo, double valueTo) {
        ChartCurve ruling;
        ruling.dash_pt = chart.look.gridDash_pt;
        for (int k = 0; k <= kSteps; ++k)
            ruling.places.emplace_back(flowFrom + (flowTo - flowFrom) * k / kSteps,
                                       valueFrom + (valueTo - valueFrom) * k / kSteps);
        rulings.push_back(ruling);
    };
    for (const double mark : chart.flow.marks())
        add(mark, chart.left.from, mark, chart.left.to);
    for (const double mark : chart.left.marks())
        add(chart.flow.from, mark, chart.flow.to, mark);
    for (std::size_t k = 0; k < rulings.size(); ++k)
        data(chart, rulings[k], "ruling" + std::to_string(k));
    out_ << "unset key\nplot ";
    for (std::size_t k = 0; k < rulings.size(); ++k)
        out_ << (k ? ", " : "") << "$ruling" << k << " with lines lw " << width(chart.look.grid_pt)
             << " lc rgb '" << chart.look.grid.name() << "'";
    out_ << "\n";
}

void PlotScript::boxedWords(const ChartCurve& curve, std::size_t index) {
    const double k = static_cast<double>(index);
    for (const auto& [word, share] :
         {std::pair(curve.label, 0.24 + 0.03 * k), std::pair(curve.alsoLabel, 0.8 - 0.02 * k)}) {
        if (word.isEmpty()) continue;
        const double at = curve.flowFrom + (curve.flowTo - curve.flowFrom) * share;
        out_ << "set label \"" << word << "\" at first " << at << "," << curve.truth(at)
             << " center front boxed\n";
    }
}

void PlotScript::leader(const Chart& chart, std::size_t index) {
    const ChartCurve& curve = chart.curves[index];
    const Leader leader = leaderOf(chart, index);
    const double tip = curve.flowFrom + (curve.flowTo - curve.flowFrom) * leader.tip;
    out_ << "set label \"" << curve.label << "\" at graph " << leader.word.x() << "," << 1.0 - leader.word.y()
         << " left front\nset arrow from graph " << leader.word.x() - 0.005 << "," << 1.0 - leader.word.y()
         << " to first " << tip << "," << curve.truth(tip) << " filled front lw " << width(0.5) << "\n";
}

void PlotScript::words(const Chart& chart) {
    out_ << "unset label\nunset arrow\n";
    if (hasKey(chart)) return;
    out_ << "set style textbox opaque fillcolor 'white' margins 0.6,0.6 "
         << (chart.look.boxFrame ? "border\n" : "noborder\n");
    for (std::size_t k = 0; k < chart.curves.size(); ++k) {
        const ChartCurve& curve = chart.curves[k];
        if (!curve.places.empty()) continue;
        if (chart.look.labels == LabelPlace::boxed) boxedWords(curve, k);
        if (chart.look.labels == LabelPlace::leader) leader(chart, k);
        if (chart.look.labels >= LabelPlace::boxed) continue;
        const bool across = chart.look.labels == LabelPlace::over || chart.look.labels == LabelPlace::gap;
        const double at = curve.flowFrom + (curve.flowTo - curve.flowFrom) * (across ? 0.72 : 1.0);
        const char* system = curve.axis == ValueAxis::right ? "second " : "first ";
        out_ << "set label \"" << curve.label << "\" at " << system << at << "," << curve.truth(at)
             << (across ? " center front\n" : " left offset 0.5,0 front\n");
        if (!chart.look.arrows) continue;
        const double tip =
            curve.flowFrom + (curve.flowTo - curve.flowFrom) * (0.25 + 0.04 * static_cast<double>(k));
        out_ << "set arrow from " << system << tip + 0.04 * chart.flow.to << "," << 1.12 * curve.truth(tip)
             << " to " << system << tip << "," << curve.truth(tip) << " filled front lw " << width(0.5)
             << "\n";
    }
}

void PlotScript::plot(const Chart& chart) {
    out_ << "set lmargin at screen " << x(chart.frame.left()) << "\nset rmargin at screen "
         << x(chart.frame.right()) << "\nset tmargin at screen " << y(chart.frame.top())
         << "\nset bmargin at screen " << y(chart.frame.bottom()) << "\n";
    axis("x", chart.flow);
    axis("y", chart.left);
    if (chart.right) axis("y2", *chart.right);
    out_ << "set border lw " << width(chart.look.frame_pt) << "\n";
    grid(chart);
    gridInPieces(chart);
    for (std::size_t k = 0; k < chart.curves.size(); ++k) {
        data(chart, chart.curves[k], "line" + std::to_string(k));
        if (!chart.curves[k].thickBetween || !inPieces(chart, chart.curves[k].dash_pt)) continue;
        ChartCurve stretch = chart.curves[k];
        stretch.dash_pt.clear();
        std::tie(stretch.flowFrom, stretch.flowTo) = *stretch.thickBetween;
        data(chart, stretch, "stretch" + std::to_string(k));
    }
    words(chart);
    curves(chart);
}

void PlotScript::curves(const Chart& chart) {
    out_ << (hasKey(chart) ? "set key box opaque top right\n" : "unset key\n") << "plot ";
    const char* between = "";
    for (const ChartFill& fill : chart.fills) {
        if (fill.lower) continue;
        out_ << between << "$line" << fill.upper << " with filledcurves y1=0 fc rgb '" << fill.colour.name()
             << "' notitle";
        between = ", ";
    }
    for (std::size_t k = 0; k < chart.curves.size(); ++k) {
        const ChartCurve& curve = chart.curves[k];
        const double line = curve.line_pt > 0.0 ? curve.line_pt : chart.look.line_pt;
        const char* axes = curve.axis == ValueAxis::right ? "x1y2" : "x1y1";
        out_ << between << "$line" << k << " axes " << axes << " with lines lw " << width(line) << " lc rgb '"
             << curve.ink.name() << "' dt " << dashType(chart, curve.dash_pt, line) << " title '"
             << curve.label << "'";
        between = ", ";
        if (!curve.thickBetween) continue;
        if (inPieces(chart, curve.dash_pt)) {
            out_ << ", $stretch" << k << " axes " << axes << " with lines lw "
                 << width(chart.look.thicker * line) << " lc rgb '" << curve.ink.name() << "' notitle";
            continue;
        }
        out_ << ", $line" << k << " using ($1>" << curve.thickBetween->first << "&&$1<"
             << curve.thickBetween->second << "?$1:NaN):2 axes " << axes << " with lines lw "
             << width(chart.look.thicker * line) << " lc rgb '" << curve.ink.name() << "' notitle";
    }
    out_ << "\n";
}

} // namespace headmark::pages
