// The film: what a traced picture is before anyone decides how bright to print it, XYZ in cd/m2 for each lamp
// group, and what was seen in each pixel. Row-major, first row at the top.
#pragma once

#include <cstddef>
#include <cstdint>
#include <glm/glm.hpp>
#include <optional>
#include <string>
#include <vector>

namespace rakelight {

/// A band of whole rows [first_row, end_row) of a picture: what one machine renders of it.
struct RowRange {
    int first_row = 0;
    int end_row = 0;
    friend bool operator==(const RowRange&, const RowRange&) = default;
};

/// What the eye ray of a pixel met first, averaged over its samples where that means something.
struct Features {
    std::vector<float> depth_mm;      ///< distance from the eye; 0 where nothing was met
    std::vector<glm::vec3> normal;    ///< room coordinates, averaged, not unit length at edges
    std::vector<std::int32_t> piece;  ///< 1-based number of the piece of the pixel's first sample, 0 = none
    std::vector<std::int32_t> material;  ///< 1-based index into Film::materials of the first sample, 0 = none
    std::vector<float> first_surface_share;  ///< share of luminance mirrored by the first interface, 0..1
};

/// What a filter needs besides `Features`, of each pixel; not there in a film of an earlier version. Light of
/// the samples of the second half-round (kSamplesARound) alone: with the mean of all it makes two half-films,
/// each of well spread samples, whose difference tells how much of the picture is noise.
struct FilterGuide {
    bool is_there = false;
    std::vector<float> half_cd_per_m2;                ///< luminance; 0 where there are no such samples
    std::vector<float> half_first_surface_cd_per_m2;  ///< part of it mirrored by the first interface
    std::vector<float> half_indirect_cd_per_m2;       ///< the same of `indirect`
    std::vector<glm::vec3> indirect;     ///< XYZ of what bodies reflect of light that came by other surfaces
    std::vector<glm::vec3> reflectance;  ///< XYZ of the base that was met, in even light; grain included
};

struct Film {
    int width = 0;
    int height = 0;
    RowRange rows;                            ///< rows that hold data; all other rows are zero
    std::optional<RowRange> held;             ///< rows that there is memory for; none = all
    std::vector<std::string> groups;          ///< lamp groups
    std::vector<std::vector<glm::vec3>> xyz;  ///< [group][pixel], cd/m2 (Y is luminance)
    /// [group][pixel], luminance that the first interface mirrors, cd/m2; empty unless asked for
    /// (RenderOptions).
    std::vector<std::vector<float>> mirrored;
    std::vector<float> error;            ///< standard error of Y over all groups, cd/m2
    std::vector<std::int32_t> samples;   ///< paths traced through the pixel; blocks of a tile differ
    std::vector<std::string> materials;  ///< names for Features::material
    Features features;
    FilterGuide guide;

    RowRange held_rows() const { return held.value_or(RowRange{0, height}); }
    /// Where the values of the first pixel of a row lie. Precondition: the row is held.
    std::size_t row_start(int row) const {
        return static_cast<std::size_t>(row - held_rows().first_row) * static_cast<std::size_t>(width);
    }
    /// Of the rows that are held: those of the whole picture, unless `held` says otherwise.
    std::size_t pixel_count() const { return row_start(held_rows().end_row); }
};

/// Makes room for these rows, all zero, and drops what else was held. Groups, and whether there is a guide,
/// stay.
void hold_rows(Film& film, const RowRange& rows);

/// A film of the same picture that holds these rows, all zero, and has data of none.
Film blank_like(const Film& film, const RowRange& rows);

/// Sum over lamp groups of a pixel, cd/m2.
inline glm::vec3 total_xyz(const Film& film, std::size_t pixel) {
    glm::vec3 sum(0);
    for (const auto& group : film.xyz) sum += group[pixel];
    return sum;
}

}  // namespace rakelight
