#include "scene/mix/fields.h"

#include <fmt/format.h>
#include <tbb/parallel_for.h>

#include <algorithm>

#include "materials/maths/hash.h"
#include "scene/mix/accents.h"
#include "scene/mix/assign.h"
#include "scene/mix/drawn_materials.h"
#include "scene/mix/mixing.h"
#include "scene/mix/picture.h"
#include "scene/mix/shades.h"
#include "scene/model/layout.h"
#include "scene/text/diagnostics.h"

namespace rakelight {

namespace {

std::string key_of(std::size_t field, std::string_view key) {
    return fmt::format("fields[{}].{}", field + 1, key);
}

// What of a field is set aside, accents and shapes drawn in a material of their own, and the rest for the
// mix.
struct Sorted {
    std::vector<std::size_t> fixed;
    std::vector<std::size_t> rest;
};

Sorted set_aside(const Field& field, const Region& ground, std::uint64_t seed, std::vector<Piece>& pieces) {
    Sorted sorted;
    std::vector<char> taken(pieces.size(), 0);
    for (const auto& [piece, accent] : choose_accents(field, ground, seed, pieces)) {
        pieces[piece].material = field.accents[accent].material;
        taken[piece] = 1;
    }
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        if (const auto drawn = drawn_material(field, pieces[i]); drawn && !taken[i]) {
            pieces[i].material = *drawn;
            taken[i] = 1;
        }
        (taken[i] ? sorted.fixed : sorted.rest).push_back(i);
    }
    return sorted;
}

// Calls `mix` with the pieces that are not set aside, and brings their materials back.
template <class Mix>
void mix_rest(const Sorted& sorted, std::vector<Piece>& pieces, Mix&& mix) {
    if (sorted.fixed.empty()) {
        mix(std::span<Piece>(pieces));
        return;
    }
    std::vector<Piece> rest;
    for (const std::size_t i : sorted.rest) rest.push_back(pieces[i]);
    mix(std::span<Piece>(rest));
    for (std::size_t k = 0; k < rest.size(); ++k) pieces[sorted.rest[k]].material = rest[k].material;
}

// What is left of each material of the stock.
class Workshop {
  public:
    explicit Workshop(const Layout& layout) : layout_(layout), used_(layout.stock.size(), 0) {}

    void take(std::uint32_t material, std::size_t pieces) { used_[material] += pieces; }

    std::size_t left(std::uint32_t material) const {
        const int have = layout_.stock[material].have_pieces;
        if (have < 0) return kNoLimit;
        return static_cast<std::size_t>(have) - std::min(static_cast<std::size_t>(have), used_[material]);
    }

    // Reports what is short after a field, once.
    void check(std::size_t field, std::vector<Problem>& problems) {
        for (std::size_t m = 0; m < used_.size(); ++m) {
            const Material& material = layout_.stock[m];
            if (material.have_pieces < 0 || used_[m] <= static_cast<std::size_t>(material.have_pieces))
                continue;
            if (std::find(reported_.begin(), reported_.end(), m) != reported_.end()) continue;
            reported_.push_back(m);
            problems.push_back({layout_.fields[field].mix_place, key_of(field, "mix"),
                                fmt::format("found {} pieces of {} wanted up to this field, expected at most "
                                            "the {} in stock",
                                            used_[m], material.name, material.have_pieces)});
        }
    }

  private:
    const Layout& layout_;
    std::vector<std::size_t> used_;
    std::vector<std::size_t> reported_;
};

std::vector<std::size_t> limits_of(const MixPicture& mix, const Workshop& workshop) {
    std::vector<std::size_t> limits;
    for (const std::uint32_t material : mix.from) {
        std::size_t limit = workshop.left(material);
        for (const auto& [limited, most] : mix.at_most)
            if (limited == material) limit = std::min(limit, static_cast<std::size_t>(most));
        limits.push_back(limit);
    }
    return limits;
}

}  // namespace

std::vector<std::string> mix_fields(const Layout& layout, const std::vector<Region>& grounds,
                                    std::vector<std::vector<Piece>>& pieces) {
    const std::size_t count = layout.fields.size();
    const auto seed_of = [&](std::size_t f) {
        return hash_combine(hash_combine(layout.panel.seed, hash_text(layout.fields[f].name)), 21);
    };
    std::vector<Sorted> sorted(count);
    tbb::parallel_for(std::size_t{0}, count, [&](std::size_t f) {
        const Field& field = layout.fields[f];
        const std::uint64_t seed = seed_of(f);
        sorted[f] = set_aside(field, grounds[f], hash_combine(seed, 5), pieces[f]);
        if (field.picture) return;
        mix_rest(sorted[f], pieces[f], [&](std::span<Piece> rest) {
            field.shift ? mix_shades(field, seed, rest) : mix_materials(field, seed, rest);
        });
        match_parts(pieces[f]);
    });

    std::vector<Problem> problems;
    Workshop workshop(layout);
    for (std::size_t f = 0; f < count; ++f) {
        const Field& field = layout.fields[f];
        std::size_t wanted = 0;
        for (const auto& accent : field.accents) wanted += static_cast<std::size_t>(accent.count);
        if (wanted > pieces[f].size() && !pieces[f].empty())
            problems.push_back({field.mix_place, key_of(f, "accents"),
                                fmt::format("found {} accents, expected at most the {} pieces of field '{}'",
                                            wanted, pieces[f].size(), field.name)});
        if (!field.picture) {
            for (const Piece& piece : pieces[f]) workshop.take(piece.material, 1);
        } else {
            for (const std::size_t i : sorted[f].fixed) workshop.take(pieces[f][i].material, 1);
        }
        workshop.check(f, problems);
    }
    if (!problems.empty()) throw LayoutError(std::move(problems));

    std::vector<std::string> notes;
    for (std::size_t f = 0; f < count; ++f) {
        const Field& field = layout.fields[f];
        if (!field.picture) continue;
        try {
            mix_rest(sorted[f], pieces[f], [&](std::span<Piece> rest) {
                const auto limits = limits_of(*field.picture, workshop);
                const PictureReach reach = mix_picture(layout, field, limits, seed_of(f), rest);
                for (auto& line : describe(reach, field, layout)) notes.push_back(std::move(line));
            });
            match_parts(pieces[f]);
            for (const std::size_t i : sorted[f].rest) workshop.take(pieces[f][i].material, 1);
        } catch (const LayoutError& error) {
            for (Problem problem : error.problems()) {
                problem.key = key_of(f, "mix");
                problems.push_back(std::move(problem));
            }
        }
        workshop.check(f, problems);  // what is laid elsewhere may be short as well
    }
    if (!problems.empty()) throw LayoutError(std::move(problems));
    return notes;
}

}  // namespace rakelight
