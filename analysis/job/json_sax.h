#pragma once
// Builds a document from the parser's events and refuses what plain parsing would swallow: duplicate keys and
// endless nesting. Included by json_document.cpp alone, since it needs the whole JSON header.

#include "analysis/core/error.h"

#include <nlohmann/json.hpp>

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace headmark {

// Offset of the first byte that is no UTF-8 (overlong forms, surrogates and values past U+10FFFF included).
[[nodiscard]] std::optional<std::size_t> firstInvalidUtf8(std::string_view text);

// "line" and "column" of a byte, from 1.
[[nodiscard]] Facts positionFacts(std::string_view text, std::size_t offset);

// At most so many bytes, cut between characters, with "..." where something was cut.
[[nodiscard]] std::string shortened(std::string_view text, std::size_t greatestBytes);

class DocumentBuilder : public nlohmann::json_sax<nlohmann::ordered_json> {
  public:
    DocumentBuilder(std::string_view text, std::string fileName)
        : text_(text), fileName_(std::move(fileName)) {}

    bool null() override { return place(nullptr); }
    bool boolean(bool value) override { return place(value); }
    bool number_integer(number_integer_t value) override { return place(value); }
    bool number_unsigned(number_unsigned_t value) override { return place(value); }
    bool number_float(number_float_t value, const string_t&) override { return place(value); }
    bool string(string_t& value) override { return place(std::move(value)); }
    bool binary(binary_t&) override { return false; } // never part of JSON text
    bool start_object(std::size_t) override { return open(nlohmann::ordered_json::object()); }
    bool key(string_t& key) override;
    bool end_object() override { return close(); }
    bool start_array(std::size_t) override { return open(nlohmann::ordered_json::array()); }
    bool end_array() override { return close(); }
    bool parse_error(std::size_t position, const std::string& lastToken,
                     const nlohmann::detail::exception& exception) override;

    [[nodiscard]] const Error& error() const { return error_; }
    [[nodiscard]] nlohmann::ordered_json takeDocument() { return std::move(document_); }

  private:
    struct Open {
        nlohmann::ordered_json* value;
        std::set<std::string> keys;
        std::string key; // the one whose value comes next
    };

    bool place(nlohmann::ordered_json value) {
        if (!countOne()) return false;
        put(std::move(value));
        return true;
    }
    // Refuses a document of more values than any job has, before it fills the memory.
    bool countOne();
    nlohmann::ordered_json* put(nlohmann::ordered_json value);
    bool open(nlohmann::ordered_json value);
    bool close();
    bool refuse(std::string_view code, std::string where, Facts facts);
    [[nodiscard]] std::string currentPlace() const;

    std::string_view text_;
    std::string fileName_;
    nlohmann::ordered_json document_;
    std::vector<Open> open_;
    Error error_;
    std::int64_t values_ = 0;
};

} // namespace headmark
