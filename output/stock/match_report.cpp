#include "output/stock/match_report.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "materials/colour/illuminants.h"
#include "materials/colour/tristimulus_weights.h"

namespace rakelight {
namespace {

using Json = nlohmann::ordered_json;

constexpr int kMatchVersion = 3;

Lab lab_under(const std::string& light, const SampledSpectrum& reflectance) {
    const TristimulusWeights weights = tristimulus_weights(*find_illuminant(light));
    const auto seen = integrate(weights, reflectance), white = integrate(weights, SampledSpectrum(1));
    return xyz_to_lab({seen[0], seen[1], seen[2]}, {white[0], white[1], white[2]});
}

std::string lab_text(const Lab& lab) {
    return fmt::format("L* {:.1f}, a* {:.1f}, b* {:.1f}", lab.l, lab.a, lab.b);
}

Json lab_json(const Lab& lab) {
    return {lab.l, lab.a, lab.b};
}

const char* binder_word(const Base& base) {
    return base.kind == Kind::cement ? "cement" : "resin with hardener";
}

/// What the scale of this batch is too coarse for: by half a step, a dose of fewer than 50 is off by more
/// than 1 %, which is as well as pigment should be weighed (common practice, no published source).
std::vector<std::string> too_small(const MatchReport& report, const Match& m) {
    std::vector<std::string> r;
    for (std::size_t i = 0; i < m.grams.size(); ++i)
        if (m.grams[i] < 49.5 * report.request.scale_g)
            r.push_back(
                fmt::format("{} is too little for a scale of {:.4g} g to weigh to 1 %: mix more at once, or "
                            "weigh it rubbed into a known mass of base",
                            m.recipe.doses[i].pigment.name, report.request.scale_g));
    return r;
}

std::vector<std::string> all_warnings(const MatchReport& report, const Match& m) {
    std::vector<std::string> r = recipe_warnings(m.recipe);
    for (std::string& line : too_small(report, m)) r.push_back(std::move(line));
    return r;
}

/// Decimals that the scale can tell.
int decimals(double scale_g) {
    int d = 0;
    for (double step = scale_g; d < 4 && step < 0.999; step *= 10) ++d;
    return d;
}

std::string one_match(const MatchReport& report, std::size_t number) {
    const Match& m = report.matches[number];
    const std::string& light = report.request.light;
    const Base& base = m.recipe.base;
    std::string r = fmt::format("\n{}. CIEDE2000 {:.2f} under {}\n", number + 1, m.delta_e, light);
    if (m.recipe.doses.empty()) r += "   the base alone\n";
    for (std::size_t i = 0; i < m.recipe.doses.size(); ++i) {
        const Dose& dose = m.recipe.doses[i];
        r += fmt::format("   {:8} {:24} {:>9.{}f} g   {:.3g} % of the {}\n", dose.pigment.name,
                         dose.pigment.usual_name == dose.pigment.name ? "" : dose.pigment.usual_name,
                         m.grams[i], decimals(report.request.scale_g), 100 * dose.share, binder_word(base));
    }
    if (m.colour_error > 0) {
        r += "   By the uncertainty of the drawdowns, give or take:";
        for (std::size_t i = 0; i < m.grams.size(); ++i)
            r += fmt::format("{} {} {:.{}f} g", i > 0 ? "," : "", m.recipe.doses[i].pigment.name,
                             m.grams_error[i], decimals(report.request.scale_g));
        r += fmt::format("; as weighed the colour is off by CIEDE2000 {:.2f}\n", m.colour_error);
    }
    r += "   Off under other lamps:";
    for (std::size_t i = 1; i < m.lamps.size(); ++i)
        r += fmt::format("{} {} {:.2f}", i > 1 ? "," : "", m.lamps[i].light, m.lamps[i].delta_e);
    r += "\n";
    if (!m.grams.empty()) {
        r += "   A pigment weighed 5 % wrong moves it by:";
        for (std::size_t i = 0; i < m.grams.size(); ++i)
            r += fmt::format("{} {} {:.2f}", i > 0 ? "," : "", m.recipe.doses[i].pigment.name,
                             m.moved_by_5_percent[i]);
        r += fmt::format("; all at their worst {:.2f}\n", m.moved_at_worst);
    }
    r += "   Cured and dry: " + lab_text(m.lamps.front().lab);
    if (base.kind == Kind::cement)
        r += "; fresh and wet: " + lab_text(lab_under(light, seen_reflectance(m.recipe, Cure::fresh)));
    r += "\n";
    for (const std::string& warning : all_warnings(report, m)) r += "   Warning: " + warning + "\n";
    return r;
}

/// Each line once, in the order of the matches.
std::vector<std::string> all_handling(const MatchReport& report) {
    std::vector<std::string> lines;
    for (const Match& m : report.matches)
        for (const std::string& line : handling_warnings(m.recipe))
            if (std::find(lines.begin(), lines.end(), line) == lines.end()) lines.push_back(line);
    return lines;
}

bool any_invented(const MatchReport& report) {
    return std::any_of(report.matches.begin(), report.matches.end(), [](const Match& m) {
        return std::any_of(m.recipe.doses.begin(), m.recipe.doses.end(),
                           [](const Dose& d) { return d.pigment.provenance == Provenance::invented; });
    });
}

}  // namespace

std::string match_text(const MatchReport& report) {
    const MatchRequest& q = report.request;
    const Base& base = q.base.base;
    std::string r =
        fmt::format("Wanted: {}, {} under {}\n", report.wanted, lab_text(report.wanted_lab), q.light);
    r += fmt::format("Base: {:.6g} g of {}", q.batch_g, base.name);
    if (base.binder_share < 1)
        r += fmt::format(", {:.6g} g of it {}", q.batch_g * base.binder_share, binder_word(base));
    r += base.kind == Kind::cement ? "\n" : fmt::format(", laid {:.3g} mm thick\n", q.base.thickness_mm);
    if (!q.wanted.curve)
        r += "What is wanted has no curve: under other lamps the same L*, a*, b* is taken as the aim.\n";
    for (std::size_t i = 0; i < report.matches.size(); ++i) r += one_match(report, i);
    r += base.kind == Kind::cement
             ? "\nJudge a cured sample, after 28 days; wet grout is darker than cured.\n"
             : "\nJudge a cured sample, of the thickness and over what it will lie on.\n";
    if (any_invented(report))
        r += "The built-in pigments are invented approximations: mix a sample before a batch, or measure "
             "your own.\n";
    for (const std::string& line : all_handling(report)) r += "Beware: " + line + ".\n";
    return r;
}

std::string match_json(const MatchReport& report, const MadeFrom& from) {
    const MatchRequest& q = report.request;
    Json j{{"wanted", report.wanted},
           {"wanted_lab", lab_json(report.wanted_lab)},
           {"wanted_has_curve", q.wanted.curve.has_value()},
           {"illuminant", q.light},
           {"base", q.base.base.name},
           {"batch_g", q.batch_g},
           {"binder_g", q.batch_g * q.base.base.binder_share},
           {"balance_step_g", q.scale_g},
           {"layer_mm", q.base.thickness_mm},
           {"within_ciede2000", report.within},
           {"reached", report.reached()},
           {"handling", all_handling(report)}};
    for (const Match& m : report.matches) {
        Json each{{"ciede2000", m.delta_e}, {"pigments", Json::array()}, {"illuminants", Json::object()}};
        for (std::size_t i = 0; i < m.grams.size(); ++i) {
            const Dose& dose = m.recipe.doses[i];
            each["pigments"].push_back(
                {{"name", dose.pigment.name},
                 {"usual_name", dose.pigment.usual_name},
                 {"data", dose.pigment.provenance == Provenance::measured ? "measured" : "invented"},
                 {"mass_g", m.grams[i]},
                 {"mass_uncertainty_g", m.grams_error[i]},
                 {"share_of_binder", dose.share},
                 {"ciede2000_by_5_percent", m.moved_by_5_percent[i]}});
        }
        each["ciede2000_all_5_percent"] = m.moved_at_worst;
        each["ciede2000_by_uncertainty"] = m.colour_error;
        for (const UnderLamp& lamp : m.lamps)
            each["illuminants"][lamp.light] = {{"lab", lab_json(lamp.lab)}, {"ciede2000", lamp.delta_e}};
        each["fresh_lab"] = lab_json(lab_under(q.light, seen_reflectance(m.recipe, Cure::fresh)));
        each["reflectance_400_to_700_nm"] = seen_reflectance(m.recipe).v;
        each["warnings"] = all_warnings(report, m);
        j["recipes"].push_back(std::move(each));
    }
    return json_text(json_head("match", kMatchVersion, from), j);
}

}  // namespace rakelight
