#include "output/stock/swatch_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "output/stock/swatch_row.h"

namespace rakelight {

namespace {

using namespace sheet;

constexpr double kFirst_mm = 50;     // first section of the first page, below its title
constexpr double kLater_mm = 26.5;   // of the others
constexpr double kEnd_mm = 281;      // rows end above this
constexpr double kSection_mm = 8.2;  // height of a section's heading
constexpr double kBetween_mm = 2;    // above it

std::string place_text(StockPlace place) {
    switch (place) {
        case StockPlace::glass:
            return "Glass";
        case StockPlace::stone:
            return "Stone";
        case StockPlace::tint:
            return "Bed and grout";
        case StockPlace::room:
            break;
    }
    return "Frame, wall and floor";
}

Page blank_page() {
    Page page;
    page.paper = kPaper;
    return page;
}

void add_column_heads(Page& page, double y) {
    page.texts.push_back(caption("as laid, face-on", {kLeft_mm, y}));
    page.texts.push_back(caption("material", {kFacts_mm, y}));
    page.texts.push_back(caption("reflectance of the body", {kPlot_mm, y}));
    page.texts.push_back(caption("under", {kLab_mm, y}));
    for (std::size_t i = 0; i < 3; ++i)
        page.texts.push_back(caption(std::array{"L*", "a*", "b*"}[i], {kLabColumns_mm[i], y}, Align::right));
}

void add_lights(Page& page, const StockReport& report) {
    constexpr std::array kColumns_mm{163.0, 174.0, 185.0, kRight_mm};
    double y = 17.2;
    for (std::size_t i = 0; i < kColumns_mm.size(); ++i)
        page.texts.push_back(
            caption(std::array{"lx on panel", "K", "Ra", "R9"}[i], {kColumns_mm[i], y}, Align::right));
    page.texts.push_back(caption("light", {kPlot_mm, y}));
    for (const ReportLight& light : report.lights) {
        y += kLine_mm;
        const bool ours = &light == &report.lights.front();
        PageText title = plain(light.title, {kPlot_mm, y});
        title.bold = ours;
        page.texts.push_back(fitted(title, kColumns_mm[0] - kPlot_mm - 8));
        if (ours) {
            page.texts.push_back(
                plain(fmt::format("{:.0f}", light.illuminance_lx), {kColumns_mm[0], y}, Align::right));
        }
        page.texts.push_back(plain(fmt::format("{:.0f}", light.cct_k), {kColumns_mm[1], y}, Align::right));
        page.texts.push_back(plain(number(light.ra, 0), {kColumns_mm[2], y}, Align::right));
        page.texts.push_back(plain(number(light.r9, 0), {kColumns_mm[3], y}, Align::right));
    }
}

void add_title(Page& page, const StockReport& report) {
    const std::string name = report.panel.empty() ? report.layout_file : report.panel;
    page.texts.push_back(
        fitted({name, {kLeft_mm, 23.5}, 9, true, Align::left, kInk}, kPlot_mm - kLeft_mm - 6));
    PageText below =
        plain(fmt::format("Stock sheet of {} materials and tints", report.entries.size()), {kLeft_mm, 32});
    below.size_mm = 3.4;
    page.texts.push_back(below);
    add_lights(page, report);
    page.lines.push_back({{{kLeft_mm, 40.5}, {kRight_mm, 40.5}}, 0.25, kInk});
}

void add_later_title(Page& page, const StockReport& report) {
    const std::string name = report.panel.empty() ? report.layout_file : report.panel;
    page.texts.push_back(
        fitted({name, {kLeft_mm, 16.5}, kName_mm, true, Align::left, kInk}, kRight_mm - kLeft_mm));
}

void add_foot(Page& page, const StockReport& report, std::size_t number_of, std::size_t count) {
    page.lines.push_back({{{kLeft_mm, 283.5}, {kRight_mm, 283.5}}, 0.12, kInk});
    page.texts.push_back(
        caption("Swatches show the colour stated under the lamps; what the face mirrors is left out. "
                "* in truth more vivid than a screen can show.",
                {kLeft_mm, 287}));
    page.texts.push_back(caption(
        "A rendering, not a photograph. Invented data are to try with, not to buy by.", {kLeft_mm, 290}));
    page.texts.push_back(
        caption(fmt::format("page {} of {}", number_of, count), {kRight_mm, 287}, Align::right));
    page.texts.push_back(fitted(
        caption(fmt::format("{}, {}", report.layout_file, report.program), {kRight_mm, 290}, Align::right),
        60));
}

void add_section(Page& page, const std::string& name, double y) {
    page.texts.push_back({name, {kLeft_mm, y + 4.2}, 3.6, true, Align::left, kLight});
    const double after = kLeft_mm + width_mm(page.texts.back()) + 3;
    page.lines.push_back({{{after, y + 3}, {kRight_mm, y + 3}}, 0.15, kLight});
}

}  // namespace

SwatchSheet make_swatch_sheet(const StockReport& report) {
    SwatchSheet sheet;
    sheet.pages.push_back(blank_page());
    add_title(sheet.pages.back(), report);
    add_column_heads(sheet.pages.back(), 45.5);
    double y = kFirst_mm;
    const StockEntry* before = nullptr;
    for (std::size_t i = 0; i < report.entries.size(); ++i) {
        const StockEntry& entry = report.entries[i];
        bool heading = !before || before->place != entry.place;
        const double height = row_height_mm(entry);
        if (before && heading) y += kBetween_mm;
        if (y + height + (heading ? kSection_mm : 0) > kEnd_mm) {
            sheet.pages.push_back(blank_page());
            add_later_title(sheet.pages.back(), report);
            add_column_heads(sheet.pages.back(), 22.5);
            y = kLater_mm;
            heading = true;
        }
        Page& page = sheet.pages.back();
        if (heading) {
            add_section(page, place_text(entry.place), y);
            y += kSection_mm;
        }
        const std::vector<PageBox> boxes = add_row(page, report, entry, y);
        for (std::size_t k = 0; k < boxes.size(); ++k)
            sheet.spots.push_back({i, k, sheet.pages.size() - 1, boxes[k]});
        y += height;
        before = &entry;
    }
    for (std::size_t i = 0; i < sheet.pages.size(); ++i)
        add_foot(sheet.pages[i], report, i + 1, sheet.pages.size());
    return sheet;
}

}  // namespace rakelight
