#include "output/lay/map.h"

#include <fmt/format.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "output/lay/drawing.h"
#include "output/paper/map_label.h"
#include "output/system/errors.h"
#include "scene/model/layout.h"
#include "scene/pieces/piece_table.h"
#include "scene/text/nearest_word.h"
#include "scene/text/shown_amounts.h"

namespace rakelight {

namespace {

constexpr std::array kScales{0.25, 0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0};
constexpr double kEnough = 0.97;
constexpr int kMostTiles = 60;
constexpr double kMostType_mm = 3.2;
constexpr double kMargin_mm = 12, kFoot_mm = 14, kOverlap_mm = 10;
constexpr double kCapitals = 0.73;  // height of capitals and figures, em

const Rgb8 kBlack{0, 0, 0}, kWhite{255, 255, 255}, kGrey{120, 120, 120};

struct Label {
    std::string text;
    std::string id;
    LabelSpot spot;
};

std::vector<Label> labels_of(const std::vector<Field>& fields, const Laying& laying,
                             const LayingReport& report) {
    const std::size_t pieces = laying.pieces.size();
    std::vector<Label> labels(pieces + laying.stones.size());
    constexpr double kFigure_em = 0.64, kAir_em = 0.2;
    tbb::parallel_for(std::size_t{0}, labels.size(), [&](std::size_t i) {
        Label& label = labels[i];
        const bool stone = i >= pieces;
        const std::uint32_t number =
            stone ? static_cast<std::uint32_t>(i - pieces + 1) : laying.pieces[i].number;
        const std::uint32_t material = stone ? laying.stones[i - pieces].material : laying.pieces[i].material;
        label.text = report.code[material] + std::to_string(number);
        label.id = piece_id(stone ? "" : fields[laying.pieces[i].field].name, number);
        const Ring& ring = stone ? laying.stones[i - pieces].footprint_mm : laying.pieces[i].outline_mm;
        // Capitals are a little wider than figures.
        const double width = kFigure_em * static_cast<double>(label.text.size()) + 0.1 + kAir_em;
        label.spot = label_spot(ring, width, kCapitals + kAir_em);
    });
    return labels;
}

// Tiles along one axis: how many, and how far from one to the next, mm of paper.
struct Steps {
    int count = 1;
    double step_mm = 0;
    double window_mm = 0;
};

Steps steps(double drawn_mm, double window_mm) {
    if (drawn_mm <= window_mm) return {1, 0, drawn_mm};
    const int count = static_cast<int>(std::ceil((drawn_mm - kOverlap_mm) / (window_mm - kOverlap_mm)));
    return {count, (drawn_mm - window_mm) / (count - 1), window_mm};
}

struct Plan {
    Steps across, down;
    MapPaper paper;
    int tiles() const { return across.count * down.count; }
};

Plan plan(const Panel& panel, const MapPaper& paper, double scale) {
    const auto turned = [&](bool wide) {
        MapPaper p = paper;
        if (wide == (p.size_mm.x < p.size_mm.y)) std::swap(p.size_mm.x, p.size_mm.y);
        return Plan{steps(panel.width_mm * scale, p.size_mm.x - 2 * kMargin_mm),
                    steps(panel.height_mm * scale, p.size_mm.y - 2 * kMargin_mm - kFoot_mm), p};
    };
    const bool wide = panel.width_mm >= panel.height_mm;
    const Plan first = turned(wide), other = turned(!wide);
    return other.tiles() < first.tiles() ? other : first;
}

bool legible(const std::vector<Label>& labels, double scale) {
    const auto fit = std::count_if(labels.begin(), labels.end(),
                                   [&](const Label& l) { return l.spot.em_mm * scale >= kLeastType_mm; });
    return static_cast<double>(fit) >= kEnough * static_cast<double>(labels.size());
}

double choose_scale(const Panel& panel, const MapPaper& paper, const std::vector<Label>& labels) {
    double scale = kScales[0];
    for (const double next : kScales) {
        if (next > kScales[0] && plan(panel, paper, next).tiles() > kMostTiles) break;
        scale = next;
        if (legible(labels, next)) break;
    }
    return scale;
}

Rgb8 pale(const Rgb8& c) {
    Rgb8 out{};
    for (std::size_t k = 0; k < 3; ++k) out[k] = static_cast<std::uint8_t>(255 - (255 - c[k]) * 0.28);
    return out;
}

bool meet(const Box& a, const Box& b) {
    return a.low.x < b.high.x && b.low.x < a.high.x && a.low.y < b.high.y && b.low.y < a.high.y;
}

// Round lengths of the panel from mark to mark, at least 30 mm apart on paper.
double ruler_step_mm(double scale, Units units) {
    constexpr double kApart_mm = 30;
    constexpr std::array kRound_mm{5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0};
    constexpr std::array kRound_in{0.25, 0.5, 1.0, 2.0, 4.0, 6.0, 12.0, 24.0};
    double step = 0;
    for (std::size_t i = 0; i < kRound_mm.size() && step * scale < kApart_mm; ++i)
        step = units == Units::inches ? kRound_in[i] * kInch_mm : kRound_mm[i];
    return step;
}

// Lengths of the panel along the lower and left edges.
void add_ruler(Tracing& page, const OnSheet& place, const Box& part, Units units) {
    TracedLayer layer{units == Units::inches ? "inches of the panel" : "millimetres of the panel",
                      {{}, kGrey, 0.15, {}},
                      {},
                      {},
                      {}};
    const double step = ruler_step_mm(place.scale, units);
    const glm::dvec2 low = place(part.low), high = place(part.high);
    for (double x = std::ceil(part.low.x / step) * step; x <= part.high.x + 1e-9; x += step) {
        const double at = place({x, 0}).x;
        layer.shapes.push_back({{{{at, low.y}, {at, low.y + 1.5}}}, false, {}, ""});
        layer.texts.push_back(
            {shown_number(x, units), {at, low.y + 4}, 1.9, false, Align::centre, from_bytes(kGrey)});
    }
    for (double y = std::ceil(part.low.y / step) * step; y <= part.high.y + 1e-9; y += step) {
        const double at = place({0, y}).y;
        layer.shapes.push_back({{{{low.x - 1.5, at}, {low.x, at}}}, false, {}, ""});
        layer.texts.push_back(
            {shown_number(y, units), {low.x - 2.2, at + 0.7}, 1.9, false, Align::right, from_bytes(kGrey)});
    }
    layer.shapes.push_back({{{low, {high.x, low.y}, high, {low.x, high.y}}}, true, {}, ""});
    page.layers.push_back(std::move(layer));
}

class TileMaker {
  public:
    TileMaker(const Layout& layout, const Laying& laying, const LayingReport& report, const LayingMap& map,
              const std::vector<Label>& labels)
        : layout_(layout), laying_(laying), report_(report), map_(map), labels_(labels) {
        for (const Piece& piece : laying.pieces) boxes_.push_back(bounds(piece.outline_mm));
        for (const SetStone& set : laying.stones) boxes_.push_back(bounds(set.footprint_mm));
    }

    Tracing page(const MapTile& tile) const {
        Tracing page;
        page.title = fmt::format("{}: map {}", layout_.panel.name, tile.name);
        page.note = sheet_source(layout_, report_);
        page.size_mm = map_.paper.size_mm;
        const glm::dvec2 room = page.size_mm - glm::dvec2(2 * kMargin_mm, 2 * kMargin_mm + kFoot_mm);
        const glm::dvec2 drawn = map_.scale * tile.panel_mm.size();
        OnSheet place{{}, layout_.panel.height_mm, map_.scale};
        place.corner_mm =
            glm::dvec2(kMargin_mm) + (room - drawn) / 2.0 -
            map_.scale * glm::dvec2(tile.panel_mm.low.x, layout_.panel.height_mm - tile.panel_mm.high.y);
        const glm::dvec2 upper_left = place({tile.panel_mm.low.x, tile.panel_mm.high.y});
        const PageBox window{upper_left, drawn, {}};
        TracedLayer pieces{"pieces", {kWhite, kGrey, 0.13, {}}, {}, {}, window};
        TracedLayer stones{"stones", {kWhite, kBlack, 0.3, {}}, {}, {}, window};
        TracedLayer words{"numbers", {}, {}, {}, {}};
        for (std::size_t i = 0; i < boxes_.size(); ++i) {
            if (!meet(boxes_[i], tile.panel_mm)) continue;
            const bool stone = i >= laying_.pieces.size();
            const std::size_t s = i - laying_.pieces.size();
            TracedShape shape =
                shape_of(stone ? laying_.stones[s].footprint_mm : laying_.pieces[i].outline_mm, place);
            shape.fill = pale(stone ? report_.stone_colour[s] : report_.piece_colour[i]);
            (stone ? stones : pieces).shapes.push_back(std::move(shape));
            write(words, i, stone, place, window);
        }
        page.layers.push_back(std::move(pieces));
        page.layers.push_back(std::move(stones));
        TracedLayer fields{"fields", {{}, kBlack, 0.5, {}}, {}, {}, window};
        for (const Region& ground : report_.ground) fields.shapes.push_back(shape_of(ground, place));
        page.layers.push_back(std::move(fields));
        page.layers.push_back(std::move(words));
        add_ruler(page, place, tile.panel_mm, layout_.units);
        add_foot(page, tile);
        return page;
    }

  private:
    void write(TracedLayer& words, std::size_t i, bool stone, const OnSheet& place,
               const PageBox& window) const {
        const Label& label = labels_[i];
        if (label.spot.em_mm * map_.scale < kLeastType_mm) return;
        const double em = std::min(label.spot.em_mm * map_.scale, stone ? 1.4 * kMostType_mm : kMostType_mm);
        const glm::dvec2 at = place(label.spot.at_mm);
        const glm::dvec2 from = at - window.at_mm, to = window.size_mm - from;
        const double half = 0.32 * em * static_cast<double>(label.text.size());
        if (std::min(from.x, to.x) < half || std::min(from.y, to.y) < em / 2) return;
        words.texts.push_back({label.text, at + glm::dvec2(0, kCapitals / 2 * em), em, stone, Align::centre,
                               from_bytes(kBlack)});
    }

    void add_foot(Tracing& page, const MapTile& tile) const {
        const double y = page.size_mm.y - kMargin_mm;
        TracedLayer foot{"sheet", {}, {}, {}, {}};
        foot.texts.push_back({tile.name, {kMargin_mm, y}, 7, true, Align::left, from_bytes(kBlack)});
        foot.texts.push_back(
            {fmt::format("{}: numbered map, {}", layout_.panel.name, scale_words(map_.scale)),
             {kMargin_mm + 30, y - 3.4},
             3.2,
             true,
             Align::left,
             from_bytes(kBlack)});
        foot.texts.push_back({"letter of the material, number within the field; page 1 is the key. " +
                                  sheet_source(layout_, report_),
                              {kMargin_mm + 30, y},
                              2.2,
                              false,
                              Align::left,
                              from_bytes(kGrey)});
        page.layers.push_back(std::move(foot));
        add_scale_bar(page, {page.size_mm.x - kMargin_mm, y - 2.6}, map_.scale, 50, 2.4, layout_.units);
    }

    const Layout& layout_;
    const Laying& laying_;
    const LayingReport& report_;
    const LayingMap& map_;
    const std::vector<Label>& labels_;
    std::vector<Box> boxes_;
};

}  // namespace

MapPaper paper_called(const std::string& name) {
    static const std::vector<std::string> names{"A4", "A3", "A2", "A1", "A0"};
    static constexpr std::array<glm::dvec2, 5> sizes{
        {{210, 297}, {297, 420}, {420, 594}, {594, 841}, {841, 1189}}};
    std::string upper = name;
    for (char& c : upper) c = c == 'a' ? 'A' : c;
    const auto at = std::find(names.begin(), names.end(), upper);
    if (at == names.end())
        throw RequestError(fmt::format("paper {}: expected one of {}{}", name, fmt::join(names, ", "),
                                       did_you_mean(name, names)));
    return {upper, sizes[static_cast<std::size_t>(at - names.begin())]};
}

std::string scale_words(double scale) {
    return scale >= 1 ? fmt::format("{:g}:1", scale) : fmt::format("1:{:g}", 1 / scale);
}

std::vector<MapPaper> usual_papers() {
    std::vector<MapPaper> papers;
    for (const char* name : {"A3", "A2", "A1", "A0"}) papers.push_back(paper_called(name));
    return papers;
}

LayingMap make_map(const Layout& layout, const Laying& laying, const LayingReport& report,
                   const std::vector<MapPaper>& papers) {
    LayingMap map;
    const std::vector<Label> labels = labels_of(layout.fields, laying, report);
    MapPaper paper;
    for (const MapPaper& next : papers) {
        paper = next;
        map.scale = choose_scale(layout.panel, paper, labels);
        if (legible(labels, map.scale)) break;
    }
    for (const Label& label : labels)
        if (label.spot.em_mm * map.scale >= kLeastType_mm)
            ++map.numbered;
        else
            map.too_small.push_back(label.id);
    const Plan p = plan(layout.panel, paper, map.scale);
    map.paper = p.paper;
    for (int row = 0; row < p.down.count; ++row)
        for (int column = 0; column < p.across.count; ++column) {
            MapTile tile;
            tile.name = fmt::format("sheet {}", map.tiles.size() + 1);
            const double left = column * p.across.step_mm / map.scale;
            const double top = layout.panel.height_mm - row * p.down.step_mm / map.scale;
            tile.panel_mm.low = {left, top - p.down.window_mm / map.scale};
            tile.panel_mm.high = {left + p.across.window_mm / map.scale, top};
            map.tiles.push_back(std::move(tile));
        }
    map.pages = map_key(layout, laying, report, map);
    const TileMaker maker(layout, laying, report, map, labels);
    std::vector<Tracing> tiles(map.tiles.size());
    tbb::parallel_for(std::size_t{0}, tiles.size(),
                      [&](std::size_t t) { tiles[t] = maker.page(map.tiles[t]); });
    for (Tracing& tile : tiles) map.pages.push_back(std::move(tile));
    return map;
}

}  // namespace rakelight
