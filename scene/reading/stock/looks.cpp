#include "scene/reading/stock/looks.h"

#include <fmt/format.h>

#include <charconv>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

#include "materials/stock/looks.h"
#include "materials/stock/tints.h"
#include "scene/text/nearest_word.h"

namespace rakelight {
namespace {

constexpr double kReached = 0.5;  // CIEDE2000: half of what is just noticeable
constexpr Range kThick_mm{0.5, 100};
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
std::optional<SampledSpectrum> behind_of(Section& in, std::string_view name) {
    if (const Material* tint = find_tint(name)) return tint->reflectance;
    const Measure share = read_measure(name, Quantity::share);
    if (share.ok() && share.value >= 0 && share.value <= 1)
        return SampledSpectrum(static_cast<float>(share.value));
    in.problem("looks", "found " + quoted(name) + " behind it, expected a built-in tint or a share" +
                            did_you_mean(name, tint_names()));
    return std::nullopt;
}

struct Asked {
    WantedLook look;
    std::string text;
};

std::optional<Asked> read_asked(Section& in, const Material& m) {
    Asked asked;
    if (!in.set(asked.text, "looks")) return std::nullopt;
    std::string_view rest = trimmed(asked.text);
    const auto thickness = cut(rest, " at "), over = cut(rest, " over ");
    const std::optional<Lab> lab =
        rest.starts_with('L') || rest.starts_with('l') ? written_lab(rest) : hex_lab(rest);
    if (!lab) {
        in.problem("looks", "found " + quoted(asked.text) + ", " + kExpected);
        return std::nullopt;
    }
    asked.look = {*lab, m.thickness_mm, find_tint("white")->reflectance};
    if (m.opaque && (over || thickness)) {
        in.problem("looks",
                   "found " + quoted(asked.text) +
                       " of an opaque material, which shows nothing behind it, expected the colour alone");
        return std::nullopt;
    }
    if (thickness) {
        const Measure mm = read_measure(*thickness, Quantity::length_mm);
        if (!mm.ok() || mm.value < kThick_mm.low || mm.value > kThick_mm.high) {
            in.problem("looks", "found a thickness of " + quoted(*thickness) + ", expected 0.5 to 100 mm");
            return std::nullopt;
        }
        asked.look.thickness_mm = mm.value;
    }
    if (over) {
        const auto behind = behind_of(in, *over);
        if (!behind) return std::nullopt;
        asked.look.behind = *behind;
    }
    return asked;
}

}  // namespace

void read_looks(Section& in, Material& material) {
    if (!in.find("looks")) return;
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
    const auto asked = read_asked(in, material);
    if (!good || !asked) return;
    try {
        const Looking found = looking_like(material, asked->look);
        if (found.delta_e > kReached)
            in.problem(
                "looks",
                fmt::format("found {}, which this material cannot look like: the nearest is {}, "
                            "CIEDE2000 {:.1f} away; expected another colour, thickness or material to be "
                            "like",
                            quoted(asked->text), hex_of(found.lab), found.delta_e));
        material = found.material;
    } catch (const std::invalid_argument& error) {
        in.problem("looks",
                   fmt::format("found looks, but {}; expected another material to be like", error.what()));
    }
}

}  // namespace rakelight
