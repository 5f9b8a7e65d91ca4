#pragma once
// What is tried in the place Duty, answered off the screen's thread: first duty, verdict and efficiency, then
// the system curve, which takes longer. Only the newest question counts.

#include "app/document/latest_only.h"
#include "app/document/what_if.h"

#include <QObject>

#include <memory>

namespace headmark {

class Trying : public QObject {
    Q_OBJECT

  public:
    explicit Trying(QObject* parent = nullptr);

    void ask(const WhatIfQuestion& question);
    void forget();
    // Null while nothing is tried, or not answered yet.
    [[nodiscard]] const std::shared_ptr<const WhatIfAnswer>& answer() const { return answer_; }
    // The newest there is, of a moment before perhaps; empty before the first.
    [[nodiscard]] CurvePlot systemCurve() const { return curve_ ? *curve_ : CurvePlot{}; }

  signals:
    void answered();
    void curveAnswered();
    void failed(const QString& sentence);

  private:
    void take(std::shared_ptr<const WhatIfAnswer> answer, const WhatIfQuestion& question);

    std::shared_ptr<const WhatIfAnswer> answer_;
    std::shared_ptr<const CurvePlot> curve_;
    LatestOnly tries_, curves_; // last: their threads end first
};

} // namespace headmark
