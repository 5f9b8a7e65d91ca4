// Walks whole job files and spoils one place after the other: the reader must name just that place.

#include "job_documents.h"

namespace headmark {
namespace {

class EveryPlace : public testing::TestWithParam<std::string> {
  protected:
    // Expects the document with `value` at `place` to be refused there.
    void expectRefusedAt(const std::string& place, const Json& value, const std::string& errorPlace) {
        Json spoiled = document_;
        if (place.empty())
            spoiled = value;
        else
            spoiled[pointerOf(place)] = value;
        const auto reading = readJobDocument(spoiled, "job.json");
        EXPECT_FALSE(reading.job) << place << " = " << value.dump();
        EXPECT_TRUE(hasErrorAt(reading, errorPlace)) << place << " = " << value.dump() << listed(reading);
        for (const Error& error : reading.errors) {
            EXPECT_EQ(error.file, "job.json");
        }
    }

    Json document_ = jobJson(GetParam());
};

TEST_P(EveryPlace, IsReadAsItStands) {
    const auto reading = readJobDocument(document_, "job.json");
    EXPECT_TRUE(reading.job) << listed(reading);
}

TEST_P(EveryPlace, RefusesAWrongType) {
    for (const Node& node : nodesOf(document_)) {
        const Json& value = *node.value;
        expectRefusedAt(node.place, nullptr, node.place);
        if (!value.is_boolean()) expectRefusedAt(node.place, true, node.place);
        if (!value.is_array()) expectRefusedAt(node.place, Json::array({Json::array()}), node.place);
        if (!value.is_number()) expectRefusedAt(node.place, 7, node.place);
        // Where an object stands a code may stand as well, but never this one.
        if (!value.is_string()) expectRefusedAt(node.place, "no such thing", node.place);
    }
}

TEST_P(EveryPlace, RefusesAnUnknownKeyInEveryObject) {
    for (const Node& node : nodesOf(document_)) {
        if (!node.value->is_object()) continue;
        const std::string place = placeOfKey(node.place, "zz_unknown");
        Json spoiled = *node.value;
        spoiled["zz_unknown"] = 1;
        expectRefusedAt(node.place, spoiled, place);
    }
}

TEST_P(EveryPlace, RefusesAbsurdNumbers) {
    for (const Node& node : nodesOf(document_)) {
        if (!node.value->is_number()) continue;
        expectRefusedAt(node.place, -1e12, node.place);
        expectRefusedAt(node.place, 1e12, node.place);
    }
}

TEST_P(EveryPlace, SuggestsAShareWhereAPercentageStands) {
    for (const Node& node : nodesOf(document_)) {
        if (!node.value->is_number() || !node.place.ends_with("_share")) continue;
        // Every share of these files is allowed to be 0.5 but for slope and speed, which 50 % fits as well.
        Json spoiled = document_;
        spoiled[pointerOf(node.place)] = 50;
        const auto reading = readJobDocument(spoiled, "job.json");
        ASSERT_TRUE(hasErrorAt(reading, node.place)) << node.place;
        EXPECT_EQ(reading.errors.front().code, "share-not-percent") << node.place;
        EXPECT_EQ(std::get<double>(findFact(reading.errors.front().facts, "suggested")->value), 0.5);
    }
}

TEST_P(EveryPlace, SurvivesAnyKeyLeftOut) {
    for (const Node& node : nodesOf(document_)) {
        if (!node.value->is_object()) continue;
        for (const auto& [key, member] : node.value->items()) {
            Json spoiled = document_;
            spoiled[pointerOf(node.place)].erase(key);
            const auto reading = readJobDocument(spoiled, "job.json");
            EXPECT_NE(reading.job.has_value(), !reading.errors.empty()) << node.place << " without " << key;
        }
    }
}

INSTANTIATE_TEST_SUITE_P(Jobs, EveryPlace, testing::ValuesIn(wholeJobs()), [](const auto& job) {
    std::string name;
    for (const char c : job.param.substr(0, job.param.find('.'))) {
        name += c == '-' ? '_' : c;
    }
    return name;
});

struct Missing {
    const char* file;
    const char* place;
};

void PrintTo(const Missing& missing, std::ostream* out) { *out << missing.file << ": " << missing.place; }

class RequiredKey : public testing::TestWithParam<Missing> {};

TEST_P(RequiredKey, IsNamedWhenMissing) {
    Json document = jobJson(GetParam().file);
    const std::string place = GetParam().place;
    const auto pointer = pointerOf(place);
    ASSERT_TRUE(document.contains(pointer)) << place;
    document[pointer.parent_pointer()].erase(pointer.back());
    const auto reading = readJobDocument(document, "job.json");
    EXPECT_FALSE(reading.job) << place;
    EXPECT_TRUE(hasErrorAt(reading, place)) << place << listed(reading);
}

INSTANTIATE_TEST_SUITE_P(
    OfAJob, RequiredKey,
    testing::Values(Missing{"full.job.json", "format"}, Missing{"full.job.json", "version"},
                    Missing{"full.job.json", "pumps"}, Missing{"full.job.json", "site"},
                    
                    Missing{"full.job.json", "site.suction[1].length_m"},
                    Missing{"full.job.json", "site.delivery[9].pipe.bore_mm"},
                    Missing{"full.job.json", "site.delivery[9].pipe.roughness_mm"},
                    Missing{"outlet.job.json", "site.delivery[1].pipe.hazen_williams_c"},
                    Missing{"full.job.json", "site.delivery[6].filter.loss_kPa"},
                    Missing{"full.job.json", "site.delivery[6].filter.at_m3_h"},
                    Missing{"full.job.json", "site.delivery[6].filter.service_kPa"},
                    Missing{"full.job.json", "site.delivery[11].regulator.set_kPa"},
                    Missing{"full.job.json", "site.tank_return.pipe"},
                    Missing{"full.job.json", "site.tank_return.length_m"},
                    Missing{"full.job.json", "site.vessel.volume_l"},
                    Missing{"full.job.json", "site.vessel.precharge_kPa"},
                    Missing{"full.job.json", "site.vessel.cut_in_kPa"},
                    Missing{"full.job.json", "site.vessel.cut_out_kPa"},
                    Missing{"full.job.json", "site.zones[0].emitters"},
                    Missing{"full.job.json", "site.zones[0].emitters.at_kPa"},
                    Missing{"full.job.json", "site.zones[0].branch[1].set_kPa"},
                    Missing{"full.job.json", "site.zones[1].emitters.regulated_from_kPa"},
                    Missing{"full.job.json", "site.zones[1].emitters.regulated_to_kPa"},
                    Missing{"full.job.json", "site.zones[1].area_m2"},
                    Missing{"full.job.json", "site.zones[1].need_mm_per_day"},
                    Missing{"full.job.json", "site.zones[2].emitters.spacing_m"},
                    Missing{"full.job.json", "site.zones[4].emitters.at_kPa"},
                    Missing{"full.job.json", "site.zones[5].laterals.count"},
                    Missing{"full.job.json", "site.zones[5].laterals.pipe"},
                    Missing{"full.job.json", "site.zones[5].laterals.length_m"},
                    Missing{"full.job.json", "site.zones[5].laterals.spacing_m"},
                    Missing{"outlet.job.json", "site.end.level_m"},
                    Missing{"known-system.job.json", "site.system.static_head_m"},
                    Missing{"known-system.job.json", "site.system.resistance_m_per_m3_h_2"},
                    Missing{"system-points.job.json", "site.system.points[1].head_m"},
                    Missing{"system-points.job.json", "site.system.points[1].flow_m3_h"},
                    Missing{"full.job.json", "pumps[0].readings[0].path"},
                    Missing{"full.job.json", "pumps[0].delivered.head_share"},
                    Missing{"full.job.json", "pumps[1].curves.head.points"},
                    Missing{"full.job.json", "pumps[1].curves.head.points[2].flow_m3_h"},
                    Missing{"full.job.json", "pumps[1].curves.head.points[2].head_m"},
                    Missing{"full.job.json", "pumps[1].curves.power.points[0].power_kW"},
                    Missing{"full.job.json", "cases[0].zones_open"},
                    Missing{"full.job.json", "field_check.pump"},
                    Missing{"full.job.json", "field_check.taps"},
                    Missing{"full.job.json", "field_check.taps.inlet"},
                    Missing{"full.job.json", "field_check.taps.outlet.bore_mm"},
                    Missing{"full.job.json", "field_check.taps.inlet.level_m"},
                    Missing{"full.job.json", "field_check.points"},
                    Missing{"full.job.json", "field_check.points[0].inlet_kPa"},
                    Missing{"full.job.json", "field_check.points[0].outlet_kPa"},
                    Missing{"full.job.json", "field_check.points[1].seconds"},
                    Missing{"full.job.json", "field_check.points[1].volume_l"},
                    Missing{"full.job.json", "field_check.points[2].volts"},
                    Missing{"full.job.json", "field_check.points[2].amps"},
                    Missing{"full.job.json", "field_check.points[2].power_factor"},
                    Missing{"full.job.json", "field_check.points[2].phases"},
                    Missing{"full.job.json", "field_check.guarantee.head_m"},
                    Missing{"full.job.json", "field_check.guarantee.flow_m3_h"}));

} // namespace
} // namespace headmark
