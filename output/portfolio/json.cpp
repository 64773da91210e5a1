#include "output/portfolio/json.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "output/film/scene_hash.h"
#include "output/portfolio/mounted_print.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

using Json = nlohmann::ordered_json;

constexpr int kPortfolioVersion = 2;

Json facts_json(const PanelFacts& f) {
    Json parts = Json::array();
    for (const WeightPart& part : f.weight.parts)
        parts.push_back({{"part", part.name}, {"likely_kg", part.kg}});
    const Json weight{{"low_kg", f.weight.low_kg},
                      {"likely_kg", f.weight.likely_kg},
                      {"high_kg", f.weight.high_kg},
                      {"parts", parts}};
    Json body{{"name", f.name},
              {"height_mm", f.size_mm.x},
              {"width_mm", f.size_mm.y},
              {"depth_mm", f.size_mm.z},
              {"size", size_text({f.size_mm.x, f.size_mm.y, f.size_mm.z})},
              {"materials", f.materials},
              {"weight", weight}};
    if (f.each.empty()) return body;
    Json each = Json::array();
    for (const PanelFacts& own : f.each) each.push_back(facts_json(own));
    body["each"] = each;
    return body;
}

Json print_json(const PortfolioPrint& print, int dpi) {
    const PlannedShot& plan = print.plan;
    const Viewpoint& view = plan.layout.views.viewpoints.front();
    constexpr double kMm_per_inch = 25.4;
    const auto point = [](const glm::dvec3& p) { return Json{p.x, p.y, p.z}; };
    return {{"file", print.file},
            {"title", plan.title},
            {"note", plan.note},
            {"scene_hash", hash_digits(print.scene_hash)},
            {"picture_px", {plan.picture.width_px, plan.picture.height_px}},
            {"dpi", dpi},
            {"picture_mm",
             {plan.picture.width_px * kMm_per_inch / dpi, plan.picture.height_px * kMm_per_inch / dpi}},
            {"eye_mm", point(view.eye_mm)},
            {"look_at_mm", point(view.look_at_mm)},
            {"view_width_mm", view.view_width_mm},
            {"aperture_mm", plan.lens.aperture_mm}};
}

}  // namespace

std::string portfolio_json(const Proposal& proposal, const std::vector<PortfolioPrint>& prints,
                           const std::vector<PrintInPhotographs>& in_photographs, const MadeFrom& from,
                           const std::vector<std::string>& files) {
    Json panels = Json::array(), pictures = Json::array(), caption = Json::array();
    for (const ProposalPanel& panel : proposal.panels) panels.push_back(facts_json(panel.facts));
    for (const PortfolioPrint& print : prints) pictures.push_back(print_json(print, proposal.portfolio.dpi));
    for (const auto& [key, text] : caption_lines(proposal.portfolio.caption, facts_of(proposal)))
        caption.push_back({{"key", key}, {"text", text}});
    Json photographs = Json::array();
    for (const PrintInPhotographs& print : in_photographs)
        photographs.push_back({{"file", print.file},
                               {"title", print.title},
                               {"note", kSetIntoAPhotograph},
                               {"scene_hash", hash_digits(print.scene_hash)},
                               {"picture_px", {print.size_px.x, print.size_px.y}}});
    const Json body{{"note", kNotAPhotograph}, {"date", proposal.date}, {"caption", caption},
                    {"panels", panels},        {"pictures", pictures},  {"in_photographs", photographs},
                    {"files", files}};
    return json_text(json_head("portfolio", kPortfolioVersion, from), body);
}

}  // namespace rakelight
