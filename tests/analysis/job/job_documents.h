#pragma once
// The whole job files that the reader's and the writer's tests begin with, and ways to change one place in
// them.

#include "analysis/job/job_reader.h"
#include "analysis/job/json_document.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace headmark {

using Json = nlohmann::ordered_json;

inline const std::vector<std::string>& wholeJobs() {
    static const std::vector<std::string> names{"full.job.json", "outlet.job.json", "known-system.job.json",
                                                "system-points.job.json", "version-1.job.json"};
    return names;
}

inline std::string jobPath(const std::string& name) {
    return std::string(HEADMARK_TESTS_DIR "/jobs/") + name;
}

inline Json jobJson(const std::string& name = "full.job.json") {
    auto document = readJsonFile(jobPath(name));
    EXPECT_TRUE(document.ok()) << name;
    return std::move(document).value();
}

// "site.zones[0].name" as the JSON pointer "/site/zones/0/name".
inline Json::json_pointer pointerOf(const std::string& place) {
    std::string pointer = place.empty() ? "" : "/";
    for (const char c : place) {
        if (c == '.' || c == '[')
            pointer += '/';
        else if (c != ']')
            pointer += c;
    }
    return Json::json_pointer(pointer);
}

struct Node {
    std::string place;
    const Json* value;
};

// Every value below `value`, itself included; keys of the user's own ("x_...") left out.
inline void collectNodes(const Json& value, const std::string& place, std::vector<Node>& nodes) {
    nodes.push_back({place, &value});
    if (value.is_object()) {
        for (const auto& [key, member] : value.items()) {
            if (!key.starts_with("x_")) collectNodes(member, placeOfKey(place, key), nodes);
        }
    } else if (value.is_array()) {
        for (std::size_t i = 0; i < value.size(); ++i) {
            collectNodes(value[i], placeOfItem(place, i), nodes);
        }
    }
}

inline std::vector<Node> nodesOf(const Json& document) {
    std::vector<Node> nodes;
    collectNodes(document, "", nodes);
    return nodes;
}

inline bool hasErrorAt(const JobReading& reading, const std::string& place) {
    for (const Error& error : reading.errors) {
        if (error.place == place) return true;
    }
    return false;
}

inline std::string listed(const JobReading& reading) {
    std::ostringstream text;
    for (const Error& error : reading.errors) {
        text << "\n  " << error.code << " at " << error.place;
    }
    return text.str();
}

} // namespace headmark
