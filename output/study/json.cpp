#include "output/study/json.h"

#include <nlohmann/json.hpp>

namespace rakelight {
namespace {

using Json = nlohmann::ordered_json;

constexpr int kStudyVersion = 1;

Json of(const FieldTone& field) {
    Json accents = Json::array();
    for (const AccentTone& a : field.accents)
        accents.push_back({{"material", a.material},
                           {"pieces", a.pieces},
                           {"moves_lightness", a.moves_l},
                           {"seen_to_m", a.seen_to_m}});
    return {{"name", field.name},
            {"pieces", field.pieces},
            {"mean_lab", {field.mean.l, field.mean.a, field.mean.b}},
            {"spread_lightness", field.spread_l},
            {"accents", accents}};
}

}  // namespace

std::string study_json(const Study& study, const std::string& picture, const std::string& light,
                       const MadeFrom& from, const std::vector<std::string>& files) {
    Json fields = Json::array();
    for (const FieldTone& field : study.fields) fields.push_back(of(field));
    const Json body{{"note", "of a rendering"},
                    {"picture", picture},
                    {"light", light},
                    {"mm_per_px", study.mm_per_px},
                    {"values_from_m", kValuesFrom_m},
                    {"three_values", study.three},
                    {"five_values", study.five},
                    {"mean_lightness", study.mean_l},
                    {"spread_lightness", study.spread_l},
                    {"fields", fields},
                    {"files", files}};
    return json_text(json_head("study", kStudyVersion, from), body);
}

}  // namespace rakelight
