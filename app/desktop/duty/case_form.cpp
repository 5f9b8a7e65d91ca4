#include "app/desktop/duty/case_form.h"

#include "app/desktop/duty/duty_words.h"
#include "app/desktop/frame/card.h"

#include <QFormLayout>

#include <algorithm>

namespace headmark {

namespace {

constexpr double kLeastSpeed_percent = 5.0, kGreatestSpeed_percent = 200.0; // as in a job file

} // namespace

CaseForm::CaseForm(QWidget* parent)
    : QWidget(parent), name_(new QLineEdit), zonesLayout_(new QVBoxLayout),
      zonesTitle_(new QLabel(tr("Zones open"))), water_(new QComboBox), filter_(new QComboBox),
      speed_(new NumberEntry), complaint_(wrappedLabel({})), confirm_(plainButton({})) {
    for (const WaterLevel level : {WaterLevel::low, WaterLevel::usual, WaterLevel::high})
        water_->addItem(waterWords(level), static_cast<int>(level));
    for (const FilterState state : {FilterState::clean, FilterState::service})
        filter_->addItem(filterWords(state), static_cast<int>(state));
    speed_->setRange({kLeastSpeed_percent, kGreatestSpeed_percent, false});
    name_->setAccessibleName(tr("Name of the case"));
    speed_->setAccessibleName(tr("Speed in percent of the running speed"));
    speed_->setToolTip(tr("Of the speed the pump runs at; 100 % without a speed control."));

    auto* form = new QFormLayout;
    form->setRowWrapPolicy(QFormLayout::WrapLongRows);
    form->setContentsMargins(0, 0, 0, 0);
    form->addRow(tr("&Name"), name_);
    zonesTitle_->setBuddy(nullptr);
    form->addRow(zonesTitle_);
    zonesLayout_->setSpacing(2);
    form->addRow(zonesLayout_);
    form->addRow(tr("&Water"), water_);
    form->addRow(tr("&Filter"), filter_);
    form->addRow(tr("&Speed, %"), speed_);

    QPushButton* cancel = quietButton(tr("Cancel"));
    auto* buttons = new QHBoxLayout;
    buttons->addWidget(confirm_);
    buttons->addWidget(cancel);
    buttons->addStretch(1);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 4, 0, 0);
    layout->addLayout(form);
    layout->addWidget(complaint_);
    layout->addLayout(buttons);

    connect(name_, &QLineEdit::textChanged, this, &CaseForm::look);
    connect(speed_, &QLineEdit::textChanged, this, &CaseForm::look);
    connect(name_, &QLineEdit::returnPressed, this, &CaseForm::confirm);
    connect(confirm_, &QPushButton::clicked, this, &CaseForm::confirm);
    connect(cancel, &QPushButton::clicked, this, &CaseForm::cancelled);
}

void CaseForm::makeZones(const Site& site, const Case& from) {
    for (QCheckBox* box : zones_)
        delete box;
    zones_.clear();
    zoneNames_.clear();
    for (const Zone& zone : site.zones) {
        auto* box =
            new QCheckBox(QString::fromStdString(zone.name).replace(QLatin1Char('&'), QStringLiteral("&&")));
        box->setChecked(std::find(from.zonesOpen.begin(), from.zonesOpen.end(), zone.name) !=
                        from.zonesOpen.end());
        zonesLayout_->addWidget(box);
        zones_.push_back(box);
        zoneNames_.push_back(zone.name);
    }
    zonesTitle_->setVisible(!zones_.empty());
    QWidget* before = name_;
    for (QCheckBox* box : zones_) {
        setTabOrder(before, box);
        before = box;
    }
    setTabOrder(before, water_);
}

void CaseForm::start(const Site& site, const Case& from, const QString& confirm) {
    name_->setText(QString::fromStdString(from.name));
    makeZones(site, from);
    water_->setCurrentIndex(water_->findData(static_cast<int>(from.level)));
    water_->setEnabled(site.source.has_value());
    filter_->setCurrentIndex(filter_->findData(static_cast<int>(from.filter)));
    speed_->setFigure(Efficiency::fromShare(from.speedShare).inPercent());
    confirm_->setText(confirm);
    name_->setFocus();
    name_->selectAll();
    look();
}

QString CaseForm::complaint() const {
    if (name_->text().trimmed().isEmpty()) return tr("The case needs a name.");
    return speed_->complaint();
}

void CaseForm::look() {
    const QString why = complaint();
    complaint_->setText(why);
    complaint_->setVisible(!why.isEmpty());
    confirm_->setEnabled(why.isEmpty());
}

Case CaseForm::described() const {
    Case c;
    c.name = name_->text().trimmed().toStdString();
    for (std::size_t z = 0; z < zones_.size(); ++z) {
        if (zones_[z]->isChecked()) c.zonesOpen.push_back(zoneNames_[z]);
    }
    c.level = static_cast<WaterLevel>(water_->currentData().toInt());
    c.filter = static_cast<FilterState>(filter_->currentData().toInt());
    c.speedShare = Efficiency::fromPercent(speed_->figure().value_or(100.0)).inShare();
    return c;
}

void CaseForm::confirm() {
    if (complaint().isEmpty()) emit confirmed(described());
}

} // namespace headmark
