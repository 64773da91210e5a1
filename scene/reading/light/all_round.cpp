#include "scene/reading/light/all_round.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <stdexcept>

#include "scene/keys/keys.h"
#include "scene/light/surround_emitters.h"
#include "scene/model/layout.h"
#include "scene/surround/read_surround.h"

namespace rakelight {
namespace {

void read_picture(Section& in, AllRoundLight& light, Layout& layout) {
    in.require("picture", "an equirectangular picture beside the layout file");
    if (!in.set(light.file, "picture")) return;
    const std::filesystem::path path = in.problems().beside(*in.find("picture"), light.file);
    try {
        light.picture = read_all_round_picture(path);
        std::vector<std::string>& files = layout.sources.files;
        if (std::ranges::find(files, path.string()) == files.end()) files.push_back(path.string());
    } catch (const std::runtime_error& error) {
        in.problem("picture", error.what());
    }
}

// How bright it is: stated at the panel, by what 1 stands for, or as the file says.
void read_level(Section& in, AllRoundLight& light) {
    if (double lux = 0; in.set(lux, "lux")) light.lux = lux;
    const bool by_unit = in.set(light.unit_cd_per_m2, "unit");
    if (!light.picture) return;
    const SurroundPicture& picture = light.picture->picture();
    if (light.lux && by_unit) {
        in.problem("unit", "found lux and unit, expected one of them");
    } else if (picture.cut_off && !light.lux) {
        in.problem(
            by_unit ? "unit" : "",
            "found a picture of whole numbers, whose lamps are cut off at white, expected lux: how much "
            "light it is to give the panel");
    } else if (!light.lux && !by_unit && picture.unit_cd_per_m2) {
        light.unit_cd_per_m2 = *picture.unit_cd_per_m2;
    } else if (!light.lux && !by_unit) {
        in.problem("",
                   "found a picture that does not say what its numbers stand for, expected lux, the light "
                   "at the panel, or unit, cd/m2 of a pixel of 1 (of calibrated Radiance pictures 179)");
    }
}

}  // namespace

void read_all_round(Section& file, Layout& layout) {
    const YamlValue* value = file.find("light all round");
    const bool in_set_up = &file.table() != &keys::layout;
    if (!value) {
        if (in_set_up && file.has("windows")) layout.on.all_round.reset();
        return;
    }
    Section in(*value, file, "light all round");
    AllRoundLight light;
    light.place = in.place();
    in.set(light.name, "name");
    light.group = light.name;
    in.set(light.group, "group");
    in.set(light.turned_deg, "turned");
    in.set(light.dimming, "dimmed to");
    read_picture(in, light, layout);
    read_level(in, light);
    in.finish();
    const bool own_windows = in_set_up ? file.has("windows") : true;
    if (own_windows && !layout.on.windows.empty())
        file.problem("light all round",
                     "found windows as well, whose walls the picture takes the place of, "
                     "expected one of the two");
    layout.on.windows.clear();
    layout.on.all_round.reset();
    if (!light.picture) return;
    layout.on.all_round = light;
    if (light.lux && !(surround_unit_cd_per_m2(layout) > 0))
        file.problem("light all round",
                     "found a picture that is black wherever the panel looks, expected "
                     "some light there, or the picture turned");
}

}  // namespace rakelight
