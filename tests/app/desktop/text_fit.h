#pragma once
// Whether all text on a window can be read: walks over every visible widget and tells where text is cut off,
// widgets overlap, or something lies outside of what holds it. Rules:
//   labels     a wrapped one has the height its width asks for and no word wider than itself, others their
//   width buttons    their text fits between the edges; painted ones have the size they ask for at least
//   fields     figure, text and placeholder fit, or the tip says them in full
//   tables     heads and cells fit, or the tip says them in full; tab bars show every tab
//   scrolling  downwards only: nothing is cut at the side; a drawing (property "drawing") may be moved along
//   siblings   do not overlap, and lie inside their parent
// Pictures that paint their own labels (long section, plot, page) have tests of their own.

#include <QString>
#include <QStringList>
#include <QWidget>

namespace headmark {

// One sentence for each place where text does not fit; empty: all can be read.
[[nodiscard]] QStringList textMisfits(const QWidget& window);

} // namespace headmark
