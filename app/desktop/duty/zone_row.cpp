#include "app/desktop/duty/zone_row.h"

#include "app/desktop/frame/theme.h"

#include <QGridLayout>
#include <QPainter>

namespace headmark {

namespace {

constexpr int kValve_px = 20;
constexpr int kMargin_px = 8;

void setIfOther(QLabel& label, const QString& text) {
    if (label.text() != text) label.setText(text);
}

} // namespace

void paintValve(QPainter& painter, const QRectF& where, bool open) {
    const Theme& t = theme();
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const QPointF c = where.center();
    const double w = where.width() * 0.48, h = where.height() * 0.34;
    painter.setPen(QPen(open ? t.good : t.faint, 1.6, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.setBrush(open ? QBrush(t.good) : QBrush(Qt::NoBrush));
    painter.drawPolygon(QPolygonF({c, c + QPointF(-w, -h), c + QPointF(-w, h)}));
    painter.drawPolygon(QPolygonF({c, c + QPointF(w, -h), c + QPointF(w, h)}));
    if (!open) painter.drawLine(c + QPointF(0, -1.4 * h), c + QPointF(0, 1.4 * h));
    painter.restore();
}

ZoneRow::ZoneRow(QWidget* parent)
    : QCheckBox(parent), name_(new QLabel), flow_(new QLabel), pressure_(new QLabel), verdict_(new QLabel),
      sign_(new SignMark) {
    setFocusPolicy(Qt::StrongFocus);
    setCursor(Qt::PointingHandCursor);
    for (QLabel* label : {name_, flow_, pressure_, verdict_}) {
        label->setTextFormat(Qt::PlainText);
        label->setTextInteractionFlags(Qt::NoTextInteraction);
        label->setAttribute(Qt::WA_TransparentForMouseEvents);
    }
    for (QLabel* label : {name_, pressure_, verdict_})
        label->setWordWrap(true);
    for (QLabel* label : {pressure_, verdict_})
        label->setObjectName(QStringLiteral("faint"));
    auto* verdict = new QHBoxLayout;
    verdict->setSpacing(5);
    verdict->addWidget(sign_, 0, Qt::AlignTop);
    verdict->addWidget(verdict_, 1);
    auto* grid = new QGridLayout(this);
    grid->setContentsMargins(kValve_px + 2 * kMargin_px, 5, kMargin_px, 5);
    grid->setHorizontalSpacing(10);
    grid->setVerticalSpacing(1);
    grid->setColumnStretch(0, 3);
    grid->setColumnStretch(1, 2);
    grid->addWidget(name_, 0, 0);
    grid->addWidget(flow_, 0, 1, Qt::AlignRight | Qt::AlignTop);
    grid->addWidget(pressure_, 1, 0);
    grid->addLayout(verdict, 1, 1);
    QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Preferred);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
    connect(this, &QCheckBox::toggled, this, [this] { update(); });
}

// The layout's, not that of a box with its text.
QSize ZoneRow::sizeHint() const { return layout()->totalSizeHint(); }
QSize ZoneRow::minimumSizeHint() const { return layout()->totalMinimumSize(); }

void ZoneRow::show(const Words& words) {
    QFont bold = font();
    bold.setWeight(isChecked() ? QFont::DemiBold : QFont::Normal);
    if (name_->font() != bold) name_->setFont(bold);
    for (QLabel* label : {pressure_, verdict_}) {
        if (label->font() != smallFont()) label->setFont(smallFont());
    }
    setIfOther(*name_, words.name);
    setIfOther(*flow_, words.flow);
    setIfOther(*pressure_, words.pressure);
    setIfOther(*verdict_, words.verdict);
    sign_->setSign(words.sign);
    sign_->setVisible(words.sign != Sign::empty);
    for (QLabel* label : {pressure_, verdict_})
        label->setVisible(!label->text().isEmpty());
    setAccessibleName(tr("Valve of %1").arg(words.name));
    setAccessibleDescription(
        QStringList({words.flow, words.pressure, words.verdict}).join(QStringLiteral(", ")));
    update();
}

void ZoneRow::paintEvent(QPaintEvent*) {
    const Theme& t = theme();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const QRectF box = QRectF(rect()).adjusted(1, 1, -1, -1);
    if (isChecked() || underMouse()) {
        painter.setPen(Qt::NoPen);
        painter.setBrush(t.sunken);
        painter.drawRoundedRect(box, 6, 6);
    }
    if (hasFocus()) {
        painter.setPen(QPen(t.accent, 2));
        painter.setBrush(Qt::NoBrush);
        painter.drawRoundedRect(box, 6, 6);
    }
    const double top = (layout()->contentsMargins().top() + name_->height() / 2.0) - kValve_px / 2.0;
    paintValve(painter, QRectF(kMargin_px, std::max(2.0, top), kValve_px, kValve_px), isChecked());
}

} // namespace headmark
