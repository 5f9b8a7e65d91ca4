#include "app/desktop/site/zones_form.h"

#include "app/desktop/frame/card.h"
#include "app/desktop/site/run_edits.h"

#include <QHeaderView>
#include <QSignalBlocker>

namespace headmark {

namespace {

bool hasZones(const Workspace& w) { return !w.job.site.end && !w.job.site.system; }
bool hasOutlet(const Workspace& w) { return w.job.site.end.has_value(); }
bool hasSystem(const Workspace& w) { return w.job.site.system.has_value(); }
bool byPoints(const Workspace& w) { return hasSystem(w) && !w.job.site.system->staticHead; }
bool byResistance(const Workspace& w) { return hasSystem(w) && w.job.site.system->staticHead.has_value(); }

Zone firstZone() {
    Zone zone;
    zone.name = ZonesForm::tr("Zone 1").toStdString();
    zone.emitters.whole = true;
    zone.emitters.law = {Flow::fromCubicMetresPerHour(2.0), Pressure::fromKilopascals(200.0), 0.5, {}, {}};
    return zone;
}

KnownSystem newSystem() {
    KnownSystem system;
    system.staticHead = Head::fromMetres(10.0);
    system.resistance_m_per_m3_h_2 = 0.1;
    return system;
}

void setPurpose(Workspace& w, int index) {
    Site& site = w.job.site;
    if (index != 0) {
        site.zones.clear();
        for (Case& setting : w.job.cases)
            setting.zonesOpen.clear();
    } else if (site.zones.empty()) {
        site.zones.push_back(firstZone());
    }
    site.end = index == 1 ? std::optional(OutletEnd{Level::fromMetres(5.0), GaugePressure()}) : std::nullopt;
    site.system = index == 2 ? std::optional(newSystem()) : std::nullopt;
}

} // namespace

ZonesForm::ZonesForm(Desk& desk, QWidget* parent) : FieldForm(desk, parent), desk_(desk) {
    addPurpose();
    addList();
    addZoneFields();
    addEmitterFields();
    addLateralFields();
    addNeedFields();
    addOutletFields();
    addSystemFields();
}

bool ZonesForm::hasZone(const Workspace& w) const {
    return hasZones(w) && zone_ >= 0 && zone_ < static_cast<int>(w.job.site.zones.size());
}

const Zone& ZonesForm::of(const Workspace& w) const {
    return w.job.site.zones.at(static_cast<std::size_t>(zone_));
}
Zone& ZonesForm::of(Workspace& w) const { return w.job.site.zones.at(static_cast<std::size_t>(zone_)); }

void ZonesForm::addPurpose() {
    add(Choice{tr("The water goes to"),
               tr("Change where the water goes"),
               {tr("zones"), tr("one outlet, such as a tank"), tr("a known system curve")},
               [](const Workspace& w) { return hasOutlet(w)   ? 1
                                               : hasSystem(w) ? 2
                                                              : 0; },
               setPurpose});
}

void ZonesForm::addList() {
    list_ = new QListWidget;
    list_->setAccessibleName(tr("Zones"));
    list_->setMaximumHeight(fontMetrics().height() * 8);
    list_->setSizeAdjustPolicy(QAbstractScrollArea::AdjustToContents);
    listBox_ = new QWidget;
    auto* box = new QVBoxLayout(listBox_);
    box->setContentsMargins(0, 0, 0, 0);
    box->addWidget(list_);
    auto* line = new QHBoxLayout;
    line->setSpacing(0);
    const auto button = [&](const QString& words, const QString& name, auto act) {
        auto* made = quietButton(words);
        made->setAccessibleName(name);
        made->setToolTip(name);
        connect(made, &QPushButton::clicked, this, [this, act] {
            setZone(act());
            emit zoneChosen(zone_);
        });
        line->addWidget(made);
        return made;
    };
    button(tr("Add"), tr("Add a zone"), [this] { return addZone(desk_.document); });
    duplicate_ = button(tr("Duplicate"), tr("Duplicate the zone"),
                        [this] { return duplicateZone(desk_.document, zone_); });
    remove_ =
        button(tr("Remove"), tr("Remove the zone"), [this] { return removeZone(desk_.document, zone_); });
    up_ = button(QStringLiteral("↑"), tr("Move the zone up"),
                 [this] { return moveZone(desk_.document, zone_, -1); });
    down_ = button(QStringLiteral("↓"), tr("Move the zone down"),
                   [this] { return moveZone(desk_.document, zone_, 1); });
    line->addStretch(1);
    box->addLayout(line);
    addWidget(listBox_);
    connect(list_, &QListWidget::currentRowChanged, this, [this](int row) {
        if (row < 0 || filling_ || row == zone_) return;
        setZone(row);
        emit zoneChosen(zone_);
    });
}

void ZonesForm::addZoneFields() {
    const auto shown = [this](const Workspace& w) { return hasZone(w); };
    add(Text{tr("Name"),
             [this](const Workspace& w) { return QString::fromStdString(of(w).name); },
             [this](const QString& name) {
                 if (renameZone(desk_.document, zone_, name)) return true;
                 emit desk_.said(tr("Every zone needs a name of its own."), true);
                 return false;
             },
             {},
             shown});
    const auto takeoffs = [](const Workspace& w) {
        QStringList words{ZonesForm::tr("end of the delivery")};
        for (const RunItem& item : w.job.site.delivery) {
            if (const auto* takeoff = std::get_if<TakeoffItem>(&item))
                words += QString::fromStdString(takeoff->name);
        }
        return words;
    };
    add(Choice{tr("Leaves at"),
               tr("Change the take-off"),
               {},
               [this, takeoffs](const Workspace& w) {
                   const std::string& name = of(w).takeoff;
                   return name.empty()
                              ? 0
                              : static_cast<int>(takeoffs(w).indexOf(QString::fromStdString(name), 1));
               },
               [this, takeoffs](Workspace& w, int i) {
                   of(w).takeoff = i > 0 ? takeoffs(w).at(i).toStdString() : std::string();
               },
               tr("The take-off of the delivery run at which its branch begins."),
               shown,
               takeoffs});
    add(Number{tr("Emitters at"),
               tr("Change the zone's level"),
               Quantity::level,
               {},
               range::kLevel_m,
               false,
               [this](const Workspace& w) -> Figure { return of(w).level.inMetres(); },
               [this](Workspace& w, Figure f) { of(w).level = Level::fromMetres(*f); },
               tr("Height of the emitters above the site's zero level."),
               shown});
}

void ZonesForm::addNeedFields() {
    const auto shown = [this](const Workspace& w) { return hasZone(w); };
    const auto byArea = [this](const Workspace& w) { return hasZone(w) && of(w).area.has_value(); };
    const auto byVolume = [this](const Workspace& w) { return hasZone(w) && !of(w).area.has_value(); };
    addHeading(tr("Need"), shown);
    add(Choice{tr("Said as"),
               tr("Change how the need is said"),
               {tr("volume a day"), tr("depth on an area")},
               [this](const Workspace& w) { return of(w).area ? 1 : 0; },
               [this](Workspace& w, int i) {
                   Zone& zone = of(w);
                   zone.needPerDay.reset();
                   zone.area = i == 1 ? std::optional(Area::fromSquareMetres(1000.0)) : std::nullopt;
                   zone.needDepthPerDay = i == 1 ? std::optional(Length::fromMillimetres(4.0)) : std::nullopt;
               },
               {},
               shown});
    add(Number{tr("Volume a day"),
               tr("Change the need"),
               Quantity::plain,
               tr("m³"),
               range::kNeed_m3,
               true,
               [this](const Workspace& w) -> Figure {
                   return of(w).needPerDay ? Figure(of(w).needPerDay->inCubicMetres()) : Figure();
               },
               [this](Workspace& w, Figure f) {
                   of(w).needPerDay = f ? std::optional(Volume::fromCubicMetres(*f)) : std::nullopt;
               },
               {},
               byVolume});
    add(Number{tr("Area"),
               tr("Change the area"),
               Quantity::plain,
               tr("m²"),
               range::kArea_m2,
               false,
               [this](const Workspace& w) -> Figure { return of(w).area->inSquareMetres(); },
               [this](Workspace& w, Figure f) { of(w).area = Area::fromSquareMetres(*f); },
               {},
               byArea});
    add(Number{tr("Depth a day"),
               tr("Change the need"),
               Quantity::plain,
               tr("mm"),
               range::kDepth_mm,
               false,
               [this](const Workspace& w) -> Figure {
                   return of(w).needDepthPerDay.value_or(Length()).inMillimetres();
               },
               [this](Workspace& w, Figure f) { of(w).needDepthPerDay = Length::fromMillimetres(*f); },
               {},
               byArea});
}

void ZonesForm::addOutletFields() {
    add(Number{tr("Outlet at"),
               tr("Change the outlet's level"),
               Quantity::level,
               {},
               range::kLevel_m,
               false,
               [](const Workspace& w) -> Figure { return w.job.site.end->level.inMetres(); },
               [](Workspace& w, Figure f) { w.job.site.end->level = Level::fromMetres(*f); },
               {},
               hasOutlet});
    add(Number{tr("Pressure there"),
               tr("Change the outlet's pressure"),
               Quantity::pressure,
               {},
               range::kEndPressure_kPa,
               false,
               [](const Workspace& w) -> Figure { return w.job.site.end->pressure.inKilopascals(); },
               [](Workspace& w, Figure f) { w.job.site.end->pressure = GaugePressure::fromKilopascals(*f); },
               tr("0 for an open end."),
               hasOutlet});
}

void ZonesForm::addSystemFields() {
    addNote(tr("Known from elsewhere; levels do not move it and the suction is not judged."), hasSystem);
    add(Choice{tr("Known by"),
               tr("Change how the curve is known"),
               {tr("static head and resistance"), tr("points")},
               [](const Workspace& w) { return byPoints(w) ? 1 : 0; },
               [](Workspace& w, int i) {
                   KnownSystem system = newSystem();
                   if (i == 1) {
                       system = {};
                       system.points = {{Flow(), Head::fromMetres(10.0)},
                                        {Flow::fromCubicMetresPerHour(5.0), Head::fromMetres(15.0)}};
                   }
                   w.job.site.system = system;
               },
               {},
               hasSystem});
    add(Number{tr("Static head"),
               tr("Change the static head"),
               Quantity::head,
               {},
               range::kStaticHead_m,
               false,
               [](const Workspace& w) -> Figure { return w.job.site.system->staticHead->inMetres(); },
               [](Workspace& w, Figure f) { w.job.site.system->staticHead = Head::fromMetres(*f); },
               {},
               byResistance});
    add(Number{tr("Resistance"),
               tr("Change the resistance"),
               Quantity::plain,
               tr("m/(m³/h)²"),
               range::kResistance,
               false,
               [](const Workspace& w) -> Figure { return w.job.site.system->resistance_m_per_m3_h_2; },
               [](Workspace& w, Figure f) { w.job.site.system->resistance_m_per_m3_h_2 = f; },
               {},
               byResistance});
    points_ = new QTableWidget(0, 2);
    points_->setAccessibleName(tr("Points of the system curve"));
    points_->verticalHeader()->hide();
    points_->horizontalHeader()->setSectionResizeMode(QHeaderView::Stretch);
    points_->setMinimumHeight(fontMetrics().height() * 9);
    connect(points_, &QTableWidget::cellChanged, this, &ZonesForm::takePoint);
    addWidget(points_);
}

void ZonesForm::fillPoints() {
    const Workspace& w = desk_.document.workspace();
    points_->setVisible(byPoints(w));
    if (!byPoints(w)) return;
    const QSignalBlocker quiet(points_);
    const DisplayUnits& units = desk_.units();
    points_->setHorizontalHeaderLabels(
        {tr("Flow %1").arg(units.flowSymbol()), tr("Head %1").arg(units.headSymbol())});
    const auto& points = w.job.site.system->points;
    points_->setRowCount(static_cast<int>(points.size()) + 1); // the last one is for a new point
    for (int row = 0; row < points_->rowCount(); ++row) {
        const bool known = row < static_cast<int>(points.size());
        const auto text = [](double figure) { return figureText(figure); };
        const auto at = static_cast<std::size_t>(row);
        points_->setItem(row, 0,
                         new QTableWidgetItem(known ? text(units.figure(points[at].flow)) : QString()));
        points_->setItem(row, 1,
                         new QTableWidgetItem(known ? text(units.figure(points[at].head)) : QString()));
    }
}

// A point counts once both figures are there; an emptied one goes.
void ZonesForm::takePoint(int row, int column) {
    const auto at = static_cast<std::size_t>(row);
    const auto typed = [&](int c) {
        return points_->item(row, c) ? points_->item(row, c)->text().trimmed() : QString();
    };
    const DisplayUnits units = desk_.units();
    const std::size_t known = desk_.document.job().site.system->points.size();
    if (typed(column).isEmpty() && at < known && known > 1) {
        desk_.document.edit(tr("Remove a point"), [&](Workspace& w) {
            auto& points = w.job.site.system->points;
            points.erase(points.begin() + row);
        });
        return;
    }
    const auto flow = parsedFigure(typed(0));
    const auto head = parsedFigure(typed(1));
    if (at >= known && (typed(0).isEmpty() || typed(1).isEmpty())) return;
    if (!flow || !head || *flow < 0.0) {
        emit desk_.said(tr("A point needs a flow of at least 0 and a head, both plain figures."), true);
        fillPoints();
        return;
    }
    desk_.document.edit(tr("Change a point"), [&](Workspace& w) {
        auto& points = w.job.site.system->points;
        const KnownSystem::At point{units.flowFrom(*flow), units.headFrom(*head)};
        if (at < points.size()) {
            points[at] = point;
        } else {
            points.push_back(point);
        }
    });
}

void ZonesForm::fillList() {
    const Workspace& w = desk_.document.workspace();
    const auto& zones = w.job.site.zones;
    filling_ = true;
    listBox_->setVisible(hasZones(w));
    while (list_->count() > static_cast<int>(zones.size()))
        delete list_->takeItem(list_->count() - 1);
    for (int i = 0; i < static_cast<int>(zones.size()); ++i) {
        const QString name = QString::fromStdString(zones[static_cast<std::size_t>(i)].name);
        if (i < list_->count()) {
            list_->item(i)->setText(name);
        } else {
            list_->addItem(name);
        }
    }
    zone_ = zones.empty() ? 0 : std::clamp(zone_, 0, static_cast<int>(zones.size()) - 1);
    list_->setCurrentRow(zone_);
    filling_ = false;
    for (QPushButton* button : {duplicate_, remove_})
        button->setEnabled(!zones.empty());
    up_->setEnabled(zone_ > 0);
    down_->setEnabled(zone_ + 1 < static_cast<int>(zones.size()));
}

void ZonesForm::update() {
    fillList();
    refresh();
    fillPoints();
}

void ZonesForm::setZone(int zone) {
    zone_ = std::max(0, zone);
    update();
}

} // namespace headmark
