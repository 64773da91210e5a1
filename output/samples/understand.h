// What photographs of samples say, put together: from the file of samples to a material each, with what is
// left open and what is to be warned of.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "materials/photograph/chart_fit.h"
#include "materials/photograph/colour_range.h"
#include "output/print/develop.h"
#include "output/samples/sample_file.h"
#include "output/samples/spots.h"

namespace rakelight {

/// A photograph with its chart understood.
struct ReadPhotograph {
    std::string picture;  ///< name without folders
    std::string light;
    Spectrum spectrum;  ///< of the light
    bool linear = false;
    bool chart_found = false;  ///< by itself
    ChartCorners corners{};
    std::optional<double> sheet_misfit_mm;  ///< of the printed sheet, where places are told on it
    ChartFit fit;
};

/// Of the part of a picture that is shown.
inline constexpr glm::ivec2 kCutOut_px{200, 180};

/// A sample as it looks over one thing, from all photographs of it.
struct Look {
    Over over = Over::alone;
    std::size_t photographs = 0;   ///< how many
    ReflectanceEstimate estimate;  ///< reflectance factor as lit, mirrored part and all
    std::vector<ColourRange> ranges;
    SampledSpectrum rendered;  ///< the same, of the material as it renders
    Print cut_out;             ///< of the first photograph
    std::size_t first_photograph = 0;
};

struct ReadSample {
    std::string name;
    Material material;
    LitFrom lit = LitFrom::side;
    Lying lies = Lying::dry;
    std::vector<Look> looks;
    bool milkiness_assumed = false;
};

struct SamplesReport {
    std::string program, samples_file, date;
    std::vector<ReadPhotograph> photographs;
    SampledSpectrum white_card, black_card;  ///< as seen, or assumed
    bool white_card_assumed = false, black_card_assumed = false;
    std::vector<ReadSample> samples;
    std::vector<std::string> warnings;  ///< one a line, with place
};

/// \throws LayoutError with places when a picture, a chart or a rectangle cannot be used.
SamplesReport understand(const SampleFile& file, const std::string& program);

}  // namespace rakelight
