#include "output/glare/report.h"

#include <fmt/format.h>

#include <algorithm>

namespace rakelight {

namespace {

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
    if (!report.in_view) {
        report.verdict = "The panel is not seen from here.";
        return;
    }
    const double largest = report.largest ? report.largest->patch.size_deg : 0;
    found.push_back({fmt::format("reflects over {:g} times its own light", limits.hot),
                     percent(glare.hot_share), "", false});
    found.push_back({fmt::format("reflects over {:g} times its own light", limits.blinding),
                     percent(glare.blinding_share), "", false});
    found.push_back({"glare score, 0 when nobody minds", fmt::format("{:.2f}", glare.score), "", false});
    found.push_back({"largest bright patch", fmt::format("{:.2f} degrees", largest),
                     fmt::format("limit {:g} degrees", limits.patch_deg), largest > limits.patch_deg});
    found.push_back({"sparkles", fmt::format("{:.0f} per m²", glare.sparks_per_m2),
                     fmt::format("usual {:g} to {:g}, which enlivens", limits.least_sparks_per_m2,
                                 limits.most_sparks_per_m2),
                     false});
    std::size_t field = 0;
    if (const FieldLight* most = most_veiled(glare, field))
        found.push_back({"veil over " + report.field_names[field], fmt::format("{:.2f} times", most->veil()),
                         fmt::format("limit {:g} times", limits.veil), most->veil() > limits.veil});
    found.push_back({"unified glare rating",
                     !report.rating        ? "no source"
                     : *report.rating < 10 ? "under 10, none felt"
                                           : fmt::format("{:.1f}", *report.rating),
                     fmt::format("limit {:g}", limits.rating),
                     report.rating && *report.rating > limits.rating});

    std::vector<std::string> words;
    if (largest > limits.patch_deg)
        words.push_back(
            fmt::format("{} is reflected in {}, {:.1f} degrees wide (limit {:g})", report.largest->lamps,
                        report.largest->field.empty() ? "a stone" : "the field " + report.largest->field,
                        largest, limits.patch_deg));
    if (const FieldLight* most = most_veiled(glare, field); most && most->veil() > limits.veil) {
        const std::string &lamps = report.lamps[most->group], &name = report.field_names[field];
        const std::string how =
            fmt::format("to {:.1f} times its own light (limit {:g})", most->veil(), limits.veil);
        if (!words.empty() && report.largest->lamps == lamps && report.largest->field == name)
            words.back() += " and veils it " + how;
        else
            words.push_back(fmt::format("{} veils {} {}", lamps, name, how));
    }
    if (report.rating && *report.rating > limits.rating)
        words.push_back(fmt::format("bright things in view dazzle, unified glare rating {:.0f} (limit {:g})",
                                    *report.rating, limits.rating));
    if (words.empty()) {
        report.verdict = report.marks.empty() ? "No lamp reflects strongly towards this viewpoint."
                                              : "Small sparkles only: nothing here should bother a viewer.";
        return;
    }
    report.verdict = "Expect complaints: ";
    for (std::size_t i = 0; i < words.size(); ++i) report.verdict += (i ? "; " : "") + words[i];
    report.verdict += ".";
}

bool panel_bothers(const GlareReport& report) {
    const auto& fields = report.glare.fields;
    return (report.largest && report.largest->patch.size_deg > report.limits.patch_deg) ||
           std::any_of(fields.begin(), fields.end(),
                       [&](const FieldLight& f) { return f.veil() > report.limits.veil; });
}

bool bothers(const GlareReport& report) {
    return std::any_of(report.findings.begin(), report.findings.end(),
                       [](const GlareFinding& f) { return f.bothers; });
}

}  // namespace rakelight
