#include "scene/reading/field/mix_picture.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <filesystem>

#include "scene/geometry/region.h"
#include "scene/geometry/stroke.h"
#include "scene/keys/keys.h"
#include "scene/mix/reference_picture.h"
#include "scene/model/layout.h"
#include "scene/text/nearest_word.h"
#include "scene/text/word_list.h"

namespace rakelight {
namespace {

using Shape = YamlValue::Shape;

constexpr double kNarrowest_mm = 1;

bool read_file(Section& mix, MixPicture& picture, Layout& layout) {
    if (!mix.set(picture.file, "picture")) return false;
    const std::string beside = mix.problems().beside(*mix.find("picture"), picture.file);
    // Fields may share a picture.
    for (const Field& other : layout.fields)
        if (other.picture && other.picture->file == picture.file && holds(layout.sources.files, beside))
            picture.picture = other.picture->picture;
    if (picture.picture) return true;
    layout.sources.files.push_back(beside);
    try {
        picture.picture = std::make_shared<const ReferencePicture>(read_reference_picture(beside));
    } catch (const std::runtime_error& error) {
        mix.problem("picture", error.what());
    }
    return picture.picture != nullptr;
}

void read_from(Section& mix, MixPicture& picture, MixReading r) {
    const YamlValue* value = mix.require("from", "a list of materials or ladders to choose from");
    if (!value) return;
    std::vector<YamlValue> names = value->shape == Shape::list ? value->items : std::vector{*value};
    if (names.empty() || names.size() > kMostMixed) {
        mix.problem("from", fmt::format("found {}, expected 1 to {} materials or ladders", found(*value),
                                        kMostMixed));
        return;
    }
    for (const YamlValue& name : names)
        for (const std::uint32_t material : read_materials(name, mix.path("from"), r))
            if (std::find(picture.from.begin(), picture.from.end(), material) == picture.from.end())
                picture.from.push_back(material);
    if (picture.from.size() > kMostMixed)
        mix.problem("from",
                    fmt::format("found {} materials, expected at most {}", picture.from.size(), kMostMixed));
}

void read_limits(Section& mix, MixPicture& picture, const std::vector<Material>& stock) {
    const YamlValue* value = mix.find("at most");
    if (!value) return;
    Section limits(*value, mix, "at most");
    std::vector<std::string> names;
    for (const std::uint32_t material : picture.from) names.push_back(stock[material].name);
    for (const YamlMember& member : value->members) {
        int most = 0;
        const std::string& name = member.key.text;
        const auto at = std::find(names.begin(), names.end(), name);
        if (at == names.end())
            mix.problems().add(member.key, limits.path(name),
                               "found " + rakelight::quoted(name) + ", expected a material of this mix" +
                                   did_you_mean(name, names));
        else if (limits.set(most, name))
            picture.at_most.emplace_back(picture.from[static_cast<std::size_t>(at - names.begin())], most);
    }
}

// Over the whole box, its proportions kept, what is too much cut off evenly.
void cover(MixPicture& picture, const glm::dvec2& low, const glm::dvec2& size) {
    const double tall = picture.picture->height_per_width();
    picture.width_mm = std::max(size.x, size.y / tall);
    picture.at_mm = low + 0.5 * (size - picture.width_mm * glm::dvec2(1, tall));
}

void read_place(Section& mix, MixPicture& picture, MixReading r) {
    const YamlValue* value = mix.find("place");
    if (value && value->shape == Shape::list) {
        glm::dvec3 place{};
        if (!mix.set(place, "place")) return;
        if (place[2] < kNarrowest_mm) {
            mix.problem("place", fmt::format("found a width of {:.6g} mm, expected at least {:g} mm",
                                             place[2], kNarrowest_mm));
            return;
        }
        picture.at_mm = {place[0], place[1]};
        picture.width_mm = place[2];
        return;
    }
    std::size_t word = 0;
    mix.set_word(word, "place");
    const glm::dvec2 panel{r.layout.panel.width_mm, r.layout.panel.height_mm};
    Box box;
    if (word == 1)
        for (const auto& p : flatten(r.field.outline, 0.5)) box.add(glm::clamp(p, glm::dvec2(0), panel));
    const bool whole = word == 0 || !(box.size().x > 0 && box.size().y > 0);
    if (whole && !(panel.x > 0 && panel.y > 0)) return;  // reported with the panel
    cover(picture, whole ? glm::dvec2(0) : box.low, whole ? panel : box.size());
}

}  // namespace

void read_mix_picture(const YamlValue& value, MixReading r) {
    Section mix(value, r.in.path("mix"), keys::mix_picture, r.in.problems());
    MixPicture picture;
    const bool readable = read_file(mix, picture, r.layout);
    read_from(mix, picture, r);
    read_limits(mix, picture, r.layout.stock);
    mix.find("place");
    if (readable) read_place(mix, picture, r);
    mix.set(picture.diffusion, "error diffusion");
    if (mix.find("elsewhere"))
        picture.elsewhere = set_material(mix, "elsewhere", "", r.stock, r.layout.stock);
    mix.finish();
    if (!readable || picture.from.empty()) return;
    for (const std::uint32_t material : picture.from)
        add_to_mix(r.field, material, 1.0 / static_cast<double>(picture.from.size()));
    if (picture.elsewhere) add_to_mix(r.field, *picture.elsewhere, 0);
    r.field.picture = std::move(picture);
}

}  // namespace rakelight
