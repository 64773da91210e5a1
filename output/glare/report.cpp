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

// A veil no brighter than the view about it darkens nothing: the field reads as dark beside it all the same.
bool veil_bothers(const GlareReport& report, const FieldLight& field) {
    return field.veil() > report.limits.veil_ratio &&
           field.mirrored_cd_per_m2 > report.limits.surround * report.background_cd_per_m2;
}

std::string patch_limit_words(const GlareReport& report, bool bad) {
    std::string words = fmt::format("limit {:g} degrees", report.limits.bright_spot_deg);
    if (report.largest && report.largest->patch.size_deg > report.limits.bright_spot_deg && !bad)
        words += fmt::format("; of {:.0f} cd/m², the view's mean is {:.0f}", report.largest->patch.cd_per_m2,
                             report.background_cd_per_m2);
    return words;
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
    const bool patch_bad = patch_bothers(report);
    found.push_back({fmt::format("reflects over {:g} times its own light", limits.bright_ratio),
                     percent(glare.bright_share), "", false});
    found.push_back({fmt::format("reflects over {:g} times its own light", limits.dazzling_ratio),
                     percent(glare.dazzling_share), "", false});
    found.push_back({"glare score, 0 when nobody minds", fmt::format("{:.2f}", glare.score),
                     score_word(glare.score), false});
    found.push_back({"largest bright patch", fmt::format("{:.2f} degrees", largest),
                     patch_limit_words(report, patch_bad), patch_bad});
    found.push_back({"sparkles", fmt::format("{:.0f} per m²", glare.sparkles_per_m2),
                     fmt::format("usual {:g} to {:g}, which enlivens", limits.least_sparkles_per_m2,
                                 limits.most_sparkles_per_m2),
                     false});
    std::size_t field = 0;
    if (const FieldLight* most = most_veiled(glare, field))
        found.push_back({"veil over " + report.field_names[field], fmt::format("{:.2f} times", most->veil()),
                         fmt::format("limit {:g} times", limits.veil_ratio), veil_bothers(report, *most)});
    found.push_back({"unified glare rating",
                     !report.rating        ? "no source"
                     : *report.rating < 10 ? "under 10, none felt"
                                           : fmt::format("{:.1f}", *report.rating),
                     fmt::format("limit {:g}", limits.rating),
                     report.rating && *report.rating > limits.rating});

    std::vector<std::string> words;
    if (patch_bad)
        words.push_back(
            fmt::format("{} is reflected in {}, {:.1f} degrees wide (limit {:g})", report.largest->lamps,
                        report.largest->field.empty() ? "a stone" : "the field " + report.largest->field,
                        largest, limits.bright_spot_deg));
    if (const FieldLight* most = most_veiled(glare, field); most && veil_bothers(report, *most)) {
        const std::string &lamps = report.lamps[most->group], &name = report.field_names[field];
        const std::string how =
            fmt::format("to {:.1f} times its own light (limit {:g})", most->veil(), limits.veil_ratio);
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
                         : largest > limits.bright_spot_deg
                             ? fmt::format(
                                   "{} is reflected {:.1f} degrees wide, but no brighter than what "
                                   "surrounds the work: few will mind.",
                                   report.largest->lamps, largest)
                             : "Small sparkles only: nothing here should bother a viewer.";
        return;
    }
    report.verdict = "Expect complaints: ";
    for (std::size_t i = 0; i < words.size(); ++i) report.verdict += (i ? "; " : "") + words[i];
    report.verdict += ".";
}

bool patch_bothers(const GlareReport& report) {
    return report.largest && report.largest->patch.size_deg > report.limits.bright_spot_deg &&
           stands_out(report.limits, report.largest->patch.cd_per_m2, report.background_cd_per_m2);
}

bool panel_bothers(const GlareReport& report) {
    const auto& fields = report.glare.fields;
    return patch_bothers(report) || std::any_of(fields.begin(), fields.end(),
                                                [&](const FieldLight& f) { return veil_bothers(report, f); });
}

bool bothers(const GlareReport& report) {
    return std::any_of(report.findings.begin(), report.findings.end(),
                       [](const GlareFinding& f) { return f.bothers; });
}

}  // namespace rakelight
