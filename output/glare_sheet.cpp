#include "output/glare_sheet.h"

#include <fmt/format.h>

#include <cmath>
#include <numbers>
#include <stdexcept>

#include "output/page.h"

namespace rakelight {

namespace {

constexpr double kMargin_mm = 14, kTop_mm = 34, kGap_mm = 9;
const EncodedSrgb kInk{0.1, 0.1, 0.1}, kGrey{0.42, 0.42, 0.42}, kWarn{0.72, 0.2, 0.05}, kMark{1, 0.85, 0.2};

// The place of a pixel of a picture on the sheet.
glm::dvec2 on_sheet_mm(const glm::dvec2& left_top_mm, const glm::dvec2& pixel) {
    return left_top_mm + pixel / kGlareSheet_px_per_mm;
}

void ring(Page& page, const glm::dvec2& at_mm, double radius_mm) {
    PageLine line{{}, 0.35, kMark};
    for (int i = 0; i <= 40; ++i) {
        const double turn = 2 * std::numbers::pi * i / 40;
        line.points_mm.push_back(at_mm + radius_mm * glm::dvec2(std::cos(turn), std::sin(turn)));
    }
    page.lines.push_back(std::move(line));
}

void mark_patches(Page& marks, const GlareReport& report, const glm::dvec2& corner_mm) {
    for (std::size_t i = 0; i < report.patches.size(); ++i) {
        const HotPatch& patch = report.patches[i].patch;
        const glm::dvec2 at = on_sheet_mm(corner_mm, patch.pixel);
        ring(marks, at, 2.2);
        marks.texts.push_back(
            {std::to_string(i + 1), at + glm::dvec2(2.9, -1.4), 3, true, Align::left, kMark});
    }
}

void scale_bar(Page& page, const LuminanceScale& scale, const glm::dvec2& at_mm, double width_mm) {
    constexpr int kSteps = 260;
    for (int i = 0; i < kSteps; ++i)
        page.boxes.push_back({at_mm + glm::dvec2(width_mm * i / kSteps, 0),
                              {width_mm / kSteps + 0.05, 3},
                              luminance_colour((i + 0.5) / kSteps)});
    for (int p = scale.low; p <= scale.high; ++p) {
        const double x = width_mm * (p - scale.low) / (scale.high - scale.low);
        page.texts.push_back({fmt::format("{:g}", std::pow(10.0, p)), at_mm + glm::dvec2(x, 6.2), 2.3, false,
                              p == scale.low    ? Align::left
                              : p == scale.high ? Align::right
                                                : Align::centre,
                              kInk});
    }
    page.texts.push_back({"cd/m²", at_mm + glm::dvec2(width_mm, 9.4), 2.3, false, Align::right, kGrey});
}

void write_findings(Page& page, const GlareReport& report, double y_mm) {
    double y = y_mm;
    for (const GlareFinding& f : report.findings) {
        const EncodedSrgb& colour = f.bothers ? kWarn : kInk;
        page.texts.push_back({f.what, {kMargin_mm, y}, 2.7, false, Align::left, kInk});
        page.texts.push_back({f.value, {kMargin_mm + 84, y}, 2.7, true, Align::right, colour});
        if (!f.limit.empty())
            page.texts.push_back({"limit " + f.limit, {kMargin_mm + 89, y}, 2.4, false, Align::left, kGrey});
        y += 4.6;
    }
}

void write_patches(Page& page, const GlareReport& report, double y_mm) {
    const double x = kMargin_mm + kGlarePicture_mm + kGap_mm;
    if (report.patches.empty())
        page.texts.push_back({"No bright patches.", {x, y_mm}, 2.7, false, Align::left, kInk});
    double y = y_mm;
    for (std::size_t i = 0; i < report.patches.size(); ++i) {
        const NamedPatch& p = report.patches[i];
        page.texts.push_back({std::to_string(i + 1), {x, y}, 2.7, true, Align::left, kInk});
        page.texts.push_back({fmt::format("{} in {}, {:.2f} degrees, {:.0f} cd/m², at {:.0f}, {:.0f} mm",
                                          p.lamps, p.field.empty() ? "a stone" : p.field, p.patch.size_deg,
                                          p.patch.cd_per_m2, p.at_mm.x, p.at_mm.y),
                              {x + 5, y},
                              2.5,
                              false,
                              Align::left,
                              kInk});
        y += 4.3;
    }
}

void place(Print& sheet, const Print& picture, const glm::dvec2& at_mm) {
    const glm::ivec2 at(glm::round(at_mm * kGlareSheet_px_per_mm));
    for (int y = 0; y < picture.height; ++y) {
        const auto from = picture.rgb.begin() + 3 * static_cast<std::ptrdiff_t>(y) * picture.width;
        std::copy(from, from + 3 * static_cast<std::ptrdiff_t>(picture.width),
                  sheet.rgb.begin() + 3 * (static_cast<std::ptrdiff_t>(at.y + y) * sheet.width +
                                           static_cast<std::ptrdiff_t>(at.x)));
    }
}

}  // namespace

Print glare_sheet(const GlareReport& report, const Print& picture, const Print& map,
                  const LuminanceScale& scale, const std::string& program) {
    const auto wide = static_cast<int>(std::lround(kGlarePicture_mm * kGlareSheet_px_per_mm));
    if (picture.width != wide || map.width != wide || picture.height != map.height)
        throw std::invalid_argument("pictures that do not fit the glare sheet");
    Page page;
    page.size_mm = {2 * kMargin_mm + 2 * kGlarePicture_mm + kGap_mm, 0};
    const double tall = picture.height / kGlareSheet_px_per_mm, below = kTop_mm + tall;
    page.size_mm.y = below + 68;
    const double right = kMargin_mm + kGlarePicture_mm + kGap_mm;
    page.texts.push_back({report.panel, {kMargin_mm, 17}, 7.5, true, Align::left, kInk});
    page.texts.push_back({"Glare, seen from the viewpoint " + report.viewpoint,
                          {kMargin_mm, 25},
                          4,
                          false,
                          Align::left,
                          kInk});
    page.texts.push_back({report.verdict,
                          {kMargin_mm, 31},
                          3.2,
                          true,
                          Align::left,
                          report.verdict.starts_with("Expect") ? kWarn : kInk});
    page.texts.push_back(
        {"exposed by a grey card on the panel", {kMargin_mm, below + 5}, 2.4, false, Align::left, kGrey});
    scale_bar(page, scale, {right, below + 2.5}, kGlarePicture_mm);
    write_findings(page, report, below + 19);
    write_patches(page, report, below + 19);
    page.texts.push_back(
        {"A rendering, not a photograph. Limits are usual practice and can be set; the unified "
         "glare rating is CIE 117's.",
         {kMargin_mm, page.size_mm.y - 6},
         2.2,
         false,
         Align::left,
         kGrey});
    page.texts.push_back(
        {program, {page.size_mm.x - kMargin_mm, page.size_mm.y - 6}, 2.2, false, Align::right, kGrey});

    Print sheet = print_page(page, kGlareSheet_px_per_mm);
    place(sheet, picture, {kMargin_mm, kTop_mm});
    place(sheet, map, {right, kTop_mm});
    Page marks;  // over the pictures
    mark_patches(marks, report, {kMargin_mm, kTop_mm});
    mark_patches(marks, report, {right, kTop_mm});
    print_over(sheet, marks, kGlareSheet_px_per_mm);
    return sheet;
}

}  // namespace rakelight
