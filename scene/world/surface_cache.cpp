#include "scene/world/surface_cache.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "materials/maths/hash.h"
#include "materials/maths/noise.h"
#include "materials/optics/marked.h"
#include "materials/stock/finish.h"
#include "scene/forms/side_wall.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

constexpr double kPatchDeviation = kNoiseDeviation * 1.25;  // of the three octaves that shade() adds up

// Inverse of the normal distribution's upper tail, by bisection: a patch is where a noise, normal as far as
// matters, passes this threshold, and the share of a face that does is that tail.
float glassy_noise_threshold(double share) {
    double low = -2;
    double high = 2;
    for (int i = 0; i < 40; ++i) {
        const double middle = (low + high) / 2;
        (0.5 * std::erfc(middle / (kPatchDeviation * std::sqrt(2.0))) > share ? low : high) = middle;
    }
    return static_cast<float>(low);
}

// The way of the sheet in a piece: strips are cut along its pull, more often than across, and nipped by eye.
// Common practice, no published source.
glm::vec2 sheet_of(Rng& rng, bool any_way) {
    const double turn = any_way ? rng.within(0, 2 * std::numbers::pi)
                                : (rng.unit() < 0.7 ? 0 : std::numbers::pi / 2) + 0.16 * rng.spread();
    return {std::cos(turn), std::sin(turn)};
}

}  // namespace

SurfaceCache::SurfaceCache(World& world, const Layout& layout)
    : world_(world), layout_(layout), first_material_(world.materials.size()) {
    coarse_ = world.interfaces->side_walks().is_coarse();
    for (const auto& m : layout.stock) world.materials.push_back(m.name);
    for (const auto& m : layout.tints) world.materials.push_back(m.name);
}

const SurfaceCache::Marked& SurfaceCache::marked(std::size_t number, const Material& material,
                                                 double washed) {
    auto [it, fresh] = marked_.try_emplace({number, washed, material.roughness});
    if (fresh && material.markings.any() && !(coarse_ && has_looks(material))) {
        const Marks marks = marks_of(material);
        if (has_looks(material)) it->second.shares = shares_of_looks(marks);
        it->second.marks = add_marks(world_, marks);
    }
    return it->second;
}

SurfaceCache::Made SurfaceCache::make(const Marked& marked, const Material& material, double thickness_mm,
                                      const SampledSpectrum& behind, double tone, const SideWall& side) {
    Made made;
    made.marks = marked.marks;
    InterfaceTables& interfaces = *world_.interfaces;
    const auto surface_of = [&](const Material& m) {
        if (!has_looks(m)) return make_surface(m, thickness_mm, behind, tone, interfaces, side);
        if (coarse_) return quick_mean_of_looks(m, thickness_mm, behind, tone, interfaces, side);
        return mean_of_looks(surfaces_of_looks(m, thickness_mm, behind, tone, interfaces, side),
                             marked.shares);
    };
    if (has_looks(material) && !coarse_) {
        made.surface = static_cast<std::uint32_t>(world_.surfaces.size());
        for (Surface& look : surfaces_of_looks(material, thickness_mm, behind, tone, interfaces, side))
            add_surface(world_, std::move(look));
    } else {
        made.surface = add_surface(world_, surface_of(material));
    }
    made.roughened = made.surface;
    if (has_looks(material) || has_gloss(material))
        made.roughened = add_surface(world_, surface_of(roughened(material)));
    if (material.glassy_share > 0)
        made.glassy = add_surface(world_, make_glassy_surface(material, tone, interfaces));
    return made;
}

namespace {

// A film of the filling in the pores and hollows of rough stone, which no sponge takes out.
Material washed(Material material, const SampledSpectrum& filling, double share) {
    Strands film{
        .form = Strand::wash, .share = static_cast<float>(share), .size_mm = 2.2f, .length_mm = 2.2f};
    film.reflectance = filling;
    film.covers = true;
    material.markings.strands.push_back(film);
    return material;
}

bool is_washed(const Material& m) {
    return std::ranges::any_of(m.markings.strands, &Strands::covers);
}

bool keeps_wash(const Material& m) {
    return m.opaque && m.leaf == Leaf::none && (m.kind == Kind::stone || m.kind == Kind::slag) &&
           m.roughness >= (m.index > 1 ? 0.2f : 0) && m.markings.strands.size() < kMostStrands;
}

}  // namespace

Object SurfaceCache::object(std::size_t number, const Material& material, double thickness_mm,
                            const Piece* piece, std::uint64_t seed, double tone_deviate) {
    // Where a material has many looks, few tones and widths of it are told apart.
    const bool many = has_looks(material);
    const int tone_step = many ? 2 * static_cast<int>(std::lround(std::clamp(tone_deviate, -2.0, 2.0)))
                               : static_cast<int>(std::lround(std::clamp(tone_deviate, -2.0, 2.0) * 2));
    const int thickness_step = material.opaque ? 0 : static_cast<int>(std::lround(thickness_mm * 2));
    const Field* field = piece ? &layout_.fields[piece->field] : nullptr;
    const bool shows = field && !material.opaque;
    const double thickness = material.opaque ? thickness_mm : std::max(thickness_step, 1) / 2.0;
    SideWall side;
    if (shows) side = side_wall(layout_.tints, *field, edge_per_mm(piece->outline_mm), thickness, material);
    if ((coarse_ || many) && side.across_mm > 0)
        side.across_mm = std::exp2(std::round(std::log2(side.across_mm)));
    std::optional<std::uint32_t> bed, beside;
    if (shows) bed = field->bed;
    if (side.shows()) beside = filling_of(*field);
    if (field && is_washed(material)) {
        beside = filling_of(*field);
        side.bonded_mm = field->wash;  // tells such surfaces apart
    }
    const Key key(number, bed, beside, beside ? side.across_mm : 0, beside ? side.bonded_mm : 0, tone_step,
                  thickness_step, material.roughness);
    auto [it, fresh] = made_.try_emplace(key);
    if (fresh) {
        const double tone = std::exp(material.tone_spread * tone_step / 2.0);
        const SampledSpectrum behind = bed ? layout_.tints[*bed].reflectance : SampledSpectrum(0.0f);
        const double washed = is_washed(material) ? side.bonded_mm : 0;
        it->second = make(marked(number, material, washed), material, thickness, behind, tone, side);
    }
    Object t;
    t.surface = it->second.surface;
    t.glassy_surface = it->second.glassy;
    t.roughened_surface = it->second.roughened;
    t.glassy_threshold = glassy_noise_threshold(material.glassy_share);
    t.glassy_patch_mm = material.glassy_patch_mm;
    t.grain = material.grain;
    t.seed = static_cast<std::uint32_t>(seed);
    Rng rng(hash_combine(seed, 2));
    constexpr double kShift_mm = 200;
    t.noise_shift_mm.x = static_cast<float>(rng.within(0, kShift_mm));
    t.noise_shift_mm.y = static_cast<float>(rng.within(0, kShift_mm));
    t.noise_shift_mm.z = static_cast<float>(rng.within(0, kShift_mm));
    t.marks = it->second.marks;
    if (t.marks != kNone) t.sheet = sheet_of(rng, world_.marks[t.marks].any_way);
    t.material = static_cast<std::int32_t>(first_material_ + number) + 1;
    return t;
}

Object SurfaceCache::plain(std::uint32_t stock, std::uint64_t seed) {
    return plain(stock, seed, 0);
}

Object SurfaceCache::plain(std::uint32_t stock, std::uint64_t seed, double tone_deviate) {
    const Material& m = layout_.stock[stock];
    Object made = object(stock, m, m.thickness_mm, nullptr, seed, tone_deviate);
    made.timber = m.kind == Kind::timber;
    return made;
}

Object SurfaceCache::filling(std::uint32_t tint, std::uint64_t seed) {
    const Material& m = layout_.tints[tint];
    return object(layout_.stock.size() + tint, m, m.thickness_mm, nullptr, seed, 0);
}

Object piece_object(SurfaceCache& cache, const Layout& layout, const Piece& piece) {
    Material stuff = layout.stock[piece.material];
    const Field& field = layout.fields[piece.field];
    if (piece.form == PieceForm::tumbled) stuff = finished(std::move(stuff), Finish::tumbled);
    if (field.wash > 0 && keeps_wash(stuff))
        stuff = washed(std::move(stuff), layout.tints[filling_of(field)].reflectance, field.wash);
    return cache.object(piece.material, stuff, piece.thickness_mm, &piece, piece.seed,
                        Rng(hash_combine(piece.seed, 1)).spread());
}

}  // namespace rakelight
