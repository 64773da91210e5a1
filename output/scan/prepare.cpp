#include "output/scan/prepare.h"

#include <fmt/format.h>

#include <stdexcept>

#include "output/marks/marked_plane.h"
#include "output/scan/found_picture.h"
#include "output/scan/found_svg.h"
#include "output/system/errors.h"
#include "output/system/safe_file.h"
#include "scene/drawing/svg/reader.h"
#include "scene/keys/keys.h"
#include "scene/reading/layout_reader.h"
#include "scene/text/layout_tree.h"

namespace rakelight {
namespace {

constexpr double kGood_px_per_mm = 2.8;  // as tried on simulated pages with a pencil of 0.5 mm
constexpr double kShortened_mm =
    0.7;  // thinning takes half its width off each end of a line: pencil of 0.7 mm
constexpr double kLeast_px_per_mm = 1.5;  // a pencil's line of 0.5 mm is thinner than a pixel below 2

[[noreturn]] void refuse(const ScanSaid& said, const char* key, const std::string& why) {
    throw LayoutError(said.place, std::string("drawing.") + key, why);
}

PagePlace place_of(const ScanSaid& said, const BytePicture& picture) {
    const glm::dvec2 size(picture.size_px);
    if (said.whole) return {{{{0, 0}, {size.x, 0}, size, {0, size.y}}}, *said.paper_mm};
    if (said.corners_px) {
        for (const glm::dvec2& c : *said.corners_px)
            if (c.x < -0.5 * size.x || c.y < -0.5 * size.y || c.x > 1.5 * size.x || c.y > 1.5 * size.y)
                refuse(said, "corners",
                       fmt::format("found {:.6g}, {:.6g}, expected pixels of the picture of {} x {}", c.x,
                                   c.y, picture.size_px.x, picture.size_px.y));
        return {*said.corners_px, *said.paper_mm};
    }
    try {
        const MarkedPlane plane = marked_plane(see_marks(picture), said.paper_mm);
        PagePlace place{{}, plane.size_mm};
        const std::array<glm::dvec2, 4> parts{{{0, 0}, {1, 0}, {1, 1}, {0, 1}}};
        for (std::size_t i = 0; i < 4; ++i)
            place.corners_px[i] = through(plane.to_px, parts[i] * plane.size_mm);
        return place;
    } catch (const std::runtime_error& e) {
        refuse(said, "corners",
               fmt::format(
                   "{}; expected the sheet or the cards of `rakelight marks` in the picture, or corners: "
                   "[[x, y], [x, y], [x, y], [x, y]] in pixels with paper: [width, height]",
                   e.what()));
    }
}

void check_fineness(const ScanSaid& said, const PagePlace& place) {
    double sum = 0;
    for (std::size_t i = 0; i < 4; ++i)
        sum += glm::distance(place.corners_px[(i + 1) % 4], place.corners_px[i]) /
               (i % 2 == 0 ? place.size_mm.x : place.size_mm.y) / 4;
    if (sum < kLeast_px_per_mm)
        refuse(
            said, "scan",
            fmt::format("found {:.2g} pixels a millimetre of paper, expected at least {:g}, better 4 or more",
                        sum, kLeast_px_per_mm));
}

/// The bytes of the kept file, empty when there is none.
std::string kept_text(const std::filesystem::path& path) {
    std::error_code error;
    return std::filesystem::is_regular_file(path, error) ? read_file(path) : std::string();
}

std::string find_and_keep(const ScanSaid& said, const std::string& key, const std::filesystem::path& found) {
    try {
        const BytePicture picture = read_byte_picture(said.scan);
        const PagePlace place = place_of(said, picture);
        check_fineness(said, place);
        const FoundDrawing drawing =
            find_drawing(trace_page(picture, place, said.ink), place.size_mm,
                         {said.gap_mm > 0 ? said.gap_mm + kShortened_mm : 0, said.speck_mm});
        write_file(found, keep_scan(key, found_svg(drawing, place, said.scan.filename().string())));
        std::size_t guides = 0;
        for (const FoundRegion& region : drawing.regions) guides += region.guides.size();
        std::string told =
            fmt::format("{}: found {} regions and {} guides, closed {} gaps; kept in {}", said.scan.string(),
                        drawing.regions.size(), guides, drawing.closings_mm.size(), found.string());
        if (drawing.px_per_mm < kGood_px_per_mm)
            told += fmt::format(
                ". It has {:.1f} pixels a millimetre of paper: fine lines may be missed below {:g}",
                drawing.px_per_mm, kGood_px_per_mm);
        return told;
    } catch (const LayoutError&) {
        throw;
    } catch (const OutputError&) {
        throw;
    } catch (const std::runtime_error& e) {
        refuse(said, "scan", fmt::format("{} ({})", e.what(), said.scan.string()));
    }
}

}  // namespace

std::optional<ScanSaid> scan_of(const std::filesystem::path& layout, std::span<const std::string> changes) {
    LayoutTree tree = gather_layout(layout_file_text(layout), layout.string());
    change_tree(tree.root, changes);
    ProblemList problems(layout.string());
    if (tree.root.shape != YamlValue::Shape::mapping) return std::nullopt;
    Section file(tree.root, "", keys::layout, problems);
    const YamlValue* drawing = file.find("drawing");
    if (!drawing || drawing->shape != YamlValue::Shape::mapping) return std::nullopt;
    Section in(*drawing, file, "drawing");
    if (!in.has("scan") || in.has("file") || in.has("areas")) return std::nullopt;
    return read_scan(in);
}

std::string prepare_scan(const std::filesystem::path& layout, std::span<const std::string> changes) {
    const auto said = scan_of(layout, changes);
    if (!said) return {};
    const std::string key = scan_key(*said);
    if (key.empty()) return {};  // reading says that there is no such file
    const std::filesystem::path found = found_beside(said->scan);
    const std::string text = kept_text(found);
    const KeptScan kept = kept_scan(text);
    if (kept.key == key) return {};
    if (!text.empty() && (kept.key.empty() || kept.edited))
        refuse(
            *said, "scan",
            fmt::format("found {} changed by hand, and the scan or its keys changed as well; give that file "
                        "another name, and name it in drawing: {{file: ...}}, or take it away",
                        found.string()));
    return find_and_keep(*said, key, found);
}

std::optional<Print> picture_of_scan(const Layout& layout) {
    const auto said = scan_of(layout.sources.path, layout.sources.changes);
    if (!said) return std::nullopt;
    const std::filesystem::path found = found_beside(said->scan);
    try {
        return found_picture(layout, read_svg(found, {said->width_mm, kDrawnTolerance_mm / 50}),
                             how_found(read_file(found)), read_byte_picture(said->scan));
    } catch (const LayoutError&) {
        throw;
    } catch (const std::runtime_error& e) {
        refuse(*said, "scan", fmt::format("{} ({})", e.what(), said->scan.string()));
    }
}

}  // namespace rakelight
