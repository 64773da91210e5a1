#include "output/in_photograph/section.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <stdexcept>

#include "output/compare/homography.h"
#include "scene/light/with_light.h"
#include "scene/model/layout.h"
#include "scene/reading/deliverable_section.h"
#include "scene/reading/field/corners.h"
#include "scene/text/layout_tree.h"
#include "scene/text/nearest_word.h"

namespace rakelight {
namespace {

constexpr glm::dvec2 kLetter_mm{215.9, 279.4};  // ANSI/ASME Y14.1, size A; Tabloid is size B

// ISO 216: A0 has a square metre, each next one half of it, rounded down to millimetres.
const std::vector<std::pair<std::string, glm::dvec2>> kUpright_mm{
    {"A5", {148, 210}}, {"A4", {210, 297}},     {"A3", {297, 420}},
    {"A2", {420, 594}}, {"Letter", kLetter_mm}, {"Tabloid", {kLetter_mm.y, 2 * kLetter_mm.x}}};

void read_sheet(Section& in, WallPhotograph& said) {
    const YamlValue* value = in.find("sheet");
    if (!value) return;
    if (value->shape == YamlValue::Shape::list) {
        glm::dvec2 size{};
        if (in.set(size, "sheet")) said.sheet_mm = size;
        return;
    }
    std::size_t which = 0;
    if (!in.set_word(which, "sheet")) return;
    const glm::dvec2 size = kUpright_mm[which / 2].second;
    said.sheet_mm = which % 2 == 0 ? size : glm::dvec2(size.y, size.x);
}

void read_light(Section& in, WallPhotograph& said, const Layout& layout) {
    if (in.set(said.light, "light")) try {
            with_light(layout, said.light);
        } catch (const LayoutError& error) {
            const std::vector<std::string> choices = light_choices(layout.set_ups);
            in.problem("light", error.problems().front().text + did_you_mean(said.light, choices));
        }
    glm::dvec2 from(said.main_light.right_deg, said.main_light.up_deg);
    in.set(from, "light from");
    said.main_light.right_deg = from.x;
    said.main_light.up_deg = from.y;
    in.set(said.main_light.share, "light share");
    in.set(said.main_light.across_deg, "light across");
}

void read_files(Section& in, WallPhotograph& said) {
    in.require("picture", "a photograph of the wall beside the layout file");
    if (in.set(said.file, "picture")) said.file = in.problems().beside(*in.find("picture"), said.file);
    if (in.set(said.mask, "mask")) said.mask = in.problems().beside(*in.find("mask"), said.mask);
}

WallPhotograph read_one(Section& in, std::string name, const Layout& layout) {
    WallPhotograph said;
    said.name = std::move(name);
    read_files(in, said);
    read_sheet(in, said);
    said.corners_px = read_corners(in);
    if (said.corners_px && !in.has("sheet"))
        in.problem("sheet",
                   "found nothing, expected the size of what has these corners, as in A3 lying or "
                   "[420, 297]");
    in.set(said.panel_centre_mm, "panel centre");
    if (double focal = 0; in.set(focal, "focal length")) said.focal_35mm = focal;
    read_light(in, said, layout);
    in.set(said.white, "white");
    if (std::size_t by = 0; in.set_word(by, "exposure by")) said.exposure_by = static_cast<ExposureBy>(by);
    if (int width = 0; in.set(width, "width")) said.width_px = width;
    in.set(said.samples, "samples");
    return said;
}

}  // namespace

std::vector<TakenPhotograph> read_wall_photographs(const Layout& layout) {
    std::vector<TakenPhotograph> taken;
    read_deliverable(layout, "in photographs", [&](Section& all) {
        for (const YamlMember& member : all.value().members) {
            all.find(member.key.text);
            Section in(member.value, all, member.key.text);
            if (member.value.shape != YamlValue::Shape::mapping) continue;
            const bool before = in.problems().empty();
            WallPhotograph said = read_one(in, member.key.text, layout);
            in.finish();
            if (!before || !in.problems().empty()) continue;
            try {
                taken.push_back(take(std::move(said), layout));
            } catch (const PhotographError& error) {
                in.problem(error.key, error.what());
            }
        }
    });
    return taken;
}

std::vector<std::string> wall_photograph_names(const Layout& layout) {
    std::vector<std::string> names;
    for (const YamlMember& member : layout.sources.tree->root.members)
        if (member.key.text == "in photographs")
            for (const YamlMember& photograph : member.value.members) names.push_back(photograph.key.text);
    return names;
}

}  // namespace rakelight
