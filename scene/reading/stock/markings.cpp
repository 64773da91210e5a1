#include "scene/reading/stock/markings.h"

#include <algorithm>
#include <array>

#include "scene/text/nearest_word.h"

namespace rakelight {

namespace {

void keep(Markings& markings, Strands strands, bool hazes) {
    std::erase_if(markings.strands,
                  [&](const Strands& s) { return s.form == strands.form && (s.haze > 0) == hazes; });
    markings.strands.push_back(std::move(strands));
}

// The other colour, which melts or lies beside the material's own.
bool read_other(Section& in, const Material& material, const ColourShelf& shelf, Strands& strands) {
    if (!in.require("of", "the name of a material")) return false;
    std::string name;
    if (!in.set(name, "of")) return false;
    const Material* other = shelf.find(name);
    if (!other) {
        in.problem("of", "found " + quoted(name) + ", expected the name of a material" +
                             did_you_mean(name, shelf.names));
        return false;
    }
    const auto kind = [](const Material& m) { return m.opaque ? "opaque" : "translucent"; };
    if (other->opaque != material.opaque || other->leaf != Leaf::none || material.backed) {
        in.problem("of", "found " + quoted(name) + ", which is " +
                             (other->leaf != Leaf::none ? "leaf" : kind(*other)) + ", expected a plain " +
                             kind(material) + " material as the one it runs through");
        return false;
    }
    strands.absorption_per_mm = other->absorption_per_mm;
    strands.scattering_per_mm = other->scattering_per_mm;
    strands.reflectance = other->reflectance;
    return true;
}

void read_strands(Section& in, const char* key, Strands usual, Material& material, const ColourShelf& shelf) {
    for_mapping(in, key, [&](Section& strands) {
        const bool good = read_other(strands, material, shelf, usual);
        strands.set(usual.share, "share");
        const bool sized = strands.set(usual.size_mm, "size");
        const bool round = usual.form == Strand::vein || usual.form == Strand::crackle;
        if (round && sized) usual.length_mm = usual.size_mm;
        if (usual.form != Strand::crackle) strands.set(usual.length_mm, "length");
        if (good) keep(material.markings, usual, false);
    });
}

void read_veil(Section& in, Material& material) {
    for_mapping(in, "veil", [&](Section& veil) {
        Strands strands{.form = Strand::cloud, .share = 0.5f, .size_mm = 20, .haze = 0.03f};
        veil.set(strands.haze, "haze");
        veil.set(strands.share, "share");
        veil.set(strands.size_mm, "size");
        strands.length_mm = strands.size_mm;
        strands.haze = strands.haze / (1 - strands.haze);  // R = S d / (1 + S d), Kubelka and Munk 1931
        keep(material.markings, strands, true);
    });
}

void read_face(Section& in, Material& material) {
    for_mapping(in, "face", [&](Section& face) {
        struct Usual {
            float size_mm, slope_deg;
        };
        constexpr std::array<Usual, 7> kUsual{{{6, 0}, {4, 2}, {7, 7}, {18, 5}, {2, 8}, {3.5f, 5}, {7, 4}}};
        if (!face.require("pattern", "a pattern")) return;
        std::size_t word = 0;
        if (!face.set_word(word, "pattern")) return;
        FacePattern made{static_cast<Pattern>(word), kUsual[word].size_mm, kUsual[word].slope_deg};
        face.set(made.size_mm, "size");
        face.set(made.slope_deg, "slope");
        material.markings.face = made;
    });
}

}  // namespace

void read_markings(Section& in, Material& material, const ColourShelf& shelf) {
    Markings& m = material.markings;
    read_strands(in, "streaks", {.form = Strand::streak, .share = 0.25f, .size_mm = 7, .length_mm = 90},
                 material, shelf);
    read_strands(in, "wisps", {.form = Strand::wisp, .share = 0.2f, .size_mm = 14, .length_mm = 32}, material,
                 shelf);
    read_strands(in, "veins", {.form = Strand::vein, .share = 0.1f, .size_mm = 40, .length_mm = 40}, material,
                 shelf);
    read_strands(in, "crackle", {.form = Strand::crackle, .share = 0.05f, .size_mm = 5, .length_mm = 5},
                 material, shelf);
    read_veil(in, material);
    for_mapping(in, "seeds", [&](Section& seeds) {
        m.seeds = {0.7f, 3};
        seeds.set(m.seeds.size_mm, "size");
        seeds.set(m.seeds.per_cm2, "per cm2");
        if (material.opaque) in.problem("seeds", "found seeds in an opaque material, expected clear glass");
    });
    for_mapping(in, "cords", [&](Section& cords) {
        m.cords = {0.25f, 2};
        cords.set(m.cords.contrast, "contrast");
        cords.set(m.cords.size_mm, "size");
    });
    read_face(in, material);
    if (m.strands.size() > kMostStrands) in.problem("", "found more than 6 second colours, expected fewer");
}

void read_spread(Section& in, Markings& m) {
    for_mapping(in, "sand", [&](Section& sand) {
        m.sand = {0.3f, 0.1f};
        sand.set(m.sand.size_mm, "size");
        sand.set(m.sand.contrast, "contrast");
    });
    in.set(m.meniscus.width_mm, "meniscus");
    for_mapping(in, "mottling", [&](Section& mottling) {
        m.mottling = {0.03f, 60};
        mottling.set(m.mottling.contrast, "contrast");
        mottling.set(m.mottling.size_mm, "size");
    });
}

}  // namespace rakelight
