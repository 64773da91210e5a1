#include "scene/reading/field/mix.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "scene/keys/keys.h"
#include "scene/model/layout.h"
#include "scene/reading/field/mix_picture.h"
#include "scene/reading/field/mix_shift.h"
#include "scene/text/nearest_word.h"

namespace rakelight {
namespace {

using Shape = YamlValue::Shape;

bool has_key(const YamlValue& mapping, std::string_view key) {
    return std::any_of(mapping.members.begin(), mapping.members.end(),
                       [&](const YamlMember& m) { return m.key.text == key; });
}

std::string first_of_ladder(const std::string& name) {
    return name + "-1";
}

// "sea" for sea-1, sea-2 ...
std::vector<std::string> ladders(const Shelf& stock) {
    std::vector<std::string> names;
    for (const std::string& name : stock.names)
        if (name.ends_with("-1")) names.push_back(name.substr(0, name.size() - 2));
    return names;
}

void read_accent(Section& item, MixReading r) {
    Accent accent;
    const YamlValue* name = item.require("material", "the material of the accents");
    const bool counted = item.require("count", "how many accents") && item.set(accent.count, "count");
    if (!name) return;
    const auto material = set_material(item, "material", "", r.stock, r.layout.stock);
    if (!material || !counted) return;
    accent.material = *material;
    r.field.accents.push_back(accent);
}

void read_accents(MixReading r) {
    const YamlValue* value = r.in.find("accents");
    if (!value) return;
    if (value->shape == Shape::list) {
        for_each_item(r.in, "accents", [&](Section& item) { read_accent(item, r); });
    } else {
        Section item(*value, r.in, "accents");
        if (value->shape != Shape::mapping) return;
        read_accent(item, r);
        item.finish();
    }
    for (const Accent& accent : r.field.accents) add_to_mix(r.field, accent.material, 0);
}

}  // namespace

void add_to_mix(Field& field, std::uint32_t material, double share) {
    for (MixPart& part : field.mix)
        if (part.material == material) {
            part.share += share;
            return;
        }
    field.mix.push_back({material, share});
}

std::optional<std::vector<MixPart>> read_parts(const YamlValue& mix, const std::string& key, MixReading r) {
    ProblemList& problems = r.in.problems();
    if (mix.shape == Shape::scalar) {
        const auto material = use_material(mix, key, mix.text, r.stock, r.layout.stock, problems);
        if (!material) return std::nullopt;
        return std::vector<MixPart>{{*material, 1}};
    }
    if (mix.shape != Shape::mapping || mix.members.empty()) {
        problems.add(mix, key,
                     "found " + found(mix) + ", expected a material, or materials with their shares");
        return std::nullopt;
    }
    if (mix.members.size() > kMostMixed) {
        problems.add(mix, key,
                     fmt::format("found {} materials, expected at most {}", mix.members.size(), kMostMixed));
        return std::nullopt;
    }
    Section shares(mix, key, keys::shares, problems);  // reports duplicates
    std::vector<MixPart> parts;
    double sum = 0;
    bool good = true;
    for (const YamlMember& part : mix.members) {
        const std::string path = shares.path(part.key.text);
        const auto material = use_material(part.key, path, part.key.text, r.stock, r.layout.stock, problems);
        good &= material.has_value();
        MixPart mixed{material.value_or(0), 0};
        good &= shares.set(mixed.share, part.key.text);
        sum += mixed.share;
        if (mixed.share > 0) parts.push_back(mixed);
    }
    if (!good) return std::nullopt;
    if (std::abs(sum - 1) > kShareTolerance) {
        problems.add(mix, key, fmt::format("found shares that sum to {:.6g} %, expected 100 %", 100 * sum));
        return std::nullopt;
    }
    for (MixPart& part : parts) part.share /= sum;
    return parts;
}

std::vector<std::uint32_t> read_materials(const YamlValue& value, const std::string& key, MixReading r) {
    std::vector<std::string> names;
    std::vector<std::uint32_t> materials;
    if (value.shape != Shape::scalar) {
        r.in.problems().add(value, key,
                            "found " + found(value) + ", expected the name of a material or ladder");
        return materials;
    }
    if (r.stock.find(value.text) || !r.stock.find(first_of_ladder(value.text))) {
        std::vector<std::string> known = r.stock.names;
        for (std::string& ladder : ladders(r.stock)) known.push_back(std::move(ladder));
        if (!r.stock.find(value.text))
            r.in.problems().add(value, key,
                                "found " + quoted(value.text) +
                                    ", expected the name of a material or ladder" +
                                    did_you_mean(value.text, known));
        else
            names.push_back(value.text);
    } else {
        for (int step = 1; names.size() < kMostMixed; ++step) {
            const std::string shade = fmt::format("{}-{}", value.text, step);
            if (!r.stock.find(shade)) break;
            names.push_back(shade);
        }
    }
    for (const std::string& name : names)
        materials.push_back(
            use_material(value, key, name, r.stock, r.layout.stock, r.in.problems()).value_or(0));
    return materials;
}

void read_mix(MixReading r) {
    r.field.mix_place = r.in.place();
    const YamlValue* mix =
        r.in.require("mix", "a material, materials with their shares, shades, or a picture");
    if (mix) {
        r.field.mix_place = r.in.problems().place_of(*mix);
        if (has_key(*mix, "shades"))
            read_mix_shift(*mix, r);
        else if (has_key(*mix, "picture"))
            read_mix_picture(*mix, r);
        else if (auto parts = read_parts(*mix, r.in.path("mix"), r))
            r.field.mix = std::move(*parts);
    }
    read_accents(r);
}

}  // namespace rakelight
