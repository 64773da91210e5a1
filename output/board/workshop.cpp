#include "output/board/workshop.h"

#include <algorithm>
#include <map>
#include <optional>

#include "output/board/kinds.h"
#include "renderer/light_meter.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

// A world in which all cells of one geometry are traced.
struct Stand {
    Laying laying;
    World world;
    std::optional<Bvh> bvh;
    std::size_t first_cell = 0;
    std::vector<Seen> kinds;  // of its objects, for the field that the board is about
};

bool is_lit(const Views& views, const std::string& group) {
    const std::vector<std::string>& lamps = views.pictures[0].lamps;
    return lamps.empty() || std::find(lamps.begin(), lamps.end(), group) != lamps.end();
}

// Adds up the groups that are lit in a cell.
CellFilm lit_part(const VariantFilm& all, const Views& views, const std::vector<glm::dvec3>& illuminance) {
    CellFilm one;
    const Film& film = all.film;
    one.film.width = film.width;
    one.film.height = film.height;
    one.film.rows = film.rows;
    one.film.groups = {"light"};
    one.film.materials = film.materials;
    one.film.xyz.assign(1, std::vector<glm::vec3>(film.pixel_count(), glm::vec3(0)));
    glm::dvec3 lux(0);
    for (std::size_t kind = 0; kind < kSeenKinds; ++kind)
        one.seen[kind] = {all.seen[kind].share, {glm::dvec3(0)}, {glm::dvec3(0)}};
    for (std::size_t g = 0; g < film.groups.size(); ++g) {
        if (!is_lit(views, film.groups[g])) continue;
        lux += illuminance[g];
        for (std::size_t i = 0; i < film.pixel_count(); ++i) one.film.xyz[0][i] += film.xyz[g][i];
        for (std::size_t kind = 0; kind < kSeenKinds; ++kind) {
            one.seen[kind].xyz[0] += all.seen[kind].xyz[g];
            one.seen[kind].by_body[0] += all.seen[kind].by_body[g];
        }
    }
    one.illuminance = {lux.x, lux.y, lux.z};
    return one;
}

// Cells of equal word, in the order of their first.
template <class Word>
std::vector<std::vector<std::size_t>> groups_of(const std::vector<std::size_t>& cells, Word&& word) {
    std::vector<std::vector<std::size_t>> groups;
    std::map<std::string, std::size_t> known;
    for (const std::size_t cell : cells) {
        const auto [it, fresh] = known.try_emplace(word(cell), groups.size());
        if (fresh) groups.emplace_back();
        groups[it->second].push_back(cell);
    }
    return groups;
}

class Workshop {
  public:
    Workshop(const std::vector<CellLayout>& cells, const std::string& field, const BoardOptions& options)
        : cells_(cells), field_(field), options_(options), films_(cells.size()) {}

    std::vector<CellFilm> render() {
        std::vector<std::size_t> all(cells_.size());
        for (std::size_t i = 0; i < all.size(); ++i) all[i] = i;
        if (!options_.share_paths) {
            for (const std::size_t cell : all) render_geometry({cell});
            return std::move(films_);
        }
        for (const auto& alike : groups_of(all, [&](std::size_t i) { return cells_[i].geometry; }))
            render_geometry(alike);
        return std::move(films_);
    }

    const BoardWork& work() const { return work_; }

  private:
    void render_geometry(const std::vector<std::size_t>& cells) {
        const Layout& first = cells_[cells[0]].layout;
        Stand stand{lay(first), {}, {}, cells[0], {}};
        stand.world = build_world(first, stand.laying);
        stand.bvh.emplace(stand.world);
        stand.kinds = kinds_for(stand.world, first, stand.laying, field_);
        ++work_.layings;
        // Material sets are made of what the world wore when it was built.
        const World built = [&] {
            World w;
            w.interfaces = stand.world.interfaces;
            w.objects = stand.world.objects;
            w.surfaces = stand.world.surfaces;
            return w;
        }();
        for (const auto& alike : groups_of(cells, [&](std::size_t i) { return cells_[i].light; }))
            render_light(stand, built, alike);
    }

    void render_light(Stand& stand, const World& built, const std::vector<std::size_t>& cells) {
        const Layout& base = cells_[stand.first_cell].layout;
        set_lights(stand.world, cells_[cells[0]].layout);
        std::vector<std::vector<std::size_t>> colours =
            groups_of(cells, [&](std::size_t i) { return cells_[i].colours; });
        std::vector<MaterialSet> sets;
        for (const auto& same : colours)
            sets.push_back(make_material_set(built, base, stand.laying, cells_[same[0]].layout));
        // Batches whose light bounces alike, each as large as can be.
        std::vector<char> done(colours.size(), 0);
        for (std::size_t i = 0; i < colours.size(); ++i) {
            if (done[i]) continue;
            std::vector<MaterialSet> batch;
            std::vector<std::size_t> which;
            for (std::size_t k = i; k < colours.size() && batch.size() < kMostVariants; ++k) {
                if (done[k] || !can_share_paths(sets[i], sets[k])) continue;
                batch.push_back(sets[k]);
                which.push_back(k);
                done[k] = 1;
            }
            render_batch(stand, batch, which, colours);
        }
    }

    void render_batch(Stand& stand, const std::vector<MaterialSet>& batch,
                      const std::vector<std::size_t>& which,
                      const std::vector<std::vector<std::size_t>>& colours) {
        const VariantSurfaces surfaces = apply_variants(stand.world, batch);
        Layout layout = cells_[colours[which[0]][0]].layout;
        std::vector<std::string>& lamps = layout.views.pictures[0].lamps;
        std::size_t count = 0;
        for (const std::size_t k : which)
            for (const std::size_t cell : colours[k]) {
                const auto& own = cells_[cell].layout.views.pictures[0].lamps;
                if (own.empty()) lamps.clear();
                if (!lamps.empty()) lamps.insert(lamps.end(), own.begin(), own.end());
                ++count;
            }
        const std::vector<Emitter> lit = lamps_of_picture(stand.world, layout, layout.views.pictures[0]);
        const std::string& light = cells_[colours[which[0]][0]].light;
        const std::vector<glm::dvec3> metered = panel_illuminance_xyz(stand.world, *stand.bvh, lit);
        const auto white = illuminance_.try_emplace(light, metered).first;
        RenderOptions options;
        options.card_cd_per_m2 = grey_card_cd_per_m2(metered);
        options.cancelled = options_.cancelled;
        if (options_.progress)
            options.progress = [&, before = done_cells_, count](double share) {
                options_.progress((static_cast<double>(before) + share * static_cast<double>(count)) /
                                  static_cast<double>(cells_.size()));
            };
        const std::vector<VariantFilm> films = render_variants(
            stand.world, surfaces, *stand.bvh, layout, layout.views.pictures[0], stand.kinds, options);
        ++work_.renderings;
        const auto of_pixels = std::make_shared<const std::vector<Seen>>(
            kinds_of_pixels(films[0].film, stand.world, stand.kinds));
        for (std::size_t b = 0; b < which.size(); ++b)
            for (const std::size_t cell : colours[which[b]]) {
                films_[cell] = lit_part(films[b], cells_[cell].layout.views, white->second);
                films_[cell].of_pixels = of_pixels;
            }
        done_cells_ += count;
    }

    const std::vector<CellLayout>& cells_;
    const std::string& field_;
    const BoardOptions& options_;
    std::vector<CellFilm> films_;
    std::map<std::string, std::vector<glm::dvec3>> illuminance_;  // by light: no cell changes the white
    BoardWork work_;
    std::size_t done_cells_ = 0;
};

}  // namespace

std::vector<CellFilm> trace_cells(const std::vector<CellLayout>& cells, const std::string& field,
                                  const BoardOptions& options, BoardWork& work) {
    Workshop workshop(cells, field, options);
    std::vector<CellFilm> films = workshop.render();
    work = workshop.work();
    return films;
}

}  // namespace rakelight
