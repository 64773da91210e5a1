#include "output/samples/sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "output/paper/ink.h"
#include "output/paper/sheet_parts.h"
#include "output/print/printed_colour.h"
#include "output/samples/words.h"
#include "output/stock/library_entry.h"

namespace rakelight {

namespace {

using namespace sheet;

constexpr double kLeft_mm = 12, kRight_mm = 198, kEnd_mm = 279;
constexpr glm::dvec2 kSwatch_mm(20, 18);
constexpr double kPhotographed_mm = 56, kUnderstood_mm = 78, kRendered_mm = 98, kPlot_mm = 124,
                 kPlotWidth_mm = 23;
constexpr double kLamp_mm = 156;
constexpr std::array kColumns_mm{173.0, 181.5, 189.5, kRight_mm};
constexpr double kRow_mm = 26;

EncodedSrgb shown(const SampledSpectrum& reflectance, const Spectrum& light) {
    return from_bytes(printed_colour(lab_under(light, reflectance)).srgb);
}

void add_heads(Page& page, double y) {
    page.texts.push_back(caption("sample", {kLeft_mm, y}));
    page.texts.push_back(caption("photographed", {kPhotographed_mm, y}));
    page.texts.push_back(caption("understood", {kUnderstood_mm, y}));
    page.texts.push_back(caption("rendered", {kRendered_mm, y}));
    page.texts.push_back(caption("reflectance as seen", {kPlot_mm, y}));
    page.texts.push_back(caption("under", {kLamp_mm, y}));
    for (std::size_t i = 0; i < kColumns_mm.size(); ++i)
        page.texts.push_back(
            caption(std::array{"L*", "a*", "b*", "within"}[i], {kColumns_mm[i], y}, Align::right));
}

void add_plot(Page& page, const ReflectanceEstimate& e, double y) {
    const double top =
        std::clamp(std::ceil(10 * static_cast<double>(max_value(e.reflectance + e.doubt))) / 10, 0.1, 1.0);
    const double low = y + kSwatch_mm.y;
    const auto curve = [&](float sigmas, double width) {
        PageLine line{{}, width, kInk};
        for (int b = 0; b < kBandCount; ++b) {
            const auto r = static_cast<double>(e.reflectance[b] + sigmas * e.doubt[b]);
            line.points_mm.emplace_back(kPlot_mm + kPlotWidth_mm * b / (kBandCount - 1),
                                        low - kSwatch_mm.y * std::clamp(r / top, 0.0, 1.0));
        }
        page.lines.push_back(std::move(line));
    };
    for (const double level : {0.0, 0.5, 1.0})
        page.lines.push_back(
            {{{kPlot_mm, low - kSwatch_mm.y * level}, {kPlot_mm + kPlotWidth_mm, low - kSwatch_mm.y * level}},
             level == 0 ? 0.2 : 0.08,
             kInk});
    curve(0, 0.42);
    curve(1, 0.1);
    curve(-1, 0.1);
    page.texts.push_back(
        caption(fmt::format("{:.0f} %", 100 * top), {kPlot_mm + kPlotWidth_mm + 0.8, y + 1.4}));
    page.texts.push_back(caption("400", {kPlot_mm, low + 2.4}));
    page.texts.push_back(caption("700 nm", {kPlot_mm + kPlotWidth_mm, low + 2.4}, Align::right));
}

void add_facts(Page& page, const SamplesReport& report, const ReadSample& sample, const Look& look,
               double y) {
    constexpr double kRoom_mm = kPhotographed_mm - kLeft_mm - 4;
    const Material& m = sample.material;
    page.texts.push_back(
        fitted({sample.name, {kLeft_mm, y + 2.6}, kName_mm, true, Align::left, kInk}, kRoom_mm));
    std::vector<std::string> lines;
    lines.push_back(
        fmt::format("{}, {:.3g} mm{}", kind_word(m.kind), m.thickness_mm,
                    look.over == Over::alone ? "" : fmt::format(", over {}", over_word(look.over))));
    const std::string& picture = report.photographs[look.first_photograph].picture;
    lines.push_back(look.photographs > 1 ? fmt::format("{} and {} more", picture, look.photographs - 1)
                                         : picture);
    lines.push_back(report.photographs[look.first_photograph].light);
    if (!m.opaque)
        lines.push_back(fmt::format("milkiness {:.3g} per mm{}", m.scattering_per_mm[0],
                                    sample.milkiness_assumed ? ", assumed" : ""));
    for (std::size_t i = 0; i < lines.size(); ++i)
        page.texts.push_back(
            fitted(plain(lines[i], {kLeft_mm, y + 2.6 + kLine_mm * (static_cast<double>(i) + 1)}), kRoom_mm));
}

void add_colours(Page& page, const Look& look, double y) {
    for (std::size_t i = 0; i < look.ranges.size(); ++i) {
        const double line = y + 2.6 + static_cast<double>(i) * kLine_mm;
        const ColourRange& range = look.ranges[i];
        const Lab lab = lab_under(*find_illuminant(range.light), look.estimate.reflectance);
        page.texts.push_back(plain(range.light, {kLamp_mm, line}));
        const std::array values{lab.l, lab.a, lab.b, range.nine_in_ten};
        for (std::size_t k = 0; k < values.size(); ++k)
            page.texts.push_back(plain(number(values[k], 1), {kColumns_mm[k], line}, Align::right));
    }
}

void add_row(PdfPage& on, const SamplesReport& report, const ReadSample& sample, const Look& look, double y) {
    Page& page = on.page;
    const Spectrum& light = report.photographs[look.first_photograph].spectrum;
    on.prints.push_back({std::make_shared<Print>(look.cut_out), {kPhotographed_mm, y}, kSwatch_mm});
    page.boxes.push_back({{kUnderstood_mm, y}, kSwatch_mm, shown(look.estimate.reflectance, light)});
    page.boxes.push_back({{kRendered_mm, y}, kSwatch_mm, shown(look.rendered, light)});
    add_facts(page, report, sample, look, y);
    add_plot(page, look.estimate, y);
    add_colours(page, look, y);
}

double add_title(Page& page, const SamplesReport& report) {
    page.texts.push_back(fitted({"Stock from photographs", {kLeft_mm, 20}, 7, true, Align::left, kInk}, 110));
    page.texts.push_back(fitted(
        plain(fmt::format("{}, photographed {}", report.samples_file, report.date), {kLeft_mm, 26}), 110));
    double y = 34;
    for (const ReadPhotograph& p : report.photographs) {
        std::string text =
            fmt::format("{}: {}; the chart fits within {:.1f} %", p.picture, p.light, 100 * p.fit.misfit);
        for (const std::size_t i : p.fit.left_out) text += fmt::format("; {} not used", chart24()[i].name);
        page.texts.push_back(fitted(plain(text, {kLeft_mm, y}), kRight_mm - kLeft_mm));
        y += kLine_mm;
    }
    for (const std::string& warning : report.warnings) {
        PageText words = plain("Warning: " + warning, {kLeft_mm, y});
        y = add_words(page, words.text, words, kRight_mm - kLeft_mm, kLine_mm);
        if (y > 150) break;
    }
    page.lines.push_back({{{kLeft_mm, y}, {kRight_mm, y}}, 0.25, kInk});
    return y + 5;
}

void add_foot(Page& page, const SamplesReport& report, std::size_t number_of, std::size_t count) {
    page.lines.push_back({{{kLeft_mm, 283.5}, {kRight_mm, 283.5}}, 0.12, kInk});
    page.texts.push_back(
        caption("Understood and rendered under the light of the photograph, for an eye adapted to it. "
                "Within: CIEDE2000 that nine in ten of the curves that the",
                {kLeft_mm, 287}));
    page.texts.push_back(
        caption("photographs leave possible do not pass; thin lines: one standard deviation of a band.",
                {kLeft_mm, 290}));
    page.texts.push_back(caption(fmt::format("page {} of {}, {}", number_of, count, report.program),
                                 {kRight_mm, 290}, Align::right));
}

PdfPage blank() {
    PdfPage page;
    page.page.paper = kPaper;
    return page;
}

}  // namespace

std::vector<PdfPage> samples_sheet(const SamplesReport& report) {
    std::vector<PdfPage> pages{blank()};
    double y = add_title(pages.back().page, report);
    add_heads(pages.back().page, y);
    y += 4;
    for (const ReadSample& sample : report.samples)
        for (const Look& look : sample.looks) {
            if (y + kRow_mm > kEnd_mm) {
                pages.push_back(blank());
                add_heads(pages.back().page, 16);
                y = 20;
            }
            add_row(pages.back(), report, sample, look, y);
            y += kRow_mm;
        }
    for (std::size_t i = 0; i < pages.size(); ++i) add_foot(pages[i].page, report, i + 1, pages.size());
    return pages;
}

Print print_samples_page(const PdfPage& page) {
    Print print = print_page(page.page, kSamplesSheet_px_per_mm);
    for (const PlacedPrint& each : page.prints)
        place(print, *each.print, each.at_mm, kSamplesSheet_px_per_mm);
    return print;
}

}  // namespace rakelight
