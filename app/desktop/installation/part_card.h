#pragma once
// The chosen part of a connection sheet: what it is for, how it joins its neighbours, and another part in its
// place. A swap is one undoable step; where the new part's loss is another one, the run follows.

#include "analysis/connections/swap.h"
#include "app/desktop/frame/card.h"
#include "app/desktop/frame/desk.h"

#include <QComboBox>

#include <optional>

namespace headmark {

class PartCard : public Card {
    Q_OBJECT

  public:
    explicit PartCard(Desk& desk, QWidget* parent = nullptr);

    // `part` of the sheet of the pump shown; empty: none chosen. Nothing is offered while `stale`.
    void show(const ConnectionSheet& sheet, std::optional<std::size_t> part, bool stale);
    [[nodiscard]] QComboBox& alternatives() const { return *alternatives_; }
    [[nodiscard]] QString words() const;

  private:
    void swap(const std::string& code);

    Desk& desk_;
    QLabel *name_, *purpose_, *joints_, *swapLabel_;
    QComboBox* alternatives_;
    ConnectionSheet sheet_;
    std::optional<std::size_t> part_;
};

} // namespace headmark
