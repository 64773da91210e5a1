#include "scene/reading/stock/coating.h"

namespace rakelight {

namespace {

enum class CoatKind { none, iridised, dichroic, pearl };

// Indices at 550 nm, rounded: common figures of handbooks, from memory.
constexpr double kTinOxide = 1.95, kTitanium = 2.35, kSilica = 1.46, kAragonite = 1.66, kProtein = 1.43;

// Quarter waves of two indices in turn, with one more of the first beneath.
std::vector<FilmLayer> quarter_waves(double first, double second, int pairs, double peak_nm) {
    std::vector<FilmLayer> layers;
    for (int i = 0; i < 2 * pairs + 1; ++i) {
        const double index = i % 2 == 0 ? first : second;
        layers.push_back({index, peak_nm / (4 * index)});
    }
    return layers;
}

struct Coat {
    CoatKind kind = CoatKind::none;
    double nm = 0;
    int pairs = 4;
    double uneven = 0;
    double size_mm = 40;
};

void read_layers(Section& coating, Material& m) {
    std::vector<FilmLayer> layers;
    for_each_item(coating, "layers", [&](Section& film) {
        FilmLayer layer;
        if (film.require("index", "a refractive index")) film.set(layer.index, "index");
        if (film.require("nm", "a thickness")) film.set(layer.thickness_nm, "nm");
        layers.push_back(layer);
    });
    m.coating = std::move(layers);
}

void lay(Material& m, const Coat& coat) {
    switch (coat.kind) {
        case CoatKind::none:
            break;
        case CoatKind::iridised:
            m.coating = {{kTinOxide, coat.nm > 0 ? coat.nm : 380}};
            break;
        case CoatKind::dichroic:
            m.coating = quarter_waves(kTitanium, kSilica, coat.pairs, coat.nm > 0 ? coat.nm : 600);
            break;
        case CoatKind::pearl:
            m.coating = quarter_waves(kAragonite, kProtein, coat.pairs, coat.nm > 0 ? coat.nm : 540);
            break;
    }
}

// Films that are thicker here than there: by clouds, or drawn out as in a shell.
void make_uneven(Material& m, const Coat& coat) {
    if (!(coat.uneven > 0) || m.coating.empty()) return;
    for (FilmLayer& layer : m.coating) layer.thickness_nm *= 1 - coat.uneven;
    Strands strands{.form = coat.kind == CoatKind::pearl ? Strand::streak : Strand::cloud, .share = 0.5f};
    strands.size_mm = static_cast<float>(coat.size_mm);
    strands.length_mm = strands.size_mm * (coat.kind == CoatKind::pearl ? 3.f : 1.6f);
    strands.thicker = static_cast<float>(2 * coat.uneven / (1 - coat.uneven));
    m.markings.strands.push_back(strands);
}

}  // namespace

void read_coating(Section& in, Material& m) {
    for_mapping(in, "coating", [&](Section& coating) {
        Coat coat;
        std::size_t word = 0;
        const bool kind = coating.set_word(word, "kind");
        coat.kind = static_cast<CoatKind>(word);
        if (coat.kind == CoatKind::pearl) coat = {CoatKind::pearl, 0, 6, 0, 8};
        coating.set(coat.nm, "nm");
        coating.set(coat.pairs, "pairs");
        coating.set(coat.uneven, "uneven");
        coating.set(coat.size_mm, "size");
        m.coating.clear();
        std::erase_if(m.markings.strands, [](const Strands& s) { return s.thicker != 0; });
        if (kind)
            lay(m, coat);
        else
            read_layers(coating, m);
        make_uneven(m, coat);
    });
    if (!m.coating.empty() && (m.leaf != Leaf::none || !(m.index > 1)))
        in.problem("coating", m.leaf != Leaf::none
                                  ? "found a coating of leaf, expected a material without leaf"
                                  : "found a coating of a face without gloss, expected an index above 1");
}

}  // namespace rakelight
