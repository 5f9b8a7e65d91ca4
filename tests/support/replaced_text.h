#pragma once
// A test's document with one piece of its text put in the place of another, which must be there.

#include <gtest/gtest.h>

#include <string>

namespace headmark::test {

inline std::string with(std::string text, const std::string& what, const std::string& instead) {
    const std::size_t at = text.find(what);
    EXPECT_NE(at, std::string::npos) << what;
    return at == std::string::npos ? text : text.replace(at, what.size(), instead);
}

} // namespace headmark::test
