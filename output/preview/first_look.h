// A first look at a picture before it is traced: whole, small and grainy, in a fraction of a second.
#pragma once

#include "output/film/film_file.h"
#include "output/preview/lit_rooms.h"
#include "renderer/film.h"
#include "scene/model/views.h"

namespace rakelight {

/// How coarse a look is.
struct LookSize {
    int divisor = 4;  ///< of the picture's width and height
    int paths = 1;    ///< of each of its pixels
};

inline constexpr LookSize kFirstLook{4, 1};
inline constexpr LookSize kSecondLook{2, 4};  ///< for pictures whose first pass takes long

/// Whether a picture takes so long that a look at it is worth its while.
bool is_worth_a_look(const Picture& picture);
/// The same of the second look.
bool is_worth_a_second_look(const Picture& picture);

/// What forms need to be told for the first look at a picture, mm: two of its pixels on the panel.
double look_detail_mm(const Views& views, const Picture& picture);

/// The look itself, as a film of its own size, and its notes: those of the picture but for the width of a
/// pixel. \throws RequestError as `notes_of`; Cancelled when a signal came.
NotedFilm look_at(const LitRooms::Room& room, const Picture& picture, const LookSize& size);

}  // namespace rakelight
