#include "output/take_off/json.h"

#include <filesystem>
#include <nlohmann/json.hpp>

#include "output/film/json_head.h"
#include "output/take_off/sheet.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

using Json = nlohmann::ordered_json;

constexpr int kTakeOffVersion = 2;

Json batch_json(const Batch& b) {
    Json pigments = Json::array();
    for (const PigmentGrams& p : b.pigments)
        pigments.push_back({{"name", p.name}, {"usual_name", p.usual_name}, {"mass_g", p.grams}});
    return {{"kind", b.epoxy ? "epoxy" : "cement"},
            {"net_g", b.net_g},
            {"mix_g", b.mix_g},
            {"spare_g", b.spare_g},
            {"total_g", b.total_g},
            {"water_g", b.water_g},
            {"pigment_share_of_binder", b.pigment_share},
            {"pigments", pigments},
            {"mixes", b.pots}};
}

Json purchases_json(const std::vector<Material>& stock, const TakeOff& t) {
    Json list = Json::array();
    for (const Purchase& p : t.purchases)
        list.push_back({{"material", stock[p.material].name},
                        {"pieces", p.pieces},
                        {"stones", p.stones},
                        {"spare_pieces", p.spare_pieces},
                        {"net_mm2", p.net_mm2},
                        {"net_g", p.net_g},
                        {"waste_share", p.waste},
                        {"buy_mm2", p.bought_mm2},
                        {"buy_g", p.bought_g},
                        {"bought_by", p.cast       ? "frit"
                                      : p.picked   ? "stone"
                                      : p.by_sheet ? "sheet"
                                                   : "bag"},
                        {"sheet_mm", p.sheet_mm.x > 0 ? Json{p.sheet_mm.x, p.sheet_mm.y} : Json()},
                        {"bag_g", p.bag_g > 0 ? Json(p.bag_g) : Json()},
                        {"packs", p.packs},
                        {"cost", p.cost > 0 ? Json(p.cost) : Json()}});
    return list;
}

Json fusings_json(const std::vector<Material>& stock, const TakeOff& t) {
    Json list = Json::array();
    for (const Fusing& f : t.fusings) {
        Json layers = Json::array();
        for (const StackLayer& layer : f.stack.layers)
            layers.push_back({{"glass", layer.glass}, {"thickness_mm", layer.thickness_mm}});
        list.push_back({{"material", stock[f.material].name},
                        {"stack", layers},
                        {"fires_to_mm", f.stack.fired.thickness_mm},
                        {"area_growth_ratio", f.stack.fired.area_growth},
                        {"fired_mm2", f.fired_mm2},
                        {"cut_mm2_of_each", f.cut_mm2},
                        {"sheets_of_each", f.sheets}});
    }
    return list;
}

Json castings_json(const std::vector<Material>& stock, const TakeOff& t) {
    Json list = Json::array();
    for (const Casting& c : t.castings)
        list.push_back({{"material", stock[c.material].name},
                        {"cast_mm2", c.cast_mm2},
                        {"frit",
                         {{{"glass", c.shade.from}, {"mass_g", c.from_g}},
                          {{"glass", c.shade.to}, {"mass_g", c.to_g}}}}});
    return list;
}

Json leaf_json(const std::vector<Material>& stock, const TakeOff& t) {
    Json list = Json::array();
    for (const LeafNeed& need : t.leaf) {
        Json on = Json::array();
        for (const std::uint32_t m : need.materials) on.push_back(stock[m].name);
        list.push_back({{"leaf", leaf_text(need.leaf)},
                        {"on", on},
                        {"gilded_mm2", need.gilded_mm2},
                        {"leaves", need.leaves},
                        {"books", need.books}});
    }
    return list;
}

Json zones_json(const Layout& layout, const TakeOff& t) {
    Json list = Json::array();
    for (const std::size_t z : t.order.order) {
        const GroutZone& zone = t.zones[z];
        Json fields = Json::array();
        for (const std::uint32_t f : zone.fields) fields.push_back(layout.fields[f].name);
        list.push_back({{"step", t.step_of(z)},
                        {"zone", zone.name},
                        {"grout", zone.grout},
                        {"fields", fields},
                        {"lightness_l", zone.traits.lightness},
                        {"area_mm2", zone.area_mm2},
                        {"joint_mm2", zone.joint_mm2},
                        {"depth_mm", zone.depth_mm},
                        {"volume_mm3", zone.volume_mm3},
                        {"undercut_mm3", zone.undercut_mm3},
                        {"rule_of_thumb_mm3", zone.rule_mm3},
                        {"sanded", zone.traits.sanded},
                        {"waste_share", t.mixes[z].waste},
                        {"recipe_of_the_layout", t.mixes[z].recipe.of_the_layout},
                        {"recipe_ciede2000", t.mixes[z].recipe.delta_e},
                        {"base", t.mixes[z].recipe.recipe.base.name},
                        {"batch", batch_json(t.mixes[z].batch)}});
    }
    return list;
}

Json order_json(const TakeOff& t) {
    Json reasons = Json::array(), cycles = Json::array(), alike = Json::array(), meet = Json::array();
    for (const OrderEdge& e : t.order.edges)
        reasons.push_back({{"before", t.zones[e.before].name},
                           {"after", t.zones[e.after].name},
                           {"why", reason_text(t, e)},
                           {"dropped", e.given_up}});
    for (const auto& cycle : t.order.cycles) {
        Json names = Json::array();
        for (const std::size_t z : cycle) names.push_back(t.zones[z].name);
        cycles.push_back(names);
    }
    for (const auto& [a, b] : t.order.alike) alike.push_back({t.zones[a].name, t.zones[b].name});
    for (const ZoneBoundary& b : t.boundaries)
        meet.push_back({{"owner", t.zones[b.owner].name},
                        {"other", t.zones[b.other].name},
                        {"length_mm", b.length_mm},
                        {"usual_joint_mm", b.usual_mm},
                        {"narrowest_tenth_mm", b.narrow_mm},
                        {"share_under_1_mm", b.too_narrow}});
    return {{"reasons", reasons}, {"cycles", cycles}, {"either_first", alike}, {"boundaries", meet}};
}

Json weight_json(const Weighing& weighing, int struts) {
    Json parts = Json::array();
    for (const WeightPart& p : weighing.parts)
        parts.push_back({{"part", p.name},
                         {"low_kg", p.low_kg()},
                         {"likely_kg", p.kg},
                         {"high_kg", p.high_kg()},
                         {"off_board_mm", p.off_board_mm}});
    return {{"low_kg", weighing.low_kg},
            {"likely_kg", weighing.likely_kg},
            {"high_kg", weighing.high_kg},
            {"kg_per_m2", weighing.kg_per_m2()},
            {"off_wall_mm", weighing.off_wall_mm},
            {"struts", struts},
            {"parts", parts}};
}

Json hanging_json(const HangingLoad& l) {
    return {{"design_kg", l.design_kg},
            {"weight_n", l.weight_n},
            {"off_wall_mm", l.off_wall_mm},
            {"lever_mm", l.lever_mm},
            {"pull_out_n", l.pull_out_n},
            {"two_points",
             {{"apart_mm", l.points_apart_mm},
              {"down_n_each", l.point_shear_n},
              {"out_n_each", l.point_pull_n},
              {"rated_working_kg_each", l.rated_working_kg},
              {"rated_breaking_kg_each", l.rated_breaking_kg},
              {"safety_factor", l.factor}}},
            {"cleat", {{"least_length_mm", l.cleat_mm}, {"down_n_per_m", l.cleat_shear_n_per_m}}},
            {"wire_leg_n", {{"at_30_deg", l.wire_30_n}, {"at_15_deg", l.wire_15_n}}},
            {"people_to_lift", l.people},
            {"cart", l.cart},
            {"ask", l.ask},
            {"note", "loads, not a statement that anything holds them"}};
}

// Of a work that is divided.
Json panels_json(const TakeOff& t, double height_mm) {
    Json list = Json::array();
    for (const PanelApart& panel : t.panels)
        list.push_back({{"name", panel.span.name},
                        {"from_mm", panel.span.left_mm},
                        {"to_mm", panel.span.right_mm},
                        {"size_mm", {panel.span.width_mm(), height_mm}},
                        {"pieces", panel.pieces},
                        {"stones", panel.stones},
                        {"weight", weight_json(panel.weighing, panel.struts)},
                        {"hanging", hanging_json(panel.load)}});
    return list;
}

Json anchors_json(const std::vector<Material>& stock, const TakeOff& t) {
    Json list = Json::array();
    for (const StoneAnchor& a : t.anchors)
        list.push_back({{"number", a.number},
                        {"stone", a.id},
                        {"material", stock[a.material].name},
                        {"at_mm", {a.at_mm.x, a.at_mm.y}},
                        {"mass_g", a.mass_g},
                        {"proud_mm", a.proud_mm},
                        {"deep_mm", a.deep_mm},
                        {"lever_mm", a.lever_mm},
                        {"off_board_mm", a.off_board_mm},
                        {"reasons", a.reasons},
                        {"usual", a.how}});
    return list;
}

}  // namespace

std::string take_off_json(const Layout& layout, const LayingReport& report, const TakeOff& t,
                          const std::vector<std::string>& files) {
    Json beds = Json::array(), plan = Json::array(), warned = Json::array(), hours = Json::array();
    for (const BedMix& bed : t.beds)
        beds.push_back({{"tint", layout.tints[bed.tint].name},
                        {"area_mm2", bed.area_mm2},
                        {"volume_mm3", bed.volume_mm3},
                        {"batch", batch_json(bed.batch)}});
    for (const PlanStep& step : t.plan)
        plan.push_back(
            {{"earliest_day", step.first_day},
             {"unhurried_day", step.unhurried_day},
             {"what", step.what},
             {"how", step.how},
             {"zone", step.zone < 0 ? Json() : Json(t.zones[static_cast<std::size_t>(step.zone)].name)}});
    for (const Caution& c : t.cautions) warned.push_back({{"about", c.about}, {"text", c.text}});
    for (std::size_t f = 0; f < layout.fields.size(); ++f)
        hours.push_back({{"field", layout.fields[f].name},
                         {"low_h", t.hours.laying[f].low_h},
                         {"high_h", t.hours.laying[f].high_h}});
    const auto all = t.hours.all();
    int struts = 0;
    for (const PanelApart& panel : t.panels) struts += panel.struts;
    Json body{{"panel", layout.panel.name},
              {"size_mm", {layout.panel.width_mm, layout.panel.height_mm}},
              {"materials", purchases_json(layout.stock, t)},
              {"to_fuse", fusings_json(layout.stock, t)},
              {"to_cast", castings_json(layout.stock, t)},
              {"firings", firings(t.castings, t.workshop.take_off.sheet_mm)},
              {"metal_leaf", leaf_json(layout.stock, t)},
              {"cost", known_cost(t) > 0 ? Json(known_cost(t)) : Json()},
              {"beds", beds},
              {"zones", zones_json(layout, t)},
              {"order", order_json(t)},
              {"pre_seal", t.pre_seal},
              {"plan", plan},
              {"hours",
               {{"low_h", all.low_h},
                {"high_h", all.high_h},
                {"masking_h", {t.hours.masking.low_h, t.hours.masking.high_h}},
                {"grouting_h", {t.hours.grouting.low_h, t.hours.grouting.high_h}},
                {"laying", hours}}},
              {"weight", weight_json(t.weighing, struts)},
              {"hanging", hanging_json(heaviest(t.panels).load)},
              {"anchors", anchors_json(layout.stock, t)},
              {"warnings", t.warnings},
              {"cautions", warned},
              {"files", files}};
    if (t.panels.size() > 1) body["panels"] = panels_json(t, layout.panel.height_mm);
    const std::string file = std::filesystem::path(layout.sources.path).filename().string();
    return json_text(json_head("take-off", kTakeOffVersion, {report.program, file, report.scene_hash}), body);
}

}  // namespace rakelight
