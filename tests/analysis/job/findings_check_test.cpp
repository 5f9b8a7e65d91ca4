#include "analysis/job/findings_check.h"

#include "analysis/job/analyse.h"
#include "analysis/job/findings_json.h"
#include "job_documents.h"
#include "tests/support/no_pages.h"
#include "tests/support/plain_wording.h"

#include <cmath>
#include <limits>
#include <set>

namespace headmark {
namespace {

std::string listedErrors(const std::vector<Error>& errors) {
    std::string text;
    for (const Error& error : errors) {
        text += "\n  " + error.code + " at " + error.place;
    }
    return text;
}

std::vector<Error> check(const Json& document) { return checkFindingsDocument(document, "findings.json"); }

Json fullFindings() { return jobJson("full.findings.json"); }

Json with(const std::string& place, const Json& value) {
    Json document = fullFindings();
    if (place.empty()) return value;
    document[pointerOf(place)] = value;
    return document;
}

void expectAccepted(const Json& document) {
    const auto errors = check(document);
    EXPECT_TRUE(errors.empty()) << listedErrors(errors);
}

void expectRefusedAt(const Json& document, const std::string& place, std::string_view code = {}) {
    bool named = false;
    const auto errors = check(document);
    for (const Error& error : errors) {
        named = named || (error.place == place && (code.empty() || error.code == code));
        EXPECT_EQ(error.file, "findings.json");
    }
    EXPECT_TRUE(named) << place << " " << code << listedErrors(errors);
}

// The findings of a small job, as written.
Json writtenFindings(const std::string& job) {
    auto reading = readJobFile(jobPath(job));
    EXPECT_TRUE(reading.job) << job << listed(reading);
    const auto findings = test::analyseTyped(*reading.job);
    EXPECT_TRUE(findings.ok()) << job;
    auto document = parseJson(findingsJson(*findings, test::PlainWording()), "findings.json");
    EXPECT_TRUE(document.ok());
    return std::move(document).value();
}

// Figures under any key.
bool isFact(const std::string& place) {
    return place.find(".values.") != std::string::npos || place.find(".expected.") != std::string::npos;
}

// Where the format allows null: what is not known, or does not exist.
bool mayBeNull(const std::string& place) {
    static const std::set<std::string> keys{"duty",
                                            "low",
                                            "high",
                                            "efficiency",
                                            "power",
                                            "npsh",
                                            "at_duty_share",
                                            "shaft_kW",
                                            "input_kW",
                                            "kWh_per_m3",
                                            "required_m",
                                            "margin_m",
                                            "shift_plan",
                                            "zones_at_once",
                                            "start",
                                            "connections",
                                            "length_m",
                                            "branch_of",
                                            "cost",
                                            "energy_kWh",
                                            "tank_return_flow_m3_h",
                                            "total_energy_kWh"};
    const std::string last = place.substr(place.rfind('.') + 1);
    return keys.contains(last) || isFact(place);
}

TEST(FindingsCheck, AcceptsADocumentThatUsesEveryKey) { expectAccepted(fullFindings()); }

TEST(FindingsCheck, AcceptsWhatTheProgramWrites) {
    for (const char* job :
         {"version-1.job.json", "outlet.job.json", "known-system.job.json", "system-points.job.json"}) {
        SCOPED_TRACE(job);
        const Json document = writtenFindings(job);
        EXPECT_FALSE(document["pumps"].empty());
        expectAccepted(document);
    }
}

TEST(FindingsCheck, RefusesWhatTheProgramWroteOnceAKeyIsGone) {
    const Json document = writtenFindings("version-1.job.json");
    for (const Node& node : nodesOf(document)) {
        if (!node.value->is_object() || node.place.ends_with(".values") || node.place.ends_with(".expected"))
            continue;
        for (const auto& [key, member] : node.value->items()) {
            // What the contract lets be left out.
            static const std::set<std::string> kOptional{
                "duties",       "zones_at_once",    "shift_plan",
                "installation", "connections",      "tank_return_flow_m3_h",
                "cautions",     "emitter_flow_l_h", "emission_uniformity_share",
                "one_more"};
            const bool optional =
                key.find("_95") != std::string::npos || key == "zone" ||
                (kOptional.contains(key) &&
                 (key != "cautions" || node.place == "pumps[0]" || node.place == "pumps[0].zones_at_once"));
            Json spoiled = document;
            spoiled[pointerOf(node.place)].erase(key);
            if (optional) {
                expectAccepted(spoiled);
            } else {
                expectRefusedAt(spoiled, placeOfKey(node.place, key), "missing-key");
            }
        }
    }
}

TEST(FindingsCheck, RefusesAWrongTypeAtEveryPlace) {
    const Json document = fullFindings();
    for (const Node& node : nodesOf(document)) {
        const Json& value = *node.value;
        if (!mayBeNull(node.place)) expectRefusedAt(with(node.place, nullptr), node.place);
        if (!value.is_boolean()) expectRefusedAt(with(node.place, true), node.place);
        if (value.is_null()) continue; // an object or a number may stand there as well
        if (!value.is_object()) expectRefusedAt(with(node.place, Json::object()), node.place);
        if (isFact(node.place)) continue; // any number, text or list of texts
        if (!value.is_array()) expectRefusedAt(with(node.place, Json::array({Json::array()})), node.place);
        if (!value.is_number()) expectRefusedAt(with(node.place, 7), node.place);
        if (!value.is_string()) expectRefusedAt(with(node.place, "no such thing"), node.place);
    }
}

TEST(FindingsCheck, AcceptsNullWhereAnAnswerMayBeUnknown) {
    const Json document = fullFindings();
    int tried = 0;
    for (const Node& node : nodesOf(document)) {
        if (!mayBeNull(node.place) || node.place.ends_with(']')) continue;
        expectAccepted(with(node.place, nullptr));
        ++tried;
    }
    EXPECT_GT(tried, 20);
}

TEST(FindingsCheck, RefusesAnUnknownKeyInEveryObject) {
    const Json document = fullFindings();
    for (const Node& node : nodesOf(document)) {
        if (!node.value->is_object() || node.place.ends_with(".values") || node.place.ends_with(".expected"))
            continue;
        Json spoiled = *node.value;
        spoiled["zz_unknown"] = 1;
        expectRefusedAt(with(node.place, spoiled), placeOfKey(node.place, "zz_unknown"), "unknown-key");
        spoiled = *node.value;
        spoiled["x_mine"] = 1;
        expectAccepted(with(node.place, spoiled));
    }
}

TEST(FindingsCheck, RefusesEveryNeededKeyLeftOutOfADocumentByHand) {
    for (const std::string place :
         {"format", "version", "needs", "pumps", "needs[0].case", "pumps[0].name", "pumps[0].cases",
          "pumps[0].cases[0].as_delivered.low", "pumps[0].cases[0].cautions[0].code",
          "pumps[0].cases[0].cautions[0].severity", "pumps[0].zones_at_once.any_set",
          "pumps[0].zones_at_once.limits[0].code", "pumps[0].shift_plan.shifts",
          "pumps[0].shift_plan.total_hours", "pumps[0].shift_plan.shifts[0].zones",
          "pumps[0].shift_plan.shifts[0].minutes"}) {
        Json document = fullFindings();
        const auto pointer = pointerOf(place);
        ASSERT_TRUE(document.contains(pointer)) << place;
        document[pointer.parent_pointer()].erase(pointer.back());
        expectRefusedAt(document, place, "missing-key");
    }
}

TEST(FindingsCheck, KnowsTheSeveritiesAndBands) {
    const std::string severity = "pumps[0].cases[0].cautions[0].severity";
    for (const char* word : {"note", "warning", "danger"}) {
        expectAccepted(with(severity, word));
    }
    for (const char* word : {"error", "Warning", ""}) {
        expectRefusedAt(with(severity, word), severity, "unknown-choice");
    }
    const std::string band = "pumps[0].cases[0].efficiency.band";
    for (const char* word : {"preferred", "allowable", "outside", "unknown"}) {
        expectAccepted(with(band, word));
    }
    expectRefusedAt(with(band, "any"), band, "unknown-choice");
}

TEST(FindingsCheck, WantsIntervalsAsPairsNotFalling) {
    const std::string place = "pumps[0].cases[0].duty.flow_95_m3_h";
    expectAccepted(with(place, Json::parse("[8, 8]")));
    expectRefusedAt(with(place, Json::parse("[8.1, 7.7]")), place, "not-ascending");
    expectRefusedAt(with(place, Json::parse("[7.7]")), place, "wrong-length");
    expectRefusedAt(with(place, Json::parse("[7.7, 7.9, 8.1]")), place, "wrong-length");
    expectRefusedAt(with(place, Json::parse("[null, 8.1]")), place + "[0]", "wrong-type");
}

TEST(FindingsCheck, WantsWholeCountsNotBelowZero) {
    for (const std::string key :
         {"any_set", "best_set", "best_sets_count", "best_set_at_most", "any_set_at_most"}) {
        const std::string place = "pumps[0].zones_at_once." + key;
        expectRefusedAt(with(place, 1.5), place, "wrong-type");
        expectRefusedAt(with(place, -1), place, "out-of-range");
    }
    // 2^62 sets: more than a plain int counts.
    expectAccepted(with("pumps[0].zones_at_once.best_sets_count", 1'000'000'000'000));
    const std::string works = "pumps[0].zones_at_once.every_choice_works_for[1]";
    expectRefusedAt(with(works, 1.5), works, "wrong-type");
}

TEST(FindingsCheck, AllowsTwentyBestSetsAndNoMore) {
    const std::string place = "pumps[0].zones_at_once.best_sets";
    Json sets = Json::array();
    for (int i = 0; i < 20; ++i) {
        sets.push_back(Json::array({"Beds"}));
    }
    expectAccepted(with(place, sets));
    sets.push_back(Json::array({"Beds"}));
    expectRefusedAt(with(place, sets), place, "list-too-long");
}

TEST(FindingsCheck, LetsTheShiftPlanBeAbsentNullOrWhole) {
    Json document = fullFindings();
    document["pumps"][0].erase("shift_plan");
    expectAccepted(document);
    expectAccepted(with("pumps[0].shift_plan", nullptr));
    const std::string start = "pumps[0].shift_plan.shifts[0].start";
    for (const char* time : {"00:00", "23:59"}) {
        expectAccepted(with(start, time));
    }
    for (const char* time : {"24:00", "21:60", "9:00", "21.00", "later", ""}) {
        expectRefusedAt(with(start, time), start, "bad-time");
    }
}

TEST(FindingsCheck, ChecksTheVersionBeforeAnythingElse) {
    for (const auto& [version, code] : {std::pair(2, "newer-version"), std::pair(0, "unknown-version")}) {
        Json document = with("version", version);
        document["pumps"] = "nonsense";
        const auto errors = check(document);
        ASSERT_EQ(errors.size(), 1u) << listedErrors(errors);
        EXPECT_EQ(errors[0].code, code);
    }
    expectRefusedAt(with("format", "headmark-job"), "format", "wrong-format");
}

TEST(FindingsCheck, RefusesNumbersThatAreNone) {
    for (const double number : {std::nan(""), std::numeric_limits<double>::infinity()}) {
        expectRefusedAt(with("needs[0].head_m", number), "needs[0].head_m", "out-of-range");
    }
    const std::string share = "pumps[0].cases[0].efficiency.best_share";
    expectRefusedAt(with(share, 64), share, "share-not-percent");
}

} // namespace
} // namespace headmark
