#pragma once
// The run as a table, from the source to the emitters: what the user describes at the left, what the shown
// case makes of it at the right. Figures come from the long section of the answer; none is computed here.

#include "app/desktop/frame/desk.h"
#include "app/desktop/site/run_spot.h"

#include <QAbstractTableModel>

#include <map>
#include <vector>

namespace headmark {

class RunModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    enum Column { kItem, kSize, kSetting, kCount, kFlow, kVelocity, kLoss, kHeadLeft, kNote, kColumns };
    // The figure behind an editable cell, in display units; and how grave the note is (Severity; 3: an
    // error).
    enum Role { kFigureRole = Qt::UserRole, kGravityRole, kHeadingRole };
    enum class Kind { heading, source, item, pump, tankReturn, emitters, outlet };

    struct Row {
        Kind kind;
        RunSpot spot;
        bool operator==(const Row&) const = default;
    };

    explicit RunModel(Desk& desk, QObject* parent = nullptr);

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
    [[nodiscard]] Qt::ItemFlags flags(const QModelIndex& index) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role) override;
    [[nodiscard]] Qt::DropActions supportedDropActions() const override { return Qt::MoveAction; }
    [[nodiscard]] QStringList mimeTypes() const override;
    [[nodiscard]] QMimeData* mimeData(const QModelIndexList& indexes) const override;
    bool dropMimeData(const QMimeData* data, Qt::DropAction action, int row, int column,
                      const QModelIndex& parent) override;

    [[nodiscard]] const Row& rowAt(int row) const { return rows_.at(static_cast<std::size_t>(row)); }
    [[nodiscard]] int rowOf(const RunSpot& spot) const; // -1: no row
    void refresh();

  signals:
    void dropped(const RunSpot& where);

  private:
    struct Computed {
        QString flow, velocity, loss, headLeft;
    };
    struct Note {
        QString words, sentence;
        int gravity = -1;
    };
    [[nodiscard]] std::vector<Row> wantedRows() const;
    [[nodiscard]] QString described(const Row& row, int column) const;
    [[nodiscard]] QString headingWords(const Row& row) const;
    [[nodiscard]] static QString headingTip(int section);
    [[nodiscard]] QVariant figureOf(const Row& row, int column) const;
    [[nodiscard]] QString tip(const Row& row, int column) const;
    void take(const std::string& place, const Note& note);
    void readAnswer();
    void readNotes();
    void readZones();
    bool setFigure(const Row& row, int column, double figure);
    void say(const QString& sentence);

    Desk& desk_;
    std::vector<Row> rows_;
    std::map<std::string, Computed> computed_;
    std::map<std::string, Note> notes_;
};

} // namespace headmark
