#pragma once
// Result<T>: a value, or the named reason why there is none. Cannot be ignored; reading the value of a
// failed result is a programming error (HEADMARK_ASSERT).

#include "analysis/core/assertion.h"
#include "analysis/core/error.h"

#include <optional>
#include <utility>
#include <variant>

namespace headmark {

template <class T>
class [[nodiscard]] Result {
  public:
    Result(T value) : content_(std::in_place_index<0>, std::move(value)) {}
    Result(Error error) : content_(std::in_place_index<1>, std::move(error)) {}

    [[nodiscard]] bool ok() const { return content_.index() == 0; }
    explicit operator bool() const { return ok(); }

    [[nodiscard]] const T& value() const& {
        HEADMARK_ASSERT(ok(), "value() of a failed result");
        return std::get<0>(content_);
    }
    [[nodiscard]] T& value() & {
        HEADMARK_ASSERT(ok(), "value() of a failed result");
        return std::get<0>(content_);
    }
    [[nodiscard]] T&& value() && {
        HEADMARK_ASSERT(ok(), "value() of a failed result");
        return std::get<0>(std::move(content_));
    }
    [[nodiscard]] const Error& error() const {
        HEADMARK_ASSERT(!ok(), "error() of a successful result");
        return std::get<1>(content_);
    }

    const T& operator*() const& { return value(); }
    T& operator*() & { return value(); }
    const T* operator->() const { return &value(); }
    T* operator->() { return &value(); }

  private:
    std::variant<T, Error> content_;
};

// A step that yields nothing but may fail.
template <>
class [[nodiscard]] Result<void> {
  public:
    Result() = default;
    Result(Error error) : error_(std::move(error)) {}

    [[nodiscard]] bool ok() const { return !error_; }
    explicit operator bool() const { return ok(); }
    [[nodiscard]] const Error& error() const {
        HEADMARK_ASSERT(error_.has_value(), "error() of a successful result");
        return *error_;
    }

  private:
    std::optional<Error> error_;
};

} // namespace headmark
