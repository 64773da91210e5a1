#include "output/in_photograph/taken.h"

#include <OpenImageIO/imageio.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "output/compare/homography.h"
#include "output/compare/panel_photograph.h"
#include "output/marks/byte_picture.h"
#include "output/marks/marked_plane.h"
#include "output/marks/seen_marks.h"
#include "output/print/area_mean.h"
#include "output/system/errors.h"
#include "scene/model/layout.h"
#include "scene/model/levels.h"
#include "scene/picture_file/open_picture.h"
#include "scene/room/hung_panel.h"

namespace rakelight {
namespace {

constexpr int kUsualWidth_px = 1600;
/// Exif gives the 35 mm equivalent by the diagonal of the picture (CIPA DCG-001), that of 36 x 24 mm.
const double kFilmDiagonal_mm = std::hypot(36.0, 24.0);
constexpr double kTyped_px = 0.5, kMarked_px = 0.1;  // standard deviations of corners
constexpr double kFoundWell = 0.02;                  // a focal length found better than Exif rounds it
constexpr double kDoubtful = 0.05;
constexpr double kClippedShare = 0.02;
constexpr double kShadowReach = 0.5;  // of the longer side of what hangs there, beyond its edges

double diagonal(const glm::ivec2& px) {
    return glm::length(glm::dvec2(px));
}

std::optional<double> noted_focal_35mm(const std::string& file) {
    const int noted =
        open_picture(file, "a photograph")->spec().get_int_attribute("Exif:FocalLengthIn35mmFilm", 0);
    return noted > 0 ? std::optional<double>(noted) : std::nullopt;
}

void read_pixels(TakenPhotograph& p) {
    PanelPhotograph whole;
    try {
        whole = read_panel_photograph(p.said.file);
    } catch (const RequestError& error) {
        std::string why = error.what();
        if (why.starts_with(p.said.file + ": ")) why.erase(0, p.said.file.size() + 2);
        throw PhotographError("picture", why);
    }
    p.whole_px = {whole.width, whole.height};
    const double width =
        std::min(p.said.width_px.value_or(std::min(kUsualWidth_px, whole.width)), whole.width);
    p.size_px = {static_cast<int>(width),
                 std::max(1, static_cast<int>(std::lround(width * whole.height / whole.width)))};
    const PixelSize from{whole.width, whole.height}, to{p.size_px.x, p.size_px.y};
    p.rgb = area_mean(whole.rgb, from, to);
    for (const float share : area_mean(whole.spoilt.v, from, to)) p.spoilt.push_back(share > 0.02f);
}

void read_mask(TakenPhotograph& p) {
    if (p.said.mask.empty()) return;
    BytePicture mask;
    try {
        mask = read_byte_picture(p.said.mask);
    } catch (const std::runtime_error& error) {
        throw PhotographError("mask", error.what());
    }
    if (mask.size_px != p.whole_px)
        throw PhotographError("mask",
                              fmt::format("found a mask of {} x {} pixels, expected {} x {}, as the "
                                          "photograph has",
                                          mask.size_px.x, mask.size_px.y, p.whole_px.x, p.whole_px.y));
    std::vector<float> share;
    for (std::size_t i = 0; i < mask.rgb.size(); i += 3)
        share.push_back(static_cast<float>(mask.rgb[i] + mask.rgb[i + 1] + mask.rgb[i + 2]) / (3 * 255.f));
    p.in_front = area_mean(share, {p.whole_px.x, p.whole_px.y}, {p.size_px.x, p.size_px.y});
}

// The frame of the printed sheet, or the four sides of a sheet of which cards tell the corners.
SeenSheet by_marks(const TakenPhotograph& p) {
    try {
        const MarkedPlane plane = marked_plane(see_marks(read_byte_picture(p.said.file)), p.said.sheet_mm);
        SeenSheet sheet;
        sheet.size_mm = plane.size_mm;
        const glm::dvec2 s = plane.size_mm;
        const std::array<glm::dvec2, 4> corners{{{0, 0}, {s.x, 0}, s, {0, s.y}}};
        for (std::size_t i = 0; i < 4; ++i) sheet.corners_px[i] = through(plane.to_px, corners[i]);
        return sheet;
    } catch (const std::runtime_error& error) {
        throw PhotographError("corners", fmt::format("{}; or give the corners of a sheet", error.what()));
    }
}

SeenSheet sheet_of(const TakenPhotograph& p) {
    SeenSheet sheet;
    if (p.said.corners_px) {
        sheet.corners_px = *p.said.corners_px;
        sheet.size_mm = *p.said.sheet_mm;
    } else {
        sheet = by_marks(p);
    }
    sheet.photograph_px = glm::dvec2(p.whole_px);
    for (const glm::dvec2& c : sheet.corners_px)
        if (c.x < 0 || c.y < 0 || c.x > p.whole_px.x || c.y > p.whole_px.y)
            throw PhotographError("corners", fmt::format("found a corner at {:.6g}, {:.6g}, expected all of "
                                                         "them within the {} x {} pixels of the photograph",
                                                         c.x, c.y, p.whole_px.x, p.whole_px.y));
    return sheet;
}

std::optional<SheetPose> pose_without_focal(const SeenSheet& sheet, double told_px) {
    try {
        return pose_of(sheet, told_px);
    } catch (const std::runtime_error&) {
        return {};
    }
}

void find_pose(TakenPhotograph& p) {
    SeenSheet sheet = sheet_of(p);
    p.by_marks = !p.said.corners_px;
    for (std::size_t i = 0; i < 4; ++i)
        p.corners_px[i] = sheet.corners_px[i] * glm::dvec2(p.size_px) / glm::dvec2(p.whole_px);
    const double told_px = p.by_marks ? kMarked_px : kTyped_px;
    const auto focal_px = [&](double focal_35mm) {
        return focal_35mm / kFilmDiagonal_mm * diagonal(p.whole_px);
    };
    std::optional<double> focal = p.said.focal_35mm;
    if (!focal) {
        const auto noted = noted_focal_35mm(p.said.file);
        const auto found = pose_without_focal(sheet, told_px);
        if (noted && !(found && found->focal_doubt < kFoundWell)) focal = noted;
    }
    p.focal_found = !focal;
    if (focal) sheet.focal_px = focal_px(*focal);
    try {
        p.pose = pose_of(sheet, told_px);
    } catch (const std::runtime_error& error) {
        throw PhotographError(focal ? "corners" : "focal length", error.what());
    }
    p.focal_35mm = p.pose.focal_px * kFilmDiagonal_mm / diagonal(p.whole_px);
    if (p.focal_found && p.pose.focal_doubt > kDoubtful)
        p.warnings.push_back(
            fmt::format("the focal length follows from the corners within {:.0f} % only; state it, or show "
                        "the sheet larger and more from the side",
                        100 * p.pose.focal_doubt));
}

// Twelve edges' ends of what hangs there, front and back, room coordinates.
std::vector<glm::dvec3> ends_of(const HungPanel& hung) {
    const Panel& panel = hung.layout->panel;
    const glm::dvec2 half = hung.half_mm + rim_mm(panel);
    const double front = face_plane_mm(*hung.layout) + (panel.frame ? panel.frame->proud_mm : 0);
    std::vector<glm::dvec3> ends;
    for (const double x : {-half.x, half.x})
        for (const double y : {-half.y, half.y})
            for (const double z : {-panel.substrate.thickness_mm, front})
                ends.push_back(hung.centre_mm + hung.axes * glm::dvec3(x, y, z));
    return ends;
}

PicturePart box_about(const TakenPhotograph& p, const std::vector<glm::dvec3>& points, double margin_px) {
    glm::dvec2 low(1e9), high(-1e9);
    for (const glm::dvec3& point : points) {
        low = glm::min(low, p.seen_px(point));
        high = glm::max(high, p.seen_px(point));
    }
    low = glm::clamp(glm::floor(low - margin_px), glm::dvec2(0), glm::dvec2(p.size_px));
    high = glm::clamp(glm::ceil(high + margin_px), glm::dvec2(0), glm::dvec2(p.size_px));
    return {static_cast<int>(low.x), static_cast<int>(low.y), static_cast<int>(high.x),
            static_cast<int>(high.y)};
}

bool before_camera(const TakenPhotograph& p, const glm::dvec3& room_mm) {
    return glm::dot(room_mm - p.eye_mm, p.pose.forward) > 1;
}

void check_sight(const TakenPhotograph& p, const std::vector<glm::dvec3>& ends) {
    for (const glm::dvec3& end : ends)
        if (!before_camera(p, end) || end.z > p.eye_mm.z - 1)
            throw PhotographError("panel centre",
                                  "found a panel that reaches behind the camera, expected "
                                  "one in front of it");
}

// What hangs there, as far as the photograph shows it and nothing stands in front of it.
void check_seen(const TakenPhotograph& p) {
    if (p.panel.width() < 4 || p.panel.height() < 4)
        throw PhotographError("panel centre",
                              "found a panel that hangs outside of the photograph, expected one within it");
    if (p.in_front.empty()) return;
    for (int y = p.panel.top; y < p.panel.bottom; ++y)
        for (int x = p.panel.left; x < p.panel.right; ++x)
            if (p.in_front[static_cast<std::size_t>(y) * p.size_px.x + x] < 0.99f) return;
    throw PhotographError("mask",
                          "found a mask that covers all of the panel, expected white only where "
                          "something stands in front of it");
}

void find_window(TakenPhotograph& p, const Layout& layout) {
    std::vector<glm::dvec3> all, reached;
    for (const HungPanel& hung : hung_panels(layout))
        for (const glm::dvec3& end : ends_of(hung)) all.push_back(end);
    check_sight(p, all);
    glm::dvec3 low = all.front(), high = all.front();
    for (const glm::dvec3& end : all) low = glm::min(low, end), high = glm::max(high, end);
    const double reach = kShadowReach * std::max(high.x - low.x, high.y - low.y);
    for (const double x : {low.x - reach, high.x + reach})
        for (const double y : {low.y - reach, high.y + reach})
            if (before_camera(p, {x, y, 0})) reached.emplace_back(x, y, 0);
    p.panel = box_about(p, all, 2);
    check_seen(p);
    const bool whole = reached.size() < 4;  // some of it lies behind the camera
    p.window = whole ? PicturePart{0, 0, p.size_px.x, p.size_px.y} : box_about(p, reached, 0);
}

void check_room(const TakenPhotograph& p, const Layout& layout) {
    if (p.said.light.empty()) return;  // there are no other walls
    const Room& room = layout.room;
    if (std::abs(p.eye_mm.x) < room.width_mm / 2 && p.eye_mm.y > 0 && p.eye_mm.y < room.height_mm &&
        p.eye_mm.z < room.depth_mm)
        return;
    throw PhotographError(
        "light", fmt::format("found the camera {:.2f} m to the right, {:.2f} m high and {:.2f} m from the "
                             "wall, outside of the layout's room, expected a room that has it in it, or no "
                             "light, for that of the photograph",
                             p.eye_mm.x / 1000, p.eye_mm.y / 1000, p.eye_mm.z / 1000));
}

template <class Take>
void each_of_sheet(const TakenPhotograph& p, const Take& of_pixel) {
    constexpr double kRim = 0.12;  // tape, shadows and blur at the edges
    const glm::dmat3 to_square = homography(p.corners_px, {{{0, 0}, {1, 0}, {1, 1}, {0, 1}}});
    glm::dvec2 low(p.size_px), high(0);
    for (const glm::dvec2& c : p.corners_px) low = glm::min(low, c), high = glm::max(high, c);
    for (int y = std::max(0, int(low.y)); y < std::min<double>(p.size_px.y, high.y); ++y)
        for (int x = std::max(0, int(low.x)); x < std::min<double>(p.size_px.x, high.x); ++x) {
            const glm::dvec2 at = projected(to_square, {x + 0.5, y + 0.5});
            if (at.x > kRim && at.y > kRim && at.x < 1 - kRim && at.y < 1 - kRim)
                of_pixel(static_cast<std::size_t>(y) * p.size_px.x + x);
        }
}

void check_sheet(TakenPhotograph& p) {
    if (p.said.exposure_by != ExposureBy::sheet) return;
    int all = 0, cut_off = 0;
    each_of_sheet(p, [&](std::size_t i) { ++all, cut_off += p.spoilt[i]; });
    if (all == 0)
        throw PhotographError("corners", "found a sheet smaller than a pixel, expected a larger one");
    if (cut_off == all)
        throw PhotographError("exposure by",
                              "found a sheet that is white or black throughout, which says "
                              "nothing of the light, expected wall, or a shorter exposure");
    if (cut_off > kClippedShare * all)
        p.warnings.push_back(
            fmt::format("{:.0f} % of the sheet are cut off at white: the light is brighter "
                        "than it says; a shorter exposure would tell",
                        100.0 * cut_off / all));
}

}  // namespace

Camera TakenPhotograph::camera(const PicturePart& part, const glm::dvec3& origin_mm) const {
    const glm::dvec2 one = glm::dvec2(whole_px) / glm::dvec2(size_px) / pose.focal_px;
    const glm::dvec2 at = (glm::dvec2(part.left, part.top) - glm::dvec2(size_px) / 2.0) * one;
    Camera c;
    c.eye_mm = glm::vec3(eye_mm - origin_mm);
    c.corner = glm::vec3(pose.forward + pose.right * at.x + pose.down * at.y);
    c.right = glm::vec3(pose.right * (part.width() * one.x));
    c.down = glm::vec3(pose.down * (part.height() * one.y));
    return c;
}

glm::dvec2 TakenPhotograph::seen_px(const glm::dvec3& room_mm) const {
    return rakelight::seen_px(pose, glm::dvec2(whole_px), room_mm - sheet_in_room_mm) * glm::dvec2(size_px) /
           glm::dvec2(whole_px);
}

glm::dvec3 TakenPhotograph::sheet_rgb() const {
    glm::dvec3 sum(0);
    int count = 0;
    each_of_sheet(*this, [&](std::size_t i) {
        if (spoilt[i]) return;
        sum += glm::dvec3(rgb[i]);
        ++count;
    });
    return sum / static_cast<double>(std::max(1, count));
}

TakenPhotograph take(WallPhotograph said, const Layout& layout) {
    TakenPhotograph p;
    p.said = std::move(said);
    read_pixels(p);
    read_mask(p);
    find_pose(p);
    p.sheet_in_room_mm =
        glm::dvec3(-p.said.panel_centre_mm.x, layout.panel.centre_height_mm - p.said.panel_centre_mm.y, 0);
    p.eye_mm = p.sheet_in_room_mm + p.pose.eye_mm;
    check_room(p, layout);
    find_window(p, layout);
    check_sheet(p);
    return p;
}

}  // namespace rakelight
