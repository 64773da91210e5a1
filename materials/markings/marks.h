// Markings compiled for a light path: at each place which of the material's looks is seen, how much brighter,
// and which way the face leans.
//
// A material with a second colour is made up in steps from the one to the other, each a surface of its own;
// between two steps a place falls to one or the other by a number drawn from the place itself, so that what
// a pixel sees is the mixture. Sources of the seeds' optics: Snell's law and total reflection at a sphere of
// gas (a ray that passes it farther out than 1/n of its radius is thrown aside).
#pragma once

#include <array>
#include <cstdint>
#include <glm/glm.hpp>
#include <vector>

#include "materials/markings/markings.h"

namespace rakelight {

/// Steps from a material's own colour to a second one.
inline constexpr int kStrandSteps = 6;

/// Compiled markings. A value.
struct Marks {
    struct Thread {
        Strand form = Strand::streak;
        glm::vec3 per_mm{1};  ///< along, across, down
        float least = 0;      ///< of the field, where the second colour sets in
        float per_edge = 1;
        friend bool operator==(const Thread&, const Thread&) = default;
    };
    std::array<Thread, kMostStrands> threads{};
    int thread_count = 0;
    Seeds seeds;
    Cords cords;
    Sand sand;
    Mottling mottling;
    Meniscus meniscus;
    float levelled = 1;  ///< how much of what slopes would darken is made good, 0..1
    Pattern pattern = Pattern::none;
    float pattern_per_mm = 1;
    float pattern_slope = 0;   ///< factor on the pattern's slope
    float thickness_mm = 3;    ///< that seeds are spread over
    bool any_way = false;      ///< pieces are cut from it in all directions; else along the sheet or across
    int first_seed_look = -1;  ///< heart of a seed, its rim the next; negative: no seeds

    /// How many surfaces such a material has: its own colour, steps of each thread, seeds.
    int looks() const { return 1 + kStrandSteps * thread_count + (first_seed_look >= 0 ? 2 : 0); }
    friend bool operator==(const Marks&, const Marks&) = default;
};

/// Compiles markings of a material so thick. Takes some milliseconds. Precondition: sizes above 0.
Marks compile(const Markings& markings, float thickness_mm, bool any_way);

/// A place on a piece as marks see it: x along the sheet, y across, z out of the face.
struct MarkedPlace {
    glm::vec3 at_mm{0};        ///< with the piece's own shift
    glm::vec3 down{0, 0, -1};  ///< unit; the eye's ray after the face has bent it
    float edge_mm = 1e6f;      ///< of a filling: distance from the pieces
    glm::vec2 inward{0};       ///< and its gradient, away from them
    std::uint32_t seed = 0;
};

/// What is to be seen there.
struct SeenMarking {
    int step = 0;        ///< which of the surfaces
    float scale = 1;     ///< factor on its base; mean 1
    glm::vec3 slope{0};  ///< the normal is (0, 0, 1) less this, not of unit length
};
SeenMarking look_at(const Marks& marks, const MarkedPlace& place);

/// How often each of the looks is seen, over a large face seen upright.
std::vector<float> shares_of_looks(const Marks& marks);

}  // namespace rakelight
