#include "output/marks/marked_plane.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <stdexcept>

#include "output/marks/mark_sheet.h"

namespace rakelight {
namespace {

constexpr double kMostMisfit = 0.004;  // of the longer side: paper that is not flat, a wrong size
constexpr std::size_t kLeastMarks = 3;

[[noreturn]] void refuse(std::string why) {
    throw std::runtime_error(std::move(why));
}

const SeenMark* seen_as(std::span<const SeenMark> seen, int number) {
    const auto at =
        std::find_if(seen.begin(), seen.end(), [&](const SeenMark& mark) { return mark.number == number; });
    return at == seen.end() ? nullptr : &*at;
}

std::size_t count_of(std::span<const SeenMark> seen, std::span<const PlacedMark> marks) {
    return static_cast<std::size_t>(std::count_if(
        marks.begin(), marks.end(), [&](const PlacedMark& mark) { return seen_as(seen, mark.number); }));
}

PlaneFit fit(std::span<const SeenMark> seen, std::span<const PlacedMark> marks) {
    std::vector<SeenPoint> points;
    for (const PlacedMark& mark : marks)
        if (const SeenMark* s = seen_as(seen, mark.number))
            for (std::size_t i = 0; i < 4; ++i) points.push_back({mark.corners_mm()[i], s->corners_px[i]});
    return fit_plane(points);
}

void check_flat(const PlaneFit& fit, const glm::dvec2& size_mm, const char* what) {
    if (fit.misfit_mm <= kMostMisfit * std::max(size_mm.x, size_mm.y)) return;
    refuse(fmt::format("found marks that lie {:.1f} mm off where they should, expected {}", fit.misfit_mm,
                       what));
}

MarkedPlane about_drawing(std::span<const SeenMark> seen, const std::optional<glm::dvec2>& paper_mm) {
    if (!paper_mm)
        refuse("found corner cards, expected paper: [width, height], the size of the drawing between them");
    const auto marks = card_marks(*paper_mm);
    if (count_of(seen, marks) < 4)
        refuse(fmt::format("found {} of the four corner cards, expected all of them, whole and sharp",
                           count_of(seen, marks)));
    const PlaneFit f = fit(seen, marks);
    check_flat(f, *paper_mm, "cards up to the corners of paper of the size told, all of them flat");
    return {*paper_mm, f.to_px, f.misfit_mm, 4};
}

MarkedPlane within_frame(std::span<const SeenMark> seen, const MarkSheet& sheet,
                         const std::optional<glm::dvec2>& paper_mm) {
    const glm::dvec2 frame = sheet.frame_size_mm, size = paper_mm.value_or(frame);
    if (size.x > frame.x || size.y > frame.y)
        refuse(
            fmt::format("found the printed sheet alone, whose frame is {:.6g} x {:.6g} mm, expected paper "
                        "within it, or corner cards about larger paper",
                        frame.x, frame.y));
    if (count_of(seen, sheet.marks) < kLeastMarks)
        refuse(
            fmt::format("found {} of the four marks of the printed sheet, expected three or four, whole and "
                        "sharp",
                        count_of(seen, sheet.marks)));
    const PlaneFit f = fit(seen, sheet.marks);
    check_flat(f, sheet.paper.size_mm, "a flat sheet, printed at 100 %");
    const glm::dvec2 corner = sheet.frame_at_mm + glm::dvec2(0, frame.y - size.y);
    const glm::dmat3 shift(glm::dvec3(1, 0, 0), glm::dvec3(0, 1, 0), glm::dvec3(corner, 1));
    return {size, f.to_px * shift, f.misfit_mm, static_cast<int>(count_of(seen, sheet.marks))};
}

}  // namespace

MarkedPlane marked_plane(std::span<const SeenMark> seen, const std::optional<glm::dvec2>& paper_mm) {
    for (std::size_t i = 1; i < seen.size(); ++i)
        if (seen[i].number == seen[i - 1].number)
            refuse("found a printed mark twice, expected one sheet, or four cards, in the picture");
    if (count_of(seen, card_marks({1, 1})) > 0) return about_drawing(seen, paper_mm);
    const MarkSheet* most = nullptr;
    for (const MarkSheet& sheet : mark_sheets())
        if (!most || count_of(seen, sheet.marks) > count_of(seen, most->marks)) most = &sheet;
    if (count_of(seen, most->marks) == 0) refuse("found no printed marks in the picture");
    return within_frame(seen, *most, paper_mm);
}

}  // namespace rakelight
