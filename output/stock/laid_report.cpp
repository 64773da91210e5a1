#include "output/stock/laid_report.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

namespace rakelight {
namespace {

using Json = nlohmann::ordered_json;

constexpr int kGlassVersion = 1;

}  // namespace

std::string laid_text(const LaidReport& report) {
    const LaidGlassQuestion& q = report.question;
    std::string r = fmt::format("Wanted: {} under {}\nGlass: {}{}\n\n", report.wanted, q.light, q.glass.name,
                                q.fixed_mm ? fmt::format(", {:.4g} mm", *q.fixed_mm) : "");
    r += fmt::format("{:20} {:>9}   {:>6} {:>6} {:>6}   {}\n", "bed", "thickness", "L*", "a*", "b*",
                     q.lab ? "CIEDE2000" : "off L*");
    for (const LaidGlass& w : report.ways)
        r += fmt::format("{:20} {:>6.2f} mm   {:>6.1f} {:>6.1f} {:>6.1f}   {:.2f}\n", w.bed, w.thickness_mm,
                         w.lab.l, w.lab.a, w.lab.b, w.off);
    r += "\nSeen face-on, mirrored light left out. Lay a sample before you cut.\n";
    return r;
}

std::string laid_json(const LaidReport& report, const MadeFrom& from) {
    const LaidGlassQuestion& q = report.question;
    Json j{{"wanted", report.wanted},
           {"wanted_lab", q.lab ? Json{q.lab->l, q.lab->a, q.lab->b} : Json()},
           {"wanted_lightness", q.lab ? q.lab->l : q.lightness},
           {"illuminant", q.light},
           {"glass", q.glass.name},
           {"tolerance", report.within},
           {"reached", report.reached()},
           {"ways", Json::array()}};
    for (const LaidGlass& w : report.ways)
        j["ways"].push_back({{"bed", w.bed},
                             {"thickness_mm", w.thickness_mm},
                             {"lab", {w.lab.l, w.lab.a, w.lab.b}},
                             {"difference", w.off}});
    return json_text(json_head("glass", kGlassVersion, from), j);
}

}  // namespace rakelight
