#include "app/desktop/charts/lines_card.h"

#include "app/desktop/charts/chart_painting.h"
#include "app/desktop/charts/chart_words.h"
#include "app/desktop/charts/flow_layout.h"
#include "app/desktop/frame/theme.h"
#include "app/words/caution_words.h"

#include <QFormLayout>
#include <QPainter>

#include <algorithm>

namespace headmark {

namespace {

constexpr int kPad_px = 9, kSwatch_px = 26;
constexpr int kNoPump = -1, kNewPump = -2;
constexpr LineQuantity kOffered[] = {LineQuantity::head, LineQuantity::efficiency, LineQuantity::power,
                                     LineQuantity::npshRequired};

QRect textRect(int width) {
    return QRect(2 * kPad_px + kSwatch_px, kPad_px, width - 3 * kPad_px - kSwatch_px, 10000);
}

} // namespace

LineRow::LineRow(QWidget* parent) : QAbstractButton(parent) {
    setCheckable(false);
    setFocusPolicy(Qt::StrongFocus);
    QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Minimum);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
}

void LineRow::show(const QString& title, const QString& said, const QColor& colour, bool doubtful,
                   bool chosen) {
    setText(title);
    setAccessibleName(title);
    setAccessibleDescription(said);
    said_ = said;
    colour_ = colour;
    doubtful_ = doubtful;
    chosen_ = chosen;
    updateGeometry();
    update();
}

int LineRow::heightForWidth(int width) const {
    const QRect room = textRect(width);
    const QFontMetrics small(smallFont());
    const int title = fontMetrics().boundingRect(room, Qt::TextWordWrap, text()).height();
    const int said = small.boundingRect(room, Qt::TextWordWrap, said_).height();
    return title + said + 2 * kPad_px + 2;
}

QSize LineRow::sizeHint() const {
    const int width = std::max(this->width(), 220);
    return {220, heightForWidth(width)};
}

void LineRow::paintEvent(QPaintEvent*) {
    const Theme& t = theme();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const bool marked = chosen_ || hasFocus();
    painter.setPen(QPen(marked ? t.accent : t.border, chosen_ || hasFocus() ? 1.8 : 1.0));
    painter.setBrush(t.surface);
    painter.drawRoundedRect(QRectF(rect()).adjusted(1, 1, -1, -1), 5, 5);
    painter.setPen(QPen(colour_, 3.5, doubtful_ ? Qt::DotLine : Qt::SolidLine));
    const double middle = 0.5 * height();
    painter.drawLine(QPointF(kPad_px, middle), QPointF(kPad_px + kSwatch_px - 6, middle));
    const QRect room = textRect(width());
    QRect used;
    painter.setPen(t.text);
    QFont bold = font();
    bold.setWeight(QFont::DemiBold);
    painter.setFont(bold);
    painter.drawText(room, Qt::TextWordWrap, text(), &used);
    painter.setFont(smallFont());
    painter.setPen(doubtful_ ? t.warning : t.faint);
    painter.drawText(room.adjusted(0, used.height() + 2, 0, 0), Qt::TextWordWrap, said_);
}

LinesCard::LinesCard(ChartSession& session, QWidget* parent)
    : Card(tr("Lines on this page"), parent), session_(session),
      none_(faintLabel(tr("None read yet. Press L, or “Read a line”, and click once on the ink of a line."),
                       this)),
      list_(new QVBoxLayout), form_(new QWidget(this)),
      family_(plainButton(tr("Make a pump of each head line"), this)) {
    content().addWidget(none_);
    list_->setSpacing(5);
    content().addLayout(list_);
    family_->setToolTip(
        tr("For a page with a family of pumps: every head line without a pump gets one of its own."));
    content().addWidget(family_);
    buildForm();
    content().addWidget(form_);
    connect(family_, &QPushButton::clicked, this, [this] {
        session_.desk.document.edit(tr("Make a pump of each head line"), [this](Workspace& workspace) {
            makePumpsOfHeadLines(workspace, session_.path());
        });
    });
    connect(&session_, &ChartSession::changed, this, &LinesCard::follow);
    connect(&session_, &ChartSession::chosenChanged, this, &LinesCard::follow);
    connect(&session_.desk, &Desk::unitsChanged, this, &LinesCard::follow);
    connect(&session_.desk, &Desk::themeChanged, this, &LinesCard::follow);
    follow();
}

void LinesCard::buildForm() {
    auto* form = new QFormLayout(form_);
    form->setContentsMargins(0, 4, 0, 0);
    form->setRowWrapPolicy(QFormLayout::WrapLongRows);
    name_ = new QLineEdit(form_);
    name_->setAccessibleName(tr("Name of the line"));
    quantity_ = new QComboBox(form_);
    for (const LineQuantity quantity : kOffered)
        quantity_->addItem(quantityWords(quantity), static_cast<int>(quantity));
    quantity_->setAccessibleName(tr("What the line shows"));
    axis_ = new QComboBox(form_);
    axis_->addItem(tr("left axis"));
    axis_->addItem(tr("right axis"));
    axis_->setAccessibleName(tr("Axis the line is read from"));
    owner_ = new QComboBox(form_);
    owner_->setAccessibleName(tr("Pump the line belongs to"));
    owner_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    owner_->setMinimumContentsLength(12);
    form->addRow(tr("Name"), name_);
    form->addRow(tr("Shows"), quantity_);
    form->addRow(tr("Read from"), axis_);
    form->addRow(tr("Belongs to"), owner_);
    auto* buttons = new FlowLayout;
    addSpot_ = quietButton(tr("Add a spot"), form_);
    addSpot_->setToolTip(
        tr("Where the line was followed astray: click its true course (Shift and click on the "
           "page, or S), and it is followed again through that spot."));
    auto* drop = quietButton(tr("Delete the line"), form_);
    buttons->addWidget(addSpot_);
    buttons->addWidget(drop);
    form->addRow(buttons);
    connect(name_, &QLineEdit::editingFinished, this, [this] {
        if (!name_->isModified()) return;
        name_->setModified(false);
        const std::string name = name_->text().trimmed().toStdString();
        const std::size_t line = session_.chosen().index;
        session_.desk.document.edit(tr("Rename a line"), [&](Workspace& workspace) {
            renameLine(workspace, session_.path(), line, name);
        });
        follow();
    });
    connect(quantity_, &QComboBox::activated, this, [this] {
        const auto quantity = static_cast<LineQuantity>(quantity_->currentData().toInt());
        const std::size_t line = session_.chosen().index;
        session_.desk.document.edit(tr("Change what a line shows"), [&](Workspace& workspace) {
            changeQuantity(workspace, session_.path(), line, quantity);
        });
    });
    connect(axis_, &QComboBox::activated, this, [this](int axis) {
        session_.changeLine(session_.chosen().index, tr("Change a line's axis"), [&](ChartLine& line) {
            line.axis = axis == 1 ? ValueAxis::right : ValueAxis::left;
        });
    });
    connect(owner_, &QComboBox::activated, this, &LinesCard::give);
    connect(addSpot_, &QPushButton::clicked, this, [this] { session_.setMode(ChartMode::addSpot); });
    connect(drop, &QPushButton::clicked, this, [this] {
        session_.remove({PartKind::line, session_.chosen().index, 0});
    });
}

void LinesCard::give(int choice) {
    const int pump = owner_->itemData(choice).toInt();
    const std::size_t line = session_.chosen().index;
    const auto reading = session_.reading();
    if (!reading || line >= reading->lines.size()) return;
    const std::string name = reading->lines[line].name;
    session_.desk.document.edit(tr("Say whose line it is"), [&](Workspace& workspace) {
        if (pump == kNoPump) {
            takeLineAway(workspace, session_.path(), line);
        } else if (pump == kNewPump) {
            givePumpOfItsOwn(workspace, session_.path(), line, name);
        } else {
            giveLine(workspace, session_.path(), line, static_cast<std::size_t>(pump));
        }
    });
}

QString LinesCard::saidOf(std::size_t line, bool* doubtful) const {
    *doubtful = false;
    const ReadLine* read = session_.readLine(line);
    const Workspace& workspace = session_.desk.document.workspace();
    QStringList said;
    if (read) {
        *doubtful = read->trust == Trust::doubtful;
        said << readWords(*read, session_.desk.units());
        const Phrasing phrasing = screenPhrasing();
        for (const Caution& caution : read->cautions) {
            if (caution.severity == Severity::note && !*doubtful) continue;
            said << cautionLabel(caution.code, phrasing);
        }
    } else if (const Error* why = session_.whyUnread(line)) {
        *doubtful = true;
        said << plainSentence(*why);
    } else if (!session_.mapping()) {
        said << tr("is read as soon as the pins fix the axes");
    } else {
        said << tr("being read…");
    }
    const auto owners = ownersOf(workspace, session_.path(), line);
    QStringList names;
    for (const std::size_t p : owners)
        names << QString::fromStdString(workspace.job.pumps[p].name);
    said << (names.isEmpty() ? tr("belongs to no pump yet")
                             : tr("belongs to %1").arg(names.join(QStringLiteral(", "))));
    return said.join(QLatin1Char('\n'));
}

void LinesCard::followRows(const Reading& reading) {
    while (rows_.size() > reading.lines.size()) {
        rows_.back()->deleteLater();
        rows_.pop_back();
    }
    while (rows_.size() < reading.lines.size()) {
        auto* row = new LineRow(this);
        const std::size_t line = rows_.size();
        connect(row, &QAbstractButton::clicked, this, [this, line] {
            session_.choose({PartKind::line, line, 0});
        });
        list_->addWidget(row);
        rows_.push_back(row);
        row->QWidget::show();
    }
    for (std::size_t i = 0; i < rows_.size(); ++i) {
        bool doubtful = false;
        const QString said = saidOf(i, &doubtful);
        const QString name = QString::fromStdString(reading.lines[i].name);
        const QString quantity = quantityWords(reading.lines[i].quantity);
        const QString title =
            name.compare(quantity, Qt::CaseInsensitive) == 0 ? quantity : tr("%1 · %2").arg(name, quantity);
        const bool chosen = session_.chosen().isOfLine() && session_.chosen().index == i;
        rows_[i]->show(title, said, lineColour(reading, i, false), doubtful, chosen);
    }
}

void LinesCard::followForm(const Reading& reading) {
    const ChartPart chosen = session_.chosen();
    form_->setVisible(chosen.isOfLine() && chosen.index < reading.lines.size());
    if (!chosen.isOfLine() || chosen.index >= reading.lines.size()) return;
    const ChartLine& line = reading.lines[chosen.index];
    if (!(name_->hasFocus() && name_->isModified())) name_->setText(QString::fromStdString(line.name));
    quantity_->setCurrentIndex(quantity_->findData(static_cast<int>(line.quantity)));
    axis_->setCurrentIndex(line.axis == ValueAxis::right ? 1 : 0);
    const Workspace& workspace = session_.desk.document.workspace();
    const auto owners = ownersOf(workspace, session_.path(), chosen.index);
    owner_->clear();
    owner_->addItem(tr("no pump"), kNoPump);
    for (std::size_t p = 0; p < workspace.job.pumps.size(); ++p)
        owner_->addItem(QString::fromStdString(workspace.job.pumps[p].name), static_cast<int>(p));
    owner_->addItem(tr("a new pump"), kNewPump);
    owner_->setCurrentIndex(owners.empty() ? 0 : static_cast<int>(owners.front()) + 1);
}

void LinesCard::follow() {
    if (session_.isDragging()) return;
    const auto reading = session_.reading();
    setVisible(reading != nullptr);
    if (!reading) return;
    none_->setVisible(reading->lines.empty());
    followRows(*reading);
    followForm(*reading);
    const Workspace& workspace = session_.desk.document.workspace();
    int unowned = 0;
    for (std::size_t i = 0; i < reading->lines.size(); ++i) {
        if (reading->lines[i].quantity == LineQuantity::head &&
            ownersOf(workspace, session_.path(), i).empty())
            ++unowned;
    }
    family_->setVisible(unowned > 0);
}

} // namespace headmark
