// A field of the panel as plain values: an area laid one way with one mix, and the stones set by hand.
// Panel coordinates (panel.h).
#pragma once

#include <cstdint>
#include <glm/glm.hpp>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "scene/geometry/stroke.h"
#include "scene/model/setting.h"
#include "scene/text/place.h"

namespace rakelight {

/// A way of laying: opera.h defines each, and has their words and figures in the same order.
enum class Opus {
    regulatum,
    tessellatum,
    musivum,
    vermiculatum,
    palladianum,
    classicum,
    sectile,
    fans,
    pebbles,
    beads
};

/// One drawn shape of a sectile field.
struct DrawnShape {
    Stroke outline;                         ///< closed
    std::optional<std::uint32_t> material;  ///< index in `Layout::stock`; none = from the field's mix
};

/// Large stones strewn in a field, as accents for its rows to part round.
struct Boulders {
    std::uint32_t material = 0;  ///< index in `Layout::stock`
    int count = 0;               ///< 0 = none
    glm::dvec2 size_mm{25, 45};  ///< length of the smallest and of the largest
    double proud = 0.45;         ///< share of its height that stands above the faces round it
    std::string form = "chunk";  ///< as of a PlacedStone
};

struct MixPart {
    std::uint32_t material = 0;  ///< index in `Layout::stock`
    double share = 1;            ///< 0..1; the shares of a field sum to 1
};

/// A mix that changes from place to place: shades at stations, strewn into one another between them.
struct MixShift {
    /// What a station is measured by: the share of the line's length at its nearest point; the distance from
    /// it, positive to its left as it was drawn, in mm; the distance on either side, in mm; the share of the
    /// field's extent along `direction_deg`.
    enum class By { along, across, away, towards };
    By by = By::along;
    Stroke line;                     ///< of all but `towards`
    std::vector<Stroke> more_lines;  ///< of `away`: other rings of the same edge; the nearest counts
    double direction_deg = 0;        ///< of `towards`, counter-clockwise from x
    std::vector<std::vector<MixPart>> shades;  ///< at least two
    std::vector<double> at;  ///< station of each shade, increasing; empty = even steps over the whole field
    bool reversed = false;   ///< `at` is empty and the last shade comes first
    double blend = 1;        ///< 0..1: share of the way between two stations on which both shades are found
};

struct ReferencePicture;  // reference_picture.h

/// A mix that follows a picture: each piece the stock nearest to the colour under it.
struct MixPicture {
    std::shared_ptr<const ReferencePicture> picture;
    std::string file;                                    ///< as written
    glm::dvec2 at_mm{};                                  ///< lower left corner on the panel
    double width_mm = 1;                                 ///< on the panel; its height follows
    std::vector<std::uint32_t> from;                     ///< indices in `Layout::stock`, none twice
    std::vector<std::pair<std::uint32_t, int>> at_most;  ///< pieces of some of `from` in this field
    double diffusion = 0;  ///< 0..1: share of each piece's error of colour that its neighbours make good
    std::optional<std::uint32_t> elsewhere;  ///< where there is no picture; none = it covers the field
};

/// Stray pieces, spread well apart.
struct Accent {
    std::uint32_t material = 0;  ///< index in `Layout::stock`
    int count = 0;
};

/// An area laid one way with one mix. Fields are listed as they are laid: the first takes its outline whole,
/// each later one takes what is left within its own outline (figures first, background last).
struct Field {
    std::string name;
    Stroke outline;                  ///< closed; the whole panel when the file gives none
    std::vector<Stroke> more_rings;  ///< closed; islands and holes: with the outline, by the even-odd rule
    std::vector<Stroke> guides;      ///< andamento lines, open or closed
    std::vector<Stroke> breaks;      ///< lines across which the andamento is not blended; rows end there
    bool mitred_seams = false;       ///< where rows of two guides meet they end on one line, mitred
    bool rows_across = false;        ///< rows at right angles to the guides, not along them
    Opus opus = Opus::tessellatum;
    double piece_length_mm = 10;  ///< along the row
    double piece_width_mm = 10;   ///< across the row
    glm::dvec2 sizes_mm{0};       ///< of palladianum: the smallest and the largest; 0 = all about alike
    double joint_mm = 1.5;
    double angle_deg = 0;  ///< direction of straight rows, counter-clockwise from x
    int halo_rows = 0;     ///< rows that follow the field's outline before the guides take over
    std::vector<std::string> halo_round;  ///< fields that they follow; empty = all that the field borders on
    bool halo_at_panel_edge = false;      ///< whether they follow the panel's edge as well
    std::vector<MixPart> mix;       ///< with a shift or a picture: all that may be laid, in its mean share
    std::optional<MixShift> shift;  ///< instead of the even mix
    std::optional<MixPicture> picture;  ///< instead of the even mix
    std::vector<Accent> accents;        ///< their materials are in `mix` too, share 0 unless mixed as well
    Place mix_place;
    std::uint32_t bed = 0;               ///< index in `Layout::tints`
    std::optional<std::uint32_t> grout;  ///< index in `Layout::tints`; none = joints left open, bed seen
    std::string zone;                    ///< grout zone; defaults to the grout's name
    double recess_mm = 1;                ///< grout (or squeezed-up bed) below the faces
    double fill = 0;                 ///< joints are filled to this share of the thinnest piece; 0 = by recess
    double wash = 0;                 ///< share of rough stones' faces on which a film of the filling stays
    double tilt_deg = 1.5;           ///< standard deviation per axis
    double lippage_mm = 0.5;         ///< standard deviation of the height of the faces
    double thickness_mm = 0;         ///< 0 = the material's own
    Setting setting;                 ///< how the hand sets and what it sets
    std::vector<DrawnShape> shapes;  ///< of a sectile field
    double fan_radius_mm = 0;        ///< of a field of fans; 0 = ten pieces' width
    bool on_edge = false;            ///< pebbles stand on edge, thin side up
    Boulders boulders;
    Place place;
};

/// Tint that fills a field's joints: its grout, or where they are left open the bed squeezed up.
inline std::uint32_t filling_of(const Field& field) {
    return field.grout.value_or(field.bed);
}

/// One stone set by hand. Stones are laid before all fields, which flow round them.
struct PlacedStone {
    std::uint32_t material = 0;      ///< index in `Layout::stock`
    glm::dvec2 at_mm{};              ///< centre on the panel
    glm::dvec3 size_mm{30, 25, 18};  ///< length, width, height over all
    double turn_deg = 0;             ///< counter-clockwise
    double proud_mm = 10;            ///< highest point above the faces round it (5 to 60)
    std::string form = "chunk";      ///< chunk (broken) or pebble (water-worn)
    std::uint64_t seed = 0;
    Place place;
};

}  // namespace rakelight
