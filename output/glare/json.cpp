#include "output/glare/json.h"

namespace rakelight {

using Json = nlohmann::ordered_json;

namespace {

constexpr int kGlareVersion = 3;

}  // namespace

Json json_of(const GlareReport& r) {
    Json j{{"viewpoint", r.viewpoint},
           {"light", r.light},
           {"panel_in_view", r.in_view},
           {"verdict", r.verdict},
           {"limits",
            {{"bright_ratio", r.limits.bright_ratio},
             {"dazzling_ratio", r.limits.dazzling_ratio},
             {"patch_ratio", r.limits.patch_ratio},
             {"bright_spot_deg", r.limits.bright_spot_deg},
             {"sparkles_per_m2", {r.limits.least_sparkles_per_m2, r.limits.most_sparkles_per_m2}},
             {"veil_ratio", r.limits.veil_ratio},
             {"surround_ratio", r.limits.surround},
             {"least_cd_per_m2", r.limits.least_cd_per_m2},
             {"unified_glare_rating", r.limits.rating}}},
           {"largest_patch_deg", r.largest ? r.largest->patch.size_deg : 0.0},
           {"bright_share", r.glare.bright_share},
           {"dazzling_share", r.glare.dazzling_share},
           {"sparkles_per_m2", r.glare.sparkles_per_m2},
           {"glare_score", r.glare.score},
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
                              {"most_ratio", p.patch.times}});
    for (std::size_t i = 0; i < r.glare.fields.size(); ++i) {
        const FieldLight& f = r.glare.fields[i];
        j["fields"].push_back({{"name", r.field_names[i]},
                               {"own_light_cd_per_m2", f.body_cd_per_m2},
                               {"mirrored_cd_per_m2", f.mirrored_cd_per_m2},
                               {"mirrors_mostly", r.lamps[f.group]},
                               {"veil_ratio", f.veil()}});
    }
    for (const FieldContrast& c : r.contrasts)
        j["contrasts"].push_back({{"fields", {c.one, c.other}},
                                  {"contrast_of_own_light", c.body},
                                  {"contrast_seen", c.seen},
                                  {"kept_share", c.kept()}});
    return j;
}

std::string glare_json(const std::vector<GlareReport>& reports, const Json& moves, const MadeFrom& from,
                       const std::vector<std::string>& files) {
    Json all{{"note", "rendering, not a photograph"}, {"viewpoints", Json::array()}};
    for (const GlareReport& report : reports) all["viewpoints"].push_back(json_of(report));
    if (!moves.is_null()) all["moves"] = moves;
    all["files"] = files;
    return json_text(json_head("glare", kGlareVersion, from), all);
}

}  // namespace rakelight
