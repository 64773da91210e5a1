#include "output/samples/json.h"

#include <cmath>
#include <nlohmann/json.hpp>

#include "output/film/json_head.h"
#include "output/samples/words.h"
#include "output/stock/library_entry.h"

namespace rakelight {

namespace {

using Json = nlohmann::ordered_json;

constexpr int kSamplesVersion = 1;

Json point(const glm::dvec2& p) {
    return {p.x, p.y};
}

Json photograph_json(const ReadPhotograph& p) {
    Json corners = Json::array(), left_out = Json::array();
    for (const glm::dvec2& corner : p.corners) corners.push_back(point(corner));
    for (const std::size_t i : p.fit.left_out) left_out.push_back(chart24()[i].name);
    Json patches = Json::object();
    for (std::size_t i = 0; i < kChartPatches; ++i) patches[std::string(chart24()[i].name)] = p.fit.off[i];
    return {
        {"picture", p.picture},
        {"light", p.light},
        {"linear", p.linear},
        {"chart_found_by_itself", p.chart_found},
        {"chart_corners_px", corners},
        {"sheet_misfit_mm", p.sheet_misfit_mm ? Json(*p.sheet_misfit_mm) : Json()},
        {"chart_off_share", p.fit.misfit},
        {"patch_off_share", patches},
        {"patches_not_used", left_out},
        {"uneven_light_left_share", p.fit.uneven_left},
        {"light_colour_change_share", p.fit.two_lights},
        {"camera_bands", {{"red", p.fit.camera[0]}, {"green", p.fit.camera[1]}, {"blue", p.fit.camera[2]}}}};
}

Json look_json(const SamplesReport& report, const Look& look) {
    Json ranges = Json::object(), lab = Json::object();
    for (const ColourRange& r : look.ranges) {
        ranges[r.light] = {{"half_within", r.middle}, {"nine_in_ten_within", r.nine_in_ten}};
        const Lab l = lab_under(*find_illuminant(r.light), look.estimate.reflectance);
        lab[r.light] = {l.l, l.a, l.b};
    }
    return {{"over", over_word(look.over)},
            {"photographs", look.photographs},
            {"first_picture", report.photographs[look.first_photograph].picture},
            {"reflectance_seen", look.estimate.reflectance.v},
            {"standard_deviation", look.estimate.doubt.v},
            {"reflectance_rendered", look.rendered.v},
            {"lab", lab},
            {"ciede2000_range", ranges}};
}

Json sample_json(const SamplesReport& report, const ReadSample& sample) {
    const Material& m = sample.material;
    Json looks = Json::array(), transmittance, milkiness, inside;
    for (const Look& look : sample.looks) looks.push_back(look_json(report, look));
    if (m.opaque) {
        inside = m.reflectance.v;
    } else {
        transmittance = map(m.absorption_per_mm, [&](float k) { return std::exp(-k * m.thickness_mm); }).v;
        milkiness = m.scattering_per_mm.v;
    }
    return {{"name", sample.name},
            {"kind", kind_word(m.kind)},
            {"lit_from", sample.lit == LitFrom::side ? "the side" : "all round"},
            {"glass_lies", sample.lies == Lying::dry ? "dry" : "wetted"},
            {"thickness_mm", m.thickness_mm},
            {"index", m.index},
            {"reflectance_inside_face", inside},
            {"transmittance", transmittance},
            {"milkiness_per_mm", milkiness},
            {"milkiness_assumed", sample.milkiness_assumed},
            {"looks", looks}};
}

}  // namespace

std::string samples_json(const SamplesReport& report, std::uint64_t hash,
                         const std::vector<std::string>& files) {
    Json photographs = Json::array(), samples = Json::array(), wavelengths = Json::array();
    for (const ReadPhotograph& p : report.photographs) photographs.push_back(photograph_json(p));
    for (const ReadSample& s : report.samples) samples.push_back(sample_json(report, s));
    for (int b = 0; b < kBandCount; ++b) wavelengths.push_back(band_wavelength_nm(b));
    const auto card = [](const SampledSpectrum& seen, bool assumed) {
        return Json{{"reflectance", seen.v}, {"assumed", assumed}};
    };
    const Json body{{"note", "measured from photographs"},
                    {"date", report.date},
                    {"chart", "24-patch chart, Ohta 1997"},
                    {"observer", "CIE 1931"},
                    {"wavelengths_nm", wavelengths},
                    {"photographs", photographs},
                    {"white_card", card(report.white_card, report.white_card_assumed)},
                    {"black_card", card(report.black_card, report.black_card_assumed)},
                    {"samples", samples},
                    {"warnings", report.warnings},
                    {"files", files}};
    return json_text(json_head("samples", kSamplesVersion, {report.program, report.samples_file, hash}),
                     body);
}

}  // namespace rakelight
