// What a file of samples says, checked in itself; the pictures are not yet looked at.
#pragma once

#include <array>
#include <glm/glm.hpp>
#include <optional>
#include <string>
#include <vector>

#include "materials/colour/spectrum.h"
#include "materials/optics/material.h"
#include "materials/optics/plate.h"
#include "scene/text/place.h"

namespace rakelight {

/// Something of the file with the place where it is said, for messages.
struct Said {
    Place place;
    std::string key;
};

/// What places in a photograph count in: its pixels, or millimetres on the printed sheet of marks in it, from
/// the upper left corner of the sheet's frame.
enum class Places { in_pixels, on_sheet };

/// A rectangle of a picture, pixels, or of the printed sheet in it, mm; y down.
struct PictureBox {
    glm::dvec2 at{};
    glm::dvec2 size{};
    Said said;
    glm::dmat3 to_px{1};  ///< from there to the picture's pixels
};

/// What a sample lies on.
enum class Over { alone, white, black };

/// Where the light comes from: from about 45 degrees, or evenly from everywhere.
enum class LitFrom { side, all_round };

struct SampleSpot {
    std::string name;
    Over over = Over::alone;
    PictureBox box;
};

enum class Tone { by_format, camera, linear };

struct PhotographSaid {
    std::string picture;  ///< as a path that can be opened
    Said said;
    Places places = Places::in_pixels;
    Said places_said;
    std::optional<std::array<glm::dvec2, 4>> corners;  ///< of dark skin, bluish green, black, white
    Said chart_said;
    std::string light = "unknown daylight";  ///< in words
    Spectrum spectrum;                       ///< of it; D65 where it is unknown daylight
    LitFrom lit_from = LitFrom::side;
    Lying glass_lies = Lying::dry;  ///< on its cards
    Tone tone = Tone::by_format;
    std::vector<PictureBox> white_sheet;
    std::optional<PictureBox> white_card, black_card;
    std::vector<SampleSpot> spots;
};

struct SampleSaid {
    std::string name;
    Said said;
    Material material;  ///< kind, face and thickness; no colour yet
    bool has_thickness = false;
    std::optional<double> milkiness_per_mm;
};

struct SampleFile {
    std::string path;
    std::string date;  ///< ISO 8601
    std::vector<PhotographSaid> photographs;
    std::vector<SampleSaid> samples;
};

/// \throws LayoutError with every problem and its place: unknown keys, two samples of one name, a sample that
/// is in no photograph or not described, glass over a card without a thickness, rectangles on each other.
SampleFile read_sample_file(const std::string& path);

/// The same from a text. `path` names it, and other files are beside it.
SampleFile read_sample_text(std::string_view text, const std::string& path);

}  // namespace rakelight
