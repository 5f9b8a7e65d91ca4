#include "app/desktop/site/zones_form.h"

#include "app/desktop/frame/card.h"
#include "app/desktop/site/controller_edits.h"
#include "app/desktop/site/run_edits.h"

namespace headmark {

namespace {

bool hasZones(const Workspace& w) { return !w.job.site.end && !w.job.site.system; }
bool hasOutlet(const Workspace& w) { return w.job.site.end.has_value(); }
bool hasSystem(const Workspace& w) { return w.job.site.system.has_value(); }

Zone firstZone() {
    Zone zone;
    zone.name = ZonesForm::tr("Zone 1").toStdString();
    zone.emitters.whole = true;
    zone.emitters.law = {Flow::fromCubicMetresPerHour(2.0), Pressure::fromKilopascals(200.0), 0.5, {}, {}};
    return zone;
}

void setPurpose(Workspace& w, int index) {
    Site& site = w.job.site;
    if (index != 0) {
        for (const Zone& zone : site.zones)
            removeFromPairs(site, zone.name);
        site.zones.clear();
        for (Case& setting : w.job.cases)
            setting.zonesOpen.clear();
    } else if (site.zones.empty()) {
        site.zones.push_back(firstZone());
    }
    site.end = index == 1 ? std::optional(OutletEnd{Level::fromMetres(5.0), GaugePressure()}) : std::nullopt;
    site.system = index == 2 ? std::optional(newKnownSystem()) : std::nullopt;
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
    list_->setObjectName(QStringLiteral("zones"));
    list_->setAccessibleName(tr("Zones"));
    list_->setMaximumHeight(fontMetrics().height() * 10);
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
