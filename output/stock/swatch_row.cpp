#include "output/stock/swatch_row.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "output/stock/swatch_sheet.h"

namespace rakelight {

int plot_top_percent(const SampledSpectrum& reflectance) {
    for (const int top : {1, 2, 5, 10, 25, 50})
        if (100 * max_value(reflectance) <= static_cast<float>(top)) return top;
    return 100;
}

std::string kind_text(const Material& m) {
    constexpr std::array kNames{"glass", "stone", "slag", "cement", "epoxy", "timber", "paint"};
    const std::string text = kNames[static_cast<std::size_t>(m.kind)];
    if (m.leaf != Leaf::none) {
        const std::string leaf = m.leaf == Leaf::gold     ? "gold leaf"
                                 : m.leaf == Leaf::silver ? "silver leaf"
                                                          : "copper leaf";
        return m.opaque ? leaf + " on " + text : text + " over " + leaf;
    }
    if (m.backed) return text + " on an opaque sheet";
    if (m.kind == Kind::glass) return text + (m.opaque ? ", opaque" : ", translucent");
    return text;
}

std::string provenance_text(Provenance provenance) {
    return std::array{"measured", "published", "measured from a photograph", "guessed",
                      "invented"}[static_cast<std::size_t>(provenance)];
}

namespace sheet {

namespace {

// Swatches stand on a grid of five; the one as laid takes two places.
constexpr int kPlaces = 5;
constexpr double kPlace_mm = 10.6;
constexpr double kGap_mm = 1.2;
constexpr double kSwatch_mm = 14;  // height
constexpr double kCaptionLine_mm = 2.3;
constexpr double kUnder_mm = 2.4;  // first caption's baseline below its swatch
constexpr double kAir_mm = 2.2;    // between rows

int lines_of_swatches(const StockEntry& entry) {
    return (static_cast<int>(entry.swatches.size()) + 1 + kPlaces - 1) / kPlaces;
}

double width_of_swatch_mm(std::size_t i) {
    return i == 0 ? 2 * kPlace_mm + kGap_mm : kPlace_mm;
}

std::vector<std::string> caption_lines(const StockEntry& entry, std::size_t i) {
    const Swatch& swatch = entry.swatches[i];
    std::string text = swatch.label;
    constexpr std::string_view kOver = "over ";
    if (i > 0 && text.starts_with(kOver)) text.erase(0, kOver.size());  // the first has said it
    if (shows_bed(entry.material) && swatch.thickness_mm != entry.thickness_mm)
        text += fmt::format(", {:.3g} mm", swatch.thickness_mm);
    if (!swatch.in_srgb) text += "*";
    const double room_mm = swatch.limit ? 8 : width_of_swatch_mm(i);  // both limits break after "pure"
    return wrapped(caption(std::move(text), {}), room_mm);
}

// Height of a line of swatches with what stands below: at least two lines, so that most rows are alike.
double swatch_line_mm(const StockEntry& entry) {
    std::size_t lines = 2;
    for (std::size_t i = 0; i < entry.swatches.size(); ++i)
        lines = std::max(lines, caption_lines(entry, i).size());
    return kSwatch_mm + kUnder_mm + kCaptionLine_mm * static_cast<double>(lines - 1);
}

PageBox box_of(const StockEntry& entry, std::size_t i, double y_mm) {
    const int place = i == 0 ? 0 : static_cast<int>(i) + 1;
    PageBox box;
    box.at_mm = {kLeft_mm + place % kPlaces * (kPlace_mm + kGap_mm),
                 y_mm + place / kPlaces * (swatch_line_mm(entry) + kAir_mm)};
    box.size_mm = {width_of_swatch_mm(i), kSwatch_mm};
    box.colour = from_bytes(entry.swatches[i].srgb);
    return box;
}

void add_swatch(Page& page, const StockEntry& entry, std::size_t i, const PageBox& box) {
    page.boxes.push_back(box);
    double y = box.at_mm.y + box.size_mm.y + kUnder_mm;
    for (const std::string& line : caption_lines(entry, i)) {
        page.texts.push_back(caption(line, {box.at_mm.x, y}));
        y += kCaptionLine_mm;
    }
}

void add_facts(Page& page, const StockEntry& entry, double y) {
    const Material& m = entry.material;
    constexpr double kRoom_mm = kPlot_mm - kFacts_mm - 4;
    page.texts.push_back(fitted({m.name, {kFacts_mm, y + 2.6}, kName_mm, true, Align::left, kInk}, kRoom_mm));
    const auto line = [&](int i, std::string text) {
        page.texts.push_back(fitted(plain(std::move(text), {kFacts_mm, y + 2.6 + i * kLine_mm}), kRoom_mm));
    };
    line(1, fmt::format(
                "{}, {}", kind_text(m),
                m.provenance == Provenance::photographed ? "photographed" : provenance_text(m.provenance)));
    line(2, fmt::format("{:.3g} mm, {:.2f} g/cm³, {:.1f} kg/m²", entry.thickness_mm, m.density_g_per_cm3,
                        entry.kg_per_m2()));
    std::string gloss = fmt::format("gloss {:.0f} at 60°", entry.gloss[1]);
    if (m.cost.amount > 0) gloss += fmt::format(", {:.2f} per m²", entry.cost_per_m2());
    line(3, gloss);
    const auto& within = m.colour_range;
    if (within[0] > 0)
        line(4, fmt::format("within {:.1f} (D65), {:.1f} (A), {:.1f} (LED-B3)", within[0], within[1],
                            within[2]));
}

void add_plot(Page& page, const SampledSpectrum& reflectance, double y) {
    constexpr double kWidth_mm = 25;
    const int top = plot_top_percent(reflectance);
    const double low = y + kSwatch_mm;
    for (int i = 0; i <= 2; ++i) {
        const double level = low - kSwatch_mm * i / 2;
        page.lines.push_back({{{kPlot_mm, level}, {kPlot_mm + kWidth_mm, level}}, i == 0 ? 0.2 : 0.08, kInk});
    }
    PageLine curve{{}, 0.42, kInk};
    for (int b = 0; b < kBandCount; ++b)
        curve.points_mm.emplace_back(
            kPlot_mm + kWidth_mm * b / (kBandCount - 1),
            low - kSwatch_mm * std::min(1.0, 100.0 * static_cast<double>(reflectance[b]) / top));
    page.lines.push_back(curve);
    page.texts.push_back(caption(fmt::format("{} %", top), {kPlot_mm + kWidth_mm + 0.9, y + 1.4}));
    page.texts.push_back(caption("0", {kPlot_mm + kWidth_mm + 0.9, low + 0.3}));
    page.texts.push_back(caption("400", {kPlot_mm, low + 2.4}));
    page.texts.push_back(caption("700 nm", {kPlot_mm + kWidth_mm, low + 2.4}, Align::right));
}

void add_lab(Page& page, const StockReport& report, const Swatch& swatch, double y) {
    for (std::size_t i = 0; i < report.lights.size(); ++i) {
        const double line = y + 2.6 + static_cast<double>(i) * kLine_mm;
        page.texts.push_back(plain(report.lights[i].name, {kLab_mm, line}));
        const Lab& lab = swatch.lab[i];
        const std::array values{lab.l, lab.a, lab.b};
        for (std::size_t k = 0; k < 3; ++k) {
            page.texts.push_back(plain(number(values[k], 1), {kLabColumns_mm[k], line}, Align::right));
            page.texts.back().bold = i == 0;
        }
        if (i == 0) page.texts[page.texts.size() - 4].bold = true;
    }
}

}  // namespace

double row_height_mm(const StockEntry& entry) {
    return lines_of_swatches(entry) * (swatch_line_mm(entry) + kAir_mm);
}

std::vector<PageBox> add_row(Page& page, const StockReport& report, const StockEntry& entry, double y_mm) {
    std::vector<PageBox> boxes;
    for (std::size_t i = 0; i < entry.swatches.size(); ++i) {
        boxes.push_back(box_of(entry, i, y_mm));
        add_swatch(page, entry, i, boxes.back());
    }
    add_facts(page, entry, y_mm);
    add_plot(page, entry.swatches.front().reflectance, y_mm);
    add_lab(page, report, entry.swatches.front(), y_mm);
    return boxes;
}

}  // namespace sheet

}  // namespace rakelight
