#pragma once
// A checked reader over one JSON object. It knows the path of every key, refuses unknown keys (naming the
// nearest known ones), wrong types and numbers outside a range, and writes each refusal into a log, so that
// the user sees all of them at once. Keys that begin with "x_" are kept aside and ignored.
// A field that was refused reads as left out; the log says that the whole document failed.

#include "analysis/core/error.h"
#include "analysis/job/finish.h"

#include <nlohmann/json_fwd.hpp>

#include <initializer_list>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace headmark {

// Smallest and largest number accepted, both included.
struct NumberRange {
    double least;
    double greatest;
};

inline constexpr NumberRange kShareRange{0.0, 1.0};

class ReadLog {
  public:
    explicit ReadLog(std::string file, Finish finish = Finish::whole)
        : file_(std::move(file)), finish_(finish) {}

    // Passed over where it only says that something is not finished, and that is allowed.
    void add(std::string_view code, std::string place, Facts facts = {});
    [[nodiscard]] bool clean() const { return errors_.empty(); }
    // The first hundred; more help nobody.
    [[nodiscard]] const std::vector<Error>& errors() const { return errors_; }

    void keepExtra(std::string place, std::string jsonText) {
        extras_[std::move(place)] = std::move(jsonText);
    }
    [[nodiscard]] const std::map<std::string, std::string>& extras() const { return extras_; }

  private:
    std::string file_;
    Finish finish_;
    std::vector<Error> errors_;
    std::map<std::string, std::string> extras_;
};

// A value of the document and where it stands.
struct PlacedValue {
    const nlohmann::ordered_json* value;
    std::string place;
};

template <class T>
using Choices = std::initializer_list<std::pair<std::string_view, T>>;

inline constexpr std::size_t kLongestName = 200;

class ObjectReader {
  public:
    // `known`: every key the object may have. A value that is no object is refused and reads as empty.
    ObjectReader(const PlacedValue& at, ReadLog& log, std::initializer_list<std::string_view> known)
        : ObjectReader(at, log, std::vector<std::string>(known.begin(), known.end())) {}
    ObjectReader(const PlacedValue& at, ReadLog& log, std::vector<std::string> known);

    // False when the value is no object; then nothing is reported as missing.
    [[nodiscard]] bool valid() const { return object_ != nullptr; }
    [[nodiscard]] bool has(std::string_view key) const { return find(key) != nullptr; }
    [[nodiscard]] const std::string& place() const { return place_; }
    [[nodiscard]] std::string placeOf(std::string_view key) const;
    [[nodiscard]] ReadLog& log() const { return log_; }

    void refuse(std::string_view code, std::string_view key, Facts facts = {}) const;
    // Reports the key as missing unless it is there; true when it is.
    bool need(std::string_view key) const;
    // The same, saying which key asks for it.
    bool needBeside(std::string_view key, std::string_view beside) const;
    // Reports each of `keys` that is there as excluded by `by`.
    void exclude(std::initializer_list<std::string_view> keys, std::string_view by) const;
    // The keys of `keys` that are there; more than one is reported, none as well when one is needed.
    std::vector<std::string> atMostOneOf(std::initializer_list<std::string_view> keys, bool needed) const;

    // Left out or refused: empty.
    [[nodiscard]] std::optional<double> number(std::string_view key, NumberRange range) const;
    [[nodiscard]] std::optional<int> integer(std::string_view key, int least, int greatest) const;
    [[nodiscard]] std::optional<bool> boolean(std::string_view key) const;
    // Any text, possibly empty.
    [[nodiscard]] std::optional<std::string> text(std::string_view key,
                                                  std::size_t longest = kLongestName) const;
    // A text that is not blank.
    [[nodiscard]] std::optional<std::string> name(std::string_view key) const;
    // Two numbers, the first below the second.
    [[nodiscard]] std::optional<std::pair<double, double>> ascendingPair(std::string_view key,
                                                                         NumberRange range) const;
    [[nodiscard]] std::optional<PlacedValue> value(std::string_view key) const;
    // The items of a list; empty when left out or no list.
    [[nodiscard]] std::vector<PlacedValue> list(std::string_view key) const;

    template <class Quantity>
    [[nodiscard]] std::optional<Quantity> amount(std::string_view key, NumberRange range,
                                                 Quantity (*from)(double)) const {
        const auto plain = number(key, range);
        return plain ? std::optional<Quantity>(from(*plain)) : std::nullopt;
    }
    // Reported when left out; Quantity() when left out or refused.
    template <class Quantity>
    [[nodiscard]] Quantity neededAmount(std::string_view key, NumberRange range,
                                        Quantity (*from)(double)) const {
        need(key);
        return amount(key, range, from).value_or(Quantity());
    }
    template <class T>
    [[nodiscard]] std::optional<T> choice(std::string_view key, Choices<T> choices) const {
        const auto word = choiceWord(key);
        if (!word) return std::nullopt;
        std::vector<std::string> allowed;
        for (const auto& [known, meaning] : choices) {
            if (*word == known) return meaning;
            allowed.emplace_back(known);
        }
        refuseChoice(key, *word, std::move(allowed));
        return std::nullopt;
    }

  private:
    [[nodiscard]] const nlohmann::ordered_json* find(std::string_view key) const;
    [[nodiscard]] std::optional<std::string> choiceWord(std::string_view key) const;
    void refuseChoice(std::string_view key, const std::string& found, std::vector<std::string> allowed) const;
    void checkKeys() const;

    const nlohmann::ordered_json* object_ = nullptr;
    std::string place_;
    ReadLog& log_;
    std::vector<std::string> known_;
};

// The same checks for a value that is no member of an object (an item of a list).
[[nodiscard]] std::optional<double> numberOf(const PlacedValue& at, NumberRange range, ReadLog& log);
[[nodiscard]] std::optional<std::string> nameOf(const PlacedValue& at, ReadLog& log);

// Reports a text that is no code of the catalogue of that `kind`, with the nearest codes.
void refuseCode(const PlacedValue& at, std::string_view kind, const std::vector<std::string>& known,
                ReadLog& log);

// `expected`: "number", "whole number", "text", "true or false", "object", "list", or two of them.
void refuseType(const PlacedValue& at, std::string_view expected, ReadLog& log);

} // namespace headmark
