#pragma once
// "Zones": what the water is for. A list of zones with the form of the chosen one; or one outlet; or a known
// system curve.

#include "app/desktop/site/field_form.h"

#include <QListWidget>
#include <QPushButton>
#include <QTableWidget>

namespace headmark {

// A known system curve to begin with; its figures are to be typed over.
[[nodiscard]] KnownSystem newKnownSystem();

class ZonesForm : public FieldForm {
    Q_OBJECT

  public:
    explicit ZonesForm(Desk& desk, QWidget* parent = nullptr);

    void update(); // everything anew, the list first
    void setZone(int zone);
    [[nodiscard]] int zone() const { return zone_; }
    [[nodiscard]] QListWidget& list() { return *list_; }

  signals:
    void zoneChosen(int zone);

  private:
    void addPurpose();
    void addList();
    void addZoneFields();
    void addEmitterFields();
    void addLateralFields();
    void addNeedFields();
    void addOutletFields();
    void addSystemFields();
    void fillPoints();
    void takePoint(int row, int column);
    void fillList();
    [[nodiscard]] bool hasZone(const Workspace& workspace) const;
    [[nodiscard]] const Zone& of(const Workspace& workspace) const;
    [[nodiscard]] Zone& of(Workspace& workspace) const;

    Desk& desk_;
    QListWidget* list_;
    QWidget* listBox_;
    QTableWidget* points_;
    QPushButton *duplicate_, *remove_, *up_, *down_;
    int zone_ = 0;
    bool filling_ = false;
};

} // namespace headmark
