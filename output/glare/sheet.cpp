#include "output/glare/sheet.h"

#include <fmt/format.h>

#include <cmath>
#include <stdexcept>

#include "output/glare/share_map.h"
#include "output/paper/sheet_parts.h"

namespace rakelight {

namespace {

constexpr double kMargin_mm = 14, kGap_mm = 9, kRight_mm = kMargin_mm + kGlarePicture_mm + kGap_mm;
constexpr double kWide_mm = 2 * kGlarePicture_mm + kGap_mm;
constexpr double kScale_mm = 13;  // under a picture
const EncodedSrgb kInk{0.1, 0.1, 0.1}, kGrey{0.42, 0.42, 0.42}, kWarn{0.72, 0.2, 0.05};

PageText words(std::string text, glm::dvec2 at, double size, const EncodedSrgb& colour = kInk,
               bool bold = false, Align align = Align::left) {
    return {std::move(text), at, size, bold, align, colour};
}

void luminance_scale(Page& page, const LuminanceScale& scale, const glm::dvec2& at) {
    add_scale(page, at, kGlarePicture_mm, luminance_colour);
    for (int p = scale.low; p <= scale.high; ++p) {
        const double x = kGlarePicture_mm * (p - scale.low) / (scale.high - scale.low);
        const Align align = p == scale.low ? Align::left : p == scale.high ? Align::right : Align::centre;
        page.texts.push_back(
            words(fmt::format("{:g}", std::pow(10.0, p)), at + glm::dvec2(x, 6.2), 2.3, kInk, false, align));
    }
    page.texts.push_back(words("luminance, cd/m², colours after Green 2011",
                               at + glm::dvec2(kGlarePicture_mm, 9.4), 2.3, kGrey, false, Align::right));
}

void share_scale(Page& page, const glm::dvec2& at) {
    add_scale(page, at, kGlarePicture_mm, share_colour);
    for (int p = 0; p <= 100; p += 25) {
        const Align align = p == 0 ? Align::left : p == 100 ? Align::right : Align::centre;
        page.texts.push_back(words(fmt::format("{} %", p), at + glm::dvec2(kGlarePicture_mm * p / 100, 6.2),
                                   2.3, kInk, false, align));
    }
    page.texts.push_back(words(
        "share of mirrored light (reflected glare, veiling reflections); the rest is the panel's own light",
        at + glm::dvec2(kGlarePicture_mm, 9.4), 2.3, kGrey, false, Align::right));
}

double write_findings(Page& page, const GlareReport& report, glm::dvec2 at) {
    page.texts.push_back(words("In figures", at, 3.2, kInk, true));
    at.y += 5.6;
    for (const GlareFinding& f : report.findings) {
        page.texts.push_back(words(f.what, at, 2.6));
        page.texts.push_back(
            words(f.value, at + glm::dvec2(84, 0), 2.6, f.bothers ? kWarn : kInk, true, Align::right));
        if (!f.limit.empty()) page.texts.push_back(words(f.limit, at + glm::dvec2(88, 0), 2.3, kGrey));
        at.y += 4.5;
    }
    return at.y;
}

double write_contrasts(Page& page, const GlareReport& report, glm::dvec2 at) {
    if (report.contrasts.empty()) return at.y;
    page.texts.push_back(words("Contrast of fields, without and with mirrored light", at, 3.2, kInk, true));
    at.y += 5.6;
    for (const FieldContrast& c : report.contrasts) {
        page.texts.push_back(words(c.one + " against " + c.other, at, 2.6));
        page.texts.push_back(words(fmt::format("{:.0f} %", 100 * c.body), at + glm::dvec2(84, 0), 2.6, kInk,
                                   true, Align::right));
        page.texts.push_back(words(fmt::format("{:.0f} %", 100 * c.seen), at + glm::dvec2(98, 0), 2.6,
                                   c.kept() < 2.0 / 3 ? kWarn : kInk, true, Align::right));
        at.y += 4.5;
    }
    return at.y;
}

double write_marks(Page& page, const GlareReport& report, glm::dvec2 at) {
    page.texts.push_back(words("What mirrors where", at, 3.2, kInk, true));
    at.y += 5.6;
    if (report.marks.empty()) page.texts.push_back(words("Nothing mirrors strongly.", at, 2.6));
    for (std::size_t i = 0; i < report.marks.size(); ++i) {
        const NamedPatch& p = report.marks[i];
        const std::string field = p.field.empty() ? "a stone" : p.field;
        page.texts.push_back(words(std::to_string(i + 1), at, 2.8, kInk, true));
        const bool bothers = p.patch.size_deg > report.limits.bright_spot_deg &&
                             p.patch.times > report.limits.patch_ratio &&
                             stands_out(report.limits, p.patch.cd_per_m2, report.background_cd_per_m2);
        page.texts.push_back(
            words(p.lamps + ", in " + field, at + glm::dvec2(5.5, 0), 2.8, bothers ? kWarn : kInk));
        page.texts.push_back(
            words(fmt::format("{:.1f} degrees wide, up to {:.1f} times the panel's own light, {:.0f} cd/m², "
                              "{:.0f} mm from the left, {:.0f} mm up",
                              p.patch.size_deg, p.patch.times, p.patch.cd_per_m2, p.at_mm.x, p.at_mm.y),
                  at + glm::dvec2(5.5, 3.6), 2.3, kGrey));
        at.y += 8.6;
    }
    return at.y;
}

double write_head(Page& page, const GlareReport& report) {
    page.texts.push_back(words(report.panel, {kMargin_mm, 17}, 7.5, kInk, true));
    std::string where = "Glare, seen from the viewpoint " + report.viewpoint;
    if (!report.light.empty()) where += " (light: " + report.light + ")";
    page.texts.push_back(words(where, {kMargin_mm, 25}, 4));
    return add_words(
        page, report.verdict,
        words("", {kMargin_mm, 32}, 3.6, report.verdict.starts_with("Expect") ? kWarn : kInk, true), kWide_mm,
        5);
}

}  // namespace

Print glare_sheet(const GlareReport& report, const GlarePictures& pictures, const LuminanceScale& scale,
                  const std::string& program) {
    const auto wide = static_cast<int>(std::lround(kGlarePicture_mm * kGlareSheet_px_per_mm));
    for (const Print* p : {&pictures.picture, &pictures.map, &pictures.share})
        if (p->width != wide || p->height != pictures.picture.height)
            throw std::invalid_argument("pictures that do not fit the glare sheet");
    Page page;
    const double top = write_head(page, report) + 1, tall = pictures.picture.height / kGlareSheet_px_per_mm;
    const double second = top + tall + kScale_mm + 4;
    page.texts.push_back(words("as a camera sees it, exposed by a grey card on the panel",
                               {kMargin_mm, top + tall + 5}, 2.3, kGrey));
    luminance_scale(page, scale, {kRight_mm, top + tall + 2.5});
    share_scale(page, {kMargin_mm, second + tall + 2.5});
    double end = second + tall + kScale_mm;
    end = std::max(end, write_marks(page, report, {kRight_mm, second + 3}));
    const double left = write_findings(page, report, {kMargin_mm, end + 6});
    const double right = write_contrasts(page, report, {kRight_mm, end + 6});
    page.size_mm = {2 * kMargin_mm + kWide_mm, std::max(left, right) + 10};
    page.texts.push_back(
        words("A rendering, not a photograph. Limits are usual practice and can be set; the "
              "unified glare rating is CIE 117's.",
              {kMargin_mm, page.size_mm.y - 6}, 2.2, kGrey));
    page.texts.push_back(
        words(program, {page.size_mm.x - kMargin_mm, page.size_mm.y - 6}, 2.2, kGrey, false, Align::right));

    Print sheet = print_page(page, kGlareSheet_px_per_mm);
    Page marks;  // over the pictures
    for (const auto& [picture, at] : {std::pair(&pictures.picture, glm::dvec2(kMargin_mm, top)),
                                      std::pair(&pictures.map, glm::dvec2(kRight_mm, top)),
                                      std::pair(&pictures.share, glm::dvec2(kMargin_mm, second))}) {
        place(sheet, *picture, at, kGlareSheet_px_per_mm);
        for (std::size_t i = 0; i < report.marks.size(); ++i)
            add_mark(marks, at + report.marks[i].patch.pixel / kGlareSheet_px_per_mm,
                     static_cast<int>(i) + 1);
    }
    print_over(sheet, marks, kGlareSheet_px_per_mm);
    return sheet;
}

}  // namespace rakelight
