// Figures of a film: what its record says of all its pixels together.
#pragma once

#include <vector>

#include "output/film/film_source.h"

namespace rakelight {

struct PictureFigures {
    std::vector<double> group_mean_cd_per_m2;  ///< of each lamp group
    double least_cd_per_m2 = 0;                ///< of all groups together, here and below
    double mean_cd_per_m2 = 0;
    double log_mean_cd_per_m2 = 0;  ///< see eye_luminance_cd_per_m2
    double most_cd_per_m2 = 0;
    int fewest_samples = 0;
    double mean_samples = 0;
    int most_samples = 0;
    double error_cd_per_m2 = 0;          ///< mean standard error of a pixel
    double error_of_mean_cd_per_m2 = 0;  ///< of the mean; pixels are traced each for itself: variances add
};

/// Of all rows of the source, read band by band, top to bottom.
PictureFigures figures_of(const FilmSource& source);

/// The light of all groups and its standard error, of some rows, as a film of these rows alone with one
/// group.
Film rows_of(const FilmSource& source, const RowRange& rows);

/// The same with all that a filter asks for. Precondition: the film of the source has its guide.
Film guided_rows_of(const FilmSource& source, const RowRange& rows);

}  // namespace rakelight
