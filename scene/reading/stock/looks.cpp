#include "scene/reading/stock/looks.h"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <optional>
#include <span>
#include <stdexcept>
#include <string>
#include <vector>

#include "materials/stock/looks.h"
#include "materials/stock/tints.h"
#include "scene/mix/reference_picture.h"
#include "scene/text/nearest_word.h"
#include "scene/text/word_list.h"

namespace rakelight {
namespace {

constexpr double kReached = 0.5;  // CIEDE2000: half of what is just noticeable
constexpr Range kThick_mm{0.5, 100};
constexpr double kMostAcross_px = 100'000;
constexpr double kCovered = 0.999;
constexpr const char* kExpected =
    "expected a colour such as \"#7a2f3c over white at 3 mm\" or \"Lab 45,10,-20\"";

std::string_view trimmed(std::string_view text) {
    while (text.starts_with(' ')) text.remove_prefix(1);
    while (text.ends_with(' ')) text.remove_suffix(1);
    return text;
}

/// Cuts off what follows the word, and the word; nothing when it is not there.
std::optional<std::string_view> cut(std::string_view& text, std::string_view word) {
    const auto at = text.find(word);
    if (at == std::string_view::npos) return std::nullopt;
    const std::string_view after = trimmed(text.substr(at + word.size()));
    text = trimmed(text.substr(0, at));
    return after;
}

std::optional<Lab> hex_lab(std::string_view text) {
    if (text.starts_with('#')) text.remove_prefix(1);
    std::uint32_t value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value, 16);
    if (text.size() != 6 || error != std::errc() || end != text.data() + text.size()) return std::nullopt;
    const auto byte = [&](unsigned shift) { return static_cast<std::uint8_t>(value >> shift & 0xff); };
    const LinearRgb rgb = decode(from_bytes({byte(16), byte(8), byte(0)}));
    return xyz_to_lab(linear_rgb_to_xyz(rgb), linear_rgb_to_xyz({1, 1, 1}));
}

std::optional<Lab> written_lab(std::string_view text) {
    if (!text.starts_with("Lab ") && !text.starts_with("lab ")) return std::nullopt;
    text = trimmed(text.substr(4));
    std::array<double, 3> v{};
    for (std::size_t i = 0; i < 3; ++i) {
        const auto comma = i < 2 ? text.find(',') : text.size();
        if (comma == std::string_view::npos) return std::nullopt;
        const Measure m = read_measure(trimmed(text.substr(0, comma)), Quantity::plain);
        if (!m.ok()) return std::nullopt;
        v[i] = m.value;
        text.remove_prefix(std::min(comma + 1, text.size()));
    }
    if (!(v[0] >= 0 && v[0] <= 100 && std::abs(v[1]) <= 150 && std::abs(v[2]) <= 150)) return std::nullopt;
    return Lab{v[0], v[1], v[2]};
}

std::string hex_of(const Lab& lab) {
    const Xyz white = linear_rgb_to_xyz({1, 1, 1});
    const auto bytes = to_bytes(encode(xyz_to_linear_rgb(lab_to_xyz(lab, white))));
    return fmt::format("#{:02x}{:02x}{:02x}", bytes[0], bytes[1], bytes[2]);
}

/// What lies behind, named or as a share.
std::optional<SampledSpectrum> behind_of(Section& in, std::string_view key, std::string_view name) {
    if (const Material* tint = find_tint(name)) return tint->reflectance;
    const Measure share = read_measure(name, Quantity::share);
    if (share.ok() && share.value >= 0 && share.value <= 1)
        return SampledSpectrum(static_cast<float>(share.value));
    in.problem(key, "found " + rakelight::quoted(name) + " behind it, expected a built-in tint or a share" +
                        did_you_mean(name, tint_names()));
    return std::nullopt;
}

struct Asked {
    WantedLook look;
    std::string text;
};

bool set_thickness(Section& in, std::string_view text, WantedLook& look) {
    const Measure mm = read_measure(text, Quantity::length_mm);
    const bool good = mm.ok() && mm.value >= kThick_mm.low && mm.value <= kThick_mm.high;
    if (good)
        look.thickness_mm = mm.value;
    else
        in.problem("looks", "found a thickness of " + rakelight::quoted(text) + ", expected 0.5 to 100 mm");
    return good;
}

std::optional<Asked> in_words(Section& in, const Material& m) {
    Asked asked;
    if (!in.set(asked.text, "looks")) return std::nullopt;
    std::string_view rest = trimmed(asked.text);
    const auto thickness = cut(rest, " at "), over = cut(rest, " over ");
    const std::optional<Lab> lab =
        rest.starts_with('L') || rest.starts_with('l') ? written_lab(rest) : hex_lab(rest);
    if (!lab) {
        in.problem("looks", "found " + rakelight::quoted(asked.text) + ", " + kExpected);
        return std::nullopt;
    }
    asked.look = {*lab, m.thickness_mm, find_tint("white")->reflectance};
    if (m.opaque && (over || thickness)) {
        in.problem("looks",
                   "found " + rakelight::quoted(asked.text) +
                       " of an opaque material, which shows nothing behind it, expected the colour alone");
        return std::nullopt;
    }
    if (thickness && !set_thickness(in, *thickness, asked.look)) return std::nullopt;
    if (over) {
        const auto behind = behind_of(in, "looks", *over);
        if (!behind) return std::nullopt;
        asked.look.behind = *behind;
    }
    return asked;
}

/// The colour of a rectangle of a picture. \return none, and says why, when it has none.
std::optional<Lab> colour_in(Section& in, std::vector<std::string>& files) {
    std::string name;
    std::array<double, 4> r{};
    in.require("picture", "a PNG, JPEG or TIFF beside the layout");
    in.require("rectangle", "[left, top, width, height] in pixels");
    const bool named = in.set(name, "picture");
    const bool placed = in.set(std::span(r), "rectangle", Quantity::plain, {0, kMostAcross_px});
    if (!named || !placed) return std::nullopt;
    const std::string path = in.problems().beside(*in.find("picture"), name);
    if (!holds(files, path)) files.push_back(path);
    try {
        const ReferencePicture picture = read_reference_picture(path);
        const glm::dvec2 whole = picture.extent_px * static_cast<double>(picture.shrink);
        const PixelRectangle wanted{{r[0], r[1]}, {r[2], r[3]}};
        const glm::dvec2 end = wanted.corner_px + wanted.size_px;
        if (r[2] < 1 || r[3] < 1 || end.x > whole.x + 1e-6 || end.y > whole.y + 1e-6) {
            in.problem("rectangle",
                       fmt::format("found {:g} x {:g} pixels from {:g}, {:g} of a picture of {:g} x {:g}, "
                                   "expected one within it, at least a pixel wide",
                                   r[2], r[3], r[0], r[1], whole.x, whole.y));
            return std::nullopt;
        }
        const MeanColour mean = mean_within(picture, wanted);
        if (mean.cover < kCovered) {
            in.problem("rectangle", "found a part of the picture that is clear, expected one with a colour");
            return std::nullopt;
        }
        return xyz_to_lab(linear_rgb_to_xyz(mean.colour), linear_rgb_to_xyz({1, 1, 1}));
    } catch (const std::runtime_error& error) {
        in.problem("picture", error.what());
        return std::nullopt;
    }
}

std::optional<Asked> of_picture(Section& in, const Material& m, std::vector<std::string>& files) {
    Asked asked;
    bool good = true;
    for_mapping(in, "looks", [&](Section& seen) {
        const std::optional<Lab> lab = colour_in(seen, files);
        good = lab.has_value();
        asked.look = {lab.value_or(Lab{}), m.thickness_mm, find_tint("white")->reflectance};
        asked.text = hex_of(asked.look.lab);
        for (const char* key : {"over", "thickness"})
            if (m.opaque && seen.has(key)) {
                seen.problem(key, fmt::format("found {} of an opaque material, which shows nothing behind "
                                              "it, expected picture and rectangle alone",
                                              key));
                good = false;
            }
        seen.set(asked.look.thickness_mm, "thickness");
        std::string over;
        if (!seen.set(over, "over")) return;
        const auto behind = behind_of(seen, "over", over);
        good = good && behind;
        if (behind) asked.look.behind = *behind;
    });
    return good ? std::optional(asked) : std::nullopt;
}

}  // namespace

void read_looks(Section& in, Material& material, std::vector<std::string>& files) {
    const YamlValue* value = in.find("looks");
    if (!value) return;
    bool good = true;
    for (const char* other : {"reflectance", "kind"})
        if (in.has(other)) {
            in.problem(other, fmt::format("found both looks and {}, expected looks with like: a material of "
                                          "the same family",
                                          other));
            good = false;
        }
    if (in.find_like("transmittance at 3 mm")) {
        in.problem("looks", "found both looks and transmittance, expected one of them");
        good = false;
    }
    const auto asked =
        value->shape == YamlValue::Shape::mapping ? of_picture(in, material, files) : in_words(in, material);
    if (!good || !asked) return;
    try {
        const Looking found = looking_like(material, asked->look);
        if (found.delta_e > kReached)
            in.problem(
                "looks",
                fmt::format("found {}, which this material cannot look like: the nearest is {}, "
                            "CIEDE2000 {:.1f} away; expected another colour, thickness or material to be "
                            "like",
                            rakelight::quoted(asked->text), hex_of(found.lab), found.delta_e));
        material = found.material;
    } catch (const std::invalid_argument& error) {
        in.problem("looks",
                   fmt::format("found looks, but {}; expected another material to be like", error.what()));
    }
}

}  // namespace rakelight
