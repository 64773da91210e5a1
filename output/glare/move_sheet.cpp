#include "output/glare/move_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "output/glare/room_sketch.h"
#include "output/paper/sheet_parts.h"
#include "scene/model/layout.h"

namespace rakelight {

namespace {

constexpr double kMargin_mm = 14, kGap_mm = 9, kRight_mm = kMargin_mm + kMovePicture_mm + kGap_mm;
constexpr double kWide_mm = 2 * kMovePicture_mm + kGap_mm;
const EncodedSrgb kInk{0.1, 0.1, 0.1}, kGrey{0.42, 0.42, 0.42}, kWarn{0.72, 0.2, 0.05},
    kThen{0.05, 0.4, 0.62};

PageText words(std::string text, glm::dvec2 at, double size, const EncodedSrgb& colour = kInk,
               bool bold = false, Align align = Align::left) {
    return {std::move(text), at, size, bold, align, colour};
}

double write_head(Page& page, const MoveReport& report) {
    page.texts.push_back(words(report.panel, {kMargin_mm, 17}, 7.5, kInk, true));
    std::string title = "What to move";
    if (!report.light.empty()) title += " (light: " + report.light + ")";
    page.texts.push_back(words(title, {kMargin_mm, 25}, 4));
    double y = 35;
    const TracedMove& advised = report.traced.at(report.advised);
    int number = 0;
    for (const std::string& sentence : advised.advice)
        y = add_words(page, fmt::format("{}. {}", ++number, sentence),
                      words("", {kMargin_mm, y}, 5, kThen, true), kWide_mm, 7);
    return add_words(page, report.verdict, words("", {kMargin_mm, y + 1}, 3.6, kInk, true), kWide_mm, 5);
}

double largest_deg(const TracedMove& move) {
    double most = 0;
    for (const GlareReport& r : move.reports)
        if (r.largest) most = std::max(most, r.largest->patch.size_deg);
    return most;
}

double most_veil(const TracedMove& move) {
    double most = 0;
    for (const GlareReport& r : move.reports)
        for (const FieldLight& f : r.glare.fields) most = std::max(most, f.veil());
    return most;
}

double write_table(Page& page, const MoveReport& report, glm::dvec2 at) {
    struct Column {
        const char* head;
        double right_mm;
    };
    const Column columns[] = {{"worst score, expected", 134}, {"traced", 155},        {"largest patch", 183},
                              {"most veiled field", 214},     {"light, traced", 240}, {"evenness", 264}};
    page.texts.push_back(words("Traced, from the fewest changes to the most", at, 3.2, kInk, true));
    at.y += 5.4;
    for (const Column& c : columns)
        page.texts.push_back(words(c.head, at + glm::dvec2(c.right_mm, 0), 2.3, kGrey, false, Align::right));
    at.y += 4.6;
    for (std::size_t i = 0; i < report.traced.size(); ++i) {
        const TracedMove& t = report.traced[i];
        const bool chosen = i == report.advised;
        const GlareLimits limits = t.reports.empty() ? GlareLimits{} : t.reports.front().limits;
        const double patch = largest_deg(t), veil = most_veil(t);
        const std::string cells[] = {fmt::format("{:.2f}", t.choice.worst),
                                     fmt::format("{:.2f}", t.worst()),
                                     fmt::format("{:.2f} degrees", patch),
                                     fmt::format("{:.2f} times", veil),
                                     fmt::format("{:.0f} lx", t.lux),
                                     fmt::format("1 : {:.1f}", 1 / std::max(t.choice.evenness, 1e-3))};
        page.texts.push_back(words(t.in_short, at, 2.6, chosen ? kThen : kInk, chosen));
        for (std::size_t k = 0; k < std::size(cells); ++k) {
            const bool over = std::any_of(t.reports.begin(), t.reports.end(), patch_bothers);
            const bool bad = (k == 2 && over) || (k == 3 && veil > limits.veil_ratio);
            page.texts.push_back(words(cells[k], at + glm::dvec2(columns[k].right_mm, 0), 2.6,
                                       bad ? kWarn : kInk, chosen, Align::right));
        }
        at.y += 4.6;
    }
    return add_words(page,
                     fmt::format("{} {} arrangements were compared, of which {} keep the light on the panel.",
                                 kMoveCriterion, report.search.gone_through, report.search.kept_light),
                     words("", at, 2.3, kGrey), kWide_mm, 3.6);
}

double write_tried(Page& page, const MoveReport& report, glm::dvec2 at) {
    if (report.tried.empty()) return at.y;
    page.texts.push_back(words("Each alone, reckoned and not traced", at, 3.2, kInk, true));
    at.y += 5.4;
    for (const TriedAlone& t : report.tried) {
        page.texts.push_back(words(t.what, at, 2.6));
        page.texts.push_back(words(fmt::format("score {:.2f}, {}", t.worst, score_word(t.worst)),
                                   at + glm::dvec2(150, 0), 2.6, kInk, false, Align::right));
        page.texts.push_back(
            words(fmt::format("{:.0f} lx", t.lux), at + glm::dvec2(180, 0), 2.6, kInk, false, Align::right));
        at.y += 4.6;
    }
    return at.y + 2;
}

std::string in_figures(const GlareReport& r) {
    return fmt::format("score {:.2f}; largest patch {:.2f} degrees; {:.0f} sparkles per m²", r.glare.score,
                       r.largest ? r.largest->patch.size_deg : 0, r.glare.sparkles_per_m2);
}

void write_under(Page& page, const std::string& when, const GlareReport& r, const glm::dvec2& at) {
    page.texts.push_back(words(when + ": " + in_figures(r), at, 2.4, kGrey));
    add_words(page, r.verdict, words("", at + glm::dvec2(0, 4), 2.6, panel_bothers(r) ? kWarn : kInk, true),
              kMovePicture_mm, 3.8);
}

}  // namespace

Print move_sheet(const MoveReport& report, const Layout& present, const std::vector<Viewpoint>& eyes,
                 const std::vector<BeforeAfter>& pairs, const std::string& program) {
    const auto wide = static_cast<int>(std::lround(kMovePicture_mm * kMoveSheet_px_per_mm));
    for (const BeforeAfter& pair : pairs)
        if (pair.before.width != wide || pair.after.width != wide || pair.before.height != pair.after.height)
            throw std::invalid_argument("pictures that do not fit the sheet of what to move");
    Page page;
    const TracedMove& advised = report.traced.at(report.advised);
    double y = write_head(page, report) + 2;
    constexpr double kSketch_mm = 76;
    page.texts.push_back(words("from the side", {kMargin_mm, y}, 2.6, kGrey));
    page.texts.push_back(words("from above, the panel's wall at the top", {kRight_mm, y}, 2.6, kGrey));
    add_room_sketch(page, SketchView::side, present, advised.choice.how, eyes, {kMargin_mm, y + 2},
                    {kMovePicture_mm, kSketch_mm});
    add_room_sketch(page, SketchView::above, present, advised.choice.how, eyes, {kRight_mm, y + 2},
                    {kMovePicture_mm, kSketch_mm});
    y = write_table(page, report, {kMargin_mm, y + kSketch_mm + 10}) + 4;
    y = write_tried(page, report, {kMargin_mm, y + 3});
    std::vector<double> tops;
    for (std::size_t i = 0; i < pairs.size(); ++i) {
        page.texts.push_back(words("Seen from " + eyes[i].name, {kMargin_mm, y + 2}, 3.2, kInk, true));
        tops.push_back(y + 4.5);
        y += 4.5 + pairs[i].before.height / kMoveSheet_px_per_mm;
        write_under(page, "As it is", report.traced[0].reports.at(i), {kMargin_mm, y + 4});
        write_under(page, "As advised", advised.reports.at(i), {kRight_mm, y + 4});
        y += 20;
    }
    page.size_mm = {2 * kMargin_mm + kWide_mm, y + 8};
    page.texts.push_back(
        words("Renderings, not photographs; before and after are exposed alike. Whether a wall "
              "and its fixings carry the panel is not judged here.",
              {kMargin_mm, page.size_mm.y - 6}, 2.2, kGrey));
    page.texts.push_back(
        words(program, {page.size_mm.x - kMargin_mm, page.size_mm.y - 6}, 2.2, kGrey, false, Align::right));
    Print sheet = print_page(page, kMoveSheet_px_per_mm);
    for (std::size_t i = 0; i < pairs.size(); ++i) {
        place(sheet, pairs[i].before, {kMargin_mm, tops[i]}, kMoveSheet_px_per_mm);
        place(sheet, pairs[i].after, {kRight_mm, tops[i]}, kMoveSheet_px_per_mm);
    }
    return sheet;
}

}  // namespace rakelight
