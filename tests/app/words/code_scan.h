#pragma once
// The codes that stand in the sources of the computing core, for tests that every one of them has words.

#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

namespace headmark::testing {

// Sources that raise cautions and workings.
inline std::vector<std::filesystem::path> raisingSources() {
    const std::filesystem::path analysis = std::filesystem::path(HEADMARK_TESTS_DIR) / ".." / "analysis";
    std::vector<std::filesystem::path> files{
        analysis / "job" / "analyse.cpp",           analysis / "job" / "pump_charts.cpp",
        analysis / "job" / "remedies.cpp",          analysis / "job" / "shift_finding.cpp",
        analysis / "job" / "zones_finding.cpp",     analysis / "job" / "supply_rules.cpp",
        analysis / "job" / "check_valve_place.cpp", analysis / "chart" / "chart_codes.h"};
    for (const char* folder : {"chart", "duty", "irrigation", "practice"}) {
        for (const auto& entry : std::filesystem::directory_iterator(analysis / folder)) {
            if (entry.path().extension() == ".cpp") files.push_back(entry.path());
        }
    }
    return files;
}

// And those of connections, whose other codes (joints, purposes) have words of their own.
inline std::vector<std::filesystem::path> namingSources() {
    std::vector<std::filesystem::path> files = raisingSources();
    const std::filesystem::path analysis = std::filesystem::path(HEADMARK_TESTS_DIR) / ".." / "analysis";
    files.push_back(analysis / "job" / "connection_finding.cpp");
    for (const auto& entry : std::filesystem::directory_iterator(analysis / "connections")) {
        const auto extension = entry.path().extension();
        if (extension == ".cpp" || extension == ".h") files.push_back(entry.path());
    }
    return files;
}

inline std::string textOf(const std::filesystem::path& file) {
    std::ifstream in(file);
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
}

// The first group of every match of `pattern`.
inline std::set<std::string> matchesIn(const std::string& text, const std::string& pattern) {
    const std::regex expression(pattern);
    std::set<std::string> found;
    for (auto m = std::sregex_iterator(text.begin(), text.end(), expression); m != std::sregex_iterator();
         ++m) {
        found.insert((*m)[1].str());
    }
    return found;
}

inline std::set<std::string> matchesInSources(const std::string& pattern) {
    std::set<std::string> found;
    for (const auto& file : raisingSources())
        found.merge(matchesIn(textOf(file), pattern));
    return found;
}

// Literals of at least two words joined by hyphens: what a code looks like.
inline const char* const kHyphenated = R"re("([a-z0-9]+(?:-[a-z0-9]+)+)")re";
// The code of a brace-enclosed caution or working: {"code", Severity...  and  w.push_back({"code", ...
inline const char* const kCautionCode = R"re("([a-z0-9-]+)",\s*(?:Severity::|severity))re";
inline const char* const kWorkingCode =
    R"re((?:w\.push_back\(\{|figures\.push_back\(\s*\{|return \{)\s*"([a-z0-9-]+)",(?!\s*[Ss]everity))re";

} // namespace headmark::testing
