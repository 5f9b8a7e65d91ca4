#pragma once
// What the view and the panel of the Charts place share: which sheet is open, what is chosen on it, what the
// next click does, and every edit of it, each one undoable step.

#include "app/desktop/charts/line_owners.h"
#include "app/desktop/frame/desk.h"

#include <QObject>
#include <QTimer>

#include <optional>

namespace headmark {

enum class ChartMode { choose, placePin, readLine, addSpot };

enum class PartKind { none, pin, line, spot, click };

// Something on the page. `index`: of the pin or line; `sub`: of the spot or click in its line.
struct ChartPart {
    PartKind kind = PartKind::none;
    std::size_t index = 0, sub = 0;

    bool operator==(const ChartPart&) const = default;
    [[nodiscard]] bool isOfLine() const { return kind != PartKind::none && kind != PartKind::pin; }
};

class ChartSession : public QObject {
    Q_OBJECT

  public:
    ChartSession(Desk& deskOfSession, QObject* parent);

    Desk& desk;

    [[nodiscard]] const std::string& path() const { return path_; } // empty: no chart open
    void open(const std::string& path);
    [[nodiscard]] std::shared_ptr<const Reading> reading() const; // null: no chart open
    [[nodiscard]] const ChartAnswer* answer() const;              // null: none yet
    // What was read of the line; null where it was not, or not yet.
    [[nodiscard]] const ReadLine* readLine(std::size_t line) const;
    // Why the line could not be read; null where it was, or not yet.
    [[nodiscard]] const Error* whyUnread(std::size_t line) const;
    [[nodiscard]] const ChartMapping* mapping() const;
    // The answer is of the work as it stands, not of an earlier edit.
    [[nodiscard]] bool isUpToDate() const;

    [[nodiscard]] ChartMode mode() const { return mode_; }
    void setMode(ChartMode mode);
    [[nodiscard]] ChartPart chosen() const { return chosen_; }
    void choose(ChartPart part);
    // Through pins, lines and their spots; false beyond the last.
    bool chooseNext(int step);
    [[nodiscard]] std::optional<PixelPoint> placeOf(ChartPart part) const;

    // Edits.
    void placePin(const Pin& pin);
    void changePin(std::size_t index, const Pin& pin);
    void readLineAt(PixelPoint at, LineQuantity quantity);
    void addSpot(std::size_t line, PixelPoint at);
    void move(ChartPart part, PixelPoint to, int drag);
    void remove(ChartPart part);
    void changeLine(std::size_t line, const QString& step, const std::function<void(ChartLine&)>& change);
    void changeSheet(const QString& step, const std::function<void(Reading&)>& change);

    [[nodiscard]] LineQuantity lastQuantity() const { return lastQuantity_; }
    [[nodiscard]] int newDrag() { return desk.document.newDrag(); }
    // Something was moved by the pointer just now. Texts and lists wait until it rests, so that the window is
    // not laid out anew for every pixel; `changed` comes once more then.
    [[nodiscard]] bool isDragging() const { return rest_.isActive(); }

  signals:
    void sheetChanged();  // another sheet, or another page on it
    void chosenChanged(); // what is chosen, or the mode
    void changed();       // the reading or its answer

  private:
    void follow(); // the workspace: the open sheet may be gone, what is chosen as well
    [[nodiscard]] std::optional<std::size_t> answeredLine(std::size_t line) const;
    void edit(const QString& step, const std::function<void(Reading&)>& change, int drag = 0);
    [[nodiscard]] bool exists(ChartPart part) const;

    std::string path_;
    ChartMode mode_ = ChartMode::choose;
    ChartPart chosen_;
    QTimer rest_;
    LineQuantity lastQuantity_ = LineQuantity::head;
};

} // namespace headmark
