#include "output/glare/move_report.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "output/glare/json.h"

namespace rakelight {

const char* const kMoveCriterion =
    "Ranked by the glare score at the viewpoint that is worst off. Glare score: how far mirrored light "
    "exceeds "
    "the level that nobody minds, averaged over the panel as seen. 0 calm; 100 the whole panel ten times "
    "over "
    "it.";

double TracedMove::worst() const {
    double most = 0;
    for (const GlareReport& r : reports) most = std::max(most, r.glare.score);
    return most;
}

bool TracedMove::complained_of() const {
    return std::any_of(reports.begin(), reports.end(), [](const GlareReport& r) { return panel_bothers(r); });
}

void advise(MoveReport& report) {
    report.advised = 0;
    for (std::size_t i = 1; i < report.traced.size(); ++i)
        if (!report.traced[i].complained_of() && report.traced[i].worst() < report.traced[0].worst()) {
            report.advised = i;
            break;
        }
    if (report.advised == 0 && !report.traced.empty())
        report.advised = static_cast<std::size_t>(
            std::min_element(report.traced.begin(), report.traced.end(),
                             [](const TracedMove& a, const TracedMove& b) { return a.worst() < b.worst(); }) -
            report.traced.begin());
    const TracedMove& now = report.traced.at(0);
    const TracedMove& then = report.traced[report.advised];
    if (report.advised == 0) {
        report.verdict =
            now.complained_of()
                ? report.tried.empty()
                      ? "Nothing within these bounds helps enough to be worth moving: think of a "
                        "diffuser or honeycomb on the lamp."
                      : "Nothing within these bounds helps enough to be worth moving; " +
                            report.tried.front().what + " would."
                : "Nothing needs to be moved.";
        return;
    }
    report.verdict =
        fmt::format("This takes the worst glare score from {:.1f} to {:.1f}{}", now.worst(), then.worst(),
                    !now.complained_of()   ? "."
                    : then.complained_of() ? "; a lamp or a veil is still over a limit, see the sheets below."
                                           : ", and no viewpoint is over a limit.");
}

nlohmann::ordered_json json_of(const MoveReport& report) {
    using Json = nlohmann::ordered_json;
    const auto place = [](const glm::dvec3& p) { return Json{p.x, p.y, p.z}; };
    Json j{{"criterion", kMoveCriterion},
           {"verdict", report.verdict},
           {"advised", report.advised},
           {"light", report.light},
           {"viewpoints", report.viewpoints},
           {"arrangements_compared", report.search.gone_through},
           {"arrangements_that_keep_the_light", report.search.kept_light},
           {"kept_mean_lx", {report.search.keep.lux.x, report.search.keep.lux.y}},
           {"kept_evenness_ratio", report.search.keep.evenness},
           {"pieces_taken_to_lie_in_lx", report.terms.lux},
           {"head_moves_mm", report.terms.head_mm},
           {"indirect_lx", report.indirect_lux}};
    j["tried_alone"] = Json::array();
    for (const TriedAlone& t : report.tried)
        j["tried_alone"].push_back(
            {{"what", t.what}, {"expected_worst_glare_score", t.worst}, {"expected_lx", t.lux}});
    for (const TracedMove& t : report.traced) {
        Json one{{"changes", t.choice.changed.size()},
                 {"advice", t.advice},
                 {"keys", t.keys},
                 {"lean_deg", t.choice.how.lean_deg},
                 {"panel_centre_height_mm", t.choice.how.height_mm},
                 {"expected_mean_glare_score", t.choice.score},
                 {"expected_worst_glare_score", t.choice.worst},
                 {"expected_lx", t.choice.lux},
                 {"expected_evenness_ratio", t.choice.evenness},
                 {"traced_worst_glare_score", t.worst()},
                 {"traced_lx", t.lux}};
        for (const Lamp& lamp : t.choice.how.lamps)
            one["lamps"].push_back(
                {{"name", lamp.name}, {"at_mm", place(lamp.at_mm)}, {"aim_mm", place(lamp.aim_mm)}});
        for (const GlareReport& r : t.reports) one["traced"].push_back(json_of(r));
        j["arrangements"].push_back(std::move(one));
    }
    return j;
}

}  // namespace rakelight
