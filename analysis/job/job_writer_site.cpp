// The site, its runs and its zones as JSON.

#include "analysis/job/job_writer_parts.h"

namespace headmark {

namespace {

using Json = nlohmann::ordered_json;

void addPipe(Json& object, const PipeItem& pipe, FrictionMethod friction) {
    object["pipe"] = pipeKindJson(pipe.kind, friction);
    object["length_m"] = numberJson(pipe.length.inMetres());
    setAmount(object, "rise_to_m", pipe.riseTo, &Level::inMetres);
}

Json fittingJson(const FittingItem& fitting) {
    Json object = Json::object();
    if (!fitting.code.empty()) {
        object["fitting"] = fitting.code;
    } else {
        object["fitting"] = Json::object();
        setNumber(object["fitting"], "k", fitting.k);
        setNumber(object["fitting"], "kv_m3_h", fitting.kv_m3_h);
    }
    setText(object, "size", fitting.size);
    setAmount(object, "bore_mm", fitting.bore, &Length::inMillimetres);
    setNumber(object, "angle_deg", fitting.angle_deg);
    if (fitting.count != 1) object["count"] = fitting.count;
    return object;
}

Json filterJson(const FilterItem& filter) {
    if (!filter.code.empty()) return {{"filter", filter.code}};
    Json figures{{"loss_kPa", numberJson(filter.loss.inKilopascals())},
                 {"at_m3_h", numberJson(filter.at.inCubicMetresPerHour())},
                 {"exponent", numberJson(filter.exponent)},
                 {"service_kPa", numberJson(filter.service.inKilopascals())}};
    setAmount(figures, "max_m3_h", filter.greatestFlow, &Flow::inCubicMetresPerHour);
    return {{"filter", figures}};
}

Json regulatorJson(const RegulatorItem& regulator) {
    const Json set = numberJson(regulator.set.inKilopascals());
    if (regulator.code.empty()) return {{"regulator", {{"set_kPa", set}}}};
    Json object{{"fitting", regulator.code}};
    setText(object, "size", regulator.size);
    object["set_kPa"] = set;
    return object;
}

struct ItemWriter {
    FrictionMethod friction;

    Json operator()(const PipeItem& pipe) const {
        Json object = Json::object();
        addPipe(object, pipe, friction);
        return object;
    }
    Json operator()(const FittingItem& fitting) const { return fittingJson(fitting); }
    Json operator()(const FilterItem& filter) const { return filterJson(filter); }
    Json operator()(const RegulatorItem& regulator) const { return regulatorJson(regulator); }
    Json operator()(const TakeoffItem& takeoff) const { return Json::object({{"takeoff", takeoff.name}}); }
};

Json emittersJson(const Emitters& emitters) {
    Json object = Json::object();
    setText(object, "type", emitters.type);
    setCount(object, "count", emitters.count);
    setAmount(object, "metres", emitters.metres, &Length::inMetres);
    setAmount(object, "spacing_m", emitters.spacing, &Length::inMetres);
    const EmitterLaw& law = emitters.law;
    if (emitters.type.empty()) {
        if (emitters.whole) {
            object["total_m3_h"] = numberJson(law.nominal.inCubicMetresPerHour());
        } else {
            object["flow_l_h"] = numberJson(law.nominal.inLitresPerHour());
        }
        if (law.compensating()) {
            setAmount(object, "regulated_from_kPa", law.regulatedFrom, &Pressure::inKilopascals);
            setAmount(object, "regulated_to_kPa", law.regulatedTo, &Pressure::inKilopascals);
        } else {
            object["at_kPa"] = numberJson(law.at.inKilopascals());
            object["exponent"] = numberJson(law.exponent);
        }
    }
    if (emitters.limitsGiven) {
        setAmount(object, "min_kPa", emitters.least, &GaugePressure::inKilopascals);
        setAmount(object, "max_kPa", emitters.greatest, &GaugePressure::inKilopascals);
    }
    if (emitters.variationGiven) setNumber(object, "variation_share", emitters.variation);
    if (emitters.perPlant != 1) object["per_plant"] = emitters.perPlant;
    setAmount(object, "passage_mm", emitters.passage, &Length::inMillimetres);
    return object;
}

Json lateralsJson(const Laterals& laterals, FrictionMethod friction) {
    return {{"count", laterals.count},
            {"pipe", pipeKindJson(laterals.pipe, friction)},
            {"length_m", numberJson(laterals.length.inMetres())},
            {"spacing_m", numberJson(laterals.spacing.inMetres())},
            {"first_at", laterals.firstAtHalf ? "half" : "full"},
            {"slope_share", numberJson(laterals.slopeShare)}};
}

Json sourceJson(const WaterSource& source) {
    Json object = Json::object();
    setText(object, "kind", source.kind);
    if (source.levelsGiven) {
        object["levels_m"] = {{"low", numberJson(source.low.inMetres())},
                              {"usual", numberJson(source.usual.inMetres())},
                              {"high", numberJson(source.high.inMetres())}};
    }
    setAmount(object, "volume_m3", source.volume, &Volume::inCubicMetres);
    setAmount(object, "refill_m3_h", source.refill, &Flow::inCubicMetresPerHour);
    setAmount(object, "stop_level_m", source.stopLevel, &Level::inMetres);
    setAmount(object, "mouth_level_m", source.mouth, &Level::inMetres);
    setAmount(object, "floor_level_m", source.floor, &Level::inMetres);
    setText(object, "dry_run_device", source.dryRunDevice);
    return object;
}

Json tankReturnJson(const TankReturn& back, FrictionMethod friction) {
    Json object = Json::object();
    addPipe(object, back.pipe, friction);
    setAmount(object, "set_flow_m3_h", back.setFlow, &Flow::inCubicMetresPerHour);
    setNumber(object, "valve_kv_m3_h", back.valveKv_m3_h);
    setAmount(object, "outlet_level_m", back.outletLevel, &Level::inMetres);
    return object;
}

Json controllerJson(const Controller& controller) {
    Json object = Json::object();
    setCount(object, "stations", controller.stations);
    setCount(object, "valves_at_once", controller.valvesAtOnce);
    if (controller.window)
        object["window"] = Json::array({controller.window->first, controller.window->second});
    setAmount(object, "start_delay_s", controller.startDelay, &Duration::inSeconds);
    if (controller.objective != ShiftObjective::time)
        object["objective"] = controller.objective == ShiftObjective::energy ? "energy" : "shifts";
    if (!controller.together.empty()) object["together"] = controller.together;
    if (!controller.apart.empty()) object["apart"] = controller.apart;
    return object;
}

Json systemJson(const KnownSystem& system) {
    Json object = Json::object();
    setAmount(object, "static_head_m", system.staticHead, &Head::inMetres);
    setNumber(object, "resistance_m_per_m3_h_2", system.resistance_m_per_m3_h_2);
    for (const auto& point : system.points) {
        object["points"].push_back({{"flow_m3_h", numberJson(point.flow.inCubicMetresPerHour())},
                                    {"head_m", numberJson(point.head.inMetres())}});
    }
    return object;
}

void addControl(Json& object, const Site& site) {
    object["control"] = site.control == ControlKind::pressureHeld ? "pressure-held" : "with-zones";
    if (site.controller) object["controller"] = controllerJson(*site.controller);
    if (site.vessel) {
        object["vessel"] = {{"volume_l", numberJson(site.vessel->volume.inLitres())},
                            {"precharge_kPa", numberJson(site.vessel->precharge.inKilopascals())},
                            {"cut_in_kPa", numberJson(site.vessel->cutIn.inKilopascals())},
                            {"cut_out_kPa", numberJson(site.vessel->cutOut.inKilopascals())}};
    }
    setAmount(object, "hold_kPa", site.hold, &GaugePressure::inKilopascals);
    setAmount(object, "valve_closing_s", site.valveClosing, &Duration::inSeconds);
}

} // namespace

Json pipeKindJson(const PipeKind& kind, FrictionMethod friction) {
    if (!kind.code.empty()) return kind.code;
    Json object{{"bore_mm", numberJson(kind.bore.inMillimetres())}};
    // With Hazen-Williams the roughness may have been left out; with Darcy zero means a smooth wall.
    if (friction == FrictionMethod::darcy || kind.roughness > Length())
        object["roughness_mm"] = numberJson(kind.roughness.inMillimetres());
    setNumber(object, "hazen_williams_c", kind.hazenWilliamsC);
    setAmount(object, "rating_kPa", kind.rating, &Pressure::inKilopascals);
    return object;
}

Json runJson(const Run& run, FrictionMethod friction) {
    Json items = Json::array();
    for (const RunItem& item : run) {
        items.push_back(std::visit(ItemWriter{friction}, item));
    }
    return items;
}

Json zoneJson(const Zone& zone, FrictionMethod friction) {
    Json object = Json::object();
    setText(object, "name", zone.name);
    setText(object, "takeoff", zone.takeoff);
    object["level_m"] = numberJson(zone.level.inMetres());
    object["branch"] = runJson(zone.branch, friction);
    object["emitters"] = emittersJson(zone.emitters);
    if (zone.laterals) object["laterals"] = lateralsJson(*zone.laterals, friction);
    setAmount(object, "need_m3_per_day", zone.needPerDay, &Volume::inCubicMetres);
    setAmount(object, "area_m2", zone.area, &Area::inSquareMetres);
    setAmount(object, "need_mm_per_day", zone.needDepthPerDay, &Length::inMillimetres);
    return object;
}

Json siteJson(const Site& site) {
    Json object = Json::object();
    if (site.source) object["source"] = sourceJson(*site.source);
    object["pump_level_m"] = numberJson(site.pumpLevel.inMetres());
    object["suction"] = runJson(site.suction, site.friction);
    object["delivery"] = runJson(site.delivery, site.friction);
    if (site.tankReturn) object["tank_return"] = tankReturnJson(*site.tankReturn, site.friction);
    addControl(object, site);
    object["friction"] = site.friction == FrictionMethod::hazenWilliams ? "hazen-williams" : "darcy";
    object["fittings_allowance_share"] = numberJson(site.fittingsAllowanceShare);
    for (const Zone& zone : site.zones) {
        object["zones"].push_back(zoneJson(zone, site.friction));
    }
    if (site.end) {
        object["end"] = {{"level_m", numberJson(site.end->level.inMetres())},
                         {"pressure_kPa", numberJson(site.end->pressure.inKilopascals())}};
    }
    if (site.system) object["system"] = systemJson(*site.system);
    return object;
}

} // namespace headmark
