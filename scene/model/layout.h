// What a layout file says, as plain values: the artist's wishes, checked, nothing computed yet.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "materials/optics/material.h"
#include "scene/model/field.h"
#include "scene/model/lighting.h"
#include "scene/model/panel.h"
#include "scene/model/piece_row.h"
#include "scene/model/room.h"
#include "scene/model/views.h"
#include "scene/text/place.h"
#include "scene/text/shown_units.h"

namespace rakelight {

struct Layout;
struct LayoutTree;

/// Another panel on the same wall, its centre as high and its lean the same: the other half of a diptych.
struct Beside {
    std::string file;    ///< as written
    double gap_mm = 40;  ///< between the frames, or where there are none between the panels
    bool on_left = false;
    bool lamps_lit = false;  ///< its own lamps hang before it here as well
    Place place;
    std::shared_ptr<const Layout> layout;  ///< what the file says; only its panel counts here
};

/// The files that a layout is read from.
struct Sources {
    std::string path;  ///< the layout file
    /// Files it names that were read with it, paths as opened: the layout it is like, stock libraries,
    /// drawing, pictures, curves, piece table. With the layout file itself and `changes` they are all that a
    /// laying depends on.
    std::vector<std::string> files;
    std::vector<std::string> changes;  ///< asked for beside it, as "fields.sea.grout=black"
    std::shared_ptr<const LayoutTree>
        tree;  ///< all that was read as YAML, merged and changed (layout_tree.h)
};

/// Everything that a layout file says. A function takes the part that it needs.
struct Layout {
    Sources sources;
    Units units = Units::metric;  ///< that lengths and weights are shown in; what is read has its own
    Panel panel;
    std::vector<Material> stock;  ///< only the materials the layout uses, resolved
    std::vector<Material> tints;  ///< bed and grout tints the layout uses, resolved (kind cement or epoxy)
    std::vector<Field> fields;
    std::vector<PlacedStone> stones;
    std::string pieces_file;           ///< piece table that is taken instead of laying; empty = lay
    std::vector<PieceRow> piece_rows;  ///< what it lists, stones included
    Room room;
    std::optional<Beside> beside;
    Lighting on;                      ///< the light that is on (with_light.h)
    std::vector<Lighting> set_ups;    ///< its own light, those it defines, known ones it names
    std::vector<std::string> lights;  ///< the set-ups it is to be shown in; the first one is on
    Views views;
    std::vector<std::string> warnings;  ///< in order, but the trade would object; one a line, with its place
};

}  // namespace rakelight
