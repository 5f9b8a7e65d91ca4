#include "app/words/drawing_svg.h"

#include "app/words/part_words.h"

#include <QXmlStreamWriter>

#include <cmath>
#include <numbers>

namespace headmark {

namespace {

constexpr double kCapital = 0.72; // height of a capital as a share of the font's size, from memory

QString number(double value) {
    QString text = QString::number(value, 'f', 3);
    while (text.endsWith(QLatin1Char('0')))
        text.chop(1);
    if (text.endsWith(QLatin1Char('.'))) text.chop(1);
    return text == QStringLiteral("-0") ? QStringLiteral("0") : text;
}

QString pair(DrawPoint p) { return number(p.x) + QLatin1Char(',') + number(p.y); }

DrawPoint onCircle(const Stroke& s, double angle_deg) {
    const double a = angle_deg * std::numbers::pi / 180.0;
    return {s.points.front().x + s.radius * std::cos(a), s.points.front().y + s.radius * std::sin(a)};
}

class SvgWriter {
  public:
    SvgWriter(QByteArray& out, const Phrasing& phrasing) : xml_(&out), p_(phrasing) {
        xml_.setAutoFormatting(true);
    }

    void write(const Schematic& drawing, const QString& title) {
        xml_.writeStartDocument();
        xml_.writeStartElement(QStringLiteral("svg"));
        xml_.writeDefaultNamespace(QStringLiteral("http://www.w3.org/2000/svg"));
        set("version", QStringLiteral("1.1"));
        set("width", number(drawing.width) + QStringLiteral("mm"));
        set("height", number(drawing.height) + QStringLiteral("mm"));
        set("viewBox", QStringLiteral("0 0 %1 %2").arg(number(drawing.width), number(drawing.height)));
        xml_.writeTextElement(QStringLiteral("title"), title);
        for (const Stroke& stroke : drawing.strokes())
            one(stroke);
        xml_.writeEndDocument();
    }

  private:
    void set(const char* name, const QString& value) { xml_.writeAttribute(QLatin1String(name), value); }

    void one(const Stroke& s) {
        switch (s.kind) {
        case StrokeKind::line:
        case StrokeKind::polygon:
            return shape(s);
        case StrokeKind::circle:
            xml_.writeEmptyElement(QStringLiteral("circle"));
            set("cx", number(s.points.front().x));
            set("cy", number(s.points.front().y));
            set("r", number(s.radius));
            return pen(s);
        case StrokeKind::arc:
            return arc(s);
        case StrokeKind::text:
            return text(s);
        }
    }

    void shape(const Stroke& s) {
        xml_.writeEmptyElement(s.kind == StrokeKind::line ? QStringLiteral("polyline")
                                                          : QStringLiteral("polygon"));
        QStringList points;
        for (const DrawPoint& p : s.points)
            points << pair(p);
        set("points", points.join(QLatin1Char(' ')));
        pen(s);
    }

    void arc(const Stroke& s) {
        xml_.writeEmptyElement(QStringLiteral("path"));
        const bool large = std::abs(s.sweep_deg) > 180.0;
        set("d", QStringLiteral("M%1 A%2,%2 0 %3 %4 %5")
                     .arg(pair(onCircle(s, s.from_deg)), number(s.radius))
                     .arg(large ? 1 : 0)
                     .arg(s.sweep_deg > 0.0 ? 1 : 0)
                     .arg(pair(onCircle(s, s.from_deg + s.sweep_deg))));
        pen(s);
    }

    void text(const Stroke& s) {
        const double size = s.textHeight / kCapital;
        xml_.writeStartElement(QStringLiteral("text"));
        set("x", number(s.points.front().x));
        set("y", number(s.points.front().y + s.textHeight / 2.0));
        set("font-size", number(size));
        set("font-family", QStringLiteral("sans-serif"));
        set("text-anchor", QStringLiteral("middle"));
        xml_.writeCharacters(s.word ? captionWords(s.text, p_) : QString::fromStdString(s.text));
        xml_.writeEndElement();
    }

    void pen(const Stroke& s) {
        set("fill", s.filled ? QStringLiteral("#000") : QStringLiteral("none"));
        set("stroke", QStringLiteral("#000"));
        set("stroke-width", number(s.heavy ? kHeavyStroke_mm : kThinStroke_mm));
        if (s.dashed) set("stroke-dasharray", number(kDash_mm) + QLatin1Char(',') + number(kDashGap_mm));
    }

    QXmlStreamWriter xml_;
    const Phrasing& p_;
};

} // namespace

QByteArray drawingSvg(const Schematic& drawing, const QString& title, const Phrasing& phrasing) {
    QByteArray out;
    SvgWriter(out, phrasing).write(drawing, title);
    return out;
}

} // namespace headmark
