#include "renderer/alike_paths.h"

namespace rakelight {

namespace path_detail {

namespace {

// What a surface met is in each picture.
struct Differing {
    bool differs = false;
    std::uint32_t number = 0;
    std::array<float, kMostAlike> scale;  // factor on the body: grain is cut off where it would pass 1

    Differing(const AlikeStage& stage, const Vertices& at, std::size_t k, bool fine)
        : number(static_cast<std::uint32_t>(at.point.surfaces[k] - stage.world.surfaces.data())) {
        differs = stage.surfaces.differs[number] != 0;
        if (!differs) return;
        scale.fill(1);
        const Thing& thing = *at.point.things[k];
        if (!fine || thing.grain.contrast <= 0) return;
        const float lead = at.point.body_scale[k];
        const float grain =
            lead < at.point.surfaces[k]->max_body_scale ? lead : grain_scale(thing, lane(at.point.at_mm, k));
        for (std::size_t p = 0; p < stage.surfaces.count(); ++p)
            scale[p] = std::min(grain, stage.surfaces.of[p][number].max_body_scale) / lead;
    }

    Bands body(const AlikeStage& stage, const Vertices& at, std::size_t k, std::size_t picture,
               const BodyLanes& in) const {
        return at.surface.body_of(stage.surfaces.of[picture][number], k, in) * scale[picture];
    }
};

void split(AlikePath& path, std::size_t pictures) {
    if (path.split) return;
    path.split = true;
    for (std::size_t p = 0; p < pictures; ++p) {
        path.own[p] = path.throughput;
        path.own_mirrored[p] = path.mirrored;
    }
}

void bring(AlikePath& path, const AskedAlike& light, AlikeSums& sums) {
    const std::size_t pictures = light.split ? sums.pictures : 1;
    glm::dvec3* const to = light.split ? &sums.own[path.slot * sums.pictures * sums.groups + light.group]
                                       : &sums.shared[path.slot * sums.groups + light.group];
    const std::size_t kind = static_cast<std::size_t>(path.seen);
    const std::size_t seen_at =
        (kind * (sums.pictures + 1) + (light.split ? 1 : 0)) * sums.groups + light.group;
    float y = 0, first = 0;
    for (std::size_t p = 0; p < pictures; ++p) {
        const glm::dvec3 xyz(light.xyz[p]);
        to[p * sums.groups] += xyz;
        sums.seen[seen_at + p * sums.groups] += xyz;
        sums.seen_by_body[seen_at + p * sums.groups] += xyz * double(1 - light.mirrored[p]);
        y += light.xyz[p].y;
        first += light.xyz[p].y * light.mirrored[p];
    }
    path.luminance_cd_per_m2 += y / static_cast<float>(pictures);
    path.first_surface_cd_per_m2 += first / static_cast<float>(pictures);
}

// As ends_in_light.
bool ends_in_light(const AlikeStage& stage, AlikePath& path, const Hit& hit, AlikeSums& sums) {
    const float reach = hit.triangle == kNone ? kFar_mm : hit.distance_mm;
    const LampHit lamp = stage.lamps.meet(path.from_mm, path.direction, reach);
    const std::optional<Surround>& surround = stage.world.surround;
    if (lamp.lamp == kMostLamps && hit.triangle != kNone) return false;
    if (lamp.lamp == kMostLamps && !surround) return true;
    const LampWeights* weights = nullptr;
    float cd_per_m2 = 0;
    AskedAlike light;
    if (lamp.lamp != kMostLamps) {
        const Emitter& e = stage.lamps.lamps()[lamp.lamp];
        float weight = 1;
        if (path.bounce_pdf > 0) {
            const float aimed = share_of_lamp(stage.lamps, lamp.lamp, path.from_mm, path.last_normal) *
                                aim_pdf(e, path.from_mm, path.direction, lamp.distance_mm);
            weight = path.bounce_pdf / (path.bounce_pdf + aimed);
        }
        weights = &e.weights;
        cd_per_m2 = lamp.cd_per_m2 * weight;
        light.group = e.group;
    } else {
        weights = &surround->weights;
        cd_per_m2 = surround->cd_per_m2;
        light.group = surround->group;
    }
    light.split = path.split;
    for (std::size_t p = 0; p < (path.split ? sums.pictures : 1); ++p) {
        light.xyz[p] = xyz_of(*weights, path.split ? path.own[p] : path.throughput, cd_per_m2);
        light.mirrored[p] = path.split ? path.own_mirrored[p] : path.mirrored;
    }
    bring(path, light, sums);
    return true;
}

// As ask_lamps.
void ask_alike(const AlikeStage& stage, const Eight& eight, const Vertices& at, const Floats& pick,
               const PairOf<Floats>& u, bool first, std::span<AlikePath> paths,
               std::span<RayQuestion> questions, std::span<AskedAlike> asked, std::size_t& asking) {
    const LampChoice choice(stage.lamps, at.from_mm, at.point.normal);
    const LampChoice::Picked picked = choice.pick(pick, stage.lamps.size());
    LaneArray<const Emitter*> lamps;
    for (std::size_t k = 0; k < kLanes; ++k)
        lamps[k] = &stage.lamps.lamps()[static_cast<std::size_t>(picked.lamp[k])];
    const LampSamples aim = aim_at(lamps, at.from_mm, u.x, u.y);
    const Vec3s in = at.basis.to_local(aim.direction);
    const Ints useful = (picked.share > 0) & (aim.pdf > 0) & (aim.cd_per_m2 > 0) & (in.z > 0) &
                        (dot(aim.direction, at.point.geometric) > 0);
    const LobeLanes lobes = at.surface.evaluate(in);
    const Floats cd_per_m2 = aim.cd_per_m2 / (picked.share * aim.pdf + lobes.density);
    for (std::size_t k = 0; k < eight.live; ++k) {
        if (!useful[k]) continue;
        const AlikePath& path = paths[eight.index[k]];
        const Differing here(stage, at, k, path.eye_sees);
        const float face = lobes.face[k];
        AskedAlike& a = asked[asking];
        a.split = path.split || here.differs;
        const Bands body = at.surface.body(k, lobes.body);
        for (std::size_t p = 0; p < (a.split ? stage.surfaces.count() : 1); ++p) {
            const Bands own = here.differs ? here.body(stage, at, k, p, lobes.body) : body;
            const Bands& so_far = path.split ? path.own[p] : path.throughput;
            a.xyz[p] = xyz_of(lamps[k]->weights, so_far * (own + face), cd_per_m2[k]);
            a.mirrored[p] = first        ? share_of_face(face, own)
                            : path.split ? path.own_mirrored[p]
                                         : path.mirrored;
        }
        a.path = eight.index[k];
        a.group = lamps[k]->group;
        questions[asking++] = {lane(at.from_mm, k), aim.distance_mm[k] * 0.9999f, lane(aim.direction, k)};
    }
}

// As go_on.
unsigned go_on_alike(const AlikeStage& stage, const Eight& eight, const Vertices& at, const Floats& lobe,
                     const PairOf<Floats>& u, const Floats& roulette, int vertex,
                     std::span<AlikePath> paths) {
    const auto [in, from_face, mirror] = at.surface.sample(lobe, u.x, u.y);
    const LobeLanes lobes = at.surface.evaluate(in);
    const Vec3s direction = at.basis.to_world(in);
    const Ints glossy = from_face & (at.surface.alpha() < kGlossy);
    const Floats body_weight = mirror ? 0.0f : 1 / lobes.density;
    const Floats face_weight = mirror ? at.surface.mirror_weight() : lobes.face / lobes.density;
    const Floats pdf = mirror ? 0.0f : lobes.density;
    const Ints goes = (in.z > 0) & (dot(direction, at.point.geometric) > 0) & (mirror | (pdf > 0));
    unsigned going = 0;
    for (std::size_t k = 0; k < eight.live; ++k) {
        if (!goes[k]) continue;
        AlikePath& path = paths[eight.index[k]];
        const float face = face_weight[k], weight = body_weight[k];
        const Differing here(stage, at, k, path.eye_sees);
        if (here.differs && weight > 0) split(path, stage.surfaces.count());
        float most = 0;
        const Bands body = at.surface.body(k, lobes.body) * weight;
        if (path.split) {
            for (std::size_t p = 0; p < stage.surfaces.count(); ++p) {
                const Bands own = here.differs ? here.body(stage, at, k, p, lobes.body) * weight : body;
                path.own[p] *= own + face;
                if (vertex == 0) path.own_mirrored[p] = share_of_face(face, own);
                most = std::max(most, max_value(path.own[p]));
            }
        } else {
            path.throughput *= body + face;
            if (vertex == 0) path.mirrored = share_of_face(face, body);
            most = max_value(path.throughput);
        }
        if (vertex >= 2) {  // Russian roulette by what is left of the light in the brightest picture
            const float keep = std::min(0.95f, most);
            if (roulette[k] >= keep) continue;
            if (path.split)
                for (std::size_t p = 0; p < stage.surfaces.count(); ++p) path.own[p] *= 1 / keep;
            else
                path.throughput *= 1 / keep;
        }
        path.from_mm = lane(at.from_mm, k);
        path.direction = lane(direction, k);
        path.eye_sees = path.eye_sees && glossy[k];
        path.bounce_pdf = pdf[k];
        path.last_normal = lane(at.point.normal, k);
        going |= 1u << k;
    }
    return going;
}

}  // namespace

}  // namespace path_detail

void trace_alike(const path_detail::AlikeStage& stage, std::span<AlikePath> paths, AlikeSums& sums) {
    using namespace path_detail;
    std::array<std::uint32_t, kMostPaths> alive;
    std::array<RayQuestion, kMostPaths> questions;
    std::array<Hit, kMostPaths> hits;
    std::array<std::uint32_t, kMostPaths> meeting;
    std::array<bool, kMostPaths> blocked;
    std::vector<AskedAlike> asked(kMostPaths);
    std::size_t count = paths.size();
    for (std::size_t i = 0; i < count; ++i) alive[i] = static_cast<std::uint32_t>(i);

    for (int vertex = 0; vertex < kMostVertices && count > 0; ++vertex) {
        for (std::size_t i = 0; i < count; ++i) {
            const Path& path = paths[alive[i]];
            questions[i] = {path.from_mm, kFar_mm, path.direction};
        }
        stage.rays.nearest({questions.data(), count}, {hits.data(), count}, vertex == 0);
        fetch_ahead(stage.world, {hits.data(), count}, vertex == 0);

        std::size_t met = 0;
        for (std::size_t i = 0; i < count; ++i)
            if (!ends_in_light(stage, paths[alive[i]], hits[i], sums))
                meeting[met++] = static_cast<std::uint32_t>(i);
        const bool evenly = vertex < kEvenVertices;
        std::size_t going = 0;
        std::size_t asking = 0;
        for (std::size_t first = 0; first < met; first += kLanes) {
            Eight eight;
            eight.live = std::min(kLanes, met - first);
            for (std::size_t k = 0; k < kLanes; ++k) {
                const std::uint32_t place = meeting[first + std::min(k, eight.live - 1)];
                eight.index[k] = alive[place];
                eight.paths[k] = &paths[alive[place]];
                eight.hits[k] = &hits[place];
            }
            const Vertices at = arrive(stage.world, eight);
            if (vertex == 0)
                for (std::size_t k = 0; k < eight.live; ++k) {
                    AlikePath& path = paths[eight.index[k]];
                    path.seen =
                        stage.kinds[static_cast<std::size_t>(at.point.things[k] - stage.world.things.data())];
                    path.sight = {eight.hits[k]->distance_mm, lane(at.point.normal, k),
                                  at.point.things[k]->piece, at.point.things[k]->material};
                }
            const SamplePoint<Words> numbers = sample_points(eight);
            const std::uint32_t ahead = kPairsAVertex * static_cast<std::uint32_t>(vertex) + 1;
            const PairOf<Floats> which = numbers.pair_at(ahead, evenly);
            if (stage.lamps.size() > 0)
                ask_alike(stage, eight, at, which.x, numbers.pair_at(ahead + 1, evenly), vertex == 0, paths,
                          questions, asked, asking);
            const unsigned on = go_on_alike(stage, eight, at, which.y, numbers.pair_at(ahead + 2, evenly),
                                            numbers.random_pair(ahead + 3).x, vertex, paths);
            for (std::size_t k = 0; k < eight.live; ++k)
                if (on >> k & 1) alive[going++] = eight.index[k];
        }

        stage.rays.blocked({questions.data(), asking}, {blocked.data(), asking});
        for (std::size_t i = 0; i < asking; ++i)
            if (!blocked[i]) bring(paths[asked[i].path], asked[i], sums);
        count = going;
    }
}

}  // namespace rakelight
