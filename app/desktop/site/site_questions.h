#pragma once
// A new site in plain questions, one a line: where the water stands, which pipe and how long, what the
// emitters need and how high they stand. The answers fill the open job at once.

#include "app/desktop/frame/card.h"
#include "app/desktop/frame/desk.h"
#include "app/desktop/frame/number_entry.h"
#include "app/desktop/site/catalogue_edit.h"

#include <QComboBox>
#include <QGridLayout>

namespace headmark {

// Whether the questions can say all of the site: one zone known as a whole at the end of one pipe.
[[nodiscard]] bool isQuestionSite(const Site& site);

class SiteQuestions : public Card {
    Q_OBJECT

  public:
    explicit SiteQuestions(Desk& desk, QWidget* parent = nullptr);
    void refresh();

    // By what they ask, for tests and the first focus.
    [[nodiscard]] NumberEntry& water() { return *water_; }
    [[nodiscard]] CatalogueEdit& pipe() { return *pipe_; }
    [[nodiscard]] NumberEntry& length() { return *length_; }
    [[nodiscard]] NumberEntry& flow() { return *flow_; }
    [[nodiscard]] NumberEntry& pressure() { return *pressure_; }
    [[nodiscard]] NumberEntry& height() { return *height_; }

  signals:
    void moreAsked();

  protected:
    void showEvent(QShowEvent* event) override;

  private:
    void goOnAtReturn();
    NumberEntry* ask(const QString& question, const QString& why, QWidget* before, QLabel*& unit);
    void takeWater();
    void connectAnswers();

    Desk& desk_;
    QGridLayout* grid_;
    QComboBox *where_, *emittersWhere_;
    NumberEntry *water_, *length_, *flow_, *pressure_, *height_;
    CatalogueEdit* pipe_;
    QLabel *waterUnit_, *lengthUnit_, *flowUnit_, *pressureUnit_, *heightUnit_;
};

} // namespace headmark
