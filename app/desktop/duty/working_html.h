#pragma once
// Steps of a working as rich text for FlowText: title and result on a line that is a link; unfolded with
// formula, figures put in, result and source under it.

#include "analysis/core/finding.h"
#include "app/words/phrasing.h"

#include <QColor>
#include <QString>

namespace headmark {

// Tells a step from the others of its list, also in a later answer.
[[nodiscard]] QString stepAnchor(const WorkingStep& step);
// The anchor as a link names it; QUrl::fragment(QUrl::FullyDecoded) gives it back.
[[nodiscard]] QString anchorLink(const QString& anchor);

// A line to fold and unfold; `level` steps to the right.
[[nodiscard]] QString foldHtml(const QString& anchor, bool open, const QString& title, const QString& result,
                               int level = 0);
[[nodiscard]] QString indentedHtml(const QString& text, const QColor& color, int level = 0);
// `result`: what stands on the line instead of the working's own, which has a digit more for checking.
[[nodiscard]] QString stepHtml(const WorkingStep& step, const QString& anchor, bool open,
                               const Phrasing& phrasing, int level = 0, const QString& result = {});

} // namespace headmark
