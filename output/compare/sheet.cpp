#include "output/compare/sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "output/paper/page.h"
#include "output/paper/sheet_parts.h"

namespace rakelight {
namespace {

constexpr double kMargin_mm = 12, kGap_mm = 6, kMost = 10;  // CIEDE2000 at the end of the scale
constexpr double kPicture_mm = (297 - 2 * kMargin_mm - 2 * kGap_mm) / 3;
constexpr std::size_t kMostRows = 12;
const EncodedSrgb kInk{0.1, 0.1, 0.1}, kGrey{0.42, 0.42, 0.42};

Print printed(const std::vector<glm::vec3>& rgb, int width, int height) {
    Print print{width, height, {}};
    print.rgb.reserve(3 * rgb.size());
    for (const glm::vec3& c : rgb) {
        const EncodedSrgb e = encode({c.r, c.g, c.b});
        for (const double v : {e.r, e.g, e.b})
            print.rgb.push_back(static_cast<float>(std::clamp(v, 0.0, 1.0)));
    }
    return print;
}

// As many pixels as its place on the sheet has, each the mean of those it covers or the nearest.
Print fitted(const Print& print, const glm::dvec2& size_mm) {
    const int w = static_cast<int>(size_mm.x * kCompareSheet_px_per_mm),
              h = static_cast<int>(size_mm.y * kCompareSheet_px_per_mm);
    Print r{w, h, std::vector<float>(static_cast<std::size_t>(w) * static_cast<std::size_t>(h) * 3)};
    const auto span = [](int i, int of, int from) {
        const int low = static_cast<int>(static_cast<long long>(i) * from / of);
        return std::pair{low, std::max(low + 1, static_cast<int>(static_cast<long long>(i + 1) * from / of))};
    };
    for (int y = 0; y < h; ++y)
        for (int x = 0; x < w; ++x) {
            const auto [left, right] = span(x, w, print.width);
            const auto [top, below] = span(y, h, print.height);
            for (std::size_t c = 0; c < 3; ++c) {
                float sum = 0;
                for (int j = top; j < below; ++j)
                    for (int i = left; i < right; ++i)
                        sum += print.rgb[3 * static_cast<std::size_t>(j * print.width + i) + c];
                r.rgb[3 * static_cast<std::size_t>(y * w + x) + c] =
                    sum / static_cast<float>((right - left) * (below - top));
            }
        }
    return r;
}

PageText words(std::string text, const glm::dvec2& at, double size, const EncodedSrgb& colour = kInk,
               bool bold = false, Align align = Align::left) {
    return {std::move(text), at, size, bold, align, colour};
}

EncodedSrgb patch(const Lab& lab) {
    EncodedSrgb e = encode(xyz_to_linear_rgb(lab_to_xyz(lab, linear_rgb_to_xyz({1, 1, 1}))));
    for (double* v : {&e.r, &e.g, &e.b}) *v = std::clamp(*v, 0.0, 1.0);
    return e;
}

// A line of the table: photograph and picture side by side as patches, and what differs.
void set_area(Page& page, const ComparedArea& a, const glm::dvec2& at) {
    page.boxes.push_back({at + glm::dvec2(0, -3), {7, 4}, patch(a.photo)});
    page.boxes.push_back({at + glm::dvec2(7, -3), {7, 4}, patch(a.picture)});
    page.texts.push_back(
        cut(words(a.name + (a.pieces ? "" : " (joints, round the work)"), at + glm::dvec2(17, 0), 2.6), 52));
    const auto figure = [&](double value, double x, bool bold = false) {
        page.texts.push_back(
            words(fmt::format("{:+.1f}", value), at + glm::dvec2(x, 0), 2.6, kInk, bold, Align::right));
    };
    page.texts.push_back(
        words(fmt::format("{:.1f}", a.delta_e), at + glm::dvec2(84, 0), 2.6, kInk, true, Align::right));
    figure(a.photo.l - a.picture.l, 98);
    figure(a.photo.a - a.picture.a, 111);
    figure(a.photo.b - a.picture.b, 124);
}

void set_table(Page& page, const std::string& heading, const std::vector<ComparedArea>& areas,
               glm::dvec2 at) {
    page.texts.push_back(words(heading, at, 3.2, kInk, true));
    const std::array<const char*, 4> columns{"CIEDE2000", "L*", "a*", "b*"};
    for (std::size_t i = 0; i < columns.size(); ++i)
        page.texts.push_back(words(columns[i],
                                   at + glm::dvec2(i == 0 ? 84 : 85 + 13.0 * static_cast<double>(i), 0), 2.3,
                                   kGrey, false, Align::right));
    page.texts.push_back(words("left as photographed, right as pictured; photograph less picture",
                               at + glm::dvec2(0, 4.2), 2.3, kGrey));
    at.y += 4.4;
    const std::size_t shown = std::min(areas.size(), kMostRows);
    for (std::size_t i = 0; i < shown; ++i) {
        at.y += 5;
        set_area(page, areas[i], at);
    }
    if (areas.size() > shown)
        page.texts.push_back(words(fmt::format("and {} more, nearer than these", areas.size() - shown),
                                   at + glm::dvec2(0, 4.4), 2.3, kGrey));
}

std::string exposed_by(const Compared& c) {
    const std::string chart = c.by_chart ? "Tone curve and colour by the chart. " : "";
    if (!c.white.empty()) return chart + "Exposure and white by " + c.white + ", which so counts as right";
    return c.by_chart ? "Exposure, white, tone curve and colour by the chart"
                      : "Exposure by the median; the white is the camera's own";
}

std::string how_matched(const Compared& c) {
    const double panel = static_cast<double>(std::max<std::size_t>(1, c.panel_pixels));
    return fmt::format(
        "{}. {}. Of the panel {:.0f} % is mostly mirrored light in the picture and left out, {:.0f} % is "
        "over- or "
        "underexposed in the photograph. CIEDE2000: half of the rest within {:.1f}, nine in ten within "
        "{:.1f}; 1 is "
        "just noticeable.",
        c.by_edges ? "Corners matched by edges" : "Corners as given: edges did not match better",
        exposed_by(c), 100 * static_cast<double>(c.mirrored_out) / panel,
        100 * static_cast<double>(c.spoilt_out) / panel, c.median, c.nine_in_ten);
}

}  // namespace

EncodedSrgb difference_colour(double delta_e) {
    const double s = std::clamp(delta_e / kMost, 0.0, 1.0);
    const EncodedSrgb all{0.36, 0.05, 0.5};
    return {1 - s * (1 - all.r), 1 - s * (1 - all.g), 1 - s * (1 - all.b)};
}

Print compared_picture(const Compared& c) {
    return printed(c.picture_rgb, c.width, c.height);
}
Print compared_photograph(const Compared& c) {
    return printed(c.photo_rgb, c.width, c.height);
}

Print difference_map(const Compared& c) {
    Print print{c.width, c.height, {}};
    print.rgb.reserve(3 * c.delta_e.size());
    for (const float d : c.delta_e) {
        const EncodedSrgb e = d < 0 ? EncodedSrgb{0.5, 0.5, 0.5} : difference_colour(d);
        for (const double v : {e.r, e.g, e.b}) print.rgb.push_back(static_cast<float>(v));
    }
    return print;
}

Print compare_sheet(const Compared& c, const std::string& title, const std::string& program) {
    Page page;
    page.size_mm = {297, 210};
    page.texts.push_back(cut(words(title, {kMargin_mm, 17}, 5.5, kInk, true), 270));
    const double height = std::min(75.0, kPicture_mm * c.height / c.width), top = 28;
    const glm::dvec2 size{height * c.width / c.height, height};
    const std::array<const char*, 3> heads{"Photograph", "Picture", "Difference"};
    for (std::size_t i = 0; i < 3; ++i)
        page.texts.push_back(words(heads[i],
                                   {kMargin_mm + static_cast<double>(i) * (kPicture_mm + kGap_mm), top - 2},
                                   3.2, kInk, true));
    const glm::dvec2 scale{kMargin_mm + 2 * (kPicture_mm + kGap_mm), top + height + 2};
    add_scale(page, scale, size.x, [](double x) { return difference_colour(kMost * x); });
    for (int p = 0; p <= 10; p += 5)
        page.texts.push_back(words(p == 10 ? "10 and over" : fmt::format("{}", p),
                                   scale + glm::dvec2(size.x * p / 10, 6.2), 2.3, kInk, false,
                                   p == 0    ? Align::left
                                   : p == 10 ? Align::right
                                             : Align::centre));
    page.texts.push_back(words("CIEDE2000; grey: left out", scale + glm::dvec2(0, 9.6), 2.3, kGrey));
    add_words(page, how_matched(c), words("", {kMargin_mm, top + height + 6}, 2.6), 2 * kPicture_mm + kGap_mm,
              4);
    const double table = top + height + 24;
    set_table(page, "Materials", c.materials, {kMargin_mm, table});
    set_table(page, "Fields", c.fields, {kMargin_mm + 142, table});
    page.texts.push_back(
        words(program + ". Colours are relative to a white in the light on the panel, seen from one "
                        "place; mirrored light differs with every place.",
              {kMargin_mm, 203}, 2.1, kGrey));
    Print sheet = print_page(page, kCompareSheet_px_per_mm);
    const std::array prints{compared_photograph(c), compared_picture(c), difference_map(c)};
    for (std::size_t i = 0; i < 3; ++i)
        place(sheet, fitted(prints[i], size),
              {kMargin_mm + static_cast<double>(i) * (kPicture_mm + kGap_mm), top}, kCompareSheet_px_per_mm);
    return sheet;
}

}  // namespace rakelight
