#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "output/lay/drawing.h"
#include "output/lay/map.h"
#include "output/paper/name_spot.h"
#include "scene/model/layout.h"
#include "scene/text/shown_amounts.h"

namespace rakelight {

namespace {

constexpr double kMargin_mm = 14, kLine_mm = 6.2, kType_mm = 3;
const Rgb8 kBlack{0, 0, 0}, kWhite{255, 255, 255}, kGrey{120, 120, 120};
const Rgb8 kFieldTint{236, 233, 226};

PageText word(const std::string& text, double x, double y, double size = kType_mm, bool bold = false,
              Align align = Align::left, const Rgb8& colour = kBlack) {
    return {text, {x, y}, size, bold, align, from_bytes(colour)};
}

/// Sets line under line, and begins a new page where one is full.
class KeySetter {
  public:
    KeySetter(const Layout& layout, const Laying& laying, const LayingReport& report, const LayingMap& map)
        : layout_(layout), laying_(laying), report_(report), map_(map), paper_mm_(map.paper.size_mm) {
        if (paper_mm_.x > paper_mm_.y) std::swap(paper_mm_.x, paper_mm_.y);  // a list wants an upright page
        turn_page();
    }

    std::vector<Tracing> set() {
        plan();
        materials();
        fields();
        if (!map_.too_small.empty()) {
            room_for(2);
            y_ += kLine_mm;
            write(word(
                fmt::format("{} of {} pieces and stones are too small for a number at this scale; the piece "
                            "table lists them.",
                            map_.too_small.size(), map_.too_small.size() + map_.numbered),
                kMargin_mm, y_));
        }
        return std::move(pages_);
    }

  private:
    void write(PageText text) { pages_.back().layers[0].texts.push_back(std::move(text)); }

    void turn_page() {
        Tracing page;
        page.title = fmt::format("{}: key to the map", layout_.panel.name);
        page.note = sheet_source(layout_, report_);
        page.size_mm = paper_mm_;
        page.layers.push_back({"key", {}, {}, {}, {}});
        pages_.push_back(std::move(page));
        y_ = kMargin_mm + 6;
        write(word(layout_.panel.name, kMargin_mm, y_, 7, true));
        y_ += 7;
        write(word("key to the numbered map; " + sheet_facts(layout_, report_), kMargin_mm, y_));
        y_ += 4.6;
        write(word(sheet_source(layout_, report_), kMargin_mm, y_, 2.4, false, Align::left, kGrey));
        y_ += 9;
    }

    void room_for(int lines) {
        if (y_ + lines * kLine_mm > paper_mm_.y - kMargin_mm) turn_page();
    }

    // The panel with its fields numbered and its tiles ruled.
    void plan() {
        const glm::dvec2 room(paper_mm_.x - 2 * kMargin_mm, 0.38 * paper_mm_.y);
        const double scale = std::min(room.x / layout_.panel.width_mm, room.y / layout_.panel.height_mm);
        const OnSheet place{{kMargin_mm, y_}, layout_.panel.height_mm, scale};
        TracedLayer ground{"fields", {kFieldTint, kBlack, 0.25, {}}, {}, {}, {}};
        TracedLayer stones{"stones", {kWhite, kGrey, 0.15, {}}, {}, {}, {}};
        TracedLayer tiles{"sheets", {{}, kGrey, 0.18, {1.6, 1.2}}, {}, {}, {}};
        TracedLayer numbers{"field numbers", {kWhite, kBlack, 0.2, {}}, {}, {}, {}};
        for (std::size_t f = 0; f < report_.ground.size(); ++f) {
            ground.shapes.push_back(shape_of(report_.ground[f], place));
            mark(numbers, f, place);
        }
        for (const SetStone& set : laying_.stones) stones.shapes.push_back(shape_of(set.footprint_mm, place));
        for (const MapTile& tile : map_.tiles) {
            const Box& b = tile.panel_mm;
            tiles.shapes.push_back(
                shape_of(Ring{b.low, {b.high.x, b.low.y}, b.high, {b.low.x, b.high.y}}, place));
            const glm::dvec2 corner = place({b.low.x, b.high.y});
            tiles.texts.push_back(
                word(tile.name, corner.x + 1.2, corner.y + 3.6, 2.8, true, Align::left, kGrey));
        }
        Tracing& page = pages_.back();
        for (TracedLayer* layer : {&ground, &stones, &tiles, &numbers})
            page.layers.push_back(std::move(*layer));
        y_ += layout_.panel.height_mm * scale + 1.4 * kLine_mm;
        write(word(fmt::format("{} sheet{} at {} on {}, dashed; they overlap", map_.tiles.size(),
                               map_.tiles.size() == 1 ? "" : "s", scale_words(map_.scale), map_.paper.name),
                   kMargin_mm, y_, 2.6, false, Align::left, kGrey));
        y_ += 1.5 * kLine_mm;
    }

    // The field's number in a circle, where the field is widest.
    void mark(TracedLayer& layer, std::size_t field, const OnSheet& place) {
        if (report_.ground[field].empty()) return;
        const glm::dvec2 middle = place(roomiest_box(report_.ground[field], 1).at_mm);
        std::vector<glm::dvec2> circle;
        for (int k = 0; k < 32; ++k) {
            const double turn = glm::radians(360.0 * k / 32);
            circle.push_back(middle + 2.7 * glm::dvec2(std::cos(turn), std::sin(turn)));
        }
        layer.shapes.push_back({{std::move(circle)}, true, {}, ""});
        layer.texts.push_back(
            word(std::to_string(field + 1), middle.x, middle.y + 1.1, 3, true, Align::centre));
    }

    void head(const std::string& title, const std::vector<std::pair<double, std::string>>& columns) {
        room_for(4);
        write(word(title, kMargin_mm, y_, 3.6, true));
        for (const auto& [x, text] : columns) write(word(text, x, y_, 2.4, false, Align::right, kGrey));
        y_ += 1.6;
        pages_.back().layers.push_back({"rule",
                                        {{}, kGrey, 0.15, {}},
                                        {{{{{kMargin_mm, y_}, {last_column() + 2, y_}}}, false, {}, ""}},
                                        {},
                                        {}});
        y_ += kLine_mm - 1;
    }

    double last_column() const { return kMargin_mm + 190 * std::min(1.0, (paper_mm_.x - 30) / 190); }
    double column(int from_right) const { return last_column() - 24 * from_right; }

    void materials() {
        head("Materials", {{column(3), "pieces"},
                           {column(2), "face " + area_unit(layout_.units)},
                           {column(1), "share %"},
                           {column(0), small_mass_unit(layout_.units)}});
        for (const LaidCount& laid : report_.materials) {
            room_for(1);
            pages_.back().layers.push_back({"swatch of " + layout_.stock[laid.material].name,
                                            {colour_of(laid.material), kGrey, 0.12, {}},
                                            {{{{{kMargin_mm + 9, y_ - 3.2},
                                                {kMargin_mm + 19, y_ - 3.2},
                                                {kMargin_mm + 19, y_ + 0.8},
                                                {kMargin_mm + 9, y_ + 0.8}}},
                                              true,
                                              {},
                                              ""}},
                                            {},
                                            {}});
            write(word(report_.code[laid.material], kMargin_mm, y_, 3.6, true));
            write(cut(word(layout_.stock[laid.material].name, kMargin_mm + 22, y_),
                      column(3) - kMargin_mm - 40));
            numbers(laid.count, laid.area_mm2, 100 * laid.area_mm2 / report_.panel_mm2, laid.mass_g);
        }
        y_ += kLine_mm;
    }

    void fields() {
        head("Fields", {{column(3), "pieces"},
                        {column(2), "face " + area_unit(layout_.units)},
                        {column(1), "joints %"},
                        {column(0), small_mass_unit(layout_.units)}});
        for (std::size_t f = 0; f < layout_.fields.size(); ++f) {
            room_for(1);
            const LaidField& field = report_.fields[f];
            write(word(std::to_string(f + 1), kMargin_mm, y_, 3.6, true));
            write(cut(word(layout_.fields[f].name, kMargin_mm + 9, y_), column(3) - kMargin_mm - 30));
            numbers(field.count, field.area_mm2, 100 * field.joint_share(), field.mass_g);
        }
        room_for(1);
        write(word("all, stones included", kMargin_mm + 9, y_, kType_mm, true));
        numbers(laying_.pieces.size() + laying_.stones.size(), report_.piece_mm2 + report_.stone_mm2,
                100 * report_.joint_share(), report_.mass_g);
    }

    void numbers(std::size_t count, double area_mm2, double percent, double mass_g) {
        write(word(std::to_string(count), column(3), y_, kType_mm, false, Align::right));
        write(word(shown_area(area_mm2, layout_.units, 1), column(2), y_, kType_mm, false, Align::right));
        write(word(fmt::format("{:.1f}", percent), column(1), y_, kType_mm, false, Align::right));
        write(word(shown_small_mass(mass_g, layout_.units), column(0), y_, kType_mm, false, Align::right));
        y_ += kLine_mm;
    }

    // As it is laid first.
    Rgb8 colour_of(std::uint32_t material) const {
        for (std::size_t i = 0; i < laying_.pieces.size(); ++i)
            if (laying_.pieces[i].material == material) return report_.piece_colour[i];
        for (std::size_t i = 0; i < laying_.stones.size(); ++i)
            if (laying_.stones[i].material == material) return report_.stone_colour[i];
        return kWhite;
    }

    const Layout& layout_;
    const Laying& laying_;
    const LayingReport& report_;
    const LayingMap& map_;
    glm::dvec2 paper_mm_;
    std::vector<Tracing> pages_;
    double y_ = 0;
};

}  // namespace

std::vector<Tracing> map_key(const Layout& layout, const Laying& laying, const LayingReport& report,
                             const LayingMap& map) {
    return KeySetter(layout, laying, report, map).set();
}

}  // namespace rakelight
