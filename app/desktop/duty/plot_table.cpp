#include "app/desktop/duty/plot_table.h"

#include "app/desktop/duty/curve_reading.h"

#include <QString>

#include <functional>

namespace headmark {

namespace {

constexpr int kDigits = 6; // what a spreadsheet can draw again without steps

QByteArray quoted(QString text) {
    text.replace(QLatin1Char('"'), QStringLiteral("\"\""));
    return '"' + text.toUtf8() + '"';
}

class TableWriter {
  public:
    explicit TableWriter(const DisplayUnits& units) : units_(units) {
        text_ = "quantity,of,flow,flow_unit,value,value_unit\r\n";
    }

    using Figure = std::function<double(double)>;

    void rows(const char* quantity, const std::string& of, const std::vector<double>& flows_m3_s,
              const std::vector<double>& values, const Figure& figure, const QString& unit) {
        for (std::size_t i = 0; i < values.size(); ++i)
            row(quantity, of, flows_m3_s[i], figure(values[i]), unit);
    }

    void heads(const char* quantity, const std::string& of, const std::vector<double>& flows_m3_s,
               const std::vector<double>& values) {
        rows(
            quantity, of, flows_m3_s, values, [this](double m) { return units_.figure(Head::fromMetres(m)); },
            units_.headSymbol());
    }

    void row(const char* quantity, const std::string& of, double flow_m3_s, double value,
             const QString& unit) {
        const double flow = units_.figure(Flow::fromCubicMetresPerSecond(flow_m3_s));
        text_ += quantity;
        text_ += ',' + quoted(QString::fromStdString(of)) + ',' + QByteArray::number(flow, 'g', kDigits) +
                 ',' + quoted(units_.flowSymbol()) + ',' + QByteArray::number(value, 'g', kDigits) + ',' +
                 quoted(unit) + "\r\n";
    }

    [[nodiscard]] QByteArray text() const { return text_; }

  private:
    const DisplayUnits& units_;
    QByteArray text_;
};

void writePump(TableWriter& table, const std::string& name, const PumpPlot& plot) {
    const auto& flows = plot.head.flow_m3_s;
    table.heads("head", name, flows, plot.head.value);
    const CurveEdges delivered = deliveredEdges(plot), reading = readingEdges(plot.head);
    table.heads("head as delivered, low", name, flows, delivered.low);
    table.heads("head as delivered, high", name, flows, delivered.high);
    table.heads("head as read, 95 % low", name, flows, reading.low);
    table.heads("head as read, 95 % high", name, flows, reading.high);
    if (plot.efficiency)
        table.rows(
            "efficiency", name, plot.efficiency->flow_m3_s, plot.efficiency->value,
            [](double share) { return Efficiency::fromShare(share).inPercent(); }, QStringLiteral("%"));
    const auto kilowatts = [](double watts) { return Power::fromWatts(watts).inKilowatts(); };
    for (const auto& [quantity, power] :
         {std::pair{"shaft power", &plot.shaftPower}, std::pair{"motor input power", &plot.inputPower}}) {
        if (*power)
            table.rows(quantity, name, (*power)->flow_m3_s, (*power)->value, kilowatts, QStringLiteral("kW"));
    }
    if (plot.npshAvailable)
        table.heads("NPSH available", name, plot.npshAvailable->flow_m3_s, plot.npshAvailable->value);
    if (plot.npshRequired)
        table.heads("NPSH required", name, plot.npshRequired->flow_m3_s, plot.npshRequired->value);
}

} // namespace

QByteArray plotTable(const DutyPicture& picture, const DisplayUnits& units) {
    TableWriter table(units);
    if (picture.plot) writePump(table, picture.pump, *picture.plot);
    for (const OtherPump& other : picture.others)
        table.heads("head", other.name, other.head.flow_m3_s, other.head.value);
    for (const SystemLine& line : picture.systems) {
        const std::string name = line.asItIs ? line.name + " (as it is)" : line.name;
        table.heads("system curve", name, line.curve.flow_m3_s, line.curve.value);
        if (line.duty)
            table.row("duty point", name, line.duty->flow.inCubicMetresPerSecond(),
                      units.figure(line.duty->head), units.headSymbol());
    }
    for (const Need& need : picture.needs)
        table.row("need", need.caseName, need.flow.inCubicMetresPerSecond(), units.figure(need.head),
                  units.headSymbol());
    return table.text();
}

} // namespace headmark
