#include "output/study/sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "output/paper/ink.h"
#include "output/paper/page.h"
#include "output/paper/sheet_parts.h"
#include "output/print/printed_colour.h"
#include "output/print/resized.h"

namespace rakelight {
namespace {

using namespace sheet;

constexpr double kWide_mm = 297, kMargin_mm = 10, kGap_mm = 4, kName_room_mm = 6;
constexpr std::size_t kAcross = 4;
constexpr double kPicture_mm = (kWide_mm - 2 * kMargin_mm - 3 * kGap_mm) / 4;
constexpr double kHead_mm = 20;
constexpr std::size_t kMostFields = 20;

struct Placed {
    const Print* print;
    glm::dvec2 at_mm, size_mm;
};

// Lays views in lines of four; `y` is moved below them.
void lay_views(Page& page, std::vector<Placed>& placed, const std::vector<StudyView>& views, double& y) {
    for (std::size_t i = 0; i < views.size(); i += kAcross) {
        const Print& first = views[i].print;
        const double tall = kPicture_mm * first.height / first.width;
        for (std::size_t k = i; k < std::min(i + kAcross, views.size()); ++k) {
            const glm::dvec2 at(kMargin_mm + static_cast<double>(k - i) * (kPicture_mm + kGap_mm), y);
            placed.push_back({&views[k].print, at, {kPicture_mm, tall}});
            page.texts.push_back(
                fitted({views[k].name, at + glm::dvec2(0, tall + 4.2), kName_mm, true, Align::left, kLight},
                       kPicture_mm));
        }
        y += tall + kName_room_mm + 1;
    }
}

std::string accents_of(const FieldTone& field) {
    std::string words;
    for (const AccentTone& a : field.accents)
        words += fmt::format("{}{}: moves it by L* {}, seen to {}", words.empty() ? "" : "; ", a.material,
                             number(a.moves_l, 1),
                             a.seen_to_m > 0 ? fmt::format("{:g} m", a.seen_to_m) : std::string("nowhere"));
    return words;
}

void add_fields(Page& page, const Study& study, double& y) {
    if (study.fields.empty()) return;
    constexpr double kColumns_mm[] = {80, 95, 110, 125, 145};
    const std::array<const char*, 5> heads{"L*", "a*", "b*", "spread", "pieces"};
    y += 4;
    page.texts.push_back({"Fields", {kMargin_mm, y}, kName_mm, true, Align::left, kInk});
    for (std::size_t i = 0; i < heads.size(); ++i)
        page.texts.push_back(caption(heads[i], {kMargin_mm + kColumns_mm[i], y}, Align::right));
    page.texts.push_back(caption("what accents do", {kMargin_mm + 152, y}));
    for (std::size_t f = 0; f < std::min(study.fields.size(), kMostFields); ++f) {
        const FieldTone& field = study.fields[f];
        y += kLine_mm + 0.4;
        page.boxes.push_back({{kMargin_mm, y - 2.6}, {5, 3.2}, from_bytes(printed_colour(field.mean).srgb)});
        page.texts.push_back(fitted(plain(field.name, {kMargin_mm + 7, y}), 60));
        const std::array<std::string, 5> figures{number(field.mean.l, 1), number(field.mean.a, 1),
                                                 number(field.mean.b, 1), number(field.spread_l, 1),
                                                 fmt::format("{}", field.pieces)};
        for (std::size_t i = 0; i < figures.size(); ++i)
            page.texts.push_back(plain(figures[i], {kMargin_mm + kColumns_mm[i], y}, Align::right));
        page.texts.push_back(
            fitted(plain(accents_of(field), {kMargin_mm + 152, y}), kWide_mm - kMargin_mm - 162));
    }
    if (study.fields.size() > kMostFields) {
        y += kLine_mm;
        page.texts.push_back(
            caption(fmt::format("and {} more", study.fields.size() - kMostFields), {kMargin_mm, y}));
    }
}

std::string levels_text(const std::vector<double>& levels) {
    std::string words;
    for (const double level : levels) words += (words.empty() ? "" : ", ") + number(level, 0);
    return words;
}

void add_foot(Page& page, const Study& study, const std::string& program, double& y) {
    y += 6;
    page.texts.push_back(fitted(
        plain(fmt::format(
                  "Panel: mean L* {}, spread {}. Values are of what is seen from {:g} m, at L* {} and L* {}.",
                  number(study.mean_l, 1), number(study.spread_l, 1), kValuesFrom_m, levels_text(study.three),
                  levels_text(study.five)),
              {kMargin_mm, y}),
        kWide_mm - 2 * kMargin_mm));
    y += 4;
    page.texts.push_back(fitted(
        caption(
            "From afar: light mixed over one minute of arc (ISO 8596). Tones of fields are of their pieces, "
            "against a white in the light on the panel. " +
                program,
            {kMargin_mm, y}),
        kWide_mm - 2 * kMargin_mm));
    y += 5;
}

}  // namespace

Print study_sheet(const Study& study, const std::string& title, const std::string& light,
                  const std::string& program) {
    Page page;
    page.paper = kPaper;
    const double room = kWide_mm - 2 * kMargin_mm;
    page.texts.push_back(fitted({title, {kMargin_mm, 11}, 6, true, Align::left, kInk}, room));
    page.texts.push_back(fitted(plain(light, {kMargin_mm, 16}), room));
    std::vector<Placed> placed;
    double y = kHead_mm;
    lay_views(page, placed, study.views, y);
    lay_views(page, placed, study.reference, y);
    add_fields(page, study, y);
    add_foot(page, study, program, y);
    page.size_mm = {kWide_mm, y};
    Print print = print_page(page, kStudy_px_per_mm);
    for (const Placed& each : placed)
        place(print,
              resized(*each.print, static_cast<int>(std::lround(each.size_mm.x * kStudy_px_per_mm)),
                      static_cast<int>(std::lround(each.size_mm.y * kStudy_px_per_mm))),
              each.at_mm, kStudy_px_per_mm);
    return print;
}

}  // namespace rakelight
