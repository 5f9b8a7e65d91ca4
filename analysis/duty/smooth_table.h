#pragma once
// A smooth function tabulated at equal steps, cubic between the knots (Hermite, values and slopes given):
// error of the order of step^4. Beyond the ends it goes on straight.

#include <algorithm>
#include <cstddef>
#include <utility>
#include <vector>

namespace headmark {

class SmoothTable {
  public:
    struct At {
        double value = 0.0, slope = 0.0;
    };

    SmoothTable() = default;
    SmoothTable(double from, double step, std::vector<double> values, std::vector<double> slopes)
        : from_(from), step_(step), values_(std::move(values)), slopes_(std::move(slopes)) {}

    // Slopes from the neighbours (parabola through three knots).
    SmoothTable(double from, double step, std::vector<double> values)
        : from_(from), step_(step), values_(std::move(values)), slopes_(values_.size()) {
        const std::size_t n = values_.size();
        for (std::size_t i = 1; i + 1 < n; ++i)
            slopes_[i] = (values_[i + 1] - values_[i - 1]) / (2.0 * step_);
        slopes_.front() = (-3.0 * values_[0] + 4.0 * values_[1] - values_[2]) / (2.0 * step_);
        slopes_.back() = (3.0 * values_[n - 1] - 4.0 * values_[n - 2] + values_[n - 3]) / (2.0 * step_);
    }

    [[nodiscard]] At at(double x) const {
        const double place = (x - from_) / step_;
        if (place <= 0.0) return {values_.front() + slopes_.front() * (x - from_), slopes_.front()};
        const auto last = static_cast<double>(values_.size() - 1);
        if (place >= last) return {values_.back() + slopes_.back() * (place - last) * step_, slopes_.back()};
        const auto i = static_cast<std::size_t>(place);
        const double t = place - static_cast<double>(i), t2 = t * t;
        const double a = values_[i], b = values_[i + 1], da = slopes_[i] * step_, db = slopes_[i + 1] * step_;
        const double c2 = 3.0 * (b - a) - 2.0 * da - db, c3 = 2.0 * (a - b) + da + db;
        return {a + da * t + c2 * t2 + c3 * t2 * t, (da + 2.0 * c2 * t + 3.0 * c3 * t2) / step_};
    }

  private:
    double from_ = 0.0, step_ = 1.0;
    std::vector<double> values_, slopes_;
};

} // namespace headmark
