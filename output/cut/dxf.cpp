#include "output/cut/dxf.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "output/cut/drawing.h"

namespace rakelight {

namespace {

class Dxf {
  public:
    void put(int code, std::string_view value) {
        fmt::format_to(std::back_inserter(text), "{:3d}\r\n{}\r\n", code, value);
    }
    void put(int code, int value) { put(code, fmt::format("{:6d}", value)); }
    void put(int code, double value) { put(code, fmt::format("{:.4f}", value)); }
    void point(int code, const glm::dvec2& p) {
        put(code, p.x);
        put(code + 10, p.y);
        put(code + 20, 0.0);
    }
    void begin(std::string_view section) {
        put(0, "SECTION");
        put(2, section);
    }
    void end() { put(0, "ENDSEC"); }

    std::string text;
};

constexpr const char* kCut = "CUT";
constexpr const char* kNames = "NAMES";
constexpr const char* kSlab = "SLAB";
constexpr const char* kUnbroken = "CONTINUOUS";

void header(Dxf& dxf, const glm::dvec2& slab_mm) {
    dxf.begin("HEADER");
    dxf.put(9, "$ACADVER");
    dxf.put(1, "AC1009");
    dxf.put(9, "$EXTMIN");
    dxf.point(10, {0, 0});
    dxf.put(9, "$EXTMAX");
    dxf.point(10, slab_mm);
    dxf.end();
}

void layer(Dxf& dxf, const char* name, int colour) {
    dxf.put(0, "LAYER");
    dxf.put(2, name);
    dxf.put(70, 0);
    dxf.put(62, colour);
    dxf.put(6, kUnbroken);
}

void tables(Dxf& dxf) {
    dxf.begin("TABLES");
    dxf.put(0, "TABLE");
    dxf.put(2, "LTYPE");
    dxf.put(70, 1);
    dxf.put(0, "LTYPE");
    dxf.put(2, kUnbroken);
    dxf.put(70, 0);
    dxf.put(3, "Solid line");
    dxf.put(72, 65);
    dxf.put(73, 0);
    dxf.put(40, 0.0);
    dxf.put(0, "ENDTAB");
    dxf.put(0, "TABLE");
    dxf.put(2, "LAYER");
    dxf.put(70, 3);
    layer(dxf, kCut, 1);
    layer(dxf, kNames, 3);
    layer(dxf, kSlab, 8);
    dxf.put(0, "ENDTAB");
    dxf.end();
}

void closed_line(Dxf& dxf, const char* on, const Ring& ring, const glm::dvec2& shift_mm) {
    dxf.put(0, "POLYLINE");
    dxf.put(8, on);
    dxf.put(66, 1);
    dxf.point(10, {0, 0});
    dxf.put(70, 1);
    for (const glm::dvec2& p : ring) {
        dxf.put(0, "VERTEX");
        dxf.put(8, on);
        dxf.point(10, p + shift_mm);
    }
    dxf.put(0, "SEQEND");
    dxf.put(8, on);
}

void name(Dxf& dxf, const CutShape& shape, const glm::dvec2& shift_mm) {
    const NameOnPiece word = name_on(shape);
    if (!(word.height_mm > 0)) return;
    dxf.put(0, "TEXT");
    dxf.put(8, kNames);
    dxf.point(10, word.at_mm + shift_mm);
    dxf.put(40, word.height_mm);
    dxf.put(1, shape.name);
    dxf.put(72, 1);  // centred
    dxf.point(11, word.at_mm + shift_mm);
    dxf.put(73, 2);  // on its middle
}

}  // namespace

std::string slab_dxf(const CutSlab& slab, const std::vector<CutShape>& shapes, const glm::dvec2& slab_mm) {
    Dxf dxf;
    header(dxf, slab_mm);
    tables(dxf);
    dxf.begin("ENTITIES");
    for (const PlacedShape& placed : slab.shapes) {
        std::vector<Ring> rings = shapes[placed.shape].path.rings;
        // Holes run clockwise and have negative areas.
        std::ranges::stable_sort(rings, {}, [](const Ring& ring) { return area_mm2(ring); });
        for (const Ring& ring : rings) closed_line(dxf, kCut, ring, placed.shift_mm);
        name(dxf, shapes[placed.shape], placed.shift_mm);
    }
    closed_line(dxf, kSlab, {{0, 0}, {slab_mm.x, 0}, slab_mm, {0, slab_mm.y}}, {0, 0});
    dxf.end();
    dxf.put(0, "EOF");
    return dxf.text;
}

}  // namespace rakelight
