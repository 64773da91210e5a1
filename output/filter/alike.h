// Non-local means: how much alike the surroundings of two pixels are, once what noise alone would make them
// differ by is taken off. Source: Rousselle, Knaus and Zwicker, ACM Trans. Graph. 31 (2012) 195, whose two
// buffers are the half-films here: weights found in one are used on the other, so that noise does not choose
// itself.
#pragma once

#include <vector>

#include "output/filter/body_light.h"

namespace rakelight::filter {

/// Pixels to each side from which a pixel takes light, and those of the patches that are compared.
inline constexpr int kReach_px = 7;
inline constexpr int kPatch_px = 1;
inline constexpr int kSide = 2 * kReach_px + 1;
inline constexpr int kNeighbours = kSide * kSide;

/// Pixels of a tile, in eights across.
inline constexpr int kTileEights = 8, kTileRows = 8;

/// A place beside a pixel, `number` of kNeighbours.
struct Aside {
    int dx, dy;
    explicit Aside(int number) : dx(number % kSide - kReach_px), dy(number / kSide - kReach_px) {}
};

/// Weights of the neighbours of a tile's pixels, found in one half-film.
class Weights {
  public:
    Floats& at(int neighbour, int row, int eight) {
        return values_[static_cast<std::size_t>((neighbour * kTileRows + row) * kTileEights + eight)];
    }

  private:
    std::vector<Floats> values_ =
        std::vector<Floats>(static_cast<std::size_t>(kNeighbours * kTileRows * kTileEights));
};

/// Weighs the neighbours of the pixels of the tile whose upper left one is (left, top), by each half-film. A
/// bright colour weighs more, as the noise of light over it is less.
void weigh(const BodyLight& light, int left, int top, Weights& by_first, Weights& by_second);

}  // namespace rakelight::filter
