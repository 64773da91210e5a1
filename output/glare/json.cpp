#include "output/glare/json.h"

#include <nlohmann/json.hpp>

namespace rakelight {

using Json = nlohmann::ordered_json;

namespace {

constexpr int kGlareVersion = 2;

}  // namespace

Json json_of(const GlareReport& r) {
    Json j{{"viewpoint", r.viewpoint},
           {"light", r.light},
           {"panel_in_view", r.in_view},
           {"verdict", r.verdict},
           {"limits",
            {{"hot_times_body", r.limits.hot},
             {"blinding_times_body", r.limits.blinding},
             {"patch_times_body", r.limits.outshines},
             {"patch_deg", r.limits.patch_deg},
             {"sparks_per_m2", {r.limits.least_sparks_per_m2, r.limits.most_sparks_per_m2}},
             {"veil", r.limits.veil},
             {"unified_glare_rating", r.limits.rating}}},
           {"largest_patch_deg", r.largest ? r.largest->patch.size_deg : 0.0},
           {"hot_share", r.glare.hot_share},
           {"blinding_share", r.glare.blinding_share},
           {"sparks_per_m2", r.glare.sparks_per_m2},
           {"score", r.glare.score},
           {"unified_glare_rating", r.rating ? Json(*r.rating) : Json()},
           {"background_cd_per_m2", r.background_cd_per_m2}};
    j["sources"] = Json::array();
    for (const NamedSource& s : r.sources)
        j["sources"].push_back({{"name", s.name},
                                {"cd_per_m2", s.source.cd_per_m2},
                                {"solid_angle_sr", s.source.solid_angle_sr},
                                {"position_index", s.source.position}});
    for (const NamedPatch& p : r.marks)
        j["marks"].push_back({{"lamps", p.lamps},
                              {"field", p.field},
                              {"at_mm", {p.at_mm.x, p.at_mm.y}},
                              {"size_deg", p.patch.size_deg},
                              {"mean_cd_per_m2", p.patch.cd_per_m2},
                              {"most_times_body", p.patch.times}});
    for (std::size_t i = 0; i < r.glare.fields.size(); ++i) {
        const FieldLight& f = r.glare.fields[i];
        j["fields"].push_back({{"name", r.field_names[i]},
                               {"body_cd_per_m2", f.body_cd_per_m2},
                               {"mirrored_cd_per_m2", f.mirrored_cd_per_m2},
                               {"mirrors_most_of", r.lamps[f.group]},
                               {"veil", f.veil()}});
    }
    for (const FieldContrast& c : r.contrasts)
        j["contrasts"].push_back(
            {{"fields", {c.one, c.other}}, {"body", c.body}, {"seen", c.seen}, {"kept", c.kept()}});
    return j;
}

std::string glare_json(const std::vector<GlareReport>& reports, const Json& moves, const std::string& program,
                       const std::vector<std::string>& files) {
    Json all{{"kind", "glare"}, {"version", kGlareVersion}, {"program", program}, {"files", files}};
    for (const GlareReport& report : reports) all["viewpoints"].push_back(json_of(report));
    if (!moves.is_null()) all["moves"] = moves;
    return all.dump(2) + "\n";
}

}  // namespace rakelight
