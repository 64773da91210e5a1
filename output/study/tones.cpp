#include "output/study/tones.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

#include "materials/colour/ciede2000.h"
#include "output/print/eye_blur.h"

namespace rakelight {
namespace {

constexpr double kStillSeen = 3;  // CIEDE2000, as on sample boards

struct Sum {
    glm::dvec3 xyz{0};
    double pixels = 0;
    void add(const glm::dvec3& more) { xyz += more, pixels += 1; }
    glm::dvec3 mean() const { return pixels > 0 ? xyz / pixels : glm::dvec3(0); }
};

class Tones {
  public:
    Tones(const NotedFilm& noted, const StudiedFields& laid, double mm_per_px)
        : film_(noted.film), laid_(laid), mm_per_px_(mm_per_px) {
        const Xyz light = total_illuminance_xyz(noted.notes);
        white_ = {light.x / light.y, 1, light.z / light.y};
        scale_ = std::numbers::pi / light.y;  // a perfect diffuser in this light is 1 (Lambert)
        for (std::size_t i = 0; i < film_.pixel_count(); ++i) {
            xyz_.push_back(total_xyz(film_, i));
            const auto piece = film_.features.piece[i];
            if (piece > 0 && static_cast<std::size_t>(piece) <= laid_.field_of_piece.size())
                of_piece_[piece].add(glm::dvec3(xyz_.back()));
        }
    }

    std::vector<FieldTone> all() {
        std::vector<FieldTone> tones;
        for (std::uint32_t f = 0; f < laid_.names.size(); ++f) {
            FieldTone tone = of_field(f);
            if (tone.pieces > 0) tones.push_back(std::move(tone));
        }
        return tones;
    }

  private:
    Lab lab(const glm::dvec3& xyz) const {
        const glm::dvec3 v = xyz * scale_;
        return xyz_to_lab({v.x, v.y, v.z}, white_);
    }

    std::uint32_t field_of(std::int32_t piece) const {
        return laid_.field_of_piece[static_cast<std::size_t>(piece) - 1];
    }

    bool is_laid(std::int32_t piece) const {
        return piece > 0 && static_cast<std::size_t>(piece) <= laid_.field_of_piece.size();
    }

    const std::string* material_at(std::size_t i) const {
        const auto m = film_.features.material[i];
        return m > 0 ? &film_.materials[static_cast<std::size_t>(m) - 1] : nullptr;
    }

    FieldTone of_field(std::uint32_t f) {
        FieldTone tone{laid_.names[f], 0, {}, 0, {}};
        Sum all;
        double first = 0, second = 0;
        for (const auto& [piece, sum] : of_piece_) {
            if (field_of(piece) != f) continue;
            all.xyz += sum.xyz;
            all.pixels += sum.pixels;
            const double l = lab(sum.mean()).l;
            first += l, second += l * l;
            ++tone.pieces;
        }
        if (tone.pieces == 0) return tone;
        const auto n = static_cast<double>(tone.pieces);
        tone.mean = lab(all.mean());
        tone.spread_l = std::sqrt(std::max(0.0, second / n - first / n * (first / n)));
        for (const std::string& material : laid_.accents[f])
            if (auto accent = of_accent(f, material, tone.mean.l)) tone.accents.push_back(std::move(*accent));
        return tone;
    }

    std::optional<AccentTone> of_accent(std::uint32_t f, const std::string& material, double with_l) {
        std::vector<std::size_t> its, others;
        std::map<std::int32_t, bool> pieces;
        Sum rest;
        for (std::size_t i = 0; i < film_.pixel_count(); ++i) {
            const auto piece = film_.features.piece[i];
            if (!is_laid(piece) || field_of(piece) != f) continue;
            const std::string* name = material_at(i);
            if (name && *name == material) {
                its.push_back(i);
                pieces[piece] = true;
            } else {
                others.push_back(i);
                rest.add(glm::dvec3(xyz_[i]));
            }
        }
        if (its.empty() || others.empty()) return std::nullopt;
        AccentTone accent{material, pieces.size(), with_l - lab(rest.mean()).l, 0};
        for (const double distance : kAccentDistances_m)
            if (contrast_from(distance, its, others) >= kStillSeen) accent.seen_to_m = distance;
        return accent;
    }

    // CIEDE2000 between what lies on the accent and the rest of its field, as an eye that far off mixes them.
    double contrast_from(double distance_m, const std::vector<std::size_t>& its,
                         const std::vector<std::size_t>& others) {
        auto& seen = seen_[distance_m];
        if (seen.empty()) seen = seen_from(xyz_, film_.width, film_.height, mm_per_px_, distance_m);
        const auto mean = [&](const std::vector<std::size_t>& pixels) {
            Sum sum;
            for (const std::size_t i : pixels) sum.add(glm::dvec3(seen[i]));
            return lab(sum.mean());
        };
        return ciede2000(mean(its), mean(others));
    }

    const Film& film_;
    const StudiedFields& laid_;
    double mm_per_px_;
    Xyz white_;
    double scale_ = 1;
    std::vector<glm::vec3> xyz_;
    std::map<std::int32_t, Sum> of_piece_;
    std::map<double, std::vector<glm::vec3>> seen_;
};

}  // namespace

std::vector<FieldTone> field_tones(const NotedFilm& noted, const StudiedFields& laid, double mm_per_px) {
    return Tones(noted, laid, mm_per_px).all();
}

}  // namespace rakelight
