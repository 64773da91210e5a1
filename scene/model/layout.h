// What a layout file says, as plain values: the artist's wishes, checked, nothing computed yet.
// Panel coordinates: origin at the lower left corner of the substrate's front, x right, y up, z out of the
// wall, millimetres. Room coordinates: origin on the floor at the foot of the wall, below the panel's centre,
// x right (seen by the viewer), y up, z out of the wall into the room, millimetres.
#pragma once

#include <cstdint>
#include <glm/glm.hpp>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "materials/colour/spectrum.h"
#include "materials/optics/material.h"
#include "scene/geometry/stroke.h"
#include "scene/model/daylight.h"
#include "scene/model/lamp_fittings.h"
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
    pebbles
};

/// One drawn shape of a sectile field.
struct DrawnShape {
    Stroke outline;        ///< closed
    std::string material;  ///< a name in `Layout::stock`; empty = from the field's mix
};

/// Large stones strewn in a field, as accents for its rows to part round.
struct Boulders {
    std::string material;        ///< a name in `Layout::stock`
    int count = 0;               ///< 0 = none
    glm::dvec2 size_mm{25, 45};  ///< length of the smallest and of the largest
    double proud = 0.45;         ///< share of its height that stands above the faces round it
    std::string form = "chunk";  ///< as of a PlacedStone
};

struct MixPart {
    std::string material;  ///< a name in `Layout::stock`
    double share = 1;      ///< 0..1; the shares of a field sum to 1
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
    std::string file;                                  ///< as written
    glm::dvec2 at_mm{};                                ///< lower left corner on the panel
    double width_mm = 1;                               ///< on the panel; its height follows
    std::vector<std::string> from;                     ///< names in `Layout::stock`, none twice
    std::vector<std::pair<std::string, int>> at_most;  ///< pieces of some of `from` in this field
    double diffusion = 0;   ///< 0..1: share of each piece's error of colour that its neighbours make good
    std::string elsewhere;  ///< where there is no picture; empty = the picture covers the field
};

/// Stray pieces, spread well apart.
struct Accent {
    std::string material;
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
    bool rows_across = false;        ///< rows at right angles to the guides, not along them
    Opus opus = Opus::tessellatum;
    double piece_length_mm = 10;  ///< along the row
    double piece_width_mm = 10;   ///< across the row
    double joint_mm = 1.5;
    double angle_deg = 0;           ///< direction of straight rows, counter-clockwise from x
    int halo_rows = 0;              ///< rows that follow the field's outline before the guides take over
    std::vector<MixPart> mix;       ///< with a shift or a picture: all that may be laid, in its mean share
    std::optional<MixShift> shift;  ///< instead of the even mix
    std::optional<MixPicture> picture;  ///< instead of the even mix
    std::vector<Accent> accents;        ///< their materials are in `mix` too, share 0 unless mixed as well
    Place mix_place;
    std::string bed;                 ///< name in `Layout::tints`
    std::string grout;               ///< name in `Layout::tints`; empty = joints left open, bed seen
    std::string zone;                ///< grout zone; defaults to the grout's name
    double recess_mm = 1;            ///< grout (or squeezed-up bed) below the faces
    double fill = 0;                 ///< joints are filled to this share of the thinnest piece; 0 = by recess
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

/// One stone set by hand. Stones are laid before all fields, which flow round them.
struct PlacedStone {
    std::string material;
    glm::dvec2 at_mm{};              ///< centre on the panel
    glm::dvec3 size_mm{30, 25, 18};  ///< length, width, height over all
    double turn_deg = 0;             ///< counter-clockwise
    double proud_mm = 10;            ///< highest point above the faces round it (5 to 60)
    std::string form = "chunk";      ///< chunk (broken) or pebble (water-worn)
    std::uint64_t seed = 0;
    Place place;
};

/// A piece or a stone as a piece table lists it (piece_table.h); what the table leaves empty has no value.
struct PieceRow {
    std::string form;      ///< of form_words.h; empty = as its field's pieces
    std::string field;     ///< a name in `Layout::fields`; empty for a stone, which is a chunk or a pebble
    std::string material;  ///< a name in `Layout::stock`
    std::optional<std::uint32_t> number;
    std::optional<double> x_mm, y_mm;  ///< centre on the panel
    std::optional<double> rotation_deg;
    std::optional<double> length_mm, width_mm;  ///< of a stone
    std::optional<double> thickness_mm;
    std::optional<double>
        height_mm;  ///< of the face's centre, or a stone's highest point, above the substrate
    std::optional<double> tilt_x_deg, tilt_y_deg;
    std::optional<double> dome_mm;
    std::optional<std::uint64_t> seed;
    std::vector<glm::dvec2> outline_mm;
    Place place;
    std::string key;  ///< path of the row in a JSON table
    /// Without a field a chunk or a pebble is a stone.
    bool is_stone() const { return field.empty() && (form == "chunk" || form == "pebble"); }
};

struct Substrate {
    std::string material;  ///< name in stock
    double thickness_mm = 12;
    double bed_mm = 2;  ///< thickness of the setting bed
};

struct Frame {
    std::string material;  ///< name in stock (timber)
    double width_mm = 20;  ///< seen from the front
    double proud_mm = 6;   ///< above the usual faces of the panel
    double gap_mm = 0;     ///< shadow gap between the work and the frame
};

/// Hanging gear holds a panel this far off the wall; common practice, no published source.
inline constexpr double kWallGap_mm = 12;

/// A box room. The panel hangs on the wall z = 0.
struct Room {
    double width_mm = 5000;
    double depth_mm = 6000;
    double height_mm = 3000;
    std::string wall;  ///< paint, names in stock
    std::string floor;
    std::string ceiling;
    std::string left_wall, right_wall, opposite_wall, panel_wall;  ///< paint; empty = as `wall`
    std::vector<Window> windows;
    std::vector<Furniture> furniture;
    double panel_centre_height_mm = 1450;
    double lean_deg = 0;  ///< top of the panel leaning into the room
};

/// lamp_forms.h says of each what it takes and what its sizes mean, in the same order.
enum class LampForm { spot, bulb, panel, strip, lantern, picture_light, measured };

struct PhotometricFile;

/// A lamp. Candela or lumen is given, not both (or neither, of a measured one); colour by temperature, a
/// named illuminant or its own spectrum.
struct Lamp {
    std::string name;
    std::string group;  ///< lamps of a group are dimmed together; defaults to the name
    LampForm form = LampForm::spot;
    glm::dvec3 at_mm{};                  ///< room coordinates, centre of the luminous face
    glm::dvec3 aim_mm{};                 ///< room coordinates; for forms that face one way
    std::optional<glm::dvec3> faces_mm;  ///< strip: where its opening faces when its beam is aimed elsewhere
    double turn_deg = 0;                 ///< about the axis, counter-clockwise as seen along the beam
    double lumen = 0;
    double candela = 0;  ///< centre-beam, of a lantern sideways, of a measured lamp the most; 0 = from lumen
    double beam_deg = 24;   ///< spot: full angle at 50 % of the centre beam; strip: across it, 0 = matte
    double field_deg = 0;   ///< full angle at 10 %; 0 = as a cosine power with this beam
    double width_mm = 60;   ///< the first size of its form (lamp_forms.h): a diameter, width or length
    double height_mm = 60;  ///< the second one, if it has two
    std::shared_ptr<const PhotometricFile> measured;  ///< LM-63 file of a measured lamp
    LampFittings fittings;
    double temperature_k = 3000;       ///< below 5000 K a Planckian, from 5000 K up daylight
    std::string illuminant;            ///< A, D65, F11, LED-B3 ...; empty = by temperature
    std::optional<Spectrum> spectrum;  ///< the lamp's own, relative; instead of both
    double dimming = 1;                ///< 0..1
    Place place;
};

/// Lamps, windows and daylight that belong together: one way to light the room.
struct LightSetUp {
    std::string name;
    std::vector<Lamp> lamps;
    std::vector<Window> windows;
    Daylight daylight;
    Place place;
};

/// How lines of the room are drawn. `natural`: the picture lies across the line of sight, as an eye sees;
/// `upright`: it stands upright and is shifted, so that verticals stay vertical; `square`: it is parallel to
/// the panel's wall, so that level lines along the wall stay level as well.
enum class Perspective { natural, upright, square };

struct Viewpoint {
    std::string name;
    std::string walk;          ///< the walk past the panel of which it is a step; empty = none
    glm::dvec3 eye_mm{};       ///< room coordinates
    glm::dvec3 look_at_mm{};   ///< room coordinates; the panel's centre unless told
    double view_width_mm = 0;  ///< width of the view at the looked-at point, > 0
    double focal_length_mm =
        0;  ///< of a lens before film of 36 x 24 mm, from which the width follows; 0 = none
    Perspective perspective = Perspective::natural;
    Place place;
};

struct Picture {
    std::string name;
    std::string viewpoint;
    std::string light;               ///< a set-up of light; empty = any of `Layout::lights`
    std::vector<std::string> lamps;  ///< lamp or group names; empty = all
    int width_px = 1200;
    int height_px = 900;
    std::optional<double> ev;  ///< exposure value at ISO 100; none = by `exposure`
    std::string exposure =
        "grey-card";      ///< grey-card (an 18 % card on the panel), eye (adapted to the picture)
    double error = 0.02;  ///< wanted relative error of a pixel
    int most_samples = 512;
    Place place;
};

struct Layout;

/// Another panel on the same wall, its centre as high and its lean the same: the other half of a diptych.
struct Beside {
    std::string file;    ///< as written
    double gap_mm = 40;  ///< between the frames, or where there are none between the panels
    bool on_left = false;
    Place place;
    std::shared_ptr<const Layout> layout;  ///< what the file says; only its panel counts here
};

struct Layout {
    std::string name;  ///< of the panel
    std::string path;  ///< the file it was read from
    /// Files it names that were read with it, paths as opened: drawing, pictures, curves, piece table. With
    /// the layout file itself they are all that a laying depends on.
    std::vector<std::string> source_files;
    double width_mm = 0;
    double height_mm = 0;
    std::uint64_t seed = 1;
    Substrate substrate;
    std::optional<Frame> frame;
    std::vector<Material> stock;  ///< only the materials the layout uses, resolved
    std::vector<Material> tints;  ///< bed and grout tints the layout uses, resolved (kind cement or epoxy)
    std::vector<Field> fields;
    std::vector<PlacedStone> stones;
    std::string pieces_file;           ///< piece table that is taken instead of laying; empty = lay
    std::vector<PieceRow> piece_rows;  ///< what it lists, stones included
    Room room;
    Daylight daylight;
    std::optional<Beside> beside;
    std::vector<Lamp> lamps;
    std::string light;  ///< the set-up that `lamps`, `room.windows` and `daylight` are of (with_light.h)
    std::vector<std::string> lights;  ///< the set-ups it is to be shown in; the first one is on
    std::vector<LightSetUp> set_ups;  ///< its own light, those it defines, known ones it names
    std::vector<Viewpoint> viewpoints;
    std::vector<Picture> pictures;
    std::vector<std::string> warnings;  ///< in order, but the trade would object; one a line, with its place
};

}  // namespace rakelight
