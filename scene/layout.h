// What a layout file says, as plain values: the artist's wishes, checked, nothing computed yet.
// Panel coordinates: origin at the lower left corner of the substrate's front, x right, y up, z out of the
// wall, millimetres. Room coordinates: origin on the floor at the foot of the wall, below the panel's centre,
// x right (seen by the viewer), y up, z out of the wall into the room, millimetres.
#pragma once

#include <cstdint>
#include <glm/glm.hpp>
#include <optional>
#include <string>
#include <vector>

#include "materials/material.h"

namespace rakelight {

/// Where in the layout file a value was written, for messages that come after reading. Lines count from 1.
struct Place {
    std::string file;
    int line = 0;
    int column = 0;
};

/// A line or an outline on the panel. `smooth`: a curve through the points, not straight segments.
struct Stroke {
    std::vector<glm::dvec2> points_mm;
    bool smooth = false;
    bool closed = false;
    Place place;
};

enum class Opus { regulatum, tessellatum, musivum, vermiculatum, palladianum };

struct MixPart {
    std::string material;  ///< a name in `Layout::stock`
    double share = 1;      ///< 0..1; the shares of a field sum to 1
};

/// An area laid one way with one mix. Fields are listed as they are laid: the first takes its outline whole,
/// each later one takes what is left within its own outline (figures first, background last).
struct Field {
    std::string name;
    Stroke outline;              ///< closed; the whole panel when the file gives none
    std::vector<Stroke> guides;  ///< andamento lines, open or closed
    Opus opus = Opus::tessellatum;
    double piece_length_mm = 10;  ///< along the row
    double piece_width_mm = 10;   ///< across the row
    double joint_mm = 1.5;
    double angle_deg = 0;  ///< direction of straight rows, counter-clockwise from x
    int halo_rows = 0;     ///< rows that follow the field's outline before the guides take over
    std::vector<MixPart> mix;
    std::string bed;          ///< name in `Layout::tints`
    std::string grout;        ///< name in `Layout::tints`; empty = joints left open, bed seen
    std::string zone;         ///< grout zone; defaults to the grout's name
    double recess_mm = 1;     ///< grout (or squeezed-up bed) below the faces
    double tilt_deg = 1.5;    ///< standard deviation per axis
    double lippage_mm = 0.5;  ///< standard deviation of the height of the faces
    double thickness_mm = 0;  ///< 0 = the material's own
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
    double panel_centre_height_mm = 1450;
    double lean_deg = 0;  ///< top of the panel leaning into the room
};

enum class LampForm { spot, bulb, panel };

/// A lamp. Candela or lumen is given, not both; colour by temperature or by a named illuminant, not both.
struct Lamp {
    std::string name;
    std::string group;  ///< lamps of a group are dimmed together; defaults to the name
    LampForm form = LampForm::spot;
    glm::dvec3 at_mm{};   ///< room coordinates, centre of the luminous face
    glm::dvec3 aim_mm{};  ///< room coordinates; for spot and panel
    double lumen = 0;
    double candela = 0;           ///< centre-beam; 0 = from lumen
    double beam_deg = 24;         ///< spot: full angle at 50 % of the centre beam
    double field_deg = 0;         ///< spot: full angle at 10 %; 0 = as a cosine power with this beam
    double width_mm = 60;         ///< diameter of spot and bulb; panel width
    double height_mm = 60;        ///< panel height
    double temperature_k = 3000;  ///< below 5000 K a Planckian, from 5000 K up daylight
    std::string illuminant;       ///< A, D65, F11, LED-B3 ...; empty = by temperature
    double dimming = 1;           ///< 0..1
    Place place;
};

struct Viewpoint {
    std::string name;
    glm::dvec3 eye_mm{};       ///< room coordinates
    glm::dvec3 look_at_mm{};   ///< room coordinates; the panel's centre unless told
    double view_width_mm = 0;  ///< width of the view at the looked-at point, > 0
    Place place;
};

struct Picture {
    std::string name;
    std::string viewpoint;
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

struct Layout {
    std::string name;  ///< of the panel
    std::string path;  ///< the file it was read from
    double width_mm = 0;
    double height_mm = 0;
    std::uint64_t seed = 1;
    Substrate substrate;
    std::optional<Frame> frame;
    std::vector<Material> stock;  ///< only the materials the layout uses, resolved
    std::vector<Material> tints;  ///< bed and grout tints the layout uses, resolved (kind cement or epoxy)
    std::vector<Field> fields;
    std::vector<PlacedStone> stones;
    Room room;
    std::vector<Lamp> lamps;
    std::vector<Viewpoint> viewpoints;
    std::vector<Picture> pictures;
    std::vector<std::string> warnings;  ///< in order, but the trade would object; one a line, with its place
};

}  // namespace rakelight
