#include "scene/mix/reference_picture.h"

#include <OpenImageIO/imagebuf.h>
#include <OpenImageIO/imageio.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <optional>
#include <stdexcept>

#include "scene/picture_file/open_picture.h"
#include "scene/picture_file/whole_picture.h"

namespace rakelight {

namespace {

[[noreturn]] void refuse(std::string found, std::string_view expected) {
    throw std::runtime_error(fmt::format("found {}, expected {}", found, expected));
}

void check(const OIIO::ImageInput& in) {
    const OIIO::ImageSpec& spec = in.spec();
    if (spec.tile_width > 0) refuse("a picture in tiles", "a plain one in rows");
    if (spec.format != OIIO::TypeDesc::UINT8 && spec.format != OIIO::TypeDesc::UINT16)
        refuse(fmt::format("pixels of type {}", spec.format.c_str()), "whole numbers of 8 or 16 bits");
    check_size(in, 1, kMostReferencePixels);
}

// 16-bit steps of the sRGB curve: exact for both depths.
const std::vector<float>& decoding() {
    static const std::vector<float> table = [] {
        std::vector<float> t(65536);
        for (std::size_t i = 0; i < t.size(); ++i)
            t[i] = static_cast<float>(decode({static_cast<double>(i) / 65535, 0, 0}).r);
        return t;
    }();
    return table;
}

// One pixel of the file, linear and multiplied by its alpha.
glm::vec4 linear(const std::uint16_t* pixel, int channels, int alpha_channel) {
    const auto& curve = decoding();
    const int colours = channels - (alpha_channel >= 0 ? 1 : 0);
    const float alpha = alpha_channel >= 0 ? static_cast<float>(pixel[alpha_channel]) / 65535 : 1.0f;
    const float r = curve[pixel[0]], g = colours >= 3 ? curve[pixel[1]] : r,
                b = colours >= 3 ? curve[pixel[2]] : r;
    return {alpha * r, alpha * g, alpha * b, alpha};
}

OIIO::ROI row_of(const OIIO::ImageBuf& picture, int y) {
    const OIIO::ROI all = picture.roi();
    return {all.xbegin, all.xend, all.ybegin + y, all.ybegin + y + 1, 0, 1, 0, all.chend};
}

}  // namespace

ReferencePicture read_reference_picture(const std::filesystem::path& path) {
    OIIO::ImageSpec wish;
    wish["oiio:UnassociatedAlpha"] = 1;  // colours as they are in the file
    const auto in =
        open_picture(path, "PNG, JPEG or TIFF beside the layout file", {"png", "jpeg", "tiff"}, wish);
    check(*in);
    OIIO::ImageSpec spec = in->spec();
    std::optional<OIIO::ImageBuf> turned;
    if (spec.get_int_attribute("Orientation", 1) > 1) {
        turned = whole_picture(*in, OIIO::TypeDesc::UINT16);
        spec.width = turned->spec().width;
        spec.height = turned->spec().height;
    }
    const int shrink = (std::max(spec.width, spec.height) + kLongestSide_px - 1) / kLongestSide_px;
    ReferencePicture picture;
    picture.shrink = shrink;
    picture.width_px = (spec.width + shrink - 1) / shrink;
    picture.height_px = (spec.height + shrink - 1) / shrink;
    picture.extent_px = glm::dvec2(spec.width, spec.height) / static_cast<double>(shrink);
    const auto width = static_cast<std::size_t>(picture.width_px);
    picture.pixels.resize(width * static_cast<std::size_t>(picture.height_px));
    const auto channels = static_cast<std::size_t>(spec.nchannels);
    std::vector<std::uint16_t> row(static_cast<std::size_t>(spec.width) * channels);
    std::vector<float> count(width);
    for (int y = 0; y < spec.height; ++y) {
        const bool whole = turned ? turned->get_pixels(row_of(*turned, y), OIIO::TypeDesc::UINT16, row.data())
                                  : in->read_scanline(spec.y + y, 0, OIIO::TypeDesc::UINT16, row.data());
        if (!whole) refuse(fmt::format("a picture that breaks off in row {}", y + 1), "a whole one");
        glm::vec4* const line = &picture.pixels[static_cast<std::size_t>(y / shrink) * width];
        for (int x = 0; x < spec.width; ++x) {
            line[x / shrink] +=
                linear(&row[static_cast<std::size_t>(x) * channels], spec.nchannels, spec.alpha_channel);
            count[static_cast<std::size_t>(x / shrink)] += 1;
        }
        if ((y + 1) % shrink && y + 1 < spec.height) continue;
        for (std::size_t x = 0; x < width; ++x) line[x] /= count[x];
        std::fill(count.begin(), count.end(), 0.0f);
    }
    return picture;
}

namespace {

// Signed areas of pixels left of an outline's edges, gathered in one pass: `area` of a cell is what an edge
// leaves to its own right within the cell, `cover` the height that all cells further right take over.
class Sweep {
  public:
    Sweep(int left, int top, int columns, int rows)
        : left_(left), top_(top), columns_(columns), cells_(static_cast<std::size_t>(columns * rows)) {}

    // Edge within the window, in pixels.
    void add(const glm::dvec2& a, const glm::dvec2& b) {
        cut(a, b, 1, [&](const glm::dvec2& c, const glm::dvec2& d) {
            cut(c, d, 0, [&](const glm::dvec2& e, const glm::dvec2& f) { within_cell(e, f); });
        });
    }

    template <class F>
    void each(F&& visit) const {
        const int rows = static_cast<int>(cells_.size()) / std::max(columns_, 1);
        for (int y = 0; y < rows; ++y) {
            double cover = 0;
            for (int x = 0; x < columns_; ++x) {
                const Cell& cell = cells_[static_cast<std::size_t>(y * columns_ + x)];
                visit(left_ + x, top_ + y, cover + cell.area);
                cover += cell.cover;
            }
        }
    }

  private:
    struct Cell {
        double area = 0;
        double cover = 0;
    };

    // Calls `part` for the pieces of the edge between whole numbers along one axis.
    template <class F>
    static void cut(const glm::dvec2& a, const glm::dvec2& b, int axis, F&& part) {
        const double low = std::min(a[axis], b[axis]), high = std::max(a[axis], b[axis]);
        const int first = static_cast<int>(std::floor(low)) + 1;
        const int last = static_cast<int>(std::ceil(high)) - 1;
        const bool up = b[axis] > a[axis];
        glm::dvec2 from = a;
        for (int k = 0; k <= last - first; ++k) {
            const int at = up ? first + k : last - k;
            glm::dvec2 to = a + (b - a) * ((at - a[axis]) / (b[axis] - a[axis]));
            to[axis] = at;
            part(from, to);
            from = to;
        }
        part(from, b);
    }

    void within_cell(const glm::dvec2& a, const glm::dvec2& b) {
        const glm::dvec2 middle = 0.5 * (a + b);
        const int x = std::clamp(static_cast<int>(std::floor(middle.x)) - left_, 0, columns_ - 1);
        const int y = static_cast<int>(std::floor(middle.y)) - top_;
        const auto index = static_cast<std::size_t>(std::max(y, 0) * columns_ + x);
        if (index >= cells_.size()) return;
        const double height = b.y - a.y;
        cells_[index].cover += height;
        cells_[index].area += height * (left_ + x + 1 - middle.x);
    }

    int left_, top_, columns_;
    std::vector<Cell> cells_;
};

}  // namespace

MeanColour mean_under(const ReferencePicture& picture, const glm::dvec2& at_mm, double width_mm,
                      const Ring& outline_mm) {
    const double px_per_mm = picture.extent_px.x / width_mm;
    const auto in_pixels = [&](const glm::dvec2& p) {
        return glm::dvec2((p.x - at_mm.x) * px_per_mm, picture.extent_px.y - (p.y - at_mm.y) * px_per_mm);
    };
    MeanColour mean;
    Ring ring;
    for (const auto& p : outline_mm) ring.push_back(in_pixels(p));
    const double whole = std::abs(area_mm2(ring));
    ring = cut_by_line(ring, {-1, 0}, 0);
    ring = cut_by_line(ring, {0, -1}, 0);
    ring = cut_by_line(ring, {1, 0}, picture.extent_px.x);
    ring = cut_by_line(ring, {0, 1}, picture.extent_px.y);
    if (ring.size() < 3 || !(whole > 0)) return mean;
    const Box box = bounds(ring);
    const glm::ivec2 low(glm::floor(box.low)), high(glm::ceil(box.high));
    if (high.x <= low.x || high.y <= low.y) return mean;
    Sweep sweep(low.x, low.y, high.x - low.x, high.y - low.y);
    for (const auto& [a, b] : edges(ring)) sweep.add(a, b);
    glm::dvec4 sum(0);
    sweep.each([&](int x, int y, double area) {
        const auto index = static_cast<std::size_t>(y) * static_cast<std::size_t>(picture.width_px) +
                           static_cast<std::size_t>(x);
        sum += std::abs(area) * glm::dvec4(picture.pixels[index]);
    });
    mean.cover = std::min(1.0, sum.w / whole);
    if (sum.w > 0) mean.colour = {sum.x / sum.w, sum.y / sum.w, sum.z / sum.w};
    return mean;
}

MeanColour mean_within(const ReferencePicture& picture, const PixelRectangle& rectangle) {
    const double shrink = picture.shrink;
    const glm::dvec2 low(rectangle.corner_px.x / shrink,
                         picture.extent_px.y - (rectangle.corner_px.y + rectangle.size_px.y) / shrink);
    const glm::dvec2 size = rectangle.size_px / shrink;
    return mean_under(picture, {0, 0}, picture.extent_px.x,
                      {low, low + glm::dvec2(size.x, 0), low + size, low + glm::dvec2(0, size.y)});
}

}  // namespace rakelight
