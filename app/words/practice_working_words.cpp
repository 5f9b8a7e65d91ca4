// Workings of the installation's studies.
#include "app/words/working_words_parts.h"

#include <QCoreApplication>

namespace headmark {

namespace {

#define HM_WORDS(text) QT_TRANSLATE_NOOP("Workings", text)

constexpr const char* kDefinition = HM_WORDS("definition");
constexpr const char* kContinuity = HM_WORDS("continuity");
constexpr const char* kHeat = HM_WORDS("balance of heat; 4184 J/(kg K), nothing lost through the casing");
constexpr const char* kBoyle = HM_WORDS("Boyle's law, absolute pressures");
constexpr const char* kWorstDraw =
    HM_WORDS("shortest cycle, at half the pump's flow; MIL-HDBK-1005/9A, section 2.5.3.6");

constexpr WorkingRow kWorkings[] = {
    // Suction
    {"npsh-required-rule", HM_WORDS("NPSH required, by a rule since no chart shows it"),
     "NPSH_required = (n · √Q / S)^(4/3)", "({speed_rpm} · √({flow_m3_s}) / {suction_specific_speed})^(4/3)",
     HM_WORDS("definition of suction specific speed; common practice, no source for its value")},
    {"suction-specific-speed", HM_WORDS("Suction specific speed at best flow"),
     "S = n · √Q / NPSH_required^(3/4)", "{speed_rpm} · √({flow_m3_s}) / {required_m}^(3/4)",
     HM_WORDS("definition; above 145 ANSI/HI 9.6.1 asks for a greater margin")},
    {"npsh-margin-at-level", HM_WORDS("Margin of NPSH at {where} water and its greatest flow"),
     "margin = NPSH_available - NPSH_required", "{available_m} - {required_m}", kDefinition},
    {"suction-greatest-flow", HM_WORDS("Greatest flow that keeps the margin at low water"),
     "NPSH_available(Q) - NPSH_required(Q) = margin needed", "margin needed {margin_needed_m}", kDefinition},
    {"suction-greatest-flow-whole", HM_WORDS("The margin is kept at low water up to the end of the curve"),
     "NPSH_available(Q) - NPSH_required(Q) ≥ margin needed", "margin needed {margin_needed_m}", kDefinition},
    {"suction-lowest-water", HM_WORDS("Lowest water at which the greatest flow keeps its margin"),
     "z_lowest = z_source - (margin - margin needed)", "{source_level_m} - ({margin_m} - {margin_needed_m})",
     HM_WORDS("NPSH available goes with the level, at the same flow")},
    {"suction-greatest-lift", HM_WORDS("Greatest lift that still works, by NPSH"), "lift = z_pump - z_lowest",
     "{pump_level_m} - {level_m}; practice allows {practice_m}", kDefinition},
    {"suction-greatest-lift-practice", HM_WORDS("Greatest lift that still works, by practice"),
     "lift = limit at this altitude - loss", "{limit_m} - {loss_m}; NPSH allows {npsh_lift_m}",
     HM_WORDS("practical suction lift, friction included; see the table of rules")},
    {"submergence-outlet", HM_WORDS("Water over the tank's outlet, at {where}"),
     "S = D · (1 + 2.3 · v / √(g · D))", "{bore_m} · (1 + 2.3 · {velocity_m_s} / √(9.80665 m/s² · {bore_m}))",
     HM_WORDS("ANSI/HI 9.8")},
    {"submergence-strainer", HM_WORDS("Depth of the strainer below the surface, at {where}"),
     "S = max(D · (1 + 2.3 · v / √(g · D)), S_practice), v = Q / (ratio · A)",
     "max({bore_m} · (1 + 2.3 · {velocity_m_s} / √(9.80665 m/s² · {bore_m})), {practice_m}), open area "
     "{open_areas} times the bore's",
     HM_WORDS("ANSI/HI 9.8; least depth and open area are common practice, no source")},
    {"floating-inlet-depth",
     HM_WORDS("Depth below the surface at which the floating inlet hangs, at {where}"),
     "S = max(D · (1 + 2.3 · v / √(g · D)), S_practice), v = Q / (ratio · A)",
     "max({bore_m} · (1 + 2.3 · {velocity_m_s} / √(9.80665 m/s² · {bore_m})), {practice_m}), open area "
     "{open_areas} times the bore's",
     HM_WORDS("ANSI/HI 9.8; least depth and open area are common practice, no source")},
    {"submersed-cover", HM_WORDS("Water over the pump's inlet at the lowest water at which it runs"),
     "depth = z_water - z_inlet", "{source_level_m} - {inlet_m}", kDefinition},
    {"submergence", HM_WORDS("Depth of the suction's mouth below the surface, at {where}"),
     "S = max(D · (1 + 2.3 · v / √(g · D)), S_practice)",
     "max({bore_m} · (1 + 2.3 · {velocity_m_s} / √(9.80665 m/s² · {bore_m})), {practice_m})",
     HM_WORDS("ANSI/HI 9.8; the least depth is common practice, no source")},
    {"priming-volume", HM_WORDS("Water to be filled in before the first start"), "V = V_pipe + V_casing",
     "{pipe_l} + {casing_l}", kDefinition},
    {"priming-time", HM_WORDS("Time to fill it"), "t = V / Q", "{volume_l} / {flow_l_min}",
     HM_WORDS("common practice, no source for the flow")},
    {"check-valve-place", HM_WORDS("NPSH that a check valve before the pump costs: {where}"),
     "cost = NPSH_available(behind the pump) - NPSH_available(before it)", "{behind_m} - {before_m}",
     HM_WORDS("the case run with the valve in either place")},
    // Shut valves
    {"shut-in-heating", HM_WORDS("Heating of the pump's water with every valve shut"),
     "dT/dt = P_shaft / (m · c)", "{shaft_W} / ({water_kg} · {heat_J_kgK})", kHeat},
    {"shut-in-minutes", HM_WORDS("Time until the water is too hot"), "t = (T_limit - T_water) / (dT/dt)",
     "({limit_C} - {water_C}) / {rate_K_min}", kDefinition},
    {"return-by-heat", HM_WORDS("Return that carries the heat away"), "Q = P_shaft / (ρ · c · ΔT)",
     "{shaft_W} / ({density_kg_m3} · {heat_J_kgK} · {rise_K})", kHeat},
    {"return-by-share", HM_WORDS("Return that keeps the pump's least continuous flow, for a long life"),
     "Q = share · Q_best", "{share} · {best_flow_m3_h}", HM_WORDS("common practice, no source")},
    {"return-rise", HM_WORDS("Warming of the water on its way through the return"),
     "ΔT = P_shaft / (ρ · Q · c)", "{shaft_W} / ({density_kg_m3} · {flow_m3_h} · {heat_J_kgK})", kHeat},
    {"return-bucket", HM_WORDS("Setting the return with a bucket, every zone valve shut"), "t = V / Q",
     "{bucket_l} / {flow_m3_h}", kContinuity},
    {"return-orifice", HM_WORDS("Bore of a fixed orifice in place of the set valve"),
     "d = √(4 · Kv / (π · C_d · √(2 · 1 bar / 1000 kg/m³)))", "Kv {kv_m3_h}, C_d {discharge}",
     HM_WORDS("a sharp-edged orifice; its coefficient from handbooks, 0.60 to 0.62")},
    {"return-share", HM_WORDS("Share of the pump's flow that the return takes: {where}"),
     "share = Q_return / Q", "{return_m3_h} / {flow_m3_h}", kDefinition},
    {"source-warming", HM_WORDS("Warming of the source while nothing is drawn"),
     "dT/dt = P_shaft / (ρ · V · c)", "{shaft_W} / ({density_kg_m3} · {volume_m3} · {heat_J_kgK})", kHeat},
    // Filling
    {"main-volume", HM_WORDS("Water that fills the empty main and branches"), "V = V_main + V_branches",
     "{delivery_m3} + {branches_m3}", kDefinition},
    {"filling-slowly", HM_WORDS("Filling slowly, the valve a little open"), "t = V / (v · A)",
     "{volume_m3} / {flow_m3_h}, which is {velocity_m_s} in {bore_m}",
     HM_WORDS("common practice, no source for the velocity")},
    {"filling-least-time", HM_WORDS("Least time to fill, at run-out"), "t = V / Q",
     "{volume_m3} / {flow_m3_h}", kContinuity},
    // Ratings
    {"shut-off-pressure", HM_WORDS("Pressure at the pump against shut valves, high water, strongest pump"),
     "p = ρ · g · (z_source + H_shut-off - z_pump)",
     "{density_kg_m3} · {gravity_m_s2} · ({source_level_m} + {shut_off_m} - {pump_level_m})",
     HM_WORDS("energy balance; the maker's tolerance")},
    {"shut-off-at-60-hz", HM_WORDS("The same on a supply of 60 Hz"),
     "p = ρ · g · (z_source + (60/50)² · H_shut-off - z_pump)",
     "ρ · g · ({source_level_m} + 1.44 · {shut_off_m} - {pump_level_m})", HM_WORDS("affinity laws")},
    {"rating-spare", HM_WORDS("Spare of the weakest part, {where}"), "spare = rating - p",
     "{rating_kPa} - {pressure_kPa}", kDefinition},
    // Filter
    {"filter-clean", HM_WORDS("Gauge difference of the clean filter {where}, at the greatest flow"),
     "Δp = c · Q^n", "Q = {flow_m3_h}", HM_WORDS("the filter's loss figures, from the catalogue or the job")},
    {"filter-service", HM_WORDS("Gauge difference at which the filter {where} is to be cleaned"),
     "Δp_service", "clean {clean_kPa}", HM_WORDS("the filter's figures, from the catalogue or the job")},
    {"filter-mesh", HM_WORDS("Opening that the finest emitter asks of the filter {where}"), "opening",
     "filter {filter_micron}, for {emitter}", HM_WORDS("the emitter's catalogue row")},
    // Surge
    {"valve-shuts", HM_WORDS("Jump of head when the valve of zone {where} shuts"),
     "ΔH = min(a · Δv / g, 2 · Σ(L · Δv) / (g · t))",
     "sudden {sudden_m}; sudden means within {critical_s}, the valve takes {closing_s}",
     HM_WORDS("Joukowsky; slow closing in proportion")},
    {"surge-peak", HM_WORDS("Highest pressure with that jump, at {where}"), "p = p_standing + Δp",
     "{standing_kPa} + {jump_kPa}", kDefinition},
    {"pump-stop", HM_WORDS("Head behind the pump when it stops suddenly"), "H = H_standing - a · v / g",
     "{standing_m} - {sudden_m}", HM_WORDS("Joukowsky")},
    // Held pressure
    {"held-shut-off", HM_WORDS("Pressure of the weakest pump delivered against shut valves"),
     "p = p_shut-off · (1 - tolerance)", "as printed {shut_off_kPa}; cut-out {cut_out_kPa}",
     HM_WORDS("the maker's tolerance; low water")},
    {"vessel-drawdown", HM_WORDS("Water the vessel gives between cut-out and cut-in"),
     "V = V_vessel · p_pre · (1/p_in - 1/p_out)",
     "{vessel_l} · {precharge_kPa} · (1 / {cut_in_kPa} - 1 / {cut_out_kPa})", kBoyle},
    {"vessel-starts", HM_WORDS("Most starts an hour"), "n = Q / (4 · V)", "{flow_m3_h} / (4 · {volume_l})",
     kWorstDraw},
    {"starts-smallest-zone", HM_WORDS("Starts an hour while only zone {where} draws"),
     "n = q · (Q - q) / (V · Q)", "{draw_m3_h} · ({flow_m3_h} - {draw_m3_h}) / ({volume_l} · {flow_m3_h})",
     kContinuity},
    {"cut-in-needed", HM_WORDS("Pressure that the zones need at the pump: {where}"),
     "p = ρ · g · (z_source + H_need - h_suction - z_pump)", "cut-in {cut_in_kPa}",
     HM_WORDS("energy balance; every open emitter at its lower limit")},
    {"vessel-run", HM_WORDS("Length of a run while only zone {where} draws"), "t = V / (Q - q)",
     "{volume_l} / ({flow_m3_h} - {draw_m3_h})", kContinuity},
    {"input-at-set-point", HM_WORDS("Power from the supply at the set point: {where}"),
     "P(Q, n) = n³ · P(Q/n) / efficiency of the motor", "n = {speed_share}, {head_m} at {flow_m3_h}",
     HM_WORDS("affinity laws; the drive's own losses come on top")},
    {"shaft-at-set-point", HM_WORDS("Power at the shaft at the set point: {where}"), "P(Q, n) = n³ · P(Q/n)",
     "n = {speed_share}, {head_m} at {flow_m3_h}", HM_WORDS("affinity laws")},
    {"zone-at-set-point", HM_WORDS("Lowest pressure at the emitters of zone {where} at the set point"),
     "energy line at the branch's end, less the level", "{case}: {hold_kPa} held, highest {highest_kPa}",
     HM_WORDS("energy balance")},
    {"speed-for-set-point", HM_WORDS("Speed that holds the set point: {where}"), "n²-law: H(Q, n) = H",
     "{head_m} at {flow_m3_h}", HM_WORDS("affinity laws")},
    {"energy-saved-by-speed", HM_WORDS("Energy a cubic metre saved at the shaft: {where}"),
     "saved = 1 - e_slow / e_full", "1 - {slow_kWh_m3} / {full_kWh_m3}",
     HM_WORDS("affinity laws; the drive's own losses come on top")},
    {"least-useful-speed", HM_WORDS("Speed below which no water moves against the set point"),
     "H_shut-off · n² = H", "{head_m}", HM_WORDS("affinity laws")},
    // Motor
    {"greatest-shaft-power", HM_WORDS("Greatest power at the shaft over the curve"), "P(Q)", "P({flow_m3_h})",
     HM_WORDS("the pump's power or efficiency curve")},
    {"motor-spare", HM_WORDS("The motor's rating over the greatest power"), "ratio = P_rated / P_shaft",
     "{rated_kW} / {shaft_kW}", kDefinition},
    {"motor-current-three", HM_WORDS("Current drawn, three phases: {where}"), "I = P / (√3 · U · cos φ)",
     "{input_W} / (√3 · {volts} · {power_factor})",
     HM_WORDS("definition; a usual power factor where the plate's is not given")},
    {"motor-current-one", HM_WORDS("Current drawn, one phase: {where}"), "I = P / (U · cos φ)",
     "{input_W} / ({volts} · {power_factor})",
     HM_WORDS("definition; a usual power factor where the plate's is not given")},
    {"cost-per-volume", HM_WORDS("Cost of a cubic metre: {where}"), "cost = e · price",
     "{energy_kWh_m3} · {price_per_kWh}", kDefinition},
};

constexpr TopicRow kTopics[] = {
    {"suction", HM_WORDS("Suction side")},
    {"shut-in", HM_WORDS("Every valve shut")},
    {"filling", HM_WORDS("Filling the empty main")},
    {"ratings", HM_WORDS("Pressure at shut-off")},
    {"filter", HM_WORDS("Filter")},
    {"surge", HM_WORDS("Pressure surge")},
    {"held-pressure", HM_WORDS("Pressure held by switch or speed")},
    {"motor", HM_WORDS("Motor and supply")},
};

} // namespace

std::span<const WorkingRow> practiceWorkingRows() { return kWorkings; }
std::span<const TopicRow> topicRows() { return kTopics; }

} // namespace headmark
