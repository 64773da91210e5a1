#include "output/glare_report.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

namespace rakelight {

namespace {

constexpr int kGlareVersion = 1;
constexpr double kUncomfortable = 19;  // EN 12464-1 for reading and writing (from memory)

std::string percent(double share) {
    return share > 0 && share < 5e-5 ? "under 0.01 %" : fmt::format("{:.2f} %", 100 * share);
}

const FieldLight* most_veiled(const PanelGlare& glare, std::size_t& index) {
    const FieldLight* most = nullptr;
    for (std::size_t i = 0; i < glare.fields.size(); ++i)
        if (!most || glare.fields[i].veil() > most->veil()) most = &glare.fields[i], index = i;
    return most;
}

}  // namespace

void judge(GlareReport& report) {
    const GlareLimits& limits = report.limits;
    const PanelGlare& glare = report.glare;
    auto& found = report.findings;
    found.clear();
    const double largest = glare.patches.empty() ? 0 : glare.patches.front().size_deg;
    found.push_back(
        {fmt::format("mirrors over {:g} times the body", limits.hot), percent(glare.hot_share), "", false});
    found.push_back({fmt::format("mirrors over {:g} times the body", limits.blinding),
                     percent(glare.blinding_share), "", false});
    found.push_back({"largest bright patch", fmt::format("{:.2f} degrees", largest),
                     fmt::format("{:g} degrees", limits.patch_deg), largest > limits.patch_deg});
    found.push_back(
        {"sparks", fmt::format("{:.0f} per m2", glare.sparks_per_m2),
         fmt::format("{:g} to {:g} liven a panel", limits.least_sparks_per_m2, limits.most_sparks_per_m2),
         false});
    std::size_t field = 0;
    if (const FieldLight* most = most_veiled(glare, field))
        found.push_back({"veil over " + report.field_names[field], fmt::format("{:.2f} times", most->veil()),
                         fmt::format("{:g} times", limits.veil), most->veil() > limits.veil});
    found.push_back({"unified glare rating",
                     report.rating ? fmt::format("{:.1f}", std::max(*report.rating, 0.0)) : "no source",
                     fmt::format("{:g}", kUncomfortable), report.rating && *report.rating > kUncomfortable});

    std::vector<std::string> words;
    if (largest > limits.patch_deg && !report.patches.empty())
        words.push_back(fmt::format(
            "{} mirrors in {} over {:.1f} degrees", report.patches.front().lamps,
            report.patches.front().field.empty() ? "a stone" : report.patches.front().field, largest));
    if (const FieldLight* most = most_veiled(glare, field); most && most->veil() > limits.veil)
        words.push_back(fmt::format("{} is veiled to {:.1f} times its own light", report.field_names[field],
                                    most->veil()));
    if (report.rating && *report.rating > kUncomfortable)
        words.push_back("the room's lamps dazzle in themselves");
    if (words.empty()) {
        report.verdict = glare.patches.empty() ? "No lamp mirrors strongly at this eye."
                                               : "Small sparks only: nothing here should bother a viewer.";
        return;
    }
    report.verdict = "Expect complaints: ";
    for (std::size_t i = 0; i < words.size(); ++i) report.verdict += (i ? "; " : "") + words[i];
    report.verdict += ".";
}

std::string glare_json(const std::vector<GlareReport>& reports, const std::string& program,
                       const std::vector<std::string>& files) {
    using Json = nlohmann::ordered_json;
    Json all{{"kind", "glare"}, {"version", kGlareVersion}, {"program", program}, {"files", files}};
    for (const GlareReport& r : reports) {
        Json j{{"viewpoint", r.viewpoint},
               {"verdict", r.verdict},
               {"limits",
                {{"hot_times_body", r.limits.hot},
                 {"blinding_times_body", r.limits.blinding},
                 {"patch_deg", r.limits.patch_deg},
                 {"sparks_per_m2", {r.limits.least_sparks_per_m2, r.limits.most_sparks_per_m2}},
                 {"veil", r.limits.veil},
                 {"unified_glare_rating", kUncomfortable}}},
               {"hot_share", r.glare.hot_share},
               {"blinding_share", r.glare.blinding_share},
               {"sparks_per_m2", r.glare.sparks_per_m2},
               {"unified_glare_rating", r.rating ? Json(*r.rating) : Json()},
               {"background_cd_per_m2", r.background_cd_per_m2}};
        for (const NamedPatch& p : r.patches)
            j["patches"].push_back({{"lamps", p.lamps},
                                    {"field", p.field},
                                    {"at_mm", {p.at_mm.x, p.at_mm.y}},
                                    {"size_deg", p.patch.size_deg},
                                    {"mean_cd_per_m2", p.patch.cd_per_m2},
                                    {"most_cd_per_m2", p.patch.most_cd_per_m2}});
        for (std::size_t i = 0; i < r.glare.fields.size(); ++i) {
            const FieldLight& f = r.glare.fields[i];
            j["fields"].push_back({{"name", r.field_names[i]},
                                   {"body_cd_per_m2", f.body_cd_per_m2},
                                   {"mirrored_cd_per_m2", f.mirrored_cd_per_m2},
                                   {"veil", f.veil()}});
        }
        all["viewpoints"].push_back(std::move(j));
    }
    return all.dump(2) + "\n";
}

}  // namespace rakelight
