// Of zones_form.h: one outlet instead of zones, or a known system curve with its points.

#include "app/desktop/site/zones_form.h"

#include <QHeaderView>
#include <QSignalBlocker>

namespace headmark {

namespace {

bool hasOutlet(const Workspace& w) { return w.job.site.end.has_value(); }
bool hasSystem(const Workspace& w) { return w.job.site.system.has_value(); }
bool byPoints(const Workspace& w) { return hasSystem(w) && !w.job.site.system->staticHead; }
bool byResistance(const Workspace& w) { return hasSystem(w) && w.job.site.system->staticHead.has_value(); }

} // namespace

KnownSystem newKnownSystem() {
    KnownSystem system;
    system.staticHead = Head::fromMetres(10.0);
    system.resistance_m_per_m3_h_2 = 0.1;
    return system;
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
                   KnownSystem system = newKnownSystem();
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

} // namespace headmark
