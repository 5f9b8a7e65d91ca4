#pragma once
// "Zones open": every zone with its valve. Turning one is tried at once, beside the sliders of "What if", and
// leaves the job as it is; a set worth keeping becomes a case.

#include "analysis/job/findings.h"
#include "app/desktop/duty/zone_row.h"
#include "app/desktop/frame/card.h"
#include "app/desktop/frame/desk.h"

#include <QMenu>
#include <QToolButton>

#include <optional>
#include <string>
#include <vector>

namespace headmark {

class ZonesCard : public Card {
    Q_OBJECT

  public:
    explicit ZonesCard(Desk& desk, QWidget* parent = nullptr);

    // Valves as the case has them. Hidden where the site has no zones or the case no valves to turn.
    void reset(const MadeCase& shown, const Site& site);
    void clear();
    // What is known of the zones as they stand: of the case, or of what is tried.
    void show(const CaseAnswer* answer, const Site& site);
    // Sets worked out to run together; null: none known now.
    void showSets(const ZonesAtOnceFinding* sets);

    // Empty: those of the case.
    [[nodiscard]] std::optional<std::vector<std::string>> tried() const;
    // "Hedge stock and Fruit trees", "7 zones open", "every valve shut".
    [[nodiscard]] QString setName() const;
    void setKeepable(bool keepable);

    [[nodiscard]] const std::vector<ZoneRow*>& rows() const { return rows_; }
    [[nodiscard]] QString verdict() const { return verdict_->text(); }
    [[nodiscard]] QPushButton* backButton() const { return back_; }
    [[nodiscard]] QPushButton* keepButton() const { return keep_; }
    [[nodiscard]] QToolButton* setsButton() const { return sets_; }

  signals:
    void changed();
    void keepAsked();

  private:
    [[nodiscard]] std::vector<std::string> openNow() const;
    void open(const std::vector<std::string>& zones);
    void turned();
    void addRow();
    void showVerdict(const CaseAnswer* answer, const Site& site);
    [[nodiscard]] ZoneRow::Words wordsOf(std::size_t zone, const CaseAnswer* answer, const Site& site) const;
    [[nodiscard]] QString namesOf(const std::vector<std::string>& zones) const;

    Desk& desk_;
    QVBoxLayout* list_;
    SignMark* sign_;
    QLabel* verdict_;
    QToolButton* sets_;
    QMenu* setsMenu_;
    QPushButton *back_, *keep_;
    std::vector<ZoneRow*> rows_;
    std::vector<std::string> names_;  // of the site's zones
    std::vector<std::string> ofCase_; // open in the case, in the site's order
    std::vector<std::vector<std::string>> best_;
};

} // namespace headmark
