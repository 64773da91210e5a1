#include "materials/stock/finish.h"

#include <algorithm>
#include <stdexcept>

#include "materials/optics/fresnel.h"
#include "materials/optics/kubelka_munk.h"
#include "materials/stock/wetting.h"

namespace rakelight {
namespace {

struct Film {
    double index;
    float roughness;
};
constexpr Film kWater{1.333, 0.006f};  // index at 589 nm, 20 C
constexpr Film kSealer{1.49, 0.10f};   // acrylic resin; a satin film
constexpr Film kWax{1.44, 0.07f};      // paraffin and beeswax, buffed
constexpr Film kOil{
    1.48, 0.30f};  // linseed oil (index at 589 nm, 20 C: 1.48), wiped off: it fills the fibres and no more
constexpr Film kLacquer{1.50, 0.03f};  // cellulose nitrate (index 1.50), rubbed down and polished

// What is seen of a body through a face of one index, put under a face of another.
float moved_under(float inner, double from_index, double to_index) {
    const double seen = through_interface(inner, 0, diffuse_reflectance_inside(from_index));
    return static_cast<float>(inside_interface(seen, 0, diffuse_reflectance_inside(to_index)));
}

void lay_film(Material& m, const Film& film) {
    m.stretch = 1;  // it fills what was brushed or riven
    m.glassy_roughness = std::min(m.glassy_roughness, film.roughness);
    if (!m.opaque || m.kind == Kind::glass || m.kind == Kind::epoxy) {
        m.roughness = std::min(m.roughness, film.roughness);
        return;
    }
    if (m.index > 1) {  // dense: the film lies on a face that the body keeps
        const double face = film_index(film.index, m.index);
        m.reflectance = map(m.reflectance, [&](float r) { return moved_under(r, m.index, face); });
        m.index = static_cast<float>(face);
        m.roughness = std::min(m.roughness, film.roughness);
    } else {
        m.filmed = true;
        m.reflectance = soaked_reflectance(m.reflectance, film.index);
        m.index = static_cast<float>(film.index);
        m.roughness = film.roughness;
    }
}

// The reflectance of dry ground that a liquid of this index turns into `soaked`, by halving: it grows with
// the dry one.
float dry_reflectance(float soaked, double liquid) {
    double low = 0, high = 1;
    for (int i = 0; i < 40; ++i) {
        const double middle = (low + high) / 2;
        (1 - soaked_absorptance(1 - middle, liquid) < soaked ? low : high) = middle;
    }
    return static_cast<float>((low + high) / 2);
}

void strip_timber(Material& m) {
    if (m.kind != Kind::timber || m.index <= 1) return;
    m.reflectance = map(m.reflectance, [&](float r) { return dry_reflectance(r, m.index); });
    m.index = 1;
    m.roughness = 0;
    m.filmed = false;
}

void finish_timber(Material& m, const Film& film) {
    strip_timber(m);
    lay_film(m, film);
}

void roughen(Material& m, float least_roughness) {
    if (m.index > 1) m.roughness = std::max(m.roughness, least_roughness);
    m.glassy_roughness = std::max(m.glassy_roughness, least_roughness);
}

}  // namespace

const std::vector<std::string>& finish_words() {
    static const std::vector<std::string> words{"wet",     "sealed",      "waxed", "hazed", "brushed",
                                                "tumbled", "sandblasted", "raw",   "oiled", "lacquered"};
    return words;
}

Material finished(Material m, Finish finish) {
    switch (finish) {
        case Finish::wet:
            lay_film(m, kWater);
            break;
        case Finish::sealed:
            finish_timber(m, kSealer);
            break;
        case Finish::waxed:
            finish_timber(m, kWax);
            break;
        case Finish::oiled:
            finish_timber(m, kOil);
            break;
        case Finish::lacquered:
            finish_timber(m, kLacquer);
            break;
        case Finish::raw:
            strip_timber(m);
            break;
        case Finish::hazed:
            m.haze += 0.08f;
            roughen(m, 0.02f);
            break;
        case Finish::brushed:
            roughen(m, 0.2f);
            m.leaf_roughness = std::max(m.leaf_roughness, 0.15f);
            m.stretch = 6;
            break;
        case Finish::tumbled:
            roughen(m, 0.35f);
            m.stretch = 1;
            m.matte_deg = std::min(m.matte_deg, 15.0f);
            break;
        case Finish::sandblasted:
            roughen(m, 0.6f);
            m.stretch = 1;
            m.matte_deg = std::max(m.matte_deg, 30.0f);
            break;
    }
    return m;
}

Material porous(Material m, double trapped) {
    if (!m.opaque)
        throw std::invalid_argument("material " + m.name + ": translucent stuff has no open pores");
    m.reflectance =
        map(m.reflectance, [trapped](float r) { return static_cast<float>(open_pores(r, trapped)); });
    return m;
}

}  // namespace rakelight
