// Tonal studies of a picture: what an artist sees with half-closed eyes. In greys, in three and in five
// values, out of focus, and from some distances as an eye resolves it; a reference picture likewise.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "output/print/develop.h"
#include "output/study/tones.h"
#include "scene/mix/reference_picture.h"

namespace rakelight {

/// One picture of the sheet.
struct StudyView {
    std::string name;
    Print print;
};

struct Study {
    double mm_per_px = 0;          ///< at the panel, in mid-picture
    std::vector<StudyView> views;  ///< as laid, in greys, three values, five values, out of focus, from afar
    std::vector<StudyView>
        reference;  ///< of the reference picture: as it is, in greys, three values, five values
    std::vector<double> three, five;  ///< levels of L*, dark first
    double mean_l = 0, spread_l = 0;  ///< of the print's lightness, panel alone, as values are taken from
    std::vector<FieldTone> fields;    ///< empty = no layout was read
};

/// Distances that the panel is shown from, m.
inline constexpr double kStudyDistances_m[] = {2, 5, 10};
/// Values are taken of what is seen from this far: shapes, not pieces.
inline constexpr double kValuesFrom_m = 5;
/// Out of focus: the width of the blur at half its height, of the picture's panel.
inline constexpr double kOutOfFocus = 0.03;

/// `laid`: empty names = no figures by field. \throws RequestError when the picture shows no pieces or no
/// light falls on the panel.
Study make_study(const NotedFilm& noted, const StudiedFields& laid,
                 const std::optional<ReferencePicture>& reference);

}  // namespace rakelight
