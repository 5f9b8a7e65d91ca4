#include "app/desktop/duty/trying.h"

#include "app/words/error_words.h"

namespace headmark {

Trying::Trying(QObject* parent) : QObject(parent) {}

void Trying::ask(const WhatIfQuestion& question) {
    tries_.ask([this, question]() -> LatestOnly::Delivery {
        auto tried = std::make_shared<const Result<WhatIfAnswer>>(whatIf(question));
        return [this, tried, question] {
            if (tried->ok())
                take(std::make_shared<const WhatIfAnswer>(tried->value()), question);
            else
                emit failed(sentence(tried->error()));
        };
    });
}

void Trying::take(std::shared_ptr<const WhatIfAnswer> answer, const WhatIfQuestion& question) {
    answer_ = std::move(answer);
    emit answered();
    curves_.ask([this, tried = answer_, question]() -> LatestOnly::Delivery {
        auto curve = std::make_shared<const CurvePlot>(systemCurveOf(*tried, question));
        return [this, curve] {
            curve_ = curve;
            emit curveAnswered();
        };
    });
}

void Trying::forget() {
    tries_.forget();
    curves_.forget();
    answer_.reset();
    curve_.reset();
}

} // namespace headmark
