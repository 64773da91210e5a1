#include "output/samples/on_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "materials/colour/colorimetry.h"
#include "output/marks/mark_sheet.h"
#include "output/marks/marked_plane.h"
#include "output/system/errors.h"

namespace rakelight {

namespace {

constexpr double kLeast_px = 4;  // a side of a rectangle

/// As a screen shows it, so that marks of raw and EXR are found as well.
BytePicture shown(const Photograph& picture, bool linear) {
    BytePicture bytes{picture.size_px(), {}};
    bytes.rgb.reserve(3 * static_cast<std::size_t>(bytes.size_px.x) *
                      static_cast<std::size_t>(bytes.size_px.y));
    for (int y = 0; y < bytes.size_px.y; ++y)
        for (int x = 0; x < bytes.size_px.x; ++x) {
            const auto v = picture.pixel({x, y});
            const glm::dvec3 rgb(v[0], v[1], v[2]);
            for (const std::uint8_t byte :
                 to_bytes(linear ? encode(LinearRgb{rgb.r, rgb.g, rgb.b}) : EncodedSrgb{rgb.r, rgb.g, rgb.b}))
                bytes.rgb.push_back(byte);
        }
    return bytes;
}

/// The sheet's frame. \throws std::runtime_error with what was found and expected.
MarkedPlane sheet_in(const OnDesk& on) {
    const bool linear = on.said.tone == Tone::by_format ? on.picture->linear() : on.said.tone == Tone::linear;
    std::vector<SeenMark> seen = see_marks(shown(*on.picture, linear));
    std::erase_if(seen, [](const SeenMark& mark) {
        return std::none_of(mark_sheets().begin(), mark_sheets().end(), [&](const MarkSheet& sheet) {
            return std::any_of(sheet.marks.begin(), sheet.marks.end(),
                               [&](const PlacedMark& m) { return m.number == mark.number; });
        });
    });
    if (seen.empty())
        throw std::runtime_error(
            "found no marks of the printed sheet in the picture, expected three or four of them, whole and "
            "sharp, or places: in pixels");
    return marked_plane(seen, std::nullopt);
}

/// Whether the camera has a place of the sheet before it and in its picture.
bool within(const Photograph& picture, const glm::dmat3& to_px, const glm::dvec2& at_mm) {
    const glm::dvec3 p = to_px * glm::dvec3(at_mm, 1);
    const glm::dvec2 size(picture.size_px());
    return p.z > 0 && p.x >= 0 && p.y >= 0 && p.x <= size.x * p.z && p.y <= size.y * p.z;
}

std::string size_text(const Photograph& picture) {
    return fmt::format("{} x {} pixels", picture.size_px().x, picture.size_px().y);
}

void put(Desk& desk, const Photograph& picture, const glm::dmat3& to_px, PictureBox& box, const char* what) {
    box.to_px = to_px;
    const glm::dvec2 high = box.at + box.size;
    for (const glm::dvec2 corner : {box.at, glm::dvec2(high.x, box.at.y), high, glm::dvec2(box.at.x, high.y)})
        if (!within(picture, to_px, corner)) {
            desk.complain(box.said,
                          fmt::format("found {} from {:.6g}, {:.6g} to {:.6g}, {:.6g} mm on the sheet, "
                                      "expected it within the picture of {}",
                                      what, box.at.x, box.at.y, high.x, high.y, size_text(picture)));
            return;
        }
    const glm::dvec2 size = size_px(box);
    if (size.x < kLeast_px || size.y < kLeast_px)
        desk.complain(
            box.said,
            fmt::format("found {} that is {:.3g} x {:.3g} pixels in the picture, expected at least {}", what,
                        size.x, size.y, kLeast_px));
}

void put_chart(Desk& desk, const Photograph& picture, const glm::dmat3& to_px, PhotographSaid& said) {
    if (!said.corners) return;
    for (glm::dvec2& corner : *said.corners) {
        if (!within(picture, to_px, corner)) {
            desk.complain(said.chart_said,
                          fmt::format("found a corner at {:.6g}, {:.6g} mm on the sheet, expected the whole "
                                      "chart within the picture of {}",
                                      corner.x, corner.y, size_text(picture)));
            return;
        }
        corner = through(to_px, corner);
    }
}

}  // namespace

std::optional<double> put_into_picture(Desk& desk, OnDesk& on) {
    MarkedPlane sheet;
    try {
        sheet = sheet_in(on);
    } catch (const OutputError&) {
        throw;  // no room for the picture that is passed on
    } catch (const std::runtime_error& e) {
        desk.complain(on.said.places_said, e.what());
        return std::nullopt;
    }
    put_chart(desk, *on.picture, sheet.to_px, on.said);
    for_boxes(on.said,
              [&](PictureBox& box, const char* what) { put(desk, *on.picture, sheet.to_px, box, what); });
    return sheet.misfit_mm;
}

}  // namespace rakelight
