#include "scene/pieces/piece_table.h"

#include <fmt/format.h>

#include <cmath>
#include <filesystem>
#include <iterator>
#include <nlohmann/json.hpp>

#include "scene/model/form_words.h"
#include "scene/model/layout.h"
#include "scene/pieces/piece_numbers.h"
#include "scene/text/csv.h"

namespace rakelight {

namespace {

// A piece or a stone in the words of the table.
struct Entry {
    std::string id;
    std::string field;
    std::uint32_t number = 0;
    std::string material;
    std::string form;
    glm::dvec2 centre_mm{};
    double rotation_deg = 0;
    glm::dvec2 size_mm{};
    double thickness_mm = 0;
    double height_mm = 0;
    glm::dvec2 tilt_deg{};
    double dome_mm = 0;
    double area_mm2 = 0;
    double mass_g = 0;
    std::uint64_t seed = 0;
    const std::vector<glm::dvec2>* outline_mm = nullptr;
};

double told(double value, double per_unit) {
    return std::round(value * per_unit) / per_unit;
}

Entry entry_of(const Layout& layout, const Piece& piece, const PieceFacts& facts) {
    Entry e;
    e.field = layout.fields[piece.field].name;
    e.number = piece.number;
    e.id = piece_id(e.field, e.number);
    e.material = layout.stock[piece.material].name;
    e.form = form_words()[static_cast<std::size_t>(piece.form)];
    e.centre_mm = lattice_mm(facts.centre_mm);
    e.rotation_deg = rotation_deg(piece.along);
    e.size_mm = lattice_mm(glm::dvec2(facts.length_mm, facts.width_mm));
    e.thickness_mm = piece.thickness_mm;
    e.height_mm = piece.top_mm;
    e.tilt_deg = tilt_deg(piece.tilt_rad);
    e.dome_mm = piece.dome_mm;
    e.area_mm2 = told(facts.area_mm2, 1e4);
    e.mass_g = told(facts.mass_g, 1e3);
    e.seed = piece.seed;
    e.outline_mm = &piece.outline_mm;
    return e;
}

Entry entry_of(const Layout& layout, const SetStone& set, std::uint32_t number, const PieceFacts& facts) {
    Entry e;
    e.number = number;
    e.id = piece_id("", number);
    e.material = layout.stock[set.material].name;
    e.form = set.stone.form;
    e.centre_mm = set.stone.at_mm;
    e.rotation_deg = set.stone.turn_deg;
    e.size_mm = glm::dvec2(set.stone.size_mm);
    e.thickness_mm = set.stone.size_mm.z;
    e.height_mm = set.top_mm;
    e.area_mm2 = told(facts.area_mm2, 1e4);
    e.mass_g = told(facts.mass_g, 1e3);
    e.seed = set.stone.seed;
    e.outline_mm = &set.footprint_mm;
    return e;
}

template <class Visit>
void each_stone(const Layout& layout, const Laying& laying, const std::vector<PieceFacts>& facts,
                Visit&& visit) {
    for (std::size_t i = 0; i < laying.stones.size(); ++i)
        visit(entry_of(layout, laying.stones[i], static_cast<std::uint32_t>(i + 1),
                       facts[laying.pieces.size() + i]));
}

template <class Visit>
void each_piece(const Layout& layout, const Laying& laying, const std::vector<PieceFacts>& facts,
                Visit&& visit) {
    for (std::size_t i = 0; i < laying.pieces.size(); ++i)
        visit(entry_of(layout, laying.pieces[i], facts[i]));
}

std::string quoted_json(const std::string& text) {
    return nlohmann::json(text).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

void append_json(std::string& out, const Entry& e, bool first) {
    auto to = std::back_inserter(out);
    fmt::format_to(to, "{}\n    {{\"id\": {}, ", first ? "" : ",", quoted_json(e.id));
    if (!e.field.empty()) fmt::format_to(to, "\"field\": {}, ", quoted_json(e.field));
    fmt::format_to(to,
                   "\"number\": {}, \"material\": {}, \"form\": {}, \"x_mm\": {}, \"y_mm\": {}, "
                   "\"rotation_deg\": {}, \"length_mm\": {}, \"width_mm\": {}, \"thickness_mm\": {}, "
                   "\"height_mm\": {}, \"tilt_x_deg\": {}, \"tilt_y_deg\": {}, \"dome_mm\": {}, "
                   "\"area_mm2\": {}, \"mass_g\": {}, \"seed\": \"s{:016x}\", \"outline_mm\": [",
                   e.number, quoted_json(e.material), quoted_json(e.form), e.centre_mm.x, e.centre_mm.y,
                   e.rotation_deg, e.size_mm.x, e.size_mm.y, e.thickness_mm, e.height_mm, e.tilt_deg.x,
                   e.tilt_deg.y, e.dome_mm, e.area_mm2, e.mass_g, e.seed);
    for (std::size_t i = 0; i < e.outline_mm->size(); ++i)
        fmt::format_to(to, "{}[{}, {}]", i ? ", " : "", (*e.outline_mm)[i].x, (*e.outline_mm)[i].y);
    out += "]}";
}

}  // namespace

std::string piece_id(const std::string& field, std::uint32_t number) {
    return fmt::format("{}#{}", field.empty() ? "stone" : field, number);
}

std::string piece_table_csv(const Layout& layout, const Laying& laying,
                            const std::vector<PieceFacts>& facts) {
    std::string out =
        "id,field,number,material,form,x_mm,y_mm,rotation_deg,length_mm,width_mm,thickness_mm,height_mm,"
        "tilt_x_deg,tilt_y_deg,dome_mm,area_mm2,mass_g,seed,outline_mm\r\n";
    const auto append = [&](const Entry& e) {
        auto to = std::back_inserter(out);
        append_csv(out, e.id);
        out += ',';
        append_csv(out, e.field);
        fmt::format_to(to, ",{},", e.number);
        append_csv(out, e.material);
        fmt::format_to(to, ",{},{},{},{},{},{},{},{},{},{},{},{},{},s{:016x},\"", e.form, e.centre_mm.x,
                       e.centre_mm.y, e.rotation_deg, e.size_mm.x, e.size_mm.y, e.thickness_mm, e.height_mm,
                       e.tilt_deg.x, e.tilt_deg.y, e.dome_mm, e.area_mm2, e.mass_g, e.seed);
        for (std::size_t i = 0; i < e.outline_mm->size(); ++i)
            fmt::format_to(to, "{}{} {}", i ? ";" : "", (*e.outline_mm)[i].x, (*e.outline_mm)[i].y);
        out += "\"\r\n";
    };
    each_stone(layout, laying, facts, append);
    each_piece(layout, laying, facts, append);
    return out;
}

std::string piece_table_json(const Layout& layout, const Laying& laying, const std::vector<PieceFacts>& facts,
                             const std::string& scene_hash) {
    const std::string file = std::filesystem::path(layout.sources.path).filename().string();
    std::string out = fmt::format(
        "{{\n  \"format\": \"{}\",\n  \"version\": {},\n  \"layout_file\": {},\n  \"scene_hash\": {},\n  "
        "\"panel\": {},\n  \"size_mm\": [{}, {}],\n  "
        "\"stones\": [",
        kPieceTableFormat, kPieceTableVersion, file.empty() ? "null" : quoted_json(file),
        scene_hash.empty() ? "null" : quoted_json(scene_hash), quoted_json(layout.panel.name),
        layout.panel.width_mm, layout.panel.height_mm);
    bool first = true;
    const auto append = [&](const Entry& e) {
        append_json(out, e, first);
        first = false;
    };
    each_stone(layout, laying, facts, append);
    out += "\n  ],\n  \"pieces\": [";
    first = true;
    each_piece(layout, laying, facts, append);
    out += "\n  ]\n}\n";
    return out;
}

}  // namespace rakelight
